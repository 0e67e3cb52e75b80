"""Which cells of the book an event speaks of, and how many animals."""

from collections.abc import Iterable, Sequence

from filialog.journal.events import Event
from filialog.journal.ledger.book import Cell
from filialog.journal.ledger.page import BookPage
from filialog.journal.ledger.refusals import Refusal, empty_tank, nowhere, wrong_tank
from filialog.journal.quantities import Count, bounds_text

__all__ = [
    "SOME",
    "amount_of",
    "cells_joined",
    "cells_left",
    "cells_moved",
    "cells_of_all",
    "group_joined",
    "groups_meant",
    "sum_of",
    "tank_left",
    "target_tank",
]

SOME = Count(low=1, high=None, text="some")
"""A number that was left out: unknown, never zero."""


def amount_of(event: Event) -> Count | None:
    """Return how many animals an event is about: its count, or the sum of its sexes and young."""
    return event.count() or sum_of(event.count(key) for key in ("females", "males", "young"))


def sum_of(counts: Iterable[Count | None]) -> Count | None:
    """Return the sum of the counts that were written, None where none was."""
    written = [count for count in counts if count is not None]
    if not written:
        return None
    low = sum(count.low for count in written)
    highs = [count.high for count in written]
    high = None if None in highs else sum(high for high in highs if high is not None)
    return Count(low=low, high=high, text=bounds_text(low, high))


def groups_meant(event: Event, page: BookPage) -> tuple[str, ...]:
    """Return the groups an event names, outright, as alternatives, or through its lot."""
    if (group := event.text("group")) is not None:
        return (group,)
    if alternatives := event.names("of"):
        return alternatives
    lot = event.text("lot")
    return page.names.lots.get(lot, ()) if lot is not None else ()


def cells_of_all(
    groups: Sequence[str], event: Event, page: BookPage, *, tank: str | None
) -> tuple[Cell, ...] | Refusal:
    """Find where the groups are that an event takes animals from: in `tank`, if one is given."""
    cells: list[Cell] = []
    for group in groups:
        if tank is None:
            cells.extend(page.cells_of(group))
        elif page.possible((group, tank)):
            cells.append((group, tank))
        elif len(groups) == 1 and (there := page.cells_of(group)):
            return wrong_tank(event, page, group, tank=tank, there=there)
    if not cells:
        return nowhere(event, page, groups[0])
    return tuple(cells)


def cells_joined(group: str, event: Event, page: BookPage) -> tuple[Cell, ...] | Refusal:
    """Find where a part is that is joined: in the tank of the event, else wherever it is."""
    if event.tank is not None and page.possible((group, event.tank)):
        return ((group, event.tank),)
    return page.cells_of(group) or nowhere(event, page, group)


def cells_left(event: Event, page: BookPage) -> tuple[Cell, ...]:
    """Return the cells that animals of no named group can have left."""
    if event.tank is not None:
        return page.cells_in(event.tank)
    return page.cells_in(None) or page.cells_anywhere()


def cells_moved(event: Event, page: BookPage) -> tuple[Cell, ...] | Refusal:
    """Find where moved animals are taken from."""
    groups = groups_meant(event, page)
    source = event.text("from")
    tank = tank_left(event, page)
    if not groups and source is not None and source != tank:
        groups = (source,)
    if groups:
        return cells_of_all(groups, event, page, tank=tank)
    cells = page.cells_in(tank) if tank is not None else ()
    return cells or empty_tank(event, event.tank if tank is None else tank)


def tank_left(event: Event, page: BookPage) -> str | None:
    """Return the tank that animals are taken from, where the event says it."""
    if event.kind_name != "moved":
        return event.tank
    source = event.text("from")
    if source is not None and source in page.names.tanks:
        return source
    # In the entry of the tank they go to, a move says nothing of where they were.
    return None if event.tank == target_tank(event, page) else event.tank


def group_joined(event: Event, page: BookPage) -> str | None:
    """Return the group that moved animals join, where `to` names a group and no tank."""
    target = event.text("to") if event.kind_name == "moved" else None
    if target is None or target in page.names.tanks or target not in page.names.groups:
        return None
    return target


def target_tank(event: Event, page: BookPage) -> str | None:
    """Return the tank that moved animals go to, where it is known."""
    if event.kind_name != "moved":
        return None
    joined = group_joined(event, page)
    if joined is None:
        return event.text("to")
    cells = page.cells_of(joined)
    return cells[0][1] if len(cells) == 1 else None
