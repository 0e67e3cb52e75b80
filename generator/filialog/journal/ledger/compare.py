"""A count against the book: agreement narrows the bounds, a difference is booked openly."""

from collections.abc import Sequence

from filialog.findings.finding import Finding
from filialog.journal.events import Event
from filialog.journal.ledger.book import Cell, Difference, Posting
from filialog.journal.ledger.cells import SOME, amount_of, sum_of
from filialog.journal.ledger.page import BookPage
from filialog.journal.ledger.refusals import Refusal, count_differs, nowhere, wrong_tank
from filialog.journal.ledger.unknowns import Bounds, Sum
from filialog.journal.quantities import Count

__all__ = ["compare_with_count", "find_left_behind", "is_total", "number_counted"]


def number_counted(event: Event) -> Count | None:
    """Return how many animals a tally counted: its `count`, or all its classes together."""
    classes = [line.count for line in event.look_counts()]
    classes.extend(other.count for other in event.others())
    return event.count() or sum_of((*classes, event.count("unsorted")))


def is_total(event: Event) -> bool:
    """Say whether a tally found all animals there were, not just so many at least."""
    return event.flag("all") or event.text("how") == "emptied"


def compare_with_count(
    event: Event, page: BookPage, *, accept: bool, bounded: bool
) -> Refusal | None:
    """Compare a tally with the book and take it up."""
    counted = number_counted(event)
    if counted is None:
        return None
    cells = _cells_counted(event, page)
    if isinstance(cells, Refusal):
        return cells
    total = Sum.of(page.number(cell) for cell in cells)
    high = counted.high if is_total(event) else None
    open_book = bounded and page.unknowns.greatest(total) is None
    if open_book or not page.unknowns.require(total, low=counted.low, high=high):

        def tell() -> Finding:
            book = page.unknowns.bounds(total)
            colony = any(page.is_colony(cell[0]) for cell in cells)
            groups = _groups(cells)
            return count_differs(event, groups=groups, counted=counted, book=book, colony=colony)

        if open_book or not accept:
            return Refusal(event=event, tell=tell)
        book = page.unknowns.bounds(total)
        if not page.unknowns.can_reach(total, counted.low, sure=True):
            _found(event, page, cells, counted, high=high, book=book)
        else:
            _missing(event, page, cells, counted, book=book)
    if len(cells) == 1 and high == counted.low:
        page.set_number(cells[0], Sum(counted.low), event)  # a fresh start
    else:
        for cell in cells:
            if page.is_colony(cell[0]):
                page.set_number(cell, page.number(cell), event)  # it breeds on from here
    return None


def find_left_behind(event: Event, page: BookPage, tank: str, groups: Sequence[str]) -> None:
    """Book animals that an event takes from a tank in which some were left when it was closed."""
    cells = [cell for cell in page.all_cells_in(tank) if not groups or cell[0] in groups]
    if cells and not any(page.possible(cell) for cell in cells):
        counted = amount_of(event) or SOME
        _found(event, page, cells, counted, high=counted.high, book=(0, 0))


def _groups(cells: Sequence[Cell]) -> tuple[str, ...]:
    return tuple(sorted({cell[0] for cell in cells}))


def _cells_counted(event: Event, page: BookPage) -> tuple[Cell, ...] | Refusal:
    group = event.text("brood") or event.text("group")
    groups = (group,) if group is not None else event.names("of")
    if not groups:
        if event.tank is None:
            return ()
        young = event.flag("all-young")
        # Where the book has none, those that are counted are of a group that once was there.
        return tuple(
            cell
            for cell in page.cells_in(event.tank) or page.all_cells_in(event.tank)
            if not young or page.is_young(cell[0])
        )
    for name in groups:
        if not page.exists(name):
            return nowhere(event, page, name)
    if event.tank is None:
        there = tuple(cell for name in groups for cell in page.cells_of(name))
        return there or tuple(cell for name in groups for cell in page.all_cells(name))
    here = tuple((name, event.tank) for name in groups)
    possible = tuple(cell for cell in here if page.possible(cell))
    if possible:
        return possible
    elsewhere = tuple(cell for name in groups for cell in page.cells_of(name))
    if elsewhere:
        return wrong_tank(event, page, groups[0], tank=event.tank, there=elsewhere)
    return here


def _found(
    event: Event,
    page: BookPage,
    cells: Sequence[Cell],
    counted: Count,
    *,
    high: int | None,
    book: Bounds,
) -> None:
    """Book animals that the count shows and the book lacks."""
    # Where no number of the book agrees although its bounds do, there is at least one more.
    least = 1 if book[1] is None else max(counted.low - book[1], 1)
    most = None if high is None else high - book[0]
    if not cells:
        number = page.unknowns.unknown(low=least, high=most)
        _note(event, page, cells, (number,), found=True, counted=counted, book=book)
        return
    shares = page.unknowns.share_out(number=len(cells), low=least, high=most)
    for cell, share in zip(cells, shares, strict=True):
        page.set_number(cell, page.number(cell).plus(share), event)
    page.unknowns.require(Sum.of(page.number(cell) for cell in cells), low=counted.low, high=high)
    _note(event, page, cells, shares, found=True, counted=counted, book=book)


def _missing(
    event: Event, page: BookPage, cells: Sequence[Cell], counted: Count, *, book: Bounds
) -> None:
    """Book animals that the book has and a total count lacks."""
    assert counted.high is not None
    # Where no number of the book agrees although its bounds do, at least one is missing.
    least = max(book[0] - counted.high, 1)
    most = None if book[1] is None else book[1] - counted.low
    shares = page.unknowns.take([page.number(cell) for cell in cells], low=least, high=most)
    assert shares is not None, "the book has more than were counted"
    for cell, share in zip(cells, shares, strict=True):
        page.set_number(cell, page.number(cell).plus(share, -1), event)
    page.unknowns.require(
        Sum.of(page.number(cell) for cell in cells), low=counted.low, high=counted.high
    )
    _note(event, page, cells, shares, found=False, counted=counted, book=book)


def _note(
    event: Event,
    page: BookPage,
    cells: Sequence[Cell],
    shares: Sequence[Sum],
    *,
    found: bool,
    counted: Count,
    book: Bounds,
) -> None:
    groups = _groups(cells)
    colony = found and any(page.is_colony(group) for group in groups)
    if not page.uncertain_groups.intersection(groups) and event.tank not in page.uncertain_tanks:
        page.add_finding(
            count_differs(event, groups=groups, counted=counted, book=book, colony=colony)
        )
    page.add_difference(
        Difference(
            event=event.id,
            groups=groups,
            tank=event.tank,
            number=Sum.of(shares),
            found=found,
            colony=colony,
        )
    )
    for group in groups:
        change = Sum.of(
            share for cell, share in zip(cells, shares, strict=True) if cell[0] == group
        )
        page.add_posting(
            Posting(
                event=event.id,
                when=event.when,
                kind_name=event.kind_name,
                group=group,
                tank=event.tank,
                to_tank=None,
                other_group=None,
                change=change,
                gained=found,
                after=page.total(group),
                shared_with=tuple(name for name in groups if name != group),
                unaccounted=True,
            )
        )
