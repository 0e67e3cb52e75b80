"""Diary entries: front matter, the name of the file and prose made into one record.

A first step reads each file by itself; a second, once all tanks are known, gives words of
file names and headings to tanks and builds the records.
"""

import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import PurePosixPath

from filialog.findings.finding import Mark, Place
from filialog.findings.nearest import did_you_mean, nearest_name
from filialog.journal.events import Event, EventId
from filialog.journal.heads import ENTRY_HEAD
from filialog.journal.kinds import COMMON_KEYS, KIND_BY_NAME
from filialog.journal.quantities import When
from filialog.journal.records import Entry, Piece, Prose, Section
from filialog.reading.days import DayError, parse_day
from filialog.reading.event_reader import (
    EventDraft,
    read_events,
    read_private,
    report_private_like,
)
from filialog.reading.front_matter import split_front_matter
from filialog.reading.node import Kind, Node
from filialog.reading.privacy import seems_private
from filialog.reading.prose import read_sections
from filialog.reading.scalars import check_name, clean_name
from filialog.reading.sheet import Sheet
from filialog.reading.values import read_value
from filialog.reading.yaml_nodes import read_nodes

__all__ = ["EntryDraft", "entry_from_draft", "read_entry"]

_DATED = re.compile(
    r"([0-9]{4}-W[0-9]{2}(?:-[0-9])?|[0-9]{4}-[0-9]{2}-(?:[0-9]{2}|XX)|[0-9]{4}-[0-9]{2}"
    r"|[0-9]{4}(?=[ _]|$))([~?%]?)(?=[ _-]|$)[ _-]*"
)
_PLAIN = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
_SEPARATORS = re.compile(r"[ _-]+")
_HEAD_KEYS = {key.name: key for key in ENTRY_HEAD.keys}
_COMMON = {key.name for key in COMMON_KEYS}


@dataclass(slots=True, kw_only=True)
class EntryDraft:
    """An entry of which only the tanks of others are still to be known."""

    sheet: Sheet
    body: str
    body_line: int
    when: When
    tank: str | None
    """The tank of front matter."""
    tank_place: Place
    title: str | None
    private: bool
    events: list[EventDraft]
    tanks: tuple[str, ...]
    """Tanks below `tanks:`."""
    private_tanks: frozenset[str]
    """Those of them that are private."""
    file_words: str
    """What the file's name says besides the day."""

    def named_tanks(self) -> tuple[str, ...]:
        """Return the tanks that the entry names outside its file's name."""
        own = (self.tank, *self.tanks, *(event.tank for event in self.events))
        moved = (event.values.get("to") for event in self.events if event.kind.name in _MOVING)
        return tuple(name for name in (*own, *moved) if isinstance(name, str))


_MOVING = {"moved", "strayed"}


def read_entry(sheet: Sheet) -> EntryDraft | None:
    """Read one file by itself; None, with a finding, where it is no entry."""
    if not sheet.text.strip():
        sheet.fault(
            "R004",
            Place(sheet.path),
            "the file is empty and is not read",
            helps=("write a sentence, or delete the file",),
        )
        return None
    split = split_front_matter(sheet)
    if split is None:
        return None
    root = read_nodes(sheet, split.head, first_line=split.head_line) if split.head else None
    if root is None and split.head:
        return None
    reader = _HeadReader(sheet)
    for key, value in root.pairs if root is not None else ():
        reader.take(key, value)
    when, words = _day_of(sheet, reader)
    if when is None:
        if root is not None:
            sheet.give_up(root)
        return None
    return EntryDraft(
        sheet=sheet,
        body=split.body,
        body_line=split.body_line,
        when=when,
        tank=reader.tank,
        tank_place=reader.tank_place,
        title=reader.title,
        private=reader.private,
        events=reader.events,
        tanks=tuple(reader.tanks),
        private_tanks=frozenset(reader.private_tanks),
        file_words=words,
    )


