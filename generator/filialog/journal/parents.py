"""Which parents the keeper named for each brood, outright or through the name of a cross."""

from collections.abc import Mapping
from dataclasses import dataclass

from filialog.journal.events import Event
from filialog.journal.names import Names
from filialog.journal.records import Journal

__all__ = ["NamedCross", "NamedParents", "named_crosses", "named_parents", "sides_of"]


@dataclass(frozen=True, slots=True, kw_only=True)
class NamedCross:
    """A cross that the keeper gave a name, or put together without one."""

    name: str | None
    dams: tuple[str, ...]
    """Empty where not named."""
    sires: tuple[str, ...]
    """Empty where not named."""
    event: Event
    """The pairing or hatching that names the parents."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NamedParents:
    """The parents of a brood, as far as the keeper named them."""

    brood: str
    hatched: Event
    """The first hatching of the brood."""
    cross: str | None
    dams: tuple[str, ...]
    sires: tuple[str, ...]
    events: tuple[Event, ...]
    """The hatching, and the pairing that names the parents."""


def named_crosses(journal: Journal) -> Mapping[str, NamedCross]:
    """Return the crosses that have a name, by name; the first event that says more wins."""
    crosses: dict[str, NamedCross] = {}
    for event in sorted(journal.events(), key=lambda event: (event.when.earliest, event.id)):
        name = event.text("cross")
        if name is None or event.kind_name not in ("paired", "hatched"):
            continue
        dams, sires = sides_of(event)
        known = crosses.get(name)
        if known is None:
            crosses[name] = NamedCross(name=name, dams=dams, sires=sires, event=event)
        elif (dams and not known.dams) or (sires and not known.sires):
            crosses[name] = NamedCross(
                name=name, dams=known.dams or dams, sires=known.sires or sires, event=event
            )
    return crosses


def sides_of(event: Event) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return the dams and the sires an event names; a group alone is paired within itself."""
    dams = event.parents("dams")
    sires = event.parents("sires")
    if dams is None and sires is None and event.kind_name == "paired":
        group = event.text("group")
        within = (group,) if group is not None else event.names("of")
        return within, within
    return (dams.groups if dams else ()), (sires.groups if sires else ())


def named_parents(journal: Journal, names: Names) -> Mapping[str, NamedParents]:
    """Return the named parents of every brood, in order of hatching."""
    crosses = named_crosses(journal)
    found: dict[str, NamedParents] = {}
    for brood, origins in names.origins.items():
        hatched = next((one.event for one in origins if one.event.kind_name == "hatched"), None)
        if hatched is None:
            continue
        dams, sires = sides_of(hatched)
        name = hatched.text("cross")
        cross = crosses.get(name) if name is not None else None
        events = [hatched]
        if cross is not None:
            if (cross.dams and not dams) or (cross.sires and not sires):
                events.append(cross.event)
            dams, sires = dams or cross.dams, sires or cross.sires
        found[brood] = NamedParents(
            brood=brood,
            hatched=hatched,
            cross=name,
            dams=dams,
            sires=sires,
            events=tuple(events),
        )
    return found
