"""How each kind of event is posted: what it takes from where, and when it is refused."""

from collections.abc import Callable, Iterable, Sequence

from filialog.journal.events import Event
from filialog.journal.kinds import Books
from filialog.journal.ledger.book import Cell, Difference, Pending, Posting
from filialog.journal.ledger.compare import compare_with_count
from filialog.journal.ledger.page import BookPage
from filialog.journal.ledger.refusals import (
    Refusal,
    beyond_the_book,
    closed_tank,
    left_in_closed_tank,
    nowhere,
    too_many,
    wrong_tank,
)
from filialog.journal.ledger.unknowns import Sum
from filialog.journal.quantities import Count, bounds_text

__all__ = ["REOPENING", "post"]

REOPENING = frozenset({"soil", "fitted", "cycle", "planted"})
"""Work on a tank that was taken down: it is in use again."""

_SOME = Count(low=1, high=None, text="some")


def post(event: Event, page: BookPage, *, accept: bool = False) -> Refusal | None:
    """Post one event; a refused event leaves the book as it was.

    With `accept`, a count that disagrees with the book is taken as it is and the difference is
    booked as unaccounted; without, it is refused, so that another order can be tried first.
    """
    if event.kind_name in REOPENING:
        if event.tank is not None:
            page.reopen(event.tank)
        return None
    mark = page.mark()
    page.touched.clear()
    refusal = _post(event, page, accept=accept)
    if refusal is not None:
        page.return_to(mark)
        return refusal
    if event.when.exact is None:
        deltas = [(cell, page.number(cell).plus(old, -1)) for cell, old in page.touched.items()]
        page.add_pending(
            Pending(
                earliest=event.when.earliest,
                latest=max(event.when.latest, page.day),
                deltas=tuple((cell, delta) for cell, delta in deltas if delta != Sum()),
            )
        )
    return None


def _post(event: Event, page: BookPage, *, accept: bool) -> Refusal | None:
    books = event.kind.books
    if books is Books.COUNTS:
        return compare_with_count(event, page, accept=accept)
    for tank in {event.tank, _target_tank(event, page)}:
        if (closing := page.closed_by(tank)) is not None and tank is not None:
            return closed_tank(event, tank, closing)
    return _POST_BY_BOOKS[books](event, page)


def _appear(event: Event, page: BookPage) -> Refusal | None:
    group = event.text("brood") if event.kind_name == "hatched" else event.text("group")
    if group is None:
        return None
    count = amount_of(event) or _SOME
    number = page.unknowns.unknown(low=count.low, high=count.high)
    if event.flag("colony"):
        page.mark_colony(group)
        number = number.plus(page.unknowns.unknown(low=0, high=None))
    if event.kind_name == "hatched":
        page.mark_hatched(group)
    cell = (group, event.tank)
    page.set_number(cell, page.number(cell).plus(number), event)
    _note(event, page, group, tank=event.tank, change=number, gained=True)
    return None


def _leave(event: Event, page: BookPage) -> Refusal | None:
    groups = _groups_meant(event, page)
    count = amount_of(event) or _SOME
    if groups:
        cells = _cells_of_all(groups, event, page, tank=event.tank)
        if isinstance(cells, Refusal):
            return cells
    else:
        cells = page.cells_in(event.tank) if event.tank is not None else ()
        count = _no_more_than_there(event, page, cells, count)
        if count.high == 0:
            return None
    taken = _take(page, cells, count)
    if taken is None:
        return too_many(event, page, groups or tuple(cell[0] for cell in cells), count)
    _write_off(event, page, cells, taken)
    for group in sorted({cell[0] for cell in cells}):
        change = Sum.of(
            number for cell, number in zip(cells, taken, strict=True) if cell[0] == group
        )
        _note(
            event,
            page,
            group,
            tank=event.tank,
            change=change,
            gained=False,
            shared_with=tuple(sorted({cell[0] for cell in cells} - {group})),
        )
    return None


