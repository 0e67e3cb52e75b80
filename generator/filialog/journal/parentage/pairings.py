"""Animals that were put together: who of them is still there, and who came since."""

from collections.abc import Iterable, Mapping
from datetime import date

from filialog.journal.events import Event
from filialog.journal.ledger.book import Cell
from filialog.journal.parentage.breeders import Side
from filialog.journal.parentage.candidates import Evidence
from filialog.journal.parentage.kin import Kin
from filialog.journal.parents import sides_of

__all__ = ["Pairings"]


class Pairings:
    """The pairings of a journal, by tank."""

    def __init__(self, events: Iterable[Event]) -> None:
        self._by_tank: dict[str, list[Event]] = {}
        for event in events:
            if event.kind_name == "paired" and event.tank is not None:
                self._by_tank.setdefault(event.tank, []).append(event)

    def before(self, hatched: Event, side: Side, last: date) -> Event | None:
        """Return the last pairing in the tank of a hatching that can have led to it."""
        found = [
            event
            for event in self._by_tank.get(hatched.tank or "", ())
            if event.when.earliest <= last and _names(event, side)
        ]
        return max(found, key=lambda event: (event.when.latest, event.id), default=None)

    def meant(self, paired: Event, side: Side, groups: Iterable[str], kin: Kin) -> bool:
        """Say whether one of some groups is, or was taken from, one that was put there."""
        put = set(_names(paired, side))
        return any(put & kin.before((group,)) for group in groups)

    def still(
        self,
        paired: Event,
        side: Side,
        places: Mapping[str, Cell],
        *,
        evidence: Evidence,
        kin: Kin,
    ) -> frozenset[str]:
        """Return of some candidates those put together, and those that came or grew up since.

        All of them where none of those put together is left: then the pairing says nothing.
        """
        put = set(_names(paired, side))
        first, last = paired.when.earliest, paired.when.latest
        meant, later = set(), set()
        for group, cell in places.items():
            if put & kin.before((group,)):
                meant.add(group)
            elif cell[1] != paired.tank or not self._was_there(evidence, cell, side, first, last):
                later.add(group)
        return frozenset(meant | later) if meant else frozenset(places)

    @staticmethod
    def _was_there(evidence: Evidence, cell: Cell, side: Side, first: date, last: date) -> bool:
        return evidence.occupancy.stay(
            cell, first, last
        ) is not None and evidence.breeders.can_breed(cell[0], side, first=first, last=last)


def _names(event: Event, side: Side) -> tuple[str, ...]:
    dams, sires = sides_of(event)
    return dams if side == "dams" else sires
