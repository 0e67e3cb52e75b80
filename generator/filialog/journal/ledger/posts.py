"""How each kind of event is posted: what it takes from where, and when it is refused."""

from collections.abc import Callable, Sequence

from filialog.findings.finding import Finding
from filialog.journal.events import Event
from filialog.journal.kinds import Books
from filialog.journal.ledger.book import Cell, Difference, Posting
from filialog.journal.ledger.cells import (
    SOME,
    amount_of,
    cells_joined,
    cells_left,
    cells_moved,
    cells_of_all,
    group_joined,
    groups_meant,
    sum_of,
    tank_left,
    target_tank,
)
from filialog.journal.ledger.compare import compare_with_count, find_left_behind
from filialog.journal.ledger.page import BookPage
from filialog.journal.ledger.refusals import (
    Refusal,
    beyond_the_book,
    closed_tank,
    left_in_closed_tank,
    too_many,
)
from filialog.journal.ledger.unknowns import Sum
from filialog.journal.quantities import Count

__all__ = ["REOPENING", "post"]

REOPENING = frozenset({"soil", "fitted", "cycle", "planted"})
"""Work on a tank that was taken down: it is in use again."""


def post(
    event: Event, page: BookPage, *, accept: bool = False, bounded: bool = False
) -> Refusal | None:
    """Post one event; a refused event leaves the book as it was.

    With `accept`, a fact that disagrees with the book (a count, a body in a tank) is taken as it
    is and the difference is booked as unaccounted; without, it is refused, so that another order
    of the day can be tried first. With `bounded`, a count is refused where the book would agree
    with any number.
    """
    if event.kind_name in REOPENING:
        if event.tank is not None:
            page.reopen(event.tank)
        return None
    mark = page.mark()
    page.touched.clear()
    refusal = _post(event, page, accept=accept, bounded=bounded)
    if refusal is not None:
        page.return_to(mark)
        return refusal
    if event.when.exact is None:
        page.add_pending(event)
    return None


def _post(event: Event, page: BookPage, *, accept: bool, bounded: bool) -> Refusal | None:
    books = event.kind.books
    if books is Books.COUNTS:
        return compare_with_count(event, page, accept=accept, bounded=bounded)
    left, target = tank_left(event, page), target_tank(event, page)
    for tank in dict.fromkeys((left, target)):
        closing = page.closed_by(tank)
        if closing is None or tank is None or books is Books.CLOSES:
            continue
        takes = tank == left and books is not Books.APPEARS
        if takes and closing.has("left"):
            find_left_behind(event, page, tank, groups_meant(event, page))
        elif not takes or not page.cells_in(tank):
            return closed_tank(event, tank, closing)
    if books is Books.LEAVES:
        return _leave(event, page, accept=accept)
    return _POST_BY_BOOKS[books](event, page)


def _appear(event: Event, page: BookPage) -> Refusal | None:
    group = event.text("brood") if event.kind_name == "hatched" else event.text("group")
    if group is None:
        return None
    count = amount_of(event) or SOME
    number = page.unknowns.unknown(low=count.low, high=count.high)
    if event.flag("colony"):
        page.mark_colony(group)
    if event.kind_name == "hatched":
        page.mark_hatched(group)
    _arrive(event, page, (group, event.tank), number)
    _note(event, page, group, tank=event.tank, change=number, gained=True)
    return None


