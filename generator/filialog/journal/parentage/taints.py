"""Where an animal of another tank may have got in, and nobody has settled the matter."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from filialog.journal.events import Event

__all__ = ["Taint", "Taints", "settles"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Taint:
    """A tank whose animals may not all be those of the book."""

    event: Event
    tank: str
    other: str | None
    """The tank the stranger is of, where known."""
    first: date
    """First day on which a stranger can have bred there."""
    item: bool
    """True where equipment was moved, false where an animal may have been."""
    open: bool
    """False where the matter was settled."""


class Taints:
    """All taints of a journal, by tank."""

    def __init__(self, events: Iterable[Event], *, maturity_days: int) -> None:
        self._by_tank: dict[str, list[Taint]] = {}
        ordered = sorted(events, key=lambda event: (event.when.earliest, event.id))
        for one in (*_strays(ordered), *_moved_items(ordered, maturity_days)):
            self._by_tank.setdefault(one.tank, []).append(one)

    def of_tanks(
        self, tanks: Iterable[str], last: date, *, settled_too: bool = False
    ) -> tuple[Taint, ...]:
        """Return the taints of some tanks that can matter up to a day."""
        return tuple(
            one
            for tank in sorted(set(tanks))
            for one in self._by_tank.get(tank, ())
            if one.first <= last and (one.open or settled_too)
        )


def settles(later: Event, event: Event) -> bool:
    """Say whether an event settles a stray: the same tanks, on that day or later."""
    return (
        later.flag("cleared")
        and later.when.latest >= event.when.earliest
        and (later.text("to") or later.tank) == (event.text("to") or event.tank)
        and later.text("from") in {None, event.text("from")}
    )


def _strays(events: list[Event]) -> Iterator[Taint]:
    """Give every stray once for each of its tanks: a wet net carries both ways."""
    strayed = [event for event in events if event.kind_name == "strayed" and not event.withheld]
    for event in strayed:
        if event.flag("cleared"):
            continue
        into, out_of = event.text("to") or event.tank, event.text("from")
        is_open = not any(settles(one, event) for one in strayed)
        for tank, other in {into: out_of, out_of: into}.items():
            if tank is not None:
                yield Taint(
                    event=event,
                    tank=tank,
                    other=other if other != tank else None,
                    first=event.when.earliest,
                    item=False,
                    open=is_open,
                )


def _moved_items(events: list[Event], maturity_days: int) -> Iterator[Taint]:
    """Give equipment that was in another tank before: eggs or young may travel in it.

    What travels that way has to grow up before it can be a parent.
    """
    cleared = [event for event in events if event.kind_name == "strayed" and event.flag("cleared")]
    last_tank: dict[str, str] = {}
    for event in events:
        item = event.text("item")
        if event.kind_name not in ("fitted", "planted") or item is None or event.tank is None:
            continue
        before = last_tank.get(item)
        last_tank[item] = event.tank
        if before is None or before == event.tank or event.withheld:
            continue
        settled = any(
            (one.text("to") or one.tank) == event.tank
            and one.text("from") in {None, before}
            and one.when.latest >= event.when.earliest
            for one in cleared
        )
        yield Taint(
            event=event,
            tank=event.tank,
            other=before,
            first=event.when.earliest + timedelta(days=maturity_days),
            item=True,
            open=not settled,
        )
