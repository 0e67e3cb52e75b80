"""What was found on the way to a set of parents, as its grounds."""

from collections.abc import Iterable, Sequence

from filialog.journal.events import Event, EventId
from filialog.journal.ledger.book import Cell
from filialog.journal.parentage.candidates import Dam, Met
from filialog.journal.parentage.claims import Ground, GroundKind

__all__ = ["bounds", "moves", "nowhere", "put_together", "tanks_of"]


def tanks_of(dams: Sequence[Dam]) -> tuple[str, ...]:
    """Return the tanks dams can have conceived in without having been moved since."""
    found = {spell.cell[1] for dam in dams for spell in dam.spells if not spell.loose}
    return tuple(sorted(tank for tank in found if tank is not None))


def bounds(dams: Sequence[Dam]) -> list[Ground]:
    """Return the grounds of the window, as far as they hold for all dams."""
    shared = [one for one in dams[0].grounds if all(one in dam.grounds for dam in dams[1:])]
    days = [
        one for dam in dams for one in dam.grounds
        if one.kind in (GroundKind.BY_SPECIES, GroundKind.BY_TEMPERATURE)
    ]  # fmt: skip
    if not any(one in shared for one in days):
        low, high = zip(*(one.days for one in days if one.days is not None), strict=True)
        measured = all(one.kind is GroundKind.BY_TEMPERATURE for one in days)
        shared.insert(
            0,
            Ground(
                kind=GroundKind.BY_TEMPERATURE if measured else GroundKind.BY_SPECIES,
                days=(min(low), max(high)),
                events=tuple(dict.fromkeys(event for one in days for event in one.events)),
            ),
        )
    return shared


def moves(met: Sequence[Met], loose: tuple[str, ...]) -> list[Ground]:
    """Return the moves by which a dam left the tank of a sire."""
    found: dict[tuple[GroundKind, EventId], set[str]] = {}
    for one in met:
        move = one.spell.left_by
        if move is None:
            continue
        if one.loose and one.group in loose:
            found.setdefault((GroundKind.MOVED_UNBERRIED, move.event.id), set()).add(one.group)
        elif move.berried:
            found.setdefault((GroundKind.MOVED_BERRIED, move.event.id), set()).add(one.group)
    return [
        Ground(kind=kind, groups=tuple(sorted(groups)), events=(event,))
        for (kind, event), groups in sorted(found.items())
    ]


def put_together(paired: Event) -> Ground:
    """Return a pairing as a ground."""
    return Ground(kind=GroundKind.PUT_TOGETHER, first=paired.when.earliest, events=(paired.id,))


def nowhere(cells: Iterable[Cell]) -> list[Ground]:
    """Return the groups of unknown place as a ground, if there are any."""
    groups = tuple(sorted({group for group, tank in cells if tank is None}))
    return [Ground(kind=GroundKind.PLACE_UNKNOWN, groups=groups)] if groups else []