def _leave(event: Event, page: BookPage, *, accept: bool) -> Refusal | None:
    groups = groups_meant(event, page)
    count = amount_of(event) or SOME
    if groups:
        found = cells_of_all(groups, event, page, tank=event.tank)
        if isinstance(found, Refusal):
            return found
        cells = found
    else:
        cells = cells_left(event, page)
        total = Sum.of(page.number(cell) for cell in cells)
        if not page.unknowns.can_reach(total, count.low, sure=True):
            there = count.low - 1
            while there and not page.unknowns.can_reach(total, there, sure=True):
                there -= 1
            finding = beyond_the_book(event, there, count.low - there)
            if not accept:
                return Refusal(event=event, tell=lambda: finding)
            _beyond(event, page, finding, missing=count.low - there)
            count = Count.of(there)
        if count.high == 0:
            return None
    taken = page.unknowns.take(
        [page.number(cell) for cell in cells], low=count.low, high=count.high
    )
    if taken is None:
        return too_many(event, page, cells, count)
    _write_off(event, page, cells, taken)
    named = sorted({cell[0] for cell in cells})
    for group in named:
        of_group = [n for cell, n in zip(cells, taken, strict=True) if cell[0] == group]
        _note(
            event,
            page,
            group,
            tank=event.tank,
            change=Sum.of(of_group),
            gained=False,
            shared_with=tuple(name for name in named if name != group),
        )
    return None


def _beyond(event: Event, page: BookPage, finding: Finding, *, missing: int) -> None:
    """Note that more left a tank than it can have held; the rest is unaccounted."""
    if event.tank not in page.uncertain_tanks:
        page.add_finding(finding)
    page.add_difference(
        Difference(
            event=event.id,
            groups=(),
            tank=event.tank,
            number=Sum(missing),
            found=True,
            colony=False,
        )
    )


def _sort(event: Event, page: BookPage) -> Refusal | None:
    source = event.text("from") or event.text("group")
    if source is None:
        return None
    cells = cells_of_all((source,), event, page, tank=event.tank)
    if isinstance(cells, Refusal):
        return cells
    if event.kind_name == "chosen":
        wanted = [(event.text("into") or source, amount_of(event) or SOME)]
    else:
        wanted = [
            (sorting.group, sorting.count or sum_of((sorting.females, sorting.males)) or SOME)
            for sorting in event.sortings()
        ]
    for group, count in wanted:
        taken = page.unknowns.take(
            [page.number(cell) for cell in cells], low=count.low, high=count.high
        )
        if taken is None:
            all_counts = sum_of(count for _, count in wanted) or count
            return too_many(event, page, cells, all_counts, key="into" if wanted[1:] else None)
        _write_off(event, page, cells, taken)
        for cell, number in zip(cells, taken, strict=True):
            _arrive(event, page, (group, cell[1]), number)
        if group == source:
            continue
        change = Sum.of(taken)
        _note(event, page, source, tank=event.tank, change=change, gained=False, other_group=group)
        _note(event, page, group, tank=event.tank, change=change, gained=True, other_group=source)
    return None


def _move(event: Event, page: BookPage) -> Refusal | None:
    cells = cells_moved(event, page)
    if isinstance(cells, Refusal):
        return cells
    count = amount_of(event) or (SOME if event.flag("berried") else None)
    numbers = [page.number(cell) for cell in cells]
    taken: Sequence[Sum] | None = numbers
    if count is not None:
        taken = page.unknowns.take(numbers, low=count.low, high=count.high)
    if taken is None:
        return too_many(event, page, cells, count or SOME)
    _write_off(event, page, cells, taken)
    to_tank = target_tank(event, page)
    new = event.text("as") or group_joined(event, page)
    named = tuple(sorted({cell[0] for cell in cells}))
    targets = [(new or cell[0], to_tank if to_tank is not None else cell[1]) for cell in cells]
    for target, number in zip(targets, taken, strict=True):
        _arrive(event, page, target, number)
    for cell, target, number in zip(cells, targets, taken, strict=True):
        _note(
            event,
            page,
            cell[0],
            tank=cell[1],
            to_tank=target[1],
            change=number,
            gained=False,
            other_group=target[0] if target[0] != cell[0] else None,
            shared_with=tuple(name for name in named if name != cell[0]),
        )
    others = tuple(name for name in named if name != new)
    if new is not None and others:
        _note(
            event,
            page,
            new,
            tank=to_tank,
            change=Sum.of(n for cell, n in zip(cells, taken, strict=True) if cell[0] != new),
            gained=True,
            other_group=others[0] if len(others) == 1 else None,
            shared_with=others if len(others) > 1 else (),
        )
    return None


