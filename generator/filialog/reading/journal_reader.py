"""A whole journal read: every file, all findings in one run."""

import gc
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, replace
from difflib import get_close_matches
from pathlib import PurePosixPath
from typing import Protocol, TypeVar

from filialog.findings.finding import Finding, Mark, Place
from filialog.findings.nearest import did_you_mean, nearest_name
from filialog.journal.records import (
    Album,
    Edition,
    Entry,
    Journal,
    LinePage,
    Settings,
    Species,
    TankPage,
    TraitPage,
)
from filialog.reading.albums import read_album, unreadable_album
from filialog.reading.entries import EntryDraft, entry_from_draft, read_entry
from filialog.reading.names import with_names
from filialog.reading.scalars import clean_name
from filialog.reading.sheet import Desk, Sheet
from filialog.reading.species_files import find_species, read_species_file
from filialog.reading.text_files import read_text
from filialog.reading.things import (
    read_group_page,
    read_line_page,
    read_settings,
    read_tank_page,
)
from filialog.reading.trait_files import read_trait_file

__all__ = ["ReadResult", "read_journal"]

_ENDINGS = {
    "diary": (".md", ".txt"),
    "tanks": (".md",),
    "groups": (".md",),
    "lines": (".md",),
    "traits": (".yaml",),
}
_TEXT_LIKE = {".md", ".markdown", ".txt", ".text", ".yaml", ".yml", ".mkd"}
_OTHER_FOLDERS = {"photos", "received", "proof"}
_SETTINGS = "journal.yaml"
_ALBUM = "album.md"
_CATALOGUE = "catalogue"


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadResult:
    """What comes of reading a journal."""

    journal: Journal | None
    """The journal; None only where there is no readable journal.yaml."""
    findings: tuple[Finding, ...]
    """All that was noticed, by file."""
    line_of: Callable[[str, int], str | None]
    """Gives the line of a file by path and number, for drawing findings."""


class _Page(Protocol):
    @property
    def name(self) -> str: ...
    @property
    def place(self) -> Place: ...


_P = TypeVar("_P", bound=_Page)


def read_journal(
    files: Mapping[str, bytes], *, pictures: Iterable[str], catalogue: Mapping[str, bytes]
) -> ReadResult:
    """Read a journal.

    `files` has the journal's text files by path relative to it, `catalogue` the shipped
    trait models (`traits/*.yaml`) and species (`species/*.yaml`) likewise; `pictures` are
    the paths of the pictures that are there.
    """
    desk = Desk(pictures=frozenset(pictures), files=frozenset(files))
    reader = _JournalReader(files, catalogue, desk)
    with _no_collections():
        journal = reader.journal()
    findings = sorted(desk.findings, key=lambda finding: (finding.place, finding.code))
    return ReadResult(journal=journal, findings=tuple(findings), line_of=reader.line_of)


@contextmanager
def _no_collections() -> Iterator[None]:
    """Hold back the collector: records stay and make no cycles, and it would walk them over.

    Measured on 10,000 entries: a tenth of the time.
    """
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


