"""Lots on offer: what was offered, what of it went, what is left of it by the book."""

from collections.abc import Iterable, Mapping, Sequence

from filialog.analysis.nodes import NodeKind, Reader
from filialog.analysis.rows import LotRow, LotState
from filialog.analysis.sources import EVENTS
from filialog.analysis.tanks import HOLDINGS
from filialog.journal.events import Event
from filialog.journal.quantities import Count, bounds_text

__all__ = ["LOT", "LOTS"]

_NONE = Count.of(0)


def _events_of_lots(reader: Reader, _: str) -> Mapping[str, tuple[Event, ...]]:
    """Collect the events of each lot by day; a lot begins with an offer that may be shown."""
    as_of = reader.journal("last day").as_of
    found: dict[str, list[Event]] = {}
    for event in reader.get(EVENTS):
        lot = event.text("lot")
        if lot is None or event.when.earliest > as_of:
            continue
        if lot in found or (event.kind_name == "offered" and not event.withheld):
            found.setdefault(lot, []).append(event)
    return {lot: tuple(events) for lot, events in found.items()}


_EVENTS_OF_LOTS: NodeKind[Mapping[str, tuple[Event, ...]]] = NodeKind(
    "events-of-lots", _events_of_lots
)


def _lots(reader: Reader, _: str) -> tuple[str, ...]:
    names = reader.journal("lots").names
    return tuple(lot for lot in reader.get(_EVENTS_OF_LOTS) if names.lots.get(lot))


LOTS: NodeKind[tuple[str, ...]] = NodeKind("lots", _lots)
"""Names of lots by the day of their first offer."""


def _lot(reader: Reader, lot: str) -> LotRow:
    checked = reader.journal(f"book of lot {lot}")
    events = reader.get(_EVENTS_OF_LOTS)[lot]
    offers = [one for one in events if one.kind_name == "offered" and not one.withheld]
    offer = offers[-1]
    since = events[events.index(offer) :]
    groups = _groups_of(offer) or checked.names.lots[lot]
    holdings = [
        row for row in reader.get(HOLDINGS, checked.as_of.isoformat()) if row.group in groups
    ]
    cells = [(row.group, row.tank or None) for row in holdings]
    on_book = checked.book.number_in(cells, checked.as_of)
    offered = offer.count()
    handed = _sum(one.count() for one in since if one.kind_name in {"sold", "given"})
    left = _left(offered, handed + _unnamed(reader, offer, groups), on_book)
    promises = [one for one in since if one.kind_name == "reserved" and not one.withheld]
    reserved = _still_promised(promises, handed, left)
    return LotRow(
        lot=lot,
        groups=groups,
        event=offer.id,
        when=offer.when,
        note=offer.text("note") or "",
        offered=offered,
        reserved=reserved,
        handed_over=handed,
        on_book=on_book,
        left=left,
        state=_state(handed, left, reserved),
        tanks=tuple(sorted({row.tank for row in holdings if row.tank})),
        events=tuple(one.id for one in since),
    )


LOT: NodeKind[LotRow] = NodeKind("lot", _lot)
"""A lot as it stands on the last day."""


def _groups_of(offer: Event) -> tuple[str, ...]:
    group = offer.text("group")
    return (group,) if group is not None else offer.names("of")


def _unnamed(reader: Reader, offer: Event, groups: tuple[str, ...]) -> Count:
    """Return how many went since the offer in events that are not published.

    Of which lot they were is not published either, so they can have been of this one: none of
    them, or all.
    """
    as_of = reader.journal("last day").as_of
    gone = _sum(
        event.count()
        for event in reader.get(EVENTS)
        if event.withheld
        and event.kind_name in {"sold", "given"}
        and offer.when.earliest <= event.when.latest
        and event.when.earliest <= as_of
        and set(_groups_of(event)) & set(groups)
    )
    return Count(low=0, high=gone.high, text=bounds_text(0, gone.high))


def _sum(counts: Iterable[Count | None]) -> Count:
    total = _NONE
    for count in counts:
        total += count if count is not None else Count(low=1, high=None, text="some")
    return total


def _left(offered: Count | None, handed: Count, on_book: Count) -> Count:
    """Return what can be left: no more than was not handed over, no more than is on the book."""
    if offered is None:
        return on_book
    low = 0 if handed.high is None else max(offered.low - handed.high, 0)
    high = None if offered.high is None else max(offered.high - handed.low, 0)
    low = min(low, on_book.low)
    if on_book.high is not None:
        high = on_book.high if high is None else min(high, on_book.high)
    return Count(low=low, high=high, text=bounds_text(low, high))


def _still_promised(promises: Sequence[Event], handed: Count, left: Count) -> Count:
    """Return what is promised still: what was handed over is taken to be what was promised."""
    if not promises:
        return _NONE
    if any(one.count() is None for one in promises):
        return left  # the whole lot is promised
    promised = _sum(one.count() for one in promises)
    low = 0 if handed.high is None else max(promised.low - handed.high, 0)
    high = None if promised.high is None else max(promised.high - handed.low, 0)
    if left.high is not None:
        high = left.high if high is None else min(high, left.high)
    low = low if high is None else min(low, high)
    return Count(low=low, high=high, text=bounds_text(low, high))


def _state(handed: Count, left: Count, reserved: Count) -> LotState:
    if left.high == 0:
        return LotState.SOLD if handed.low else LotState.GONE
    if left.high is not None and reserved.low >= left.high:
        return LotState.RESERVED
    return LotState.OPEN