class _HeadReader:
    """Takes the keys of an entry's front matter one by one."""

    def __init__(self, sheet: Sheet) -> None:
        self.sheet = sheet
        self.when: When | None = None
        self.day_failed = False
        self.day_place = Place(sheet.path)
        self.tank: str | None = None
        self.tank_place = Place(sheet.path)
        self.title: str | None = None
        self.private = False
        self.events: list[EventDraft] = []
        self.tanks: list[str] = []
        self.private_tanks: set[str] = set()

    def take(self, key: Node, value: Node) -> None:
        """Read one key."""
        name = key.text
        kind = KIND_BY_NAME.get(name)
        if kind is not None:
            self.events.extend(read_events(kind, key, value, self.sheet))
        elif name == "private":
            self.private |= read_private(key, value, self.sheet)
        elif name in _HEAD_KEYS:
            self.take_head(key, value)
        elif name == "tanks":
            self.take_tanks(value)
        elif seems_private(name):
            self.private = True
            report_private_like(key, value, self.sheet, item="the whole entry")
        else:
            report_unknown(key, value, self.sheet, inside="a diary entry")

    def take_head(self, key: Node, value: Node) -> None:
        """Read the day, the tank or the title."""
        read = read_value(value, _HEAD_KEYS[key.text], self.sheet)
        if key.text == "date":
            self.day_failed = read is None and value.kind is not Kind.EMPTY
            self.day_place = self.sheet.place(value)
            self.when = read if isinstance(read, When) else None
        elif key.text == "tank":
            self.tank = read if isinstance(read, str) else None
            self.tank_place = self.sheet.place(value)
        else:
            self.title = (read if isinstance(read, str) else "") or None

    def take_tanks(self, value: Node) -> None:
        """Read events by tank."""
        if value.kind is not Kind.MAP:
            if value.kind is not Kind.REPORTED:
                self.sheet.fault(
                    "R202",
                    value,
                    "`tanks` needs events by tank",
                    helps=("as in `tanks: {fen: {fed: 1 dab, died: 1}}`",),
                )
            return
        for key, inner in value.pairs:
            tank = check_name(key.text, key, self.sheet)
            if tank is None:
                self.sheet.give_up(inner)
            elif inner.kind is Kind.MAP:
                self.tanks.append(tank)
                for event_key, event in inner.pairs:
                    self.take_in_tank(tank, event_key, event)
            elif inner.kind is Kind.EMPTY:
                self.tanks.append(tank)
            elif inner.kind is not Kind.REPORTED:
                self.sheet.fault(
                    "R202",
                    inner,
                    f"`{tank}` needs events, each with its key",
                    helps=(f"as in `tanks: {{{tank}: {{fed: 1 dab, died: 1}}}}`",),
                )

    def take_in_tank(self, tank: str, key: Node, value: Node) -> None:
        """Read one key below a tank."""
        kind = KIND_BY_NAME.get(key.text)
        if kind is not None:
            self.events.extend(
                event if event.tank is not None else event._replace(tank=tank)
                for event in read_events(kind, key, value, self.sheet)
            )
        elif key.text == "private":
            if read_private(key, value, self.sheet):
                self.private_tanks.add(tank)
        elif seems_private(key.text):
            self.private_tanks.add(tank)
            report_private_like(key, value, self.sheet, item=f"all of `{tank}` on this day")
        else:
            report_unknown(key, value, self.sheet, inside=f"`{tank}`")


def report_unknown(key: Node, value: Node, sheet: Sheet, *, inside: str) -> None:
    """Report a key that is neither an event nor a key of an entry."""
    sheet.give_up(value)
    name = key.text
    near = nearest_name(name, (*KIND_BY_NAME, *_HEAD_KEYS, "tanks"))
    if name in _COMMON:
        helps: tuple[str, ...] = (f"put it inside an event, as in `died: {{{name}: ...}}`",)
        if name == "note":
            helps = ("write the remark below the front matter, or inside an event",)
    elif near is not None:
        says = KIND_BY_NAME[near].says if near in KIND_BY_NAME else ""
        helps = (f"the nearest key is `{near}`" + (f": {says}" if says else ""),)
    else:
        helps = ("write what no key fits as text below the front matter",)
    sheet.fault("R201", key, f"{inside} takes no `{name}`", helps=helps)


def _day_of(sheet: Sheet, reader: _HeadReader) -> tuple[When | None, str]:
    """Return the day of an entry, and what its file's name says besides."""
    stem = PurePosixPath(sheet.path).stem
    match = _DATED.match(stem)
    words = stem[match.end() :] if match is not None else stem
    if reader.day_failed:
        return None, words
    from_name: When | None = None
    if match is not None:
        try:
            from_name = parse_day(match[1] + match[2])
        except DayError as error:
            if reader.when is None:
                sheet.fault(
                    error.code,
                    Place(sheet.path),
                    f"in the file's name, {error.message}",
                    helps=error.helps,
                )
                return None, words
    if reader.when is None and from_name is None:
        sheet.fault(
            "R401",
            Place(sheet.path),
            "the entry has no date",
            helps=("write `date: 2026-03-14` in front matter, or name the file `2026-03-14.md`",),
        )
        return None, words
    if reader.when is None:
        return from_name, words
    if from_name is not None and not _overlap(reader.when, from_name):
        sheet.fault(
            "R402",
            reader.day_place,
            f"front matter says `{reader.when.text}`, the file's name `{from_name.text}`",
            label="this one is taken",
            helps=("rename the file, or correct `date`",),
        )
    return reader.when, words