def _no_more_than_there(event: Event, page: BookPage, cells: Sequence[Cell], count: Count) -> Count:
    """Cut a count of an unnamed group to what the tank can hold; the rest is unaccounted."""
    there = page.unknowns.greatest(Sum.of(page.number(cell) for cell in cells)) if cells else 0
    if there is None or there >= count.low:
        return count
    missing = count.low - there
    page.add_finding(beyond_the_book(event, there, missing))
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
    return Count(low=there, high=there, text=str(there))


def _sort(event: Event, page: BookPage) -> Refusal | None:
    source = event.text("from") or event.text("group")
    if source is None:
        return None
    cells = _cells_of_all((source,), event, page, tank=event.tank)
    if isinstance(cells, Refusal):
        return cells
    if event.kind_name == "chosen":
        wanted = [(event.text("into") or source, amount_of(event) or _SOME)]
    else:
        wanted = [
            (sorting.group, sorting.count or _sum_of((sorting.females, sorting.males)) or _SOME)
            for sorting in event.sortings()
        ]
    for group, count in wanted:
        taken = _take(page, cells, count)
        if taken is None:
            return too_many(event, page, (source,), count)
        _write_off(event, page, cells, taken)
        for cell, number in zip(cells, taken, strict=True):
            _arrive(event, page, (group, cell[1]), number)
        change = Sum.of(taken)
        _note(event, page, source, tank=event.tank, change=change, gained=False, other_group=group)
        _note(event, page, group, tank=event.tank, change=change, gained=True, other_group=source)
    return None


def _move(event: Event, page: BookPage) -> Refusal | None:
    cells = _cells_moved(event, page)
    if isinstance(cells, Refusal):
        return cells
    count = amount_of(event) or (_SOME if event.flag("berried") else None)
    if count is None:
        taken: Sequence[Sum] | None = [page.number(cell) for cell in cells]
    else:
        taken = _take(page, cells, count)
    named = tuple(sorted({cell[0] for cell in cells}))
    if taken is None or not cells:
        return too_many(event, page, named, count or _SOME)
    _write_off(event, page, cells, taken)
    to_tank = _target_tank(event, page)
    joins = _group_joined(event, page)
    for cell, number in zip(cells, taken, strict=True):
        target = (
            event.text("as") or joins or cell[0],
            to_tank if to_tank is not None else cell[1],
        )
        _arrive(event, page, target, number)
        others = tuple(name for name in named if name != cell[0])
        _note(
            event,
            page,
            cell[0],
            tank=cell[1],
            to_tank=target[1],
            change=number,
            gained=False,
            other_group=target[0] if target[0] != cell[0] else None,
            shared_with=others,
        )
    if (new := event.text("as") or joins) is not None:
        _note(
            event,
            page,
            new,
            tank=to_tank,
            change=Sum.of(taken),
            gained=True,
            other_group=named[0] if len(named) == 1 else None,
            shared_with=named if len(named) > 1 else (),
        )
    return None


def _join(event: Event, page: BookPage) -> Refusal | None:
    into = event.text("into")
    if into is None:
        return None
    wanted: list[tuple[str, Count | None]] = [
        (part.group, part.count) for part in event.parts() if part.group != into
    ] or [(group, None) for group in event.names("of") if group != into]
    total = Sum()
    tanks: set[str | None] = set()
    for group, count in wanted:
        cells = _cells_of_all((group,), event, page, tank=event.tank, anywhere=True)
        if isinstance(cells, Refusal):
            return cells
        taken = (
            [page.number(cell) for cell in cells] if count is None else _take(page, cells, count)
        )
        if taken is None:
            return too_many(event, page, (group,), count or _SOME)
        _write_off(event, page, cells, taken)
        change = Sum.of(taken)
        total = total.plus(change)
        tanks.update(cell[1] for cell in cells)
        _note(event, page, group, tank=event.tank, change=change, gained=False, other_group=into)
    if (count := amount_of(event)) is not None and not page.unknowns.require(
        total, low=count.low, high=count.high
    ):
        return too_many(event, page, tuple(group for group, _ in wanted), count)
    tank = event.tank if event.tank is not None else (tanks.pop() if len(tanks) == 1 else None)
    _arrive(event, page, (into, tank), total)
    names = tuple(group for group, _ in wanted)
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
    surely = [cell for cell in there if page.unknowns.least(page.number(cell)) > 0]
    if surely and not event.has("left"):
        page.add_finding(left_in_closed_tank(event, page, tuple(cell[0] for cell in surely)))
    for cell in there:
        number = page.number(cell)
        page.set_number(cell, Sum(), event)
        _note(event, page, cell[0], tank=event.tank, change=number, gained=False, unaccounted=True)
    page.close(event.tank, event)
    return None


