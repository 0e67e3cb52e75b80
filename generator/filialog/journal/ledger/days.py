"""The events of one day: the order in which they are tried, and which hang together."""

from collections.abc import Iterable, Mapping, Sequence

from filialog.journal.events import Event, EventId, Parents, Part, Sorting
from filialog.journal.kinds import Books
from filialog.journal.ledger.cells import groups_meant, tank_left
from filialog.journal.ledger.page import BookPage

__all__ = ["counts_before", "independent_parts", "rank_of"]

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


def independent_parts(events: Sequence[Event], page: BookPage) -> list[list[Event]]:
    """Divide a day's events into those that share a group or a tank, in the order given."""
    parts: list[tuple[set[str], list[Event]]] = []
    for event in events:
        names = set(_names_in(event, page))
        together = [part for part in parts if part[0] & names]
        for part in together:
            parts.remove(part)
            names |= part[0]
        found = [event, *(one for part in together for one in part[1])]
        parts.append((names, found))
    position = {event.id: number for number, event in enumerate(events)}
    return [sorted(part, key=lambda event: position[event.id]) for _, part in parts]


def _names_in(event: Event, page: BookPage) -> Iterable[str]:
    """Name the groups and tanks an event speaks of, and the tanks where those groups are."""
    words: list[str] = []
    for value in event.values.values():
        for item in value if isinstance(value, tuple) else (value,):
            if isinstance(item, str):
                words.append(item)
            elif isinstance(item, Part | Sorting):
                words.append(item.group)
            elif isinstance(item, Parents):
                words.extend(item.groups)
    for word in words:
        if word in page.names.groups:
            yield f"group {word}"
            yield from (f"tank {tank}" for _, tank in page.all_cells(word))
        if word in page.names.tanks:
            yield f"tank {word}"
        yield from (f"group {group}" for group in page.names.lots.get(word, ()))
    yield f"tank {event.tank}"
