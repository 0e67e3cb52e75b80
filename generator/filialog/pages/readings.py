"""Water readings as tables: one column for each quantity that was measured."""

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from filialog.analysis.rows import ReadingRow
from filialog.journal.events import Event
from filialog.journal.kinds import MEASURED_KEYS
from filialog.journal.quantities import Reading
from filialog.messages import reading_text, short_when_text
from filialog.pages.here import Here, Reference

__all__ = [
    "EntryReading",
    "EntryReadings",
    "ReadingLine",
    "ReadingTable",
    "entry_readings",
    "last_reading",
    "reading_table",
    "readings_text",
]

_QUANTITIES = tuple(key.name for key in MEASURED_KEYS)


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryReading:
    """The readings of one water, in the order of the table's columns."""

    water: Markup
    values: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryReadings:
    """The readings of an entry."""

    quantities: tuple[str, ...]
    lines: tuple[EntryReading, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingLine:
    """The readings of a day, in the order of the table's columns."""

    day: str
    entry: Reference | None
    values: tuple[str, ...]
    remark: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingTable:
    """Readings of a tank over time, newest first."""

    quantities: tuple[str, ...]
    lines: tuple[ReadingLine, ...]


def entry_readings(here: Here, events: Sequence[Event]) -> EntryReadings | None:
    """Return the readings of an entry, a line for each water; None where there are none."""
    words = here.words
    measured = [event for event in events if any(event.has(name) for name in _QUANTITIES)]
    columns = [name for name in _QUANTITIES if any(event.has(name) for event in measured)]
    if not columns:
        return None
    lines = []
    for event in measured:
        kind = "new" if event.kind_name == "changed" else "tank"
        if event.text("before"):
            kind = "before-change"
        place = here.tank(event.tank) if event.tank else words.rich("water.somewhere")
        lines.append(
            EntryReading(
                water=words.rich("water", pick=kind, tank=place),
                values=tuple(_cell(here, event.reading(name)) for name in columns),
            )
        )
    names = tuple(words("quantity", pick=name) for name in columns)
    return EntryReadings(quantities=names, lines=tuple(lines))


def reading_table(here: Here, rows: Sequence[ReadingRow]) -> ReadingTable | None:
    """Return a tank's readings over time; None where there are none."""
    words = here.words
    shown = [row for row in rows if here.event(row.event) is not None]
    taken = {name for row in shown for name, _ in row.readings}
    columns = tuple(name for name in _QUANTITIES if name in taken)
    if not columns:
        return None
    lines = []
    for row in reversed(shown):
        by_name = dict(row.readings)
        lines.append(
            ReadingLine(
                day=short_when_text(words, row.when),
                entry=here.event_entry(row.event),
                values=tuple(_cell(here, by_name.get(name)) for name in columns),
                remark=words("water.remark-before") if row.before_change else "",
            )
        )
    names = tuple(words("quantity", pick=name) for name in columns)
    return ReadingTable(quantities=names, lines=tuple(lines))


def readings_text(here: Here, readings: Sequence[tuple[str, Reading]]) -> str:
    """Write readings in one row: `pH 6.1, temperature 22.4 °C`."""
    words = here.words
    by_name = dict(readings)
    return words("list.comma").join(
        words(
            "water.pair",
            quantity=words("quantity", pick=name),
            value=reading_text(words, by_name[name]),
        )
        for name in _QUANTITIES
        if name in by_name
    )


def last_reading(rows: Sequence[ReadingRow]) -> ReadingRow | None:
    """Return the newest readings."""
    return max(rows, key=lambda row: (row.when.latest, row.event), default=None)


def _cell(here: Here, reading: Reading | None) -> str:
    return here.words("table.blank") if reading is None else reading_text(here.words, reading)
