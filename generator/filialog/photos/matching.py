"""Which pictures show what: found by what the diary and the albums say, never by file names."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from types import MappingProxyType

from filialog.journal.events import Event
from filialog.journal.names import origins_of, references_of
from filialog.journal.quantities import When
from filialog.journal.records import Edition, Journal, LinkTarget, PictureSaid, Prose

__all__ = ["PictureIndex", "Shown", "picture_index"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """What a picture shows, as far as the keeper says."""

    path: str
    """The picture, relative to the journal."""
    groups: tuple[str, ...]
    """Groups and named animals, sorted."""
    tanks: tuple[str, ...]
    lines: tuple[str, ...]
    """Lines whose pages show it."""
    looks: tuple[str, ...]
    entries: tuple[str, ...]
    """Identifiers of the diary entries that show it, in the order of the diary."""
    side: str | None
    """The side of the animal that is seen."""
    when: When | None
    """The day: the album's, else that of the first entry that shows it."""
    caption: str | None
    alt: str | None
    """Words in its place: the album's, else those of the first link to it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureIndex:
    """The pictures that are shown somewhere, and where; every list by day, then by path."""

    shown: Mapping[str, Shown]
    """By path, sorted: exactly these may be published."""
    by_group: Mapping[str, tuple[str, ...]]
    by_tank: Mapping[str, tuple[str, ...]]
    by_line: Mapping[str, tuple[str, ...]]
    by_look: Mapping[str, tuple[str, ...]]
    by_entry: Mapping[str, tuple[str, ...]]
    """By identifier of the entry, in the order in which the entry names them."""
    not_placed: tuple[str, ...]
    """Pictures that nothing speaks of, sorted; they are not published."""


@dataclass(slots=True, kw_only=True)
class _Gathered:
    """What is found of one picture while the journal is gone through."""

    groups: set[str] = field(default_factory=set)
    tanks: set[str] = field(default_factory=set)
    lines: set[str] = field(default_factory=set)
    looks: set[str] = field(default_factory=set)
    entries: dict[str, None] = field(default_factory=dict)
    when: When | None = None
    alt: str | None = None
    said: PictureSaid | None = None


def picture_index(journal: Journal) -> PictureIndex:
    """Return what the pictures of a journal show.

    In the public edition a picture that an album keeps private is in no list, whoever links to
    it; only pictures that `journal.pictures` names are in any.
    """
    walk = _Walk(journal)
    walk.diary()
    walk.pages()
    walk.albums()
    return walk.index()


class _Walk:
    def __init__(self, journal: Journal) -> None:
        self._journal = journal
        self._found: dict[str, _Gathered] = {}
        self._by_entry: dict[str, dict[str, None]] = {}
        self._private: set[str] = set()

    def diary(self) -> None:
        """Go through the entries: prose first, then events."""
        for entry in self._journal.entries:
            for section in entry.sections:
                for path, words in _pictures_in(section.prose):
                    one = self._entry(path, entry.id, entry.when)
                    one.alt = one.alt or words
                    _add(one.tanks, section.tank or entry.tank)
            for event in entry.events:
                for path in event.names("photo"):
                    one = self._entry(path, entry.id, event.when)
                    _add(one.tanks, event.tank)
                    one.groups.update(_groups_of(event))
                    one.looks.update(_looks_of(event))

    def pages(self) -> None:
        """Go through the pages of groups, tanks and lines."""
        journal = self._journal
        for name, group in journal.groups.items():
            for one in self._page(group.prose):
                one.groups.add(name)
        for name, tank in journal.tanks.items():
            for one in self._page(tank.prose):
                one.tanks.add(name)
        for name, line in journal.lines.items():
            for one in self._page(line.prose):
                one.lines.add(name)

    def albums(self) -> None:
        """Add what albums say; the innermost album of a picture is the one that counts."""
        albums = sorted(self._journal.albums, key=lambda album: (-len(album.folder), album.folder))
        for path in sorted(self._journal.pictures):
            around = [album for album in albums if path.startswith(f"{album.folder}/")]
            if not around:
                continue
            said = around[0].files.get(path, around[0].whole)
            if said.private or any(album.whole.private for album in around):
                self._private.add(path)
            if path not in self._found and not _says_something(said):
                continue
            one = self._found.setdefault(path, _Gathered())
            one.said = said
            _add(one.groups, said.group)
            _add(one.tanks, said.tank)
            _add(one.looks, said.look)

    def index(self) -> PictureIndex:
        """Put it all in order."""
        journal = self._journal
        hidden = self._private if journal.edition is Edition.PUBLIC else set()
        shown = {
            path: _shown(path, self._found[path])
            for path in sorted(self._found)
            if path in journal.pictures and path not in hidden
        }
        in_order = sorted(shown.values(), key=_by_day)
        by_entry = {
            entry: kept
            for entry, paths in sorted(self._by_entry.items())
            if (kept := tuple(path for path in paths if path in shown))
        }
        return PictureIndex(
            shown=MappingProxyType(shown),
            by_group=_listed(in_order, "groups"),
            by_tank=_listed(in_order, "tanks"),
            by_line=_listed(in_order, "lines"),
            by_look=_listed(in_order, "looks"),
            by_entry=MappingProxyType(by_entry),
            not_placed=tuple(sorted(journal.pictures - self._found.keys())),
        )

    def _entry(self, path: str, entry: str, when: When) -> _Gathered:
        one = self._found.setdefault(path, _Gathered())
        one.entries.setdefault(entry)
        self._by_entry.setdefault(entry, {}).setdefault(path)
        one.when = one.when or when
        return one

    def _page(self, prose: Prose) -> Iterator[_Gathered]:
        for path, words in _pictures_in(prose):
            one = self._found.setdefault(path, _Gathered())
            one.alt = one.alt or words
            yield one


def _pictures_in(prose: Prose) -> Iterator[tuple[str, str | None]]:
    for link in prose.links:
        if link.target is LinkTarget.PICTURE:
            yield link.name, link.text.strip() or None


def _groups_of(event: Event) -> Iterator[str]:
    """Name what an event is about; the parents of a brood are not in the picture of it."""
    parents = {
        name
        for key in ("dams", "sires")
        if (found := event.parents(key)) is not None
        for name in found.groups
    }
    yield from (name for name, _ in origins_of(event))
    named = {event.text(key) for key in ("group", "animal", "brood", "from")}
    named.update(event.names("of"))
    yield from (name for name, _ in references_of(event) if name in named or name not in parents)


def _looks_of(event: Event) -> Iterator[str]:
    if (look := event.look()) is not None:
        yield from (name for name in (look.whole, look.left, look.right) if name is not None)


def _says_something(said: PictureSaid) -> bool:
    return any((said.group, said.tank, said.look, said.caption, said.alt, said.date))


def _add(names: set[str], name: str | None) -> None:
    if name is not None:
        names.add(name)


def _shown(path: str, one: _Gathered) -> Shown:
    said = one.said or PictureSaid()
    return Shown(
        path=path,
        groups=tuple(sorted(one.groups)),
        tanks=tuple(sorted(one.tanks)),
        lines=tuple(sorted(one.lines)),
        looks=tuple(sorted(one.looks)),
        entries=tuple(one.entries),
        side=said.side,
        when=said.date or one.when,
        caption=said.caption,
        alt=said.alt or one.alt,
    )


def _by_day(one: Shown) -> tuple[date, str]:
    return (date.max if one.when is None else one.when.earliest, one.path)


def _listed(shown: Iterable[Shown], what: str) -> Mapping[str, tuple[str, ...]]:
    found: dict[str, list[str]] = {}
    for one in shown:
        for name in getattr(one, what):
            found.setdefault(name, []).append(one.path)
    return MappingProxyType({name: tuple(found[name]) for name in sorted(found)})
