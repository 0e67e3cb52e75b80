"""Named parents that the book rules out, with the entry that does it."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from filialog.journal.events import Event, EventId
from filialog.journal.ledger import Book, Posting
from filialog.journal.parentage.breeders import Side
from filialog.journal.parentage.candidates import STORED_DAYS, Dam, Evidence
from filialog.journal.parentage.kin import Kin
from filialog.journal.parentage.taints import Taints
from filialog.journal.parentage.windows import LONGEST_DAYS, hatching_of
from filialog.journal.parents import NamedParents

__all__ = ["RuledOut", "Search", "ruled_out"]

_GRACE_DAYS = 14
"""Days by which every window is widened before the keeper's word is doubted; our own choice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RuledOut:
    """The parents a keeper named on one side, none of which can have been it."""

    side: Side
    groups: tuple[str, ...]
    first: date
    """First and last day on which one of them had to be there."""
    last: date
    tanks: tuple[str, ...]
    """The tanks where one of them had to be; empty where any would have done."""
    elsewhere: tuple[str, ...]
    """The tanks they were in at that time; empty where none was on the book."""
    event: Event | None
    """The entry that speaks against it: what took them away, or brought them elsewhere."""
    gone: bool
    """True where that entry takes them away, false where it is what brought them later."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Search:
    """What the search is made in."""

    evidence: Evidence
    kin: Kin
    taints: Taints
    book: Book
    events: Mapping[EventId, Event]


def ruled_out(
    search: Search,
    named: NamedParents,
    *,
    side: Side,
    groups: tuple[str, ...],
    dams: Sequence[Dam],
) -> RuledOut | None:
    """Return the named parents of a side if the book rules out all of them."""
    hatched = named.hatched
    if hatched.withheld:
        return None
    hatching = hatching_of(hatched)
    last = hatching.last
    first = hatching.first - timedelta(days=_GRACE_DAYS)
    tanks = {hatched.tank}
    if side == "sires":
        first = hatching.first - timedelta(days=LONGEST_DAYS + STORED_DAYS)
        if dams:
            first = min(dam.window.first for dam in dams) - timedelta(days=STORED_DAYS)
            last = max(dam.window.last for dam in dams) + timedelta(days=1)
        tanks = {spell.cell[1] for dam in dams for spell in dam.spells} or {None}
    kin = search.kin.of(groups)
    places = _places(search, kin, first, last)
    anywhere = None in tanks
    # Where animals of unknown place are, nothing is ruled out.
    if None in places or (places if anywhere else places & tanks):
        return None
    if search.taints.of_tanks((tank for tank in tanks if tank is not None), last, settled_too=True):
        return None
    here = (hatched.tank,) if hatched.tank is not None else ()
    if search.taints.of_tanks(here, hatching.last, settled_too=True):
        return None  # an outsider may have hatched these young
    event, gone = _against(search, groups, last)
    if side == "sires" and not gone and (not dams or any(dam.from_outside for dam in dams)):
        return None  # the eggs can be older than the book of these animals
    return RuledOut(
        side=side,
        groups=groups,
        first=first,
        last=last,
        tanks=() if anywhere else tuple(sorted(tank for tank in tanks if tank is not None)),
        elsewhere=tuple(
            sorted(tank for tank in _places(search, groups, first, last) if tank is not None)
        ),
        event=event,
        gone=gone,
    )


def _places(search: Search, groups: Iterable[str], first: date, last: date) -> set[str | None]:
    """Return the tanks in which some groups can have had animals, None among them."""
    occupancy = search.evidence.occupancy
    found: set[str | None] = set()
    for group in groups:
        cells = occupancy.cells_of(group)
        if not cells and group not in search.book.postings:
            found.add(None)  # the book knows nothing of it
        found |= {cell[1] for cell in cells if occupancy.stay(cell, first, last) is not None}
    return found


def _against(search: Search, groups: tuple[str, ...], last: date) -> tuple[Event | None, bool]:
    """Return the last entry that took the groups away, else the first that brought them later."""
    every: list[Posting] = [
        posting
        for group in groups
        for posting in search.book.postings.get(group, ())
        if (event := search.events.get(posting.event)) is not None and not event.withheld
    ]
    before = [one for one in every if one.when.earliest <= last and (not one.gained or one.to_tank)]
    brought = [one for one in every if one.when.earliest <= last and one.gained]
    later = [one for one in every if one.when.latest > last and one.gained]
    if before:
        newest = max(before, key=lambda one: (one.when.latest, one.event))
        return search.events[newest.event], True
    if brought:
        newest = max(brought, key=lambda one: (one.when.latest, one.event))
        return search.events[newest.event], False
    if later:
        oldest = min(later, key=lambda one: (one.when.earliest, one.event))
        return search.events[oldest.event], False
    return None, False
