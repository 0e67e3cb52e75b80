"""Water readings as tables: one column for each quantity that was measured."""

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from filialog.analysis.rows import ReadingRow, TankRow
from filialog.journal.events import Event
from filialog.journal.kinds import MEASURED_KEYS
from filialog.journal.quantities import Reading
from filialog.journal.records import TankPage
from filialog.messages import reading_text, short_when_text
from filialog.pages.drawing import ReadingPoint, readings_svg
from filialog.pages.here import Here, Reference
from filialog.pages.ticks import month_ticks

__all__ = [
    "Chart",
    "EntryReading",
    "EntryReadings",
    "ReadingLine",
    "ReadingTable",
    "entry_readings",
    "last_reading",
    "reading_charts",
    "reading_table",
    "readings_text",
]

_SHOWN = 8
"""Newest readings that stand open; the charts show them all."""
_FEWEST_DRAWN = 3
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
    earlier: tuple[ReadingLine, ...]
    """Older ones, folded away."""
    more: str
    """Words on how many are folded away; empty where none are."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Chart:
    """One quantity over time."""

    drawing: Markup
    label: str


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
    earlier = tuple(lines[_SHOWN:])
    return ReadingTable(
        quantities=names,
        lines=tuple(lines[:_SHOWN]),
        earlier=earlier,
        more=words("water.earlier", number=len(earlier), n=len(earlier)) if earlier else "",
    )


def reading_charts(here: Here, row: TankRow, page: TankPage | None) -> tuple[Chart, ...]:
    """Return a chart for each quantity and unit that was measured at least three times."""
    points: dict[tuple[str, str], list[ReadingPoint]] = {}
    for one in row.readings:
        if here.event(one.event) is not None:
            for name, reading in one.readings:
                if reading.low is not None or reading.high is not None:
                    point = ReadingPoint(day=one.when.earliest, low=reading.low, high=reading.high)
                    points.setdefault((name, reading.unit), []).append(point)
    targets = dict(page.targets) if page is not None else {}
    order = {name: at for at, name in enumerate(_QUANTITIES)}
    drawn = sorted(
        (key for key, found in points.items() if len(found) >= _FEWEST_DRAWN),
        key=lambda key: (order[key[0]], key[1]),
    )
    return tuple(_chart(here, row, key, points[key], targets.get(key[0])) for key in drawn)


def _chart(
    here: Here,
    row: TankRow,
    key: tuple[str, str],
    points: Sequence[ReadingPoint],
    target: Reading | None,
) -> Chart:
    words, (name, unit) = here.words, key
    shown = [event for one in row.other_events if (event := here.event(one)) is not None]
    changes = [one.when.earliest for one in row.changes if here.event(one.event) is not None]
    soils = [event.when.earliest for event in shown if event.kind_name == "soil"]
    days = [point.day for point in points]
    first, last = min(days).replace(day=1), max(days)
    quantity = words("quantity", pick=name)
    title = words("readings.title", quantity=quantity, tank=row.tank)
    aimed = target if target is not None and target.unit == unit else None
    return Chart(
        label=title,
        drawing=readings_svg(
            tuple(points),
            first=first,
            last=last,
            target_low=None if aimed is None else aimed.low,
            target_high=None if aimed is None else aimed.high,
            changes=tuple(day for day in changes if first <= day <= last),
            soils=tuple(day for day in soils if first <= day <= last),
            tick_labels=month_ticks(words, first, last),
            title=title,
            describe=words("readings.in-table"),
            axis_label=words("readings.axis", quantity=quantity, unit=unit) if unit else quantity,
        ),
    )


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
