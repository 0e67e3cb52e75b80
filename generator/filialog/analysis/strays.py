"""Which groups were in a tank into which, or out of which, an animal may have strayed."""

from collections.abc import Iterator, Mapping

from filialog.analysis.nodes import NodeKind, Reader
from filialog.analysis.rows import StrayRow
from filialog.analysis.sources import EVENTS
from filialog.analysis.tanks import TANK, TANKS
from filialog.journal.events import Event
from filialog.journal.parentage.taints import settles

__all__ = ["STRAYS"]


def _by_group(reader: Reader, _: str) -> Mapping[str, tuple[StrayRow, ...]]:
    """Collect the strays of every group: from the day of one until it is settled."""
    known = frozenset(reader.get(TANKS))
    found: dict[str, dict[StrayRow, None]] = {}
    for row in _open_strays(reader.get(EVENTS)):
        if row.tank not in known:
            continue
        for stay in reader.get(TANK, row.tank).stays:
            left_before = stay.until is not None and stay.until < row.when.earliest
            came_after = row.cleared is not None and stay.since > row.cleared.latest
            if not left_before and not came_after:
                found.setdefault(stay.group, {})[row] = None
    return {group: tuple(rows) for group, rows in found.items()}


_BY_GROUP: NodeKind[Mapping[str, tuple[StrayRow, ...]]] = NodeKind("strays-by-group", _by_group)


def _strays(reader: Reader, group: str) -> tuple[StrayRow, ...]:
    return reader.get(_BY_GROUP).get(group, ())


STRAYS: NodeKind[tuple[StrayRow, ...]] = NodeKind("strays", _strays)
"""Strays recorded in the tanks of a group while it was there, by day."""


def _open_strays(events: tuple[Event, ...]) -> Iterator[StrayRow]:
    """Give every stray once for each of its tanks, with the event that settled it, if any."""
    strayed = [event for event in events if event.kind_name == "strayed" and not event.withheld]
    for event in strayed:
        if event.flag("cleared"):
            continue
        into, out_of = event.text("to") or event.tank, event.text("from")
        settled = next((one for one in strayed if settles(one, event)), None)
        for tank, other, is_into in ((into, out_of, True), (out_of, into, False)):
            if tank is not None and (is_into or tank != other):
                yield StrayRow(
                    event=event.id,
                    when=event.when,
                    tank=tank,
                    into=is_into,
                    other_tank=other if other != tank else None,
                    cleared=None if settled is None else settled.when,
                    cleared_by=None if settled is None else settled.id,
                )
