"""All that is known of a tank."""

from collections.abc import Mapping, Sequence
from datetime import date

from filialog.analysis.nodes import NodeKind, Reader
from filialog.analysis.rows import (
    HoldingRow,
    ReadingRow,
    Stay,
    TankRow,
    WaterChangeRow,
)
from filialog.analysis.sources import EVENTS_IN_TANK, MENTIONS
from filialog.journal.events import Event, EventId
from filialog.journal.kinds import MEASURED_KEYS
from filialog.journal.ledger.book import Book

__all__ = ["HOLDINGS", "TANK", "TANKS"]

_TANK_WORK = frozenset({"soil", "fitted", "planted", "cycle", "dosed", "treated", "closed"})


def _tanks(reader: Reader, _: str) -> tuple[str, ...]:
    checked = reader.journal("tanks")
    return tuple(sorted(checked.names.tanks))


TANKS: NodeKind[tuple[str, ...]] = NodeKind("tanks", _tanks)
"""All tanks by name."""


def _tank(reader: Reader, tank: str) -> TankRow:
    checked = reader.journal(f"book of {tank}")
    book = checked.book
    groups = reader.get(_GROUPS_OF_TANK).get(tank, ())
    events = reader.get(EVENTS_IN_TANK, tank)
    within = [event for event in events if event.when.earliest <= checked.as_of]
    last = max((min(event.when.latest, checked.as_of) for event in within), default=None)
    holdings: tuple[HoldingRow, ...] = ()
    total = None
    if last is not None:
        holdings = _holdings_in(reader, [(group, tank) for group in groups], last)
        total = book.number_in([(row.group, tank) for row in holdings], last) if holdings else None
    return TankRow(
        tank=tank,
        stays=_stays(book, groups, tank),
        last_day=last,
        holdings=holdings,
        total=total,
        readings=tuple(_reading(event) for event in events if event.kind_name == "measured"),
        changes=tuple(
            WaterChangeRow(
                event=event.id,
                when=event.when,
                litres=event.number("litres"),
                percent=event.number("percent"),
            )
            for event in events
            if event.kind_name == "changed"
        ),
        other_events=tuple(event.id for event in events if event.kind_name in _TANK_WORK),
        mentions=reader.get(MENTIONS, tank),
        closed=book.closed.get(tank),
    )


TANK: NodeKind[TankRow] = NodeKind("tank", _tank)
"""All that is known of a tank."""


def _reading(event: Event) -> ReadingRow:
    return ReadingRow(
        event=event.id,
        when=event.when,
        readings=tuple(
            (key.name, reading)
            for key in MEASURED_KEYS
            if (reading := event.reading(key.name)) is not None
        ),
        before_change=event.text("before") == "change",
    )


def _groups_of_tank(reader: Reader, _: str) -> Mapping[str | None, tuple[str, ...]]:
    found: dict[str | None, list[str]] = {}
    for group, tank in reader.journal("book").book.stands:
        found.setdefault(tank, []).append(group)
    return {tank: tuple(sorted(groups)) for tank, groups in found.items()}


_GROUPS_OF_TANK: NodeKind[Mapping[str | None, tuple[str, ...]]] = NodeKind(
    "groups-of-tank", _groups_of_tank
)
"""Groups that ever were in a tank."""


def _stays(book: Book, groups: tuple[str, ...], tank: str) -> tuple[Stay, ...]:
    """Return who was in a tank from when to when, by the first day."""
    stays: list[Stay] = []
    for group in groups:
        since: date | None = None
        event: EventId | None = None
        for stand in book.stands[group, tank]:
            high = book.count(stand.number).high
            present = high is None or high > 0
            if present and since is None:
                since, event = stand.day, stand.event
            elif not present and since is not None:
                if stand.day > since:
                    stays.append(
                        Stay(group=group, tank=tank, since=since, until=stand.day, event=event)
                    )
                since = None
        if since is not None:
            stays.append(Stay(group=group, tank=tank, since=since, until=None, event=event))
    return tuple(sorted(stays, key=lambda stay: (stay.since, stay.group)))


def _holdings(reader: Reader, day: str) -> tuple[HoldingRow, ...]:
    cells = sorted(
        ((group, tank) for tank, groups in reader.get(_GROUPS_OF_TANK).items() for group in groups),
        key=lambda cell: (cell[0], cell[1] or ""),
    )
    return _holdings_in(reader, cells, date.fromisoformat(day))


HOLDINGS: NodeKind[tuple[HoldingRow, ...]] = NodeKind("holdings", _holdings)
"""Who is where at the end of a day, subject the ISO date."""


def _holdings_in(
    reader: Reader, cells: Sequence[tuple[str, str | None]], day: date
) -> tuple[HoldingRow, ...]:
    book = reader.journal(f"book on {day}").book
    rows = []
    for group, tank in cells:
        count = book.number_in([(group, tank)], day)
        if count.high == 0:
            continue
        events = [stand.event for stand in book.stands[group, tank] if stand.day <= day]
        rows.append(
            HoldingRow(
                group=group,
                tank=tank or "",
                count=count,
                colony=group in book.colonies,
                events=tuple(events[-1:]),
            )
        )
    return tuple(rows)
