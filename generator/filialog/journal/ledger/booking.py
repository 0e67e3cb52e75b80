"""From events to the book: every event is posted on its day, in an order of the day that works.

Order inside a day means nothing in a diary, so an event is refused only where no order of its
day works. An event with a window of days is booked on the last of them, or on the first where
the last does not work; in between the bounds cover both cases.
"""

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from itertools import groupby

from filialog.findings.finding import Finding
from filialog.journal.events import Event, EventId
from filialog.journal.kinds import Books
from filialog.journal.ledger.book import Book
from filialog.journal.ledger.days import DayOrder, counts_before, rank_of
from filialog.journal.ledger.page import BookPage
from filialog.journal.ledger.posts import REOPENING, post
from filialog.journal.names import Names, origins_of, references_of
from filialog.journal.records import Journal

__all__ = ["keep_book"]

_MOST_POSTS = 4_000
"""Postings that are tried to find an order of a day before an event is refused; enough for every
order of six events that hang together."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Refused:
    """An event that works in no order of its day."""

    event: Event
    finding: Finding
    follows: bool = False
    """True where it was refused only because something before it was: one cause, one finding."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Kept:
    """One way to keep the book."""

    page: BookPage
    refused: tuple[_Refused, ...]


def keep_book(
    journal: Journal, names: Names, *, as_of: date, skip: frozenset[EventId] = frozenset()
) -> tuple[Book, tuple[Finding, ...]]:
    """Keep the book of a journal up to a day; events in `skip` were reported elsewhere."""
    events = [
        event
        for event in journal.events()
        if (event.kind.books is not Books.NOTHING or event.kind_name in REOPENING)
        and event.when.earliest <= as_of
    ]
    maturity = journal.species.earliest_maturity_days if journal.species else None

    def keep(early: Collection[EventId]) -> _Kept:
        page = BookPage(
            names=names,
            maturity_days=maturity,
            places={event.id: event.place for event in events},
        )
        for event in events:
            if event.id in skip:
                _mark_uncertain(event, page)
        booked = [event for event in events if event.id not in skip]
        return _Kept(page=page, refused=_book_all(booked, page, early=early, as_of=as_of))

    kept = _with_windows(events, keep)
    page = kept.page
    findings = (refused.finding for refused in kept.refused if not refused.follows)
    return page.finish(), (*page.findings, *findings)


def _with_windows(events: Sequence[Event], keep: Callable[[Collection[EventId]], _Kept]) -> _Kept:
    """Book events with a window on their last day, or on the first where that works better."""
    early: frozenset[EventId] = frozenset()
    kept = keep(early)
    while kept.refused:
        stuck = {refusal.event.id for refusal in kept.refused}
        days = [refusal.event.when for refusal in kept.refused]
        # What is stuck may itself have happened earlier, or want something else to have.
        wanted = frozenset(
            event.id
            for event in events
            if event.when.exact is None
            and event.id not in early
            and (
                event.id in stuck
                or any(event.when.earliest <= when.latest < event.when.latest for when in days)
            )
        )
        if not wanted:
            break
        retried = keep(early | wanted)
        if len(retried.refused) >= len(kept.refused):
            break
        early, kept = early | wanted, retried
    return kept


def _book_all(
    events: Sequence[Event], page: BookPage, *, early: Collection[EventId], as_of: date
) -> tuple[_Refused, ...]:
    def booking_day(event: Event) -> date:
        return event.when.earliest if event.id in early else min(event.when.latest, as_of)

    ordered = sorted(events, key=lambda event: (booking_day(event), event.id))
    refused: list[_Refused] = []
    for day, found in groupby(ordered, key=booking_day):
        for one in _book_day(list(found), page, day):
            refused.append(replace(one, follows=_follows(one.event, page)))
            _mark_uncertain(one.event, page)
    return tuple(refused)


def _book_day(events: list[Event], page: BookPage, day: date) -> list[_Refused]:
    """Post a day's events in an order that works; return what works in no order."""
    page.begin(day)
    if len(events) > 1:
        events.sort(key=rank_of)
    mark = page.mark()
    if not _post_what_goes(events, page, counts_before(events, page)):
        return []
    page.return_to(mark)
    order = DayOrder(events, page)
    return [refusal for part in order.parts() for refusal in _book_part(part, page, order)]


