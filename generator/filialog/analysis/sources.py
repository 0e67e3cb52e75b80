"""Nodes that read the journal itself: events by subject, mentions, pages."""

from collections.abc import Mapping

from filialog.analysis.nodes import NodeKind, Reader
from filialog.analysis.rows import Mention
from filialog.journal.events import Event
from filialog.journal.names import Origin, origins_of, references_of
from filialog.journal.records import LinkTarget

__all__ = ["EVENTS", "EVENTS_IN_TANK", "EVENTS_OF_GROUP", "MENTIONS", "ORIGINS"]


def _events(reader: Reader, _: str) -> tuple[Event, ...]:
    events = reader.journal("events").journal.events()
    return tuple(sorted(events, key=lambda event: (event.when.earliest, event.id)))


EVENTS: NodeKind[tuple[Event, ...]] = NodeKind("events", _events)
"""All events by day."""


def _by_group(reader: Reader, _: str) -> Mapping[str, tuple[Event, ...]]:
    found: dict[str, list[Event]] = {}
    for event in reader.get(EVENTS):
        names = {name for name, _ in references_of(event)}
        names |= {name for name, _ in origins_of(event)}
        if (source := event.text("from")) is not None:
            names.add(source)
        for name in names:
            found.setdefault(name, []).append(event)
    return {name: tuple(events) for name, events in found.items()}


_BY_GROUP: NodeKind[Mapping[str, tuple[Event, ...]]] = NodeKind("events-by-group", _by_group)


def _of_group(reader: Reader, group: str) -> tuple[Event, ...]:
    return reader.get(_BY_GROUP).get(group, ())


EVENTS_OF_GROUP: NodeKind[tuple[Event, ...]] = NodeKind("events-of-group", _of_group)
"""Events that name a group, by day."""


def _by_tank(reader: Reader, _: str) -> Mapping[str, tuple[Event, ...]]:
    found: dict[str, list[Event]] = {}
    for event in reader.get(EVENTS):
        tanks = {event.tank}
        if event.kind_name == "moved":
            tanks |= {event.text("to"), event.text("from")}
        for tank in tanks:
            if tank is not None:
                found.setdefault(tank, []).append(event)
    return {tank: tuple(events) for tank, events in found.items()}


_BY_TANK: NodeKind[Mapping[str, tuple[Event, ...]]] = NodeKind("events-by-tank", _by_tank)


def _in_tank(reader: Reader, tank: str) -> tuple[Event, ...]:
    return reader.get(_BY_TANK).get(tank, ())


EVENTS_IN_TANK: NodeKind[tuple[Event, ...]] = NodeKind("events-in-tank", _in_tank)
"""Events of a tank, and moves out of and into it, by day."""


def _origins(reader: Reader, group: str) -> tuple[Origin, ...]:
    return reader.journal(f"origins of {group}").names.origins.get(group, ())


ORIGINS: NodeKind[tuple[Origin, ...]] = NodeKind("origins", _origins)
"""How a group came into being."""


def _all_mentions(reader: Reader, _: str) -> Mapping[str, tuple[Mention, ...]]:
    """Collect the entries that speak of each thing: by event, by tank, or by a link."""
    found: dict[str, list[Mention]] = {}
    for entry in reader.journal("entries").journal.entries:
        by_event: dict[str, None] = dict.fromkeys(entry.tanks)
        for event in entry.events:
            by_event.update(dict.fromkeys(name for name, _ in references_of(event)))
            by_event.update(dict.fromkeys(name for name, _ in origins_of(event)))
            for key in ("from", "to"):
                if (name_or_none := event.text(key)) is not None:
                    by_event[name_or_none] = None
        linked = {
            link.name
            for section in entry.sections
            for link in section.prose.links
            if link.target is LinkTarget.NAME
        }
        for thing in sorted({*by_event, *linked}):
            found.setdefault(thing, []).append(
                Mention(entry=entry.id, when=entry.when, in_prose=thing in linked)
            )
    return {name: tuple(mentions) for name, mentions in found.items()}


_ALL_MENTIONS: NodeKind[Mapping[str, tuple[Mention, ...]]] = NodeKind("all-mentions", _all_mentions)


def _mentions(reader: Reader, name: str) -> tuple[Mention, ...]:
    return reader.get(_ALL_MENTIONS).get(name, ())


MENTIONS: NodeKind[tuple[Mention, ...]] = NodeKind("mentions", _mentions)
"""Entries that speak of a group, tank or line, by day."""