_POST_BY_BOOKS: dict[Books, Callable[[Event, BookPage], Refusal | None]] = {
    Books.APPEARS: _appear,
    Books.LEAVES: _leave,
    Books.SORTS: _sort,
    Books.MOVES: _move,
    Books.JOINS: _join,
    Books.CLOSES: _close,
}


def amount_of(event: Event) -> Count | None:
    """Return how many animals an event is about: its count, or the sum of its sexes and young."""
    return event.count() or _sum_of(event.count(key) for key in ("females", "males", "young"))


def _sum_of(counts: Iterable[Count | None]) -> Count | None:
    written = [count for count in counts if count is not None]
    if not written:
        return None
    low = sum(count.low for count in written)
    highs = [count.high for count in written]
    high = None if None in highs else sum(high for high in highs if high is not None)
    return Count(low=low, high=high, text=bounds_text(low, high))


def _groups_meant(event: Event, page: BookPage) -> tuple[str, ...]:
    """Return the groups an event names, outright, as alternatives, or through its lot."""
    if (group := event.text("group")) is not None:
        return (group,)
    if alternatives := event.names("of"):
        return alternatives
    lot = event.text("lot")
    return page.names.lots.get(lot, ()) if lot is not None else ()


def _cells_of_all(
    groups: Sequence[str],
    event: Event,
    page: BookPage,
    *,
    tank: str | None,
    anywhere: bool = False,
) -> tuple[Cell, ...] | Refusal:
    """Find where the groups are that an event takes animals from; in `tank` where one is given."""
    cells: list[Cell] = []
    for group in groups:
        there = page.cells_of(group)
        here = (group, tank)
        if tank is not None and page.possible(here):
            cells.append(here)
        elif tank is None or (anywhere and there):
            cells.extend(there)
        elif there and len(groups) == 1:
            return wrong_tank(event, page, group, tank=tank, there=there)
    if not cells:
        return nowhere(event, page, groups[0])
    return tuple(cells)


def _cells_moved(event: Event, page: BookPage) -> tuple[Cell, ...] | Refusal:
    source = event.text("from")
    groups = _groups_meant(event, page)
    if source is not None and source in page.names.tanks:
        tank: str | None = source
    else:
        # In the entry of the tank they go to, a move says nothing of where they were.
        tank = None if event.tank == _target_tank(event, page) else event.tank
        groups = groups or ((source,) if source is not None else ())
    if groups:
        return _cells_of_all(groups, event, page, tank=tank)
    return page.cells_in(tank) if tank is not None else ()


def _group_joined(event: Event, page: BookPage) -> str | None:
    """Return the group that moved animals join, where `to` names a group and no tank."""
    target = event.text("to") if event.kind_name == "moved" else None
    if target is None or target in page.names.tanks or target not in page.names.groups:
        return None
    return target


def _target_tank(event: Event, page: BookPage) -> str | None:
    if event.kind_name != "moved":
        return None
    joined = _group_joined(event, page)
    if joined is None:
        return event.text("to")
    cells = page.cells_of(joined)
    return cells[0][1] if len(cells) == 1 else None


def _take(page: BookPage, cells: Sequence[Cell], count: Count) -> list[Sum] | None:
    """Share a number out over cells, none of which may fall below zero; None if impossible."""
    if not cells:
        return None
    if len(cells) == 1:
        taken = [page.unknowns.unknown(low=count.low, high=count.high)]
    else:
        taken = list(page.unknowns.share_out(number=len(cells), low=count.low, high=count.high))
    for cell, number in zip(cells, taken, strict=True):
        if not page.unknowns.require(page.number(cell).plus(number, -1), low=0):
            return None
    return taken


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
