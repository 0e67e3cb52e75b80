"""The events of one day: the order in which they are tried, and which hang together."""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from filialog.journal.events import Event, EventId, Parents, Part, Sorting
from filialog.journal.kinds import Books
from filialog.journal.ledger.cells import groups_meant, tank_left
from filialog.journal.ledger.page import BookPage

__all__ = ["DayOrder", "counts_before", "rank_of"]

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
_RANK_OF_DIFFERENCE = 6
_RANK_OF_REST = 7
"""Moving or joining all that is left comes after what was taken out of it."""

_FACTS = (Books.COUNTS, Books.LEAVES)


def rank_of(event: Event, *, differs: bool = False) -> tuple[int, str, EventId]:
    """Return the key by which a day's events are tried.

    What stands in an event comes before where it stands, so that another order of writing changes
    nothing; only events that say the same are told apart by their place.
    """
    books = event.kind.books
    if differs and books in _FACTS:
        rank = _RANK_OF_DIFFERENCE
    elif books in (Books.MOVES, Books.JOINS) and not any(
        event.has(key) for key in ("count", "females", "males", "young")
    ):
        rank = _RANK_OF_REST
    else:
        rank = _RANK[books]
    says = sorted((key, repr(value)) for key, value in event.values.items())
    return (rank, f"{event.kind_name} {event.tank} {event.when.text} {says}", event.id)


def counts_before(events: Sequence[Event], page: BookPage) -> Mapping[EventId, frozenset[EventId]]:
    """Return the counts that come before each event that takes out of what was counted.

    Animals are counted in the tray, then sorted out of it: the number counted is the number
    before the sorting, unless the day only works the other way round.
    """
    counts = [event for event in events if event.kind.books is Books.COUNTS]
    found: dict[EventId, frozenset[EventId]] = {}
    for event in events if counts else ():
        if event.kind.books not in _TAKES:
            continue
        taken = set(_groups_taken(event, page))
        tank = tank_left(event, page)
        before = frozenset(
            count.id
            for count in counts
            if (count.tank is None or tank is None or count.tank == tank)
            and (not (named := _groups_counted(count)) or not taken or named & taken)
        )
        if before:
            found[event.id] = before
    return found


_TAKES = (Books.SORTS, Books.MOVES, Books.JOINS)


def _groups_taken(event: Event, page: BookPage) -> Iterable[str]:
    """Name the groups that an event takes animals out of; none where only a tank is named."""
    if parts := event.parts():
        return [part.group for part in parts]
    if groups := groups_meant(event, page):
        return groups
    source = event.text("from")
    return () if source is None or source in page.names.tanks else (source,)


def _groups_counted(event: Event) -> frozenset[str]:
    group = event.text("brood") or event.text("group")
    return frozenset((group,) if group is not None else event.names("of"))


class DayOrder:
    """Which of a day's events bear on one another."""

    def __init__(self, events: Sequence[Event], page: BookPage) -> None:
        self._events = events
        self._groups: dict[EventId, frozenset[str]] = {}
        self._tanks: dict[EventId, frozenset[str | None]] = {}
        for event in events:
            words = frozenset(_words_in(event))
            lots = {group for word in words for group in page.names.lots.get(word, ())}
            groups = (words & page.names.groups) | lots
            cells = (cell for group in groups for cell in page.all_cells(group))
            self._groups[event.id] = groups
            self._tanks[event.id] = frozenset(
                {event.tank, *(words & page.names.tanks), *(tank for _, tank in cells)}
            )

    def parts(self) -> list[list[Event]]:
        """Divide the events into those that hang together, each in the order given."""
        parts: list[list[Event]] = []
        for event in self._events:
            together = [part for part in parts if any(self._bear(event, one) for one in part)]
            parts = [part for part in parts if part not in together]
            parts.append([*(one for part in together for one in part), event])
        position = {event.id: number for number, event in enumerate(self._events)}
        return [sorted(part, key=lambda event: position[event.id]) for part in parts]

    def same_either_way(self, event: Event, other: Event) -> bool:
        """Say whether two events, one right after the other, come to the same in both orders."""
        books = event.kind.books
        return (books is other.kind.books and books in _COME_TO_THE_SAME) or not self._bear(
            event, other
        )

    def _bear(self, event: Event, other: Event) -> bool:
        """Say whether two events can bear on one another: a group of both, or all of a tank."""
        if self._groups[event.id] & self._groups[other.id]:
            return True
        wide = self._is_wide(event) or self._is_wide(other)
        return wide and bool(self._tanks[event.id] & self._tanks[other.id])

    def _is_wide(self, event: Event) -> bool:
        """Say whether an event speaks of a tank as a whole."""
        return (
            event.kind.books in (Books.CLOSES, Books.NOTHING)
            or event.tank is None
            or not self._groups[event.id]
        )


_COME_TO_THE_SAME = (Books.APPEARS, Books.COUNTS, Books.LEAVES)


def _words_in(event: Event) -> Iterator[str]:
    """Give the names an event speaks of, and other words."""
    for value in event.values.values():
        for item in value if isinstance(value, tuple) else (value,):
            if isinstance(item, str):
                yield item
            elif isinstance(item, Part | Sorting):
                yield item.group
            elif isinstance(item, Parents):
                yield from item.groups