def _book_part(events: Sequence[Event], page: BookPage, order: DayOrder) -> list[_Refused]:
    """Do the same for those events of a day that hang together."""
    mark = page.mark()
    first = counts_before(events, page)
    stuck = {event.id for event in _post_what_goes(events, page, first)}
    if not stuck:
        return []
    # What is stuck may only be stuck because of what was posted before it.
    page.return_to(mark)
    if _post_in_some_order(events, page, first, order, left=[_MOST_POSTS]):
        return []
    # What was left over by the day's sorting may be what was counted. An open book would agree
    # with any count, so it confirms none.
    if first and _post_in_some_order(events, page, {}, order, left=[_MOST_POSTS], bounded=True):
        return []
    # A fact that fits in no order differs from the book: it is compared before tanks are cleared.
    refused = _accept_facts(events, page, stuck, first)
    if refused and first:
        page.return_to(mark)
        refused = _accept_facts(events, page, stuck, {})
    return refused


def _accept_facts(
    events: Sequence[Event],
    page: BookPage,
    stuck: Collection[EventId],
    first: Mapping[EventId, Collection[EventId]],
) -> list[_Refused]:
    """Post what goes, taking facts that are stuck as they are; return what still does not go."""
    facts = {*stuck} | {count for counts in first.values() for count in counts}
    ordered = sorted(events, key=lambda event: rank_of(event, differs=event.id in facts))
    waiting = _post_what_goes(ordered, page, first, accept=facts)
    # What is stuck is told of by the book as it is after everything that goes.
    refusals = [post(event, page, accept=event.id in facts) for event in waiting]
    return [
        _Refused(event=refusal.event, finding=refusal.tell())
        for refusal in refusals
        if refusal is not None
    ]


def _post_what_goes(
    events: Iterable[Event],
    page: BookPage,
    first: Mapping[EventId, Collection[EventId]],
    *,
    accept: Collection[EventId] = (),
) -> list[Event]:
    """Post again and again what can be posted; return what is stuck.

    `first` names what must be posted before an event is.
    """
    waiting = list(events)
    while waiting:
        left = {event.id for event in waiting}
        stuck = []
        for event in waiting:
            held = any(one in left for one in first.get(event.id, ()))
            if held or post(event, page, accept=event.id in accept) is not None:
                stuck.append(event)
            else:
                left.discard(event.id)
        if len(stuck) == len(waiting):
            return stuck
        waiting = stuck
    return []


def _post_in_some_order(
    events: Sequence[Event],
    page: BookPage,
    first: Mapping[EventId, Collection[EventId]],
    order: DayOrder,
    *,
    left: list[int],
    bounded: bool = False,
    last: Event | None = None,
) -> bool:
    """Post events in the first order in which all of them can be posted, if there is one.

    `last` was posted right before: what comes to the same before it was tried before it.
    """
    if not events:
        return True
    mark = page.mark()
    waiting = {event.id for event in events}
    for position, event in enumerate(events):
        if any(one in waiting for one in first.get(event.id, ())):
            continue
        earlier = last is not None and rank_of(event) < rank_of(last)
        if earlier and last is not None and order.same_either_way(event, last):
            continue
        if left[0] <= 0:
            return False
        left[0] -= 1
        rest = (*events[:position], *events[position + 1 :])
        if post(event, page, bounded=bounded) is None and _post_in_some_order(
            rest, page, first, order, left=left, bounded=bounded, last=event
        ):
            return True
        page.return_to(mark)
    return False


# One cause, one finding


def _follows(event: Event, page: BookPage) -> bool:
    """Say whether an event lacks what another that could not be booked would have brought."""
    named = _groups_named(event)
    if named:
        return bool(page.uncertain_groups & named)
    return bool({event.tank, event.text("from")} & page.uncertain_tanks)


def _groups_named(event: Event) -> set[str]:
    named = {name for name, _ in references_of(event)}
    named.update(source for _, origin in origins_of(event) for source in origin.sources)
    if event.kind_name == "moved" and (source := event.text("from")) is not None:
        named.add(source)
    return named


def _mark_uncertain(event: Event, page: BookPage) -> None:
    """Note what an event that is not booked would have brought, and where."""
    if event.kind.books in (Books.LEAVES, Books.COUNTS, Books.CLOSES, Books.NOTHING):
        return
    page.uncertain_groups.update(name for name, _ in origins_of(event))
    target = event.text("to") or event.tank
    if event.kind.books is Books.MOVES:
        page.uncertain_groups.update(event.names("of"), event.names("group"))
    if target is not None:
        page.uncertain_tanks.add(target)
