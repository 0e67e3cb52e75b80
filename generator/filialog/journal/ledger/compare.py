"""A count against the book: agreement narrows the bounds, a difference is booked openly."""

from collections.abc import Sequence

from filialog.findings.finding import Finding
from filialog.journal.events import Event
from filialog.journal.ledger.book import Cell, Difference, Posting
from filialog.journal.ledger.page import BookPage
from filialog.journal.ledger.refusals import Refusal, count_differs, nowhere, wrong_tank
from filialog.journal.ledger.unknowns import Sum
from filialog.journal.quantities import Count

__all__ = ["compare_with_count", "is_total", "number_counted"]


def number_counted(event: Event) -> Count | None:
    """Return how many animals a tally counted: its `count`, or all its classes together."""
    written = event.count()
    if written is not None:
        return written
    classes = [line.count for line in event.look_counts()]
    classes.extend(other.count for other in event.others())
    if (unsorted := event.count("unsorted")) is not None:
        classes.append(unsorted)
    if not classes:
        return None
    total = Count.of(0)
    for count in classes:
        total = total + count
    return total


def is_total(event: Event) -> bool:
    """Say whether a tally found all animals there were, not just so many at least."""
    return event.flag("all") or event.text("how") == "emptied"


def compare_with_count(event: Event, page: BookPage, *, accept: bool) -> Refusal | None:
    """Compare a tally with the book and take it up."""
    counted = number_counted(event)
    if counted is None:
        return None
    cells = _cells_counted(event, page)
    if isinstance(cells, Refusal):
        return cells
    if not cells:
        return None
    total = Sum.of(page.number(cell) for cell in cells)
    book = page.unknowns.bounds(total)
    high = counted.high if is_total(event) else None
    if book[1] is not None and counted.low > book[1]:
        if not accept:
            return Refusal(event=event, finding=_finding(event, page, cells, counted, book))
        _found(event, page, cells, counted, high=high, book=book)
    elif high is not None and book[0] > high:
        if not accept:
            return Refusal(event=event, finding=_finding(event, page, cells, counted, book))
        _missing(event, page, cells, counted, book=book)
    else:
        page.unknowns.require(total, low=counted.low, high=high)
    if len(cells) == 1 and high == counted.low:
        # An exact total makes a fresh start; a colony goes on breeding unrecorded.
        births = page.is_colony(cells[0][0])
        number = page.unknowns.unknown(low=0, high=None) if births else Sum()
        page.set_number(cells[0], number.plus(Sum(counted.low)), event)
    return None


def _cells_counted(event: Event, page: BookPage) -> tuple[Cell, ...] | Refusal:
    group = event.text("brood") or event.text("group")
    groups = (group,) if group is not None else event.names("of")
    if not groups:
        if event.tank is None:
            return ()
        cells = page.cells_in(event.tank)
        if event.flag("all-young"):
            cells = tuple(cell for cell in cells if page.is_young(cell[0]))
        return cells
    for name in groups:
        if not page.exists(name):
            return nowhere(event, page, name)
    if event.tank is not None:
        here = tuple((name, event.tank) for name in groups if page.possible((name, event.tank)))
        if here:
            return here
        elsewhere = tuple(cell for name in groups for cell in page.cells_of(name))
        if elsewhere:
            return wrong_tank(event, page, groups[0], tank=event.tank, there=elsewhere)
        return tuple((name, event.tank) for name in groups)
    cells = tuple(cell for name in groups for cell in page.cells_of(name))
    # A group with none left on the book can still be counted: then all are found.
    return cells or tuple(page.all_cells(groups[0])[-1:])


def _found(
    event: Event,
    page: BookPage,
    cells: Sequence[Cell],
    counted: Count,
    *,
    high: int | None,
    book: tuple[int, int | None],
) -> None:
    """Book animals that the count shows and the book lacks."""
    assert book[1] is not None
    least = counted.low - book[1]
    most = None if high is None else high - book[0]
    shares = page.unknowns.share_out(number=len(cells), low=least, high=most)
    for cell, share in zip(cells, shares, strict=True):
        page.set_number(cell, page.number(cell).plus(share), event)
    page.unknowns.require(Sum.of(page.number(cell) for cell in cells), low=counted.low, high=high)
    _note(event, page, cells, shares, found=True, counted=counted, book=book)


def _missing(
    event: Event,
    page: BookPage,
    cells: Sequence[Cell],
    counted: Count,
    *,
    book: tuple[int, int | None],
) -> None:
    """Book animals that the book has and a total count lacks."""
    assert counted.high is not None
    least = book[0] - counted.high
    most = None if book[1] is None else book[1] - counted.low
    shares = page.unknowns.share_out(number=len(cells), low=least, high=most)
    for cell, share in zip(cells, shares, strict=True):
        left = page.number(cell).plus(share, -1)
        page.unknowns.require(left, low=0)
        page.set_number(cell, left, event)
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
    book: tuple[int, int | None],
) -> None:
    groups = tuple(sorted({cell[0] for cell in cells}))
    colony = found and any(page.is_colony(group) for group in groups)
    page.add_finding(_finding(event, page, cells, counted, book))
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


def _finding(
    event: Event,
    page: BookPage,
    cells: Sequence[Cell],
    counted: Count,
    book: tuple[int, int | None],
) -> Finding:
    groups = sorted({cell[0] for cell in cells})
    what = ", ".join(f"`{group}`" for group in groups)
    colony = any(page.is_colony(group) for group in groups)
    return count_differs(event, what=what, counted=counted, book=book, colony=colony)