def _overlap(one: When, other: When) -> bool:
    return one.earliest <= other.latest and other.earliest <= one.latest


def entry_from_draft(draft: EntryDraft, *, known_tanks: Mapping[str, str]) -> Entry:
    """Build the record of an entry; `known_tanks` has all tanks by their folded spelling."""
    tank, title = _tank_and_title(draft, known_tanks)
    sheet = draft.sheet
    entry_id = entry_address(sheet.path)
    events = tuple(
        Event(
            id=EventId(entry_id, number),
            kind_name=event.kind.name,
            when=event.when or draft.when,
            tank=event.tank or tank,
            private=event.private or event.tank in draft.private_tanks,
            values=event.values,
            place=event.place,
            places=event.places,
        )
        for number, event in enumerate(draft.events)
    )
    sections = read_sections(sheet, draft.body, first_line=draft.body_line, tanks=known_tanks)
    return Entry(
        id=entry_id,
        path=sheet.path,
        title=draft.title or title,
        when=draft.when,
        tank=tank,
        private=draft.private,
        sections=tuple(
            Section(tank=name, prose=_hidden(prose) if name in draft.private_tanks else prose)
            for name, prose in sections
        ),
        events=events,
    )


def entry_address(path: str) -> str:
    """Return the identifier of an entry: its path below `diary/` in plain letters.

    >>> entry_address("diary/2026/2026-03-14 Fen.md")
    '2026/2026-03-14-fen'
    """
    below = path.partition("/")[2].rpartition(".")[0]
    return "/".join(_plain_letters(part) for part in below.split("/"))


def _plain_letters(part: str) -> str:
    spread = unicodedata.normalize("NFKD", part).casefold()
    if _PLAIN.fullmatch(spread):
        return spread
    kept = "".join(sign for sign in spread if not unicodedata.combining(sign))
    return re.sub(r"[^\w~]+", "-", kept).strip("-") or "entry"


def _hidden(prose: Prose) -> Prose:
    return Prose(pieces=tuple(Piece(content=piece.content, private=True) for piece in prose.pieces))


def _tank_and_title(
    draft: EntryDraft, known_tanks: Mapping[str, str]
) -> tuple[str | None, str | None]:
    """Give the words of a file's name to a tank and a title."""
    words = draft.file_words
    if not words:
        return draft.tank, None
    tank, rest = _leading_tank(words, known_tanks)
    if tank is not None and draft.tank is not None and tank != draft.tank:
        draft.sheet.fault(
            "R403",
            draft.tank_place,
            f"front matter says tank `{draft.tank}`, the file's name `{tank}`",
            label="this one is taken",
            helps=("rename the file, or correct `tank`",),
        )
    title = _SEPARATORS.sub(" ", rest).strip() or None
    if title is not None and tank is None and draft.tank is None:
        _miss_tank(draft, words, known_tanks)
    return draft.tank or tank, title


def _leading_tank(words: str, known_tanks: Mapping[str, str]) -> tuple[str | None, str]:
    """Return the longest beginning of a file's words that is a known tank, and the rest."""
    parts = _SEPARATORS.split(words)
    for length in range(len(parts), 0, -1):
        for joiner in ("-", " ", "_"):
            name = known_tanks.get(clean_name(joiner.join(parts[:length])).casefold())
            if name is not None:
                return name, " ".join(parts[length:])
    return None, words


def _miss_tank(draft: EntryDraft, words: str, known_tanks: Mapping[str, str]) -> None:
    """Report events without a tank where the file's name may have meant one."""
    without = [event for event in draft.events if event.tank is None]
    if not without:
        return
    first = _SEPARATORS.split(words)[0]
    if first in draft.sheet.desk.missed_tanks:
        return
    draft.sheet.desk.missed_tanks.add(first)
    helps = did_you_mean(first, known_tanks.values(), kind="tank")
    draft.sheet.fault(
        "R404",
        Place(draft.sheet.path),
        f"no tank is called `{first}`, and the events of this entry have no tank",
        related=(Mark(place=without[0].place, says="an event without a tank"),),
        notes=("said once for all files with this word in their name",),
        helps=(
            *helps,
            f"write `tank: {first}` in front matter, or make a page `tanks/{first}.md`",
        ),
    )
