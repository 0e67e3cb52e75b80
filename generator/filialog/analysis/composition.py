"""What each group is made of: animals bought, hatched, or taken from other groups.

One group can have gained animals in several ways; each way is a component with its share. The
compositions of all groups together are free of loops, so whoever follows them back ends.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from enum import Enum
from fractions import Fraction

from filialog.analysis.nodes import NodeKind, Reader
from filialog.analysis.parentage import BROOD
from filialog.analysis.rows import BroodRow
from filialog.analysis.sources import EVENTS, ORIGINS
from filialog.journal.events import Event, EventId, LookSeen
from filialog.journal.ledger import Book, Posting
from filialog.journal.names import Origin

__all__ = ["COMPOSITION", "PARTS", "Component", "Composition", "Way", "look_of_group"]


class Way(Enum):
    """How animals came into a group."""

    FOUNDED = "founded"
    """Bought or there at the beginning: nothing recorded lies before them."""
    HATCHED = "hatched"
    """They hatched here."""
    TAKEN = "taken"
    """They were sorted, chosen, moved or joined from another group."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Component:
    """The animals of a group that came into it in one way."""

    way: Way
    source: str | None
    """The group they were taken from."""
    look: str | None
    """The look they were bought or sorted as."""
    genotype: str | None
    """The genotype claimed for them when they were bought."""
    share: Fraction
    """Their share of all that ever came into the group."""
    events: tuple[EventId, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Composition:
    """Everything a group is made of."""

    components: tuple[Component, ...]
    """At least one; shares are together 1."""
    dams: tuple[str, ...]
    """Where animals hatched: the groups that can have been the dam."""
    sires: tuple[str, ...]
    numbers_known: bool
    """False where several components count alike because the book does not know their numbers."""
    returned: tuple[str, ...]
    """Groups it gained animals from that descend from itself; these are left out."""

    @property
    def sources(self) -> tuple[str, ...]:
        """The groups that animals were taken from."""
        return tuple(dict.fromkeys(one.source for one in self.components if one.source is not None))

    @property
    def behind(self) -> tuple[str, ...]:
        """All groups one step back: sources, dams and sires."""
        return tuple(dict.fromkeys((*self.sources, *self.dams, *self.sires)))


def _compositions(reader: Reader, _: str) -> Mapping[str, Composition]:
    groups = tuple(reader.journal("all groups").names.origins)
    drafts = {group: list(_components(reader, group)) for group in groups}
    broods = {group: row for group in groups if (row := reader.get(BROOD, group)) is not None}
    closing = _closing_links(reader, drafts, broods)
    found = {}
    for group in groups:
        kept = [one for one in drafts[group] if (group, one.source) not in closing]
        shared, known = _with_shares(reader.journal("book").book, group, kept)
        row = broods.get(group)
        dams, sires = (row.dams.groups, row.sires.groups) if row is not None else ((), ())
        found[group] = Composition(
            components=shared,
            dams=tuple(dam for dam in dams if (group, dam) not in closing),
            sires=tuple(sire for sire in sires if (group, sire) not in closing),
            numbers_known=known,
            returned=tuple(
                dict.fromkeys(
                    one.source
                    for one in drafts[group]
                    if one.source is not None and (group, one.source) in closing
                )
            ),
        )
    return found


_COMPOSITIONS: NodeKind[Mapping[str, Composition]] = NodeKind("compositions", _compositions)


def _composition(reader: Reader, group: str) -> Composition:
    return reader.get(_COMPOSITIONS)[group]


COMPOSITION: NodeKind[Composition] = NodeKind("composition", _composition)
"""What a group is made of."""


def _parts_by_source(reader: Reader, _: str) -> Mapping[str, tuple[str, ...]]:
    found: dict[str, list[str]] = {}
    for group, composition in reader.get(_COMPOSITIONS).items():
        for source in composition.sources:
            found.setdefault(source, []).append(group)
    return {source: tuple(groups) for source, groups in found.items()}


_PARTS_BY_SOURCE: NodeKind[Mapping[str, tuple[str, ...]]] = NodeKind(
    "parts-by-source", _parts_by_source
)


def _parts(reader: Reader, group: str) -> tuple[str, ...]:
    return reader.get(_PARTS_BY_SOURCE).get(group, ())


PARTS: NodeKind[tuple[str, ...]] = NodeKind("parts", _parts)
"""The groups that animals of a group went to."""


# --- what came into a group -----------------------------------------------------------------


def _components(reader: Reader, group: str) -> Iterator[Component]:
    """Give what came into a group, still without shares; alike things as one."""
    merged: dict[tuple[object, ...], Component] = {}
    for way, source, look, event in _gains(reader, group):
        genotype = event.text("genotype") if way is Way.FOUNDED else None
        key = (way, source, look, genotype)
        old = merged.get(key)
        merged[key] = Component(
            way=way,
            source=source,
            look=look,
            genotype=genotype,
            share=Fraction(0),
            events=(*(old.events if old else ()), event.id),
        )
    yield from merged.values()


def _gains(reader: Reader, group: str) -> Iterator[tuple[Way, str | None, str | None, Event]]:
    known = reader.journal("all groups").names.origins
    for origin in reader.get(ORIGINS, group):
        seen = _look_given(origin, group)
        look = seen.whole if seen is not None else None
        sources = origin.sources or _gave(reader, origin.event, group)
        if origin.event.kind_name == "hatched":
            yield Way.HATCHED, None, look, origin.event
        elif sources:
            for source in sources:
                if source in known and source != group:
                    yield Way.TAKEN, source, look, origin.event
        elif origin.from_tank is None:
            yield Way.FOUNDED, None, look, origin.event
    for event in reader.get(_MOVES_TO_GROUPS).get(group, ()):
        for source in _gave(reader, event, group):
            yield Way.TAKEN, source, None, event


def _moves_to_groups(reader: Reader, _: str) -> Mapping[str, tuple[Event, ...]]:
    """Find the moves whose `to` names a group that the animals join."""
    names = reader.journal("all groups").names
    found: dict[str, list[Event]] = {}
    for event in reader.get(EVENTS):
        target = event.text("to") if event.kind_name == "moved" else None
        if target in names.origins and target not in names.tanks and not event.has("as"):
            found.setdefault(target or "", []).append(event)
    return {group: tuple(events) for group, events in found.items()}


_MOVES_TO_GROUPS: NodeKind[Mapping[str, tuple[Event, ...]]] = NodeKind(
    "moves-to-groups", _moves_to_groups
)


def _gave(reader: Reader, event: Event, group: str) -> tuple[str, ...]:
    """Name the groups that the book has giving animals to a group in an event."""
    return tuple(
        dict.fromkeys(
            posting.group
            for posting in reader.get(_POSTINGS_BY_EVENT).get(event.id, ())
            if posting.other_group == group and not posting.gained
        )
    )


def _postings_by_event(reader: Reader, _: str) -> Mapping[EventId, tuple[Posting, ...]]:
    found: dict[EventId, list[Posting]] = {}
    for postings in reader.journal("book").book.postings.values():
        for posting in postings:
            found.setdefault(posting.event, []).append(posting)
    return {event: tuple(postings) for event, postings in found.items()}


_POSTINGS_BY_EVENT: NodeKind[Mapping[EventId, tuple[Posting, ...]]] = NodeKind(
    "postings-by-event", _postings_by_event
)


def _look_given(origin: Origin, group: str) -> LookSeen | None:
    """Return the look that one origin gives a group; none that rests on a withheld event."""
    if origin.event.withheld:
        return None
    if origin.event.kind_name != "sorted":
        return origin.event.look()
    return next((one.look for one in origin.event.sortings() if one.group == group), None)


def look_of_group(reader: Reader, group: str) -> LookSeen | None:
    """Return the look a group was bought or sorted as, else the one its page gives it."""
    for origin in reader.get(ORIGINS, group):
        if (look := _look_given(origin, group)) is not None:
            return look
    page = reader.journal(f"page of {group}").journal.groups.get(group)
    return LookSeen(whole=page.look) if page is not None and page.look is not None else None


# --- loops, and shares ----------------------------------------------------------------------


def _closing_links(
    reader: Reader, drafts: Mapping[str, list[Component]], broods: Mapping[str, BroodRow]
) -> frozenset[tuple[str, str | None]]:
    """Find the links that would make a group its own ancestor: of every loop the latest.

    Young that go back to their parents make one: before that the parents' group had none of
    them, and what it was then is what the brood came from.
    """
    days = {event.id: event.when.latest for event in reader.get(EVENTS)}
    links = [
        (min((days[event], event) for event in one.events), group, one.source)
        for group, components in drafts.items()
        for one in components
        if one.source is not None
    ]
    for group, row in broods.items():
        hatched = (row.when.latest, row.event)
        links.extend((hatched, group, one) for one in (*row.dams.groups, *row.sires.groups))
    back: dict[str, list[str]] = {}
    has_young: set[str] = set()
    closing: set[tuple[str, str | None]] = set()
    for _, group, source in sorted(links):
        if group in has_young and _descends(source, group, back):
            closing.add((group, source))
            continue
        back.setdefault(group, []).append(source)
        has_young.add(source)
    return frozenset(closing)


def _descends(group: str, ancestor: str, back: Mapping[str, list[str]]) -> bool:
    seen = {group}
    stack = [group]
    while stack:
        name = stack.pop()
        if name == ancestor:
            return True
        new = [source for source in back.get(name, ()) if source not in seen]
        seen.update(new)
        stack.extend(new)
    return False


def _with_shares(
    book: Book, group: str, components: list[Component]
) -> tuple[tuple[Component, ...], bool]:
    """Give each component its share: by number where the book knows all, else each alike."""
    if not components:
        # Netted from a tank that the book knows nothing in.
        return (_of_nothing(),), True
    if len(components) == 1:
        return (replace(components[0], share=Fraction(1)),), True
    numbers = [_number(book, group, one) for one in components]
    known = [number for number in numbers if number is not None]
    whole = sum(known)
    if len(known) < len(numbers) or whole == 0:
        alike = Fraction(1, len(components))
        return tuple(replace(one, share=alike) for one in components), False
    return tuple(
        replace(one, share=Fraction(number, whole))
        for one, number in zip(components, known, strict=True)
        if number > 0
    ), True


def _of_nothing() -> Component:
    return Component(
        way=Way.FOUNDED, source=None, look=None, genotype=None, share=Fraction(1), events=()
    )


def _number(book: Book, group: str, component: Component) -> int | None:
    """Return how many animals came in one way, where that is known exactly."""
    taken = component.source is not None
    changes = [
        posting.change
        for posting in book.postings.get(component.source or group, ())
        if posting.event in component.events
        and posting.gained is not taken
        and (posting.other_group == group or not taken)
    ]
    if len(changes) < len(component.events):
        return None
    numbers = [book.count(change).exact for change in changes if change is not None]
    return None if None in numbers else sum(number for number in numbers if number is not None)
