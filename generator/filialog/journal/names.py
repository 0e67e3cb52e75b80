"""Which groups and tanks a journal knows, and which event brought each group into being."""

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass

from filialog.findings.finding import Place
from filialog.journal.events import Event
from filialog.journal.kinds import Books
from filialog.journal.records import Journal

__all__ = ["Names", "Origin", "names_of", "origins_of", "references_of"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Origin:
    """One way a group came into being, or gained animals."""

    event: Event
    sources: tuple[str, ...]
    """Groups its animals came from; empty where they came from outside or hatched."""
    from_tank: str | None = None
    """The tank animals were netted from, where no group was named."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Names:
    """The names a journal's events and pages may use."""

    origins: Mapping[str, tuple[Origin, ...]]
    """Groups in order of first mention, each with its origins by first possible day."""
    tanks: frozenset[str]
    """Tanks with a page; where no tank has one, every tank named."""
    lines: frozenset[str]
    lots: Mapping[str, tuple[str, ...]]
    """The groups of each lot on offer."""

    @property
    def groups(self) -> frozenset[str]:
        """All groups."""
        return frozenset(self.origins)


def names_of(journal: Journal) -> Names:
    """Collect the names of a journal."""
    origins: dict[str, list[Origin]] = {}
    events = sorted(journal.events(), key=lambda event: (event.when.earliest, event.id))
    for event in events:
        for group, origin in origins_of(event):
            origins.setdefault(group, []).append(origin)
    tanks = set(journal.tanks)
    for name, found in origins.items():
        origins[name] = [_told_apart(origin, groups=origins, tanks=tanks) for origin in found]
    if not tanks:
        tanks = {name for event in events for name, _ in _tanks_named(event)}
        tanks |= {tank for entry in journal.entries for tank in entry.tanks}
    return Names(
        origins={name: tuple(found) for name, found in origins.items()},
        tanks=frozenset(tanks),
        lines=frozenset(journal.lines),
        lots=_lots(events),
    )


def _lots(events: Iterable[Event]) -> dict[str, tuple[str, ...]]:
    lots: dict[str, tuple[str, ...]] = {}
    for event in events:
        lot = event.text("lot")
        group = event.text("group")
        groups = (group,) if group is not None else event.names("of")
        if lot is not None and groups:
            lots.setdefault(lot, groups)
    return lots


def origins_of(event: Event) -> Iterator[tuple[str, Origin]]:
    """Name the groups an event brings into being or adds animals to."""
    key = _NEW_GROUP_KEY.get(event.kind_name)
    if event.kind_name == "sorted":
        origin = Origin(event=event, sources=_sources(event))
        for sorting in event.sortings():
            yield sorting.group, origin
    elif key is not None and (group := event.text(key)) is not None:
        sources = () if event.kind.books is Books.APPEARS else _sources(event)
        netted = None if sources or event.kind_name != "moved" else event.text("from") or event.tank
        yield group, Origin(event=event, sources=sources, from_tank=netted)


_NEW_GROUP_KEY = {
    "present": "group",
    "bought": "group",
    "hatched": "brood",
    "chosen": "into",
    "joined": "into",
    "moved": "as",
}
"""The key that names the group an event brings into being, by kind."""


def _sources(event: Event) -> tuple[str, ...]:
    """Name the groups that an event takes animals from, as far as it says."""
    if parts := event.parts():
        return tuple(part.group for part in parts)
    named = event.text("group") if event.kind_name == "moved" else _source_named(event)
    return (named,) if named is not None else event.names("of")


def _source_named(event: Event) -> str | None:
    return event.text("from") or event.text("group")


def _told_apart(origin: Origin, *, groups: Mapping[str, object], tanks: Collection[str]) -> Origin:
    """Read the `from` of a move as a group where it names one and no tank."""
    name = origin.from_tank
    if name is None or name in tanks or name not in groups:
        return origin
    return Origin(event=origin.event, sources=(name,))


def references_of(event: Event) -> Iterator[tuple[str, Place]]:
    """Name the groups an event speaks of that must exist already, with where they stand."""
    new = {name for name, _ in origins_of(event)}
    founding = event.kind_name in ("present", "bought")
    for key in ("group", "animal", "brood"):
        name = event.text(key)
        if name and not (founding or (key == "brood" and event.kind_name == "hatched")):
            yield name, event.place_of(key)
    if event.kind_name in ("sorted", "chosen") and (name := event.text("from")):
        yield name, event.place_of("from")
    for name in event.names("of"):
        yield name, event.place_of("of")
    for key in ("dams", "sires"):
        parents = event.parents(key)
        for name in parents.groups if parents else ():
            yield name, event.place_of(key)
    for part in event.parts():
        if part.group not in new:
            yield part.group, event.place_of("parts")


def _tanks_named(event: Event) -> Iterator[tuple[str, Place]]:
    """Name the tanks an event speaks of outright."""
    if event.tank is not None:
        yield event.tank, event.place_of("tank")
    if event.kind_name == "moved" and (name := event.text("to")):
        yield name, event.place_of("to")
    if event.kind_name == "strayed":
        for key in ("from", "to"):
            if name := event.text(key):
                yield name, event.place_of(key)
