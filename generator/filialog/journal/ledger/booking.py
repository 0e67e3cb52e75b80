"""From events to the book: every event is posted on its day, in an order of the day that works.

Order inside a day means nothing in a diary, so a day is refused only where no order of its
events works. An event with a window of days is booked on the last of them, or on the first
where the last does not work; in between the bounds cover both cases.
"""

from collections.abc import Iterable, Sequence
from datetime import date
from itertools import groupby, permutations

from filialog.findings.finding import Finding
from filialog.journal.events import Event, EventId
from filialog.journal.kinds import Books
from filialog.journal.ledger.book import Book
from filialog.journal.ledger.page import BookPage
from filialog.journal.ledger.posts import REOPENING, post
from filialog.journal.ledger.refusals import Refusal
from filialog.journal.names import Names
from filialog.journal.records import Journal

__all__ = ["keep_book"]

_MOST_PERMUTED = 6
"""Events of a day that are tried in every order before one is refused (720 orders)."""

_RANK = {
    Books.APPEARS: 0,
    Books.COUNTS: 1,
    Books.SORTS: 2,
    Books.MOVES: 3,
    Books.LEAVES: 4,
    Books.JOINS: 5,
    Books.CLOSES: 8,
    Books.NOTHING: 9,
}
_RANK_OF_REST = 7
"""Moving or joining all that is left comes after what was taken out of it."""


def keep_book(
    journal: Journal, names: Names, *, as_of: date, skip: frozenset[EventId] = frozenset()
) -> tuple[Book, tuple[Finding, ...]]:
    """Keep the book of a journal up to a day; events in `skip` were reported elsewhere."""
    events = [
        event
        for event in journal.events()
        if (event.kind.books is not Books.NOTHING or event.kind_name in REOPENING)
        and event.id not in skip
        and event.when.earliest <= as_of
    ]
    places = {event.id: event.place for event in events}
    early: set[EventId] = set()
    while True:
        page = BookPage(names=names, maturity_days=_maturity(journal), places=places)
        refused = _book_all(events, page, early=early, as_of=as_of)
        retry = {
            refusal.event.id
            for refusal in refused
            if refusal.event.when.exact is None and refusal.event.id not in early
        }
        if not retry:
            return page.finish(), (*page.findings, *(refusal.finding for refusal in refused))
        early |= retry


def _maturity(journal: Journal) -> int | None:
    return journal.species.earliest_maturity_days if journal.species else None


def _book_all(
    events: Sequence[Event], page: BookPage, *, early: set[EventId], as_of: date
) -> tuple[Refusal, ...]:
    def booking_day(event: Event) -> date:
        return event.when.earliest if event.id in early else min(event.when.latest, as_of)

    ordered = sorted(events, key=lambda event: (booking_day(event), event.id))
    refused: list[Refusal] = []
    for day, found in groupby(ordered, key=booking_day):
        refused.extend(_book_day(list(found), page, day))
    return tuple(refused)


def _book_day(events: list[Event], page: BookPage, day: date) -> list[Refusal]:
    """Post a day's events in an order that works; return what works in no order."""
    page.begin(day)
    by_rank = sorted(events, key=_rank)
    mark = page.mark()
    waiting = _post_what_goes(by_rank, page)
    if not waiting:
        return []
    # What is stuck may only be stuck because of what was posted before it.
    if len(events) <= _MOST_PERMUTED and len(waiting) < len(events):
        for order in permutations(by_rank):
            page.return_to(mark)
            if all(post(event, page) is None for event in order):
                return []
    # A count that fits in no order differs from the book: it is compared where it ranks.
    page.return_to(mark)
    waiting = _post_what_goes(by_rank, page, accept=True)
    return [refusal for event in waiting if (refusal := post(event, page, accept=True)) is not None]


def _post_what_goes(
    events: Iterable[Event], page: BookPage, *, accept: bool = False
) -> list[Event]:
    """Post again and again what can be posted; return what is stuck."""
    waiting = list(events)
    while waiting:
        stuck = [event for event in waiting if post(event, page, accept=accept) is not None]
        if len(stuck) == len(waiting):
            return stuck
        waiting = stuck
    return []


def _rank(event: Event) -> tuple[int, EventId]:
    books = event.kind.books
    takes_rest = books in (Books.MOVES, Books.JOINS) and not any(
        event.has(key) for key in ("count", "females", "males", "young")
    )
    return (_RANK_OF_REST if takes_rest else _RANK[books], event.id)
