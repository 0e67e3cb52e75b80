"""Animals that were put together, for telling so of parents that were found in the book."""

from collections.abc import Iterable
from datetime import date

from filialog.journal.events import Event
from filialog.journal.parentage.breeders import Side
from filialog.journal.parentage.kin import Kin
from filialog.journal.parents import sides_of

__all__ = ["Pairings"]


class Pairings:
    """The pairings of a journal, by tank.

    A pairing leaves nobody out who was in the tank as well, or came later.
    """

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
        """Say whether each of some groups is, or was taken from, one that was put there."""
        put = set(_names(paired, side))
        return all(put & kin.before((group,)) for group in groups)


def _names(event: Event, side: Side) -> tuple[str, ...]:
    dams, sires = sides_of(event)
    return dams if side == "dams" else sires