def _join(event: Event, page: BookPage) -> Refusal | None:
    into = event.text("into")
    if into is None:
        return None
    parts: list[tuple[str, Count | None]] = [
        (part.group, part.count) for part in event.parts()
    ] or [(group, None) for group in event.names("of")]
    total, staying = Sum(), Sum()
    all_cells: list[Cell] = []
    for group, count in parts:
        cells = cells_joined(group, event, page)
        if isinstance(cells, Refusal):
            return cells
        numbers: Sequence[Sum] = [page.number(cell) for cell in cells]
        if group == into:
            staying = Sum.of(numbers) if count is None else _unknown(page, count)
            continue
        taken = (
            numbers
            if count is None
            else page.unknowns.take(numbers, low=count.low, high=count.high)
        )
        if taken is None:
            return too_many(event, page, cells, count or SOME, key=f"parts.{group}")
        _write_off(event, page, cells, taken)
        change = Sum.of(taken)
        total = total.plus(change)
        all_cells.extend(cells)
        _note(event, page, group, tank=event.tank, change=change, gained=False, other_group=into)
    if (written := amount_of(event)) is not None and not page.unknowns.require(
        total.plus(staying), low=written.low, high=written.high
    ):
        return too_many(event, page, all_cells, written)
    names = tuple(group for group, _ in parts if group != into)
    if not names:
        return None
    tanks = {cell[1] for cell in all_cells}
    tank = event.tank if event.tank is not None else (tanks.pop() if len(tanks) == 1 else None)
    _arrive(event, page, (into, tank), total)
    _note(
        event,
        page,
        into,
        tank=tank,
        change=total,
        gained=True,
        other_group=names[0] if len(names) == 1 else None,
        shared_with=names if len(names) > 1 else (),
    )
    return None


def _close(event: Event, page: BookPage) -> Refusal | None:
    if event.tank is None:
        return None
    there = page.cells_in(event.tank)
    surely = [
        cell[0]
        for cell in there
        if cell[0] not in page.uncertain_groups and page.unknowns.surely(page.number(cell))
    ]
    if surely and not event.has("left"):
        page.add_finding(left_in_closed_tank(event, page, surely))
    for cell in there:
        number = page.number(cell)
        page.set_number(cell, Sum(), event)
        _note(event, page, cell[0], tank=event.tank, change=number, gained=False, unaccounted=True)
    page.close(event.tank, event)
    return None


_POST_BY_BOOKS: dict[Books, Callable[[Event, BookPage], Refusal | None]] = {
    Books.APPEARS: _appear,
    Books.SORTS: _sort,
    Books.MOVES: _move,
    Books.JOINS: _join,
    Books.CLOSES: _close,
}


def _unknown(page: BookPage, count: Count) -> Sum:
    return page.unknowns.unknown(low=count.low, high=count.high)


def _write_off(event: Event, page: BookPage, cells: Sequence[Cell], taken: Sequence[Sum]) -> None:
    for cell, number in zip(cells, taken, strict=True):
        page.set_number(cell, page.number(cell).plus(number, -1), event)


def _arrive(event: Event, page: BookPage, cell: Cell, number: Sum) -> None:
    page.set_number(cell, page.number(cell).plus(number), event)


def _note(
    event: Event,
    page: BookPage,
    group: str,
    *,
    tank: str | None,
    change: Sum,
    gained: bool,
    to_tank: str | None = None,
    other_group: str | None = None,
    shared_with: tuple[str, ...] = (),
    unaccounted: bool = False,
) -> None:
    page.add_posting(
        Posting(
            event=event.id,
            when=event.when,
            kind_name=event.kind_name,
            group=group,
            tank=tank,
            to_tank=to_tank,
            other_group=other_group,
            change=change,
            gained=gained,
            after=page.total(group),
            shared_with=shared_with,
            unaccounted=unaccounted,
        )
    )
