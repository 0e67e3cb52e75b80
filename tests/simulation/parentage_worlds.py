"""Every way in which what the records of a few tanks leave open can have gone.

A world says from which group an unnamed body was, who was in the net, which sex the unsexed have.
Animals are followed as classes of group, tank, recorded sex and birth.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from simulation.tank_records import Record

__all__ = ["Class", "State", "TooManyWorldsError", "World", "worlds_of"]

_OPEN = 30
"""Animals that an open count is taken to be."""


class TooManyWorldsError(Exception):
    """There are more worlds than can be followed in a test."""


@dataclass(frozen=True, slots=True, order=True)
class Class:
    """Animals that the records do not tell apart."""

    group: str
    tank: str
    sex: str
    """`f`, `m` or `u` for not recorded."""
    born: int
    """Number of the record of the birth, -1 for bought animals."""


State = dict[Class, int]
_Flow = dict[tuple[Class, Class | None], int]
"""How many animals went from a class to a class, None for those that died."""


@dataclass(frozen=True)
class World:
    """One way in which everything went: the numbers before and after each booked record."""

    states: tuple[State, ...]
    flows: tuple[_Flow, ...]

    @cached_property
    def before(self) -> tuple[dict[Class, list[Class]], ...]:
        """For each record, the classes that a class came from."""
        found: list[dict[Class, list[Class]]] = []
        for flow in self.flows:
            table: dict[Class, list[Class]] = {}
            for source, target in flow:
                if target is not None:
                    table.setdefault(target, []).append(source)
            found.append(table)
        return tuple(found)

    @cached_property
    def can_be(self) -> dict[str, tuple[frozenset[Class], ...]]:
        """For each sex, the classes of each state with a member that never turns out otherwise."""
        found: dict[str, tuple[frozenset[Class], ...]] = {}
        for sex in "fm":
            sets: list[frozenset[Class]] = []
            after: frozenset[Class] | None = None
            for number in range(len(self.states) - 1, -1, -1):
                fitting = {one for one in self.states[number] if one.sex in (sex, "u")}
                if after is not None:
                    flow = self.flows[number]
                    fitting &= {
                        source for source, target in flow if target is None or target in after
                    }
                after = frozenset(fitting)
                sets.append(after)
            found[sex] = tuple(reversed(sets))
        return found


def _shares(most: Sequence[int], total: int) -> Iterator[tuple[int, ...]]:
    """Give every way to take `total` out of places that hold so many at most."""
    if not most:
        if total == 0:
            yield ()
        return
    for first in range(min(most[0], total) + 1):
        for rest in _shares(most[1:], total - first):
            yield (first, *rest)


def _takings(
    state: State, classes: Sequence[Class], *, count: int | None, females: int | None = None
) -> Iterator[dict[tuple[Class, str], int]]:
    """Give every way to take animals: how many of each class, and the sex they turn out to have.

    With `females`, exactly so many are female and the rest male; without, nothing is learnt.
    """
    there = [state[one] for one in classes]
    if females is None:
        ways = [tuple(there)] if count is None else list(_shares(there, count))
        for way in ways:
            yield {(one, one.sex): n for one, n in zip(classes, way, strict=True) if n}
        return
    total = sum(there) if count is None else count
    hers = [n if one.sex in "fu" else 0 for one, n in zip(classes, there, strict=True)]
    for way in _shares(hers, females):
        left = [
            n - taken if one.sex in "mu" else 0
            for one, n, taken in zip(classes, there, way, strict=True)
        ]
        for other in _shares(left, total - females):
            found = {(one, "f"): n for one, n in zip(classes, way, strict=True) if n}
            found |= {(one, "m"): n for one, n in zip(classes, other, strict=True) if n}
            yield found


def _flow(
    state: State, taken: dict[tuple[Class, str], Class | None], numbers: Sequence[int]
) -> _Flow:
    """Return a flow of some animals to new classes; all others stay."""
    left, flow = dict(state), _Flow()
    for ((source, _), target), number in zip(taken.items(), numbers, strict=True):
        left[source] -= number
        flow[source, target] = flow.get((source, target), 0) + number
    for one, number in left.items():
        if number:
            flow[one, one] = flow.get((one, one), 0) + number
    return flow


def _within(state: State, group: str | None, tank: str) -> list[Class]:
    return sorted(one for one in state if group in (None, one.group) and one.tank == tank)


def _taken_from(state: State, record: Record) -> list[Class]:
    """Return the classes of a record that names a group, some groups or none."""
    found = _within(state, record.group, record.tank)
    return [one for one in found if not record.of or one.group in record.of]


def _appearing(record: Record, number: int) -> State:
    assert record.group is not None
    most = record.high if record.high is not None else _OPEN
    females, males = record.females or 0, record.males or 0
    born = number if record.kind == "hatched" else -1
    found = {
        Class(record.group, record.tank, sex, born): count
        for sex, count in (("f", females), ("m", males), ("u", most - females - males))
    }
    return {one: count for one, count in found.items() if count > 0}


def _flows(state: State, record: Record) -> Iterator[_Flow]:
    """Give every way in which animals can have gone at a record that takes or renames some."""
    if record.kind == "died":
        classes = _taken_from(state, record)
        for way in _takings(state, classes, count=record.low):
            yield _flow(state, dict.fromkeys(way), list(way.values()))
    elif record.kind == "moved":
        assert record.to is not None
        classes = _taken_from(state, record)
        females = record.females
        if record.berried and females is None:
            females = 1
        for way in _takings(state, classes, count=record.low, females=females):
            to: dict[tuple[Class, str], Class | None] = {
                (one, sex): Class(record.new or one.group, record.to, sex, one.born)
                for one, sex in way
            }
            yield _flow(state, to, list(way.values()))
    else:
        steps = record.shares
        named: list[tuple[str | None, str | None, int | None, int | None, int | None]]
        if record.kind == "sorted":
            named = [(record.group, one.group, one.count, one.females, one.males) for one in steps]
        else:
            named = [(one.group, record.new, one.count, None, None) for one in steps]
        partial: list[tuple[State, dict[tuple[Class, str], tuple[Class, int]]]] = [
            (dict(state), {})
        ]
        for source, into, count, hers, his in named:
            assert into is not None
            after = []
            for left, gone in partial:
                classes = [one for one in _within(left, source, record.tank) if left[one]]
                females = hers if hers is not None or his is None or count is None else count - his
                for way in _takings(left, classes, count=count, females=females):
                    rest, more = dict(left), dict(gone)
                    for (one, sex), number in way.items():
                        rest[one] -= number
                        target = Class(into, record.tank, sex, one.born)
                        more[one, f"{sex}{into}"] = (target, number)
                    after.append((rest, more))
            partial = after
        for _, gone in partial:
            targets: dict[tuple[Class, str], Class | None] = {
                key: target for key, (target, _) in gone.items()
            }
            yield _flow(state, targets, [number for _, number in gone.values()])


def worlds_of(booked: Sequence[Record], most: int) -> list[World]:
    """Return every world of the booked records."""
    found: list[tuple[tuple[State, ...], tuple[_Flow, ...]]] = [(({},), ())]
    for number, record in enumerate(booked):
        after = []
        for states, flows in found:
            now = states[-1]
            if record.kind in ("bought", "hatched"):
                ways: Iterator[_Flow] = iter([{(one, one): n for one, n in now.items()}])
                new = _appearing(record, number)
            else:
                ways, new = _flows(now, record), {}
            for flow in ways:
                state = dict(new)
                for (_, target), count in flow.items():
                    if target is not None:
                        state[target] = state.get(target, 0) + count
                after.append(((*states, state), (*flows, flow)))
            if len(after) > most:
                raise TooManyWorldsError
        found = after
    return [World(states, flows) for states, flows in found]