class _JournalReader:
    """Reads the files of one journal in the order in which they need one another."""

    def __init__(
        self, files: Mapping[str, bytes], catalogue: Mapping[str, bytes], desk: Desk
    ) -> None:
        self.files = files
        self.catalogue = catalogue
        self.desk = desk
        self.sheets: dict[str, Sheet] = {}
        self.by_folder: dict[str, list[str]] = {folder: [] for folder in _ENDINGS}

    def line_of(self, path: str, number: int) -> str | None:
        """Return a line of a file that was read."""
        sheet = self.sheets.get(path)
        if sheet is None or not 0 < number <= len(sheet.lines):
            return None
        return sheet.lines[number - 1]

    def journal(self) -> Journal | None:
        """Return the journal, None without settings."""
        self.sort_files()
        settings = self.settings()
        tanks = self.pages("tanks", read_tank_page)
        groups = self.pages("groups", read_group_page)
        lines = self.pages("lines", read_line_page)
        entries = self.entries(tanks)
        traits, lines = self.traits(lines)
        species = self.species(settings)
        if settings is None:
            return None
        return Journal(
            edition=Edition.KEEPER,
            settings=replace(settings, species=None if species is None else species.identifier),
            entries=entries,
            tanks=tanks,
            groups=groups,
            lines=lines,
            traits=traits,
            pictures=self.desk.pictures,
            species=species,
            reported=frozenset(self.desk.reported),
            albums=self.albums(),
        )

    def albums(self) -> tuple[Album, ...]:
        """Read what albums say of pictures; one that cannot be read keeps its folder private."""
        found = []
        for path in sorted(self.files):
            folder, _, name = path.rpartition("/")
            if name.casefold() == _ALBUM and (folder == "photos" or folder.startswith("photos/")):
                sheet = self.sheet(path)
                found.append(unreadable_album(path) if sheet is None else read_album(sheet))
        return tuple(found)

    def sort_files(self) -> None:
        """Put every path to its folder; report files that stand where nothing is read."""
        for path in sorted(self.files):
            folder = path.partition("/")[0] if "/" in path else ""
            if folder in _ENDINGS and path.endswith(_ENDINGS[folder]):
                self.by_folder[folder].append(path)
                continue
            suffix = PurePosixPath(path).suffix
            if suffix.casefold() in _TEXT_LIKE and folder:
                self.misplaced(path, folder, suffix)

    def misplaced(self, path: str, folder: str, suffix: str) -> None:
        """Report a text file that is not read and seems to be meant."""
        if folder in _ENDINGS:
            wanted = " or ".join(f"`{ending}`" for ending in _ENDINGS[folder])
            helps: tuple[str, ...] = (f"files of `{folder}/` end in {wanted}",)
            message = f"the file ends in `{suffix}` and is not read"
        else:
            near = get_close_matches(folder.casefold(), sorted(_ENDINGS), n=1, cutoff=0.75)
            if not near or folder in _OTHER_FOLDERS:
                return
            helps = (f"the nearest folder is `{near[0]}/`",)
            message = f"nothing is read from the folder `{folder}/`"
        self.sheet_less(path).fault("R008", Place(path), message, helps=helps)

    def sheet_less(self, path: str) -> Sheet:
        """Return a sheet for findings about a file that was not read."""
        return Sheet(path=path, text="", desk=self.desk)

    def sheet(self, path: str) -> Sheet | None:
        """Read the text of a file of the journal."""
        sheet = read_text(path=path, data=self.files[path], desk=self.desk)
        if sheet is not None:
            self.sheets[path] = sheet
        else:
            self.desk.reported.add(PurePosixPath(path).stem)
        return sheet

    def settings(self) -> Settings | None:
        """Read journal.yaml."""
        settings: Settings | None = None
        if _SETTINGS not in self.files:
            near = [path for path in sorted(self.files) if _is_near_settings(path)]
            self.sheet_less(_SETTINGS).fault(
                "R001",
                Place(_SETTINGS),
                "the folder has no `journal.yaml`, so it is no journal",
                helps=(
                    f"rename `{near[0]}` to `journal.yaml`"
                    if near
                    else "write a file `journal.yaml` with `title: ` and the journal's name",
                ),
            )
        else:
            sheet = self.sheet(_SETTINGS)
            settings = None if sheet is None else read_settings(sheet)
        self.desk.settings_read = settings is not None
        if settings is not None:
            self.desk.units = dict(settings.units)
            self.desk.pens_declared = bool(settings.pens)
        return settings

    def pages(self, folder: str, read: Callable[[Sheet], _P | None]) -> dict[str, _P]:
        """Read all pages of a folder by name."""
        found: dict[str, _P] = {}
        for path in self.by_folder[folder]:
            sheet = self.sheet(path)
            page = None if sheet is None else read(sheet)
            if page is None or sheet is None:
                continue
            if page.name in found:
                sheet.fault(
                    "R508",
                    Place(path),
                    f"two pages are about `{page.name}`; this one is not read",
                    related=(Mark(place=found[page.name].place, says="the first one"),),
                    helps=("put them together, or give one another `name`",),
                )
                continue
            found[page.name] = page
        return dict(sorted(found.items()))

    def entries(self, tanks: Mapping[str, TankPage]) -> tuple[Entry, ...]:
        """Read the diary."""
        drafts: list[EntryDraft] = []
        for path in self.by_folder["diary"]:
            sheet = self.sheet(path)
            draft = None if sheet is None else read_entry(sheet)
            if draft is not None:
                drafts.append(draft)
        known = {*tanks, *(PurePosixPath(path).stem for path in self.by_folder["tanks"])}
        for draft in drafts:
            known.update(draft.named_tanks())
        by_folded = {clean_name(name).casefold(): name for name in sorted(known)}
        entries: dict[str, Entry] = {}
        for draft in drafts:
            entry = entry_from_draft(draft, known_tanks=by_folded)
            if entry.id in entries:
                draft.sheet.fault(
                    "R009",
                    Place(entry.path),
                    f"the entry would have the same address as `{entries[entry.id].path}`",
                    helps=("rename one of the two files",),
                )
                draft.sheet.give_up_text(draft.sheet.text)
                continue
            entries[entry.id] = entry
        in_order = sorted(entries.values(), key=lambda entry: (entry.when.earliest, entry.id))
        return with_names(in_order)

    def traits(
        self, lines: Mapping[str, LinePage]
    ) -> tuple[dict[str, TraitPage], dict[str, LinePage]]:
        """Read the journal's trait models, and those of the catalogue that lines name.

        The lines come back with them: one that names a model that is not there, or could
        not be read, is kept without it, since that has its finding.
        """
        found = self.own_traits()
        kept = dict(lines)
        shipped = _stems(self.catalogue, "traits")
        for line in lines.values():
            name = line.traits
            if name is None or name in found:
                continue
            page = self.shipped_trait(shipped[name]) if name in shipped else None
            if page is not None and name not in self.desk.reported:
                found[name] = page
                continue
            kept[line.name] = replace(line, traits=None)
            if name not in shipped and name not in self.desk.reported:
                self.sheets[line.place.path].fault(
                    "R509",
                    line.places["traits"],
                    f"no trait model is called `{name}`",
                    helps=(
                        *did_you_mean(name, (*found, *shipped), kind="trait model"),
                        f"or write one as `traits/{name}.yaml`",
                    ),
                )
        return dict(sorted(found.items())), kept

    def own_traits(self) -> dict[str, TraitPage]:
        """Read the trait models of the journal itself."""
        found: dict[str, TraitPage] = {}
        for path in self.by_folder["traits"]:
            sheet = self.sheet(path)
            page = None if sheet is None else read_trait_file(sheet, shipped=False)
            if page is not None and sheet is not None:
                if page.model.name in found:
                    sheet.fault(
                        "R508",
                        Place(path),
                        f"two files are about `{page.model.name}`; this one is not read",
                        related=(Mark(place=found[page.model.name].place, says="the first one"),),
                        helps=("give one another `name`",),
                    )
                    continue
                found[page.model.name] = page
        return found

    def shipped_trait(self, path: str) -> TraitPage | None:
        """Read a trait model of the catalogue."""
        sheet = self.catalogue_sheet(path)
        return None if sheet is None else read_trait_file(sheet, shipped=True)

    def catalogue_sheet(self, path: str) -> Sheet | None:
        """Read the text of a file of the catalogue."""
        shown = f"{_CATALOGUE}/{path}"
        sheet = read_text(path=shown, data=self.catalogue[path], desk=self.desk)
        if sheet is not None:
            self.sheets[shown] = sheet
        return sheet

    def species(self, settings: Settings | None) -> Species | None:
        """Find the species of the journal in the catalogue."""
        if settings is None or settings.species is None:
            return None
        known = [
            species
            for _, path in sorted(_stems(self.catalogue, "species").items())
            if (sheet := self.catalogue_sheet(path)) is not None
            and (species := read_species_file(sheet)) is not None
        ]
        found = find_species(settings.species, known)
        if found is None:
            sheet = self.sheets[_SETTINGS]
            sheet.fault(
                "R510",
                _place_of_word(sheet, "species", settings.species),
                f"the catalogue has no species `{settings.species}`",
                helps=did_you_mean(
                    settings.species, (species.identifier for species, _ in known), kind="species"
                ),
            )
        return found


def _stems(catalogue: Mapping[str, bytes], folder: str) -> dict[str, str]:
    """Return the paths of a folder of the catalogue by the stems of their names."""
    return {
        PurePosixPath(path).stem: path
        for path in sorted(catalogue)
        if path.startswith(f"{folder}/") and path.endswith(".yaml")
    }


def _is_near_settings(path: str) -> bool:
    return "/" not in path and nearest_name(path, (_SETTINGS, "journal.yml")) is not None


def _place_of_word(sheet: Sheet, key: str, word: str) -> Place:
    for number, line in enumerate(sheet.lines, start=1):
        if line.startswith(f"{key}:") and word in line:
            return Place(sheet.path, number, line.index(word, len(key)) + 1, len(word))
    return Place(sheet.path)
