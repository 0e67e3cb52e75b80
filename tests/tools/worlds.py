"""What can have happened, world by world: the slow way to the numbers of the book.

A world is one way in which everything that a diary leaves open can have gone: a whole number
for every count, and a tank and a group for every animal taken. All worlds are followed through
the events one after another; those that a later event rules out are dropped. What is left gives
the least and the most of every number. Nothing here is shared with the program but the records
that events are made of.

An event leaves the worlds as they were, and is *refused*, where no world has room for it. A
count that no world agrees with is a fact all the same: every world is corrected by its own gap.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from datetime import date
from itertools import product

from filialog.journal.events import Event
from filialog.journal.quantities import Count

__all__ = ["TooManyWorldsError", "Worlds"]

Cell = tuple[str, str | None]
State = dict[Cell, int]

_SOME = Count(low=1, high=None, text="some")


class TooManyWorldsError(Exception):
    """There are more worlds than can be followed in a test."""


def _shares(most: Sequence[int], total: int) -> Iterator[tuple[int, ...]]:
    """Give every way to take `total` out of places that hold so many at most."""
    if not most:
        if total == 0:
            yield ()
        return
    for first in range(min(most[0], total) + 1):
        for rest in _shares(most[1:], total - first):
            yield (first, *rest)


@dataclass(frozen=True)
class Trail:
    """One world: its numbers after every event."""

    states: tuple[tuple[tuple[Cell, int], ...], ...] = ((),)

    @property
    def now(self) -> State:
        return dict(self.states[-1])

    def then(self, state: State) -> "Trail":
        cells = sorted(state, key=_cell_order)
        frozen = tuple((cell, state[cell]) for cell in cells if state[cell])
        return Trail((*self.states, frozen))


def _cell_order(cell: Cell) -> tuple[str, str]:
    return (cell[0], cell[1] or "")


@dataclass
class Worlds:
    """All worlds of a diary, event by event."""

    tanks: tuple[str, ...]
    cap: int
    """Most animals that an open count is taken to be."""
    most_worlds: int = 4_000
    trails: set[Trail] = field(default_factory=lambda: {Trail()})
    days: list[date] = field(default_factory=list)
    """The day of every event followed."""
    refused: list[Event] = field(default_factory=list)
    differences: list[tuple[Event, int, Count | None]] = field(default_factory=list)
    """A fact that no world agreed with, its position, and the gap where it changed no number."""
    known: dict[Cell, None] = field(default_factory=dict)
    """Every cell that ever was, in order."""
    closed: set[str] = field(default_factory=set)
    open_ended: bool = False
    """True where the cap cut an open count off."""

    # --- following an event

    def follow(self, event: Event, day: date) -> None:
        """Take all worlds through an event."""
        self.days.append(day)
        after = None
        if not self._is_closed(event):
            after = getattr(self, f"_{event.kind_name}")(event)
        if after is None:
            self.refused.append(event)
            after = {trail.then(trail.now) for trail in self.trails}
        if len(after) > self.most_worlds:
            raise TooManyWorldsError
        self.trails = after
        for trail in after:
            for cell, _ in trail.states[-1]:
                self.known.setdefault(cell)

    def _is_closed(self, event: Event) -> bool:
        """Say whether an event needs a tank that was taken down and holds none found later."""
        if event.kind_name in ("counted", "closed"):
            return False
        if event.text("to") in self.closed:
            return True
        source = event.text("from")
        left = source if source in self.tanks else event.tank
        if left not in self.closed:
            return False
        return event.kind_name in ("present", "bought", "hatched") or not self._cells_in(left)

    def _numbers(self, count: Count, most: int) -> range:
        high = count.high
        if high is None:
            high = max(self.cap, count.low)
            self.open_ended |= most > high
        return range(count.low, min(high, most) + 1)

    def _possible(self, cell: Cell) -> bool:
        return any(trail.now.get(cell, 0) for trail in self.trails)

    def _cells_of(self, group: str) -> list[Cell]:
        return [cell for cell in self.known if cell[0] == group and self._possible(cell)]

    def _cells_in(self, tank: str | None) -> list[Cell]:
        return [cell for cell in self.known if cell[1] == tank and self._possible(cell)]

    def _present(self, event: Event) -> set[Trail]:
        group = event.text("brood") or event.text("group")
        assert group is not None
        cell = (group, event.tank)
        self.known.setdefault(cell)
        after = set()
        for trail in self.trails:
            for number in self._numbers(event.count() or _SOME, 10**6):
                state = trail.now
                state[cell] = state.get(cell, 0) + number
                after.add(trail.then(state))
        return after

    _bought = _present
    _hatched = _present

    def _taken(
        self, cells: Sequence[Cell], count: Count | None, targets: Sequence[Cell] | None
    ) -> set[Trail]:
        """Take animals out of cells in every way there is, and put them into targets."""
        after = set()
        for trail in self.trails:
            there = [trail.now.get(cell, 0) for cell in cells]
            if count is None:
                ways: Iterable[tuple[int, ...]] = (tuple(there),)
            else:
                ways = (
                    way
                    for number in self._numbers(count, sum(there))
                    for way in _shares(there, number)
                )
            for way in ways:
                state = trail.now
                for cell, number in zip(cells, way, strict=True):
                    state[cell] = state.get(cell, 0) - number
                for cell, number in zip(targets or (), way, strict=False):
                    state[cell] = state.get(cell, 0) + number
                after.add(trail.then(state))
        return after

    def _named_cells(self, groups: Sequence[str], tank: str | None) -> list[Cell]:
        if tank is None:
            return [cell for group in groups for cell in self._cells_of(group)]
        return [(group, tank) for group in groups if self._possible((group, tank))]

    def _died(self, event: Event) -> set[Trail] | None:
        group = event.text("group")
        groups = (group,) if group else event.names("of")
        count = event.count() or _SOME
        if groups:
            cells = self._named_cells(groups, event.tank)
            return (self._taken(cells, count, None) if cells else None) or None
        cells = self._cells_in(event.tank)
        most = max(sum(trail.now.get(cell, 0) for cell in cells) for trail in self.trails)
        if most < count.low:
            gap = Count.of(count.low - most)
            self.differences.append((event, len(self.days) - 1, gap))
            count = Count(low=most, high=most, text="")
        return self._taken(cells, count, None)

    _sold = _died
    _culled = _died

    def _moved(self, event: Event) -> set[Trail] | None:
        group, source = event.text("group"), event.text("from")
        groups = (group,) if group else event.names("of")
        if groups:
            cells = self._named_cells(groups, source if source in self.tanks else event.tank)
        elif source is not None and source not in self.tanks:
            cells = self._named_cells((source,), event.tank)
        else:
            cells = self._cells_in(source or event.tank)
        new, to = event.text("as"), event.text("to")
        targets = [(new or cell[0], to or cell[1]) for cell in cells]
        return (self._taken(cells, event.count(), targets) if cells else None) or None

    def _sorted(self, event: Event) -> set[Trail] | None:
        source = event.text("from") or event.text("group")
        assert source is not None
        wanted = [(sorting.group, sorting.count or _SOME) for sorting in event.sortings()]
        if event.kind_name == "chosen":
            wanted = [(event.text("into") or source, event.count() or _SOME)]
        cells = self._named_cells((source,), event.tank)
        before, after = self.trails, self.trails
        for group, count in wanted:
            targets = [(group, cell[1]) for cell in cells]
            # Each new group is a step of its own; only the last one leaves a trail.
            self.trails = {Trail((*old.states[: len(self.days)], old.states[-1])) for old in after}
            after = self._taken(cells, count, targets) if cells else set()
        self.trails = before
        return {Trail((*new.states[: len(self.days)], new.states[-1])) for new in after} or None

    _chosen = _sorted

    def _joined(self, event: Event) -> set[Trail] | None:
        into = event.text("into")
        assert into is not None
        parts: list[tuple[list[Cell], Count | None]] = []
        for part in event.parts():
            cells = self._named_cells((part.group,), event.tank) or self._cells_of(part.group)
            if not cells:
                return None
            if part.group == into:
                continue
            parts.append((cells, part.count))
        places = {cell[1] for cells, _ in parts for cell in cells}
        tank = event.tank or (places.pop() if len(places) == 1 else None)
        after = set()
        for trail in self.trails:
            now = trail.now
            ways = [
                [
                    way
                    for number in (
                        (sum(now.get(cell, 0) for cell in cells),)
                        if count is None
                        else self._numbers(count, 10**6)
                    )
                    for way in _shares([now.get(cell, 0) for cell in cells], number)
                ]
                for cells, count in parts
            ]
            total = event.count()
            for choice in product(*ways):
                number = sum(map(sum, choice))
                if total and not total.low <= number <= (total.high or 10**6):
                    continue
                state = dict(now)
                for (cells, _), way in zip(parts, choice, strict=True):
                    for cell, taken in zip(cells, way, strict=True):
                        state[cell] = state.get(cell, 0) - taken
                state[into, tank] = state.get((into, tank), 0) + number
                after.add(trail.then(state))
        return after or None

    def _closed(self, event: Event) -> set[Trail]:
        assert event.tank is not None
        self.closed.add(event.tank)
        return {
            trail.then({cell: n for cell, n in trail.now.items() if cell[1] != event.tank})
            for trail in self.trails
        }

    def _cells_counted(self, event: Event) -> list[Cell] | None:
        group = event.text("group") or event.text("brood")
        if group is None:
            ever = [cell for cell in self.known if cell[1] == event.tank]
            return self._cells_in(event.tank) or ever
        if not any(cell[0] == group for cell in self.known):
            return None
        if event.tank is None:
            return self._cells_of(group) or [cell for cell in self.known if cell[0] == group]
        if self._possible((group, event.tank)):
            return [(group, event.tank)]
        return None if self._cells_of(group) else [(group, event.tank)]

    def _counted(self, event: Event) -> set[Trail] | None:
        counted = event.count()
        cells = self._cells_counted(event)
        if counted is None or cells is None:
            return None
        total = event.text("how") == "emptied" or event.flag("all")
        high = counted.high if total else None

        def there(trail: Trail) -> int:
            return sum(trail.now.get(cell, 0) for cell in cells)

        agree = {
            trail.then(trail.now)
            for trail in self.trails
            if counted.low <= there(trail) and (high is None or there(trail) <= high)
        }
        if not agree and not cells:
            known = Count(low=counted.low, high=high, text="")
            self.differences.append((event, len(self.days) - 1, known))
            return {trail.then(trail.now) for trail in self.trails}
        if agree:
            return agree
        self.open_ended |= high is None
        after = set()
        limit = high if high is not None else counted.low + self.cap
        for trail in self.trails:
            for number in range(counted.low, limit + 1):
                gap = number - there(trail)
                room = [abs(gap) if gap > 0 else trail.now.get(cell, 0) for cell in cells]
                for way in _shares(room, abs(gap)):
                    state = trail.now
                    for cell, share in zip(cells, way, strict=True):
                        state[cell] = state.get(cell, 0) + (share if gap > 0 else -share)
                    after.add(trail.then(state))
        self.differences.append((event, len(self.days) - 1, None))
        return after

    # --- looking back

    def bounds(self, cells: Iterable[Cell], day: date) -> tuple[int, int]:
        """Return the least and the most that the cells hold together at the end of a day."""
        wanted = set(cells)
        position = sum(1 for one in self.days if one <= day)
        found = {
            sum(n for cell, n in trail.states[position] if cell in wanted) for trail in self.trails
        }
        return min(found), max(found)

    def gap(self, position: int) -> tuple[int, int]:
        """Return the least and the most that an event added in all cells together."""
        found = {sum(self._changes(trail, position).values()) for trail in self.trails}
        return min(found), max(found)

    def _changes(self, trail: Trail, number: int) -> State:
        """Return what an event changed in one world."""
        before, after = dict(trail.states[number]), dict(trail.states[number + 1])
        cells = {*before, *after}
        return {cell: after.get(cell, 0) - before.get(cell, 0) for cell in cells}

    def bounds_with_windows(
        self,
        cells: Iterable[Cell],
        day: date,
        windows: Sequence[tuple[int, date]],
        *,
        feasible: bool,
    ) -> tuple[int, int]:
        """Return the same where events with an open window may have happened already.

        `windows` gives the number of an event and the first day on which it can have happened.
        With `feasible`, it is put earlier only in worlds where no cell falls below zero from then
        until its own day; without, wherever it lowers or raises the number.
        """
        wanted = set(cells)
        position = sum(1 for one in self.days if one <= day)
        open_now = [number for number, first in windows if first <= day and self.days[number] > day]
        found: list[int] = []
        for trail in self.trails:
            changes = [self._changes(trail, number) for number in open_now]
            for chosen in product((False, True), repeat=len(open_now)):
                taken = [
                    (number, change)
                    for number, change, take in zip(open_now, changes, chosen, strict=True)
                    if take
                ]
                stands = dict(trail.states[position])
                number = sum(n for cell, n in stands.items() if cell in wanted)
                number += sum(
                    n for _, change in taken for cell, n in change.items() if cell in wanted
                )
                if not feasible or self._holds(trail, position, taken):
                    found.append(max(number, 0))
        return min(found), max(found)

    def _holds(self, trail: Trail, position: int, taken: Sequence[tuple[int, State]]) -> bool:
        """Say whether events can have happened by an earlier event than they are booked at."""
        for at in range(position, len(trail.states)):
            state = dict(trail.states[at])
            for number, change in taken:
                if number >= at:
                    for cell, n in change.items():
                        state[cell] = state.get(cell, 0) + n
            if any(n < 0 for n in state.values()):
                return False
        return True

    @property
    def cells(self) -> list[Cell]:
        """Every cell there ever was."""
        return sorted(self.known, key=_cell_order)
