"""Who can have been dam and sire of each brood: every world that the records allow, one by one.

A world says of everything the records leave open how it went: from which group an unnamed body
was, who was in the net, which sex the unsexed have. For each world the animals are followed as
classes of group, tank, recorded sex and birth; each class that can have carried the eggs of a
brood to its tank is followed back through the world, and on each day on which the eggs can have
been laid the males beside her are read off. What no world gives is no parent.

What the records are taken to mean, beyond their plain words:

- The order of what happened is that of the records, whose windows of different days do not
  overlap. An animal that moved on a day was in both tanks on that day.
- No animal breeds before its sixtieth day; bought ones were grown or not, nobody knows.
- Eggs hatch in the tank the dam is in, 15 to 31 days after they were laid. Where every tank she
  was in meanwhile has a reading within 14 days of that time, its water was within 1 °C of the
  readings, and the sum of 230 °C d over 12.5 °C is met to a day.
- A look that found as many females as the group holds there found all of them. Eggs that were
  seen on a female, looked at or moved, hatched as a brood of the records unless she died.
- A female whose move is not marked as one with eggs may have mated in the tank she left up to four
  weeks before she lays her next eggs.
- An open number of animals is taken as its upper bound: one more never rules anyone out.

Dams are called by the group they are in when the young hatch, sires by theirs at the mating.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil, floor

from simulation.parentage_worlds import Class, TooManyWorldsError, World, worlds_of
from simulation.tank_life import (
    BASE_C,
    DEGREE_DAYS,
    HIGH_DAYS,
    LOW_DAYS,
    MATURITY_DAYS,
    MOULT_DAYS,
)
from simulation.tank_records import BOOKED, Record

__all__ = ["ParentSets", "TooManyWorldsError", "possible_parents"]

_SLACK_C = 1.0
_SLACK_DAYS = 1.0
_READING_DAYS = 14


@dataclass(frozen=True, slots=True, kw_only=True)
class ParentSets:
    """The groups that some world has as parents of a brood."""

    dams: frozenset[str]
    sires: frozenset[str]


_Path = dict[int, Class]
"""The class a female was in, by state; the newest first."""
_Days = dict[int, tuple[int, int]]
"""A first and a last day, by state."""


class _Judge:
    """What one set of records says about the broods in each of its worlds."""

    def __init__(self, records: Sequence[Record]) -> None:
        self.booked = [record for record in records if record.kind in BOOKED]
        self.looks = [record for record in records if record.kind in ("berried", "not-berried")]
        self.readings = [record for record in records if record.temperature_c is not None]
        self._days: dict[tuple[frozenset[str], int, int], tuple[int, int]] = {}
        self._stages: dict[int, range] = {}
        self._laying: dict[object, _Days] = {}

    def stages_of(self, day: int) -> range:
        """Return the states that can have held on a day."""
        if day not in self._stages:
            first = sum(record.last < day for record in self.booked)
            last = sum(record.first <= day for record in self.booked)
            self._stages[day] = range(first, last + 1)
        return self._stages[day]

    def incubation(self, tanks: frozenset[str], laid: int, hatched: int) -> tuple[int, int]:
        """Return the fewest and most days that eggs can have taken in some tanks."""
        key = (tanks, laid, hatched)
        if key not in self._days:
            self._days[key] = self._incubation(tanks, laid, hatched)
        return self._days[key]

    def _incubation(self, tanks: frozenset[str], laid: int, hatched: int) -> tuple[int, int]:
        warmths = []
        for tank in sorted(tanks):
            near = [
                one.temperature_c
                for one in self.readings
                if one.tank == tank
                and one.temperature_c is not None
                and laid - _READING_DAYS <= one.first <= hatched + _READING_DAYS
            ]
            if not near:
                return LOW_DAYS, HIGH_DAYS
            warmths += near
        fewest = DEGREE_DAYS / (max(warmths) + _SLACK_C - BASE_C) - _SLACK_DAYS
        most = DEGREE_DAYS / (min(warmths) - _SLACK_C - BASE_C) + _SLACK_DAYS
        low = min(max(LOW_DAYS, floor(fewest)), HIGH_DAYS)
        return low, max(min(HIGH_DAYS, ceil(most)), low)

    def grown(self, one: Class, day: int) -> bool:
        """Say whether animals of a class can have bred on a day."""
        return one.born < 0 or day - self.booked[one.born].first >= MATURITY_DAYS

    def holds(self, world: World) -> bool:
        """Say whether a world has as many females as were seen at each look."""
        return all(
            look.low is not None
            and any(self._females(world, at, look) >= look.low for at in self.stages_of(look.first))
            for look in self.looks
        )

    def _females(self, world: World, stage: int, look: Record) -> int:
        """Return how many can be female in the group and tank of a look."""
        return sum(
            world.states[stage][one]
            for one in world.can_be["f"][stage]
            if (one.group, one.tank) == (look.group, look.tank)
        )

    def parents(self, world: World, number: int) -> set[tuple[str, str]]:
        """Return every dam and sire that a brood can have in a world."""
        record, found = self.booked[number], set()
        for dam in world.states[number]:
            if dam.tank != record.tank or dam not in world.can_be["f"][number]:
                continue
            if record.dams and dam.group not in record.dams:
                continue
            for path in self._paths(world, number, dam):
                for stage, (first, day) in self._laying_days(world, path, number).items():
                    sires = self._males(world, stage, path[stage], day)
                    sires |= self._carried_over(world, path, stage, first)
                    found |= {(dam.group, sire) for sire in sires}
        return found

    def _paths(self, world: World, stage: int, one: Class) -> Iterator[_Path]:
        """Give every way in which a female can have come to a class since she appeared."""
        stack: list[tuple[int, Class, _Path]] = [(stage, one, {stage: one})]
        while stack:
            at, now, path = stack.pop()
            record = self.booked[at - 1]
            if record.kind in ("bought", "hatched") and record.group == now.group:
                yield path
                continue
            stack += [
                (at - 1, source, {**path, at - 1: source})
                for source in world.before[at - 1].get(now, ())
                if source in world.can_be["f"][at - 1]
            ]

    def _laying_days(self, world: World, path: _Path, number: int) -> _Days:
        """Return the first and last day on which she can have laid the eggs, by state."""
        binding = tuple(look for look in self.looks if self._binds(world, path, look))
        key = (number, tuple(path.values()), tuple(map(id, binding)))
        if key not in self._laying:
            self._laying[key] = self._days_of(path, number, binding)
        return self._laying[key]

    def _days_of(self, path: _Path, number: int, looks: Sequence[Record]) -> _Days:
        record = self.booked[number]
        found: _Days = {}
        for laid in range(record.first - HIGH_DAYS, record.last - LOW_DAYS + 1):
            for stage in self.stages_of(laid):
                if stage not in path or not self._ready(path, number, laid, stage):
                    continue
                tanks = frozenset(path[at].tank for at in range(stage, number + 1))
                for hatched in range(record.first, record.last + 1):
                    low, high = self.incubation(tanks, laid, hatched)
                    if low <= hatched - laid <= high and all(
                        self._agrees(path, look, number, laid=laid, stage=stage, hatched=hatched)
                        for look in looks
                    ):
                        found[stage] = (found.get(stage, (laid, laid))[0], laid)
        return found

    def _ready(self, path: _Path, number: int, laid: int, stage: int) -> bool:
        """Say whether she was grown and had no other eggs that must still hatch."""
        return self.grown(path[stage], laid) and all(
            self._other_brood(path, number, since=move, until=stage)
            for move in range(min(path), stage)
            if self.booked[move].berried and path[move].tank != path[move + 1].tank
        )

    def _binds(self, world: World, path: _Path, look: Record) -> bool:
        """Say whether a look found all females of the group a female was in."""
        for at in self.stages_of(look.first):
            here = path.get(at)
            if here is None or (here.group, here.tank) != (look.group, look.tank):
                return False
            if self._females(world, at, look) != look.low:
                return False
        return True

    def _agrees(
        self, path: _Path, look: Record, number: int, *, laid: int, stage: int, hatched: int
    ) -> bool:
        """Say whether eggs laid and hatched on some days agree with a look at their dam."""
        if look.kind == "not-berried":
            return not laid < look.first < hatched
        if look.first >= laid:
            return look.first <= hatched
        return any(
            self._other_brood(path, number, since=at, until=stage)
            for at in self.stages_of(look.first)
        )

    def _other_brood(self, path: _Path, number: int, *, since: int, until: int) -> bool:
        """Say whether eggs seen earlier can have hatched as another brood before she laid again."""
        return any(
            self.booked[at].kind == "hatched"
            and at != number
            and self.booked[at].tank == path[at].tank
            for at in range(since, until)
            if at in path
        )

    def _males(self, world: World, stage: int, dam: Class, day: int) -> set[str]:
        """Return the groups of the grown males beside a female."""
        state = world.states[stage]
        return {
            one.group
            for one in world.can_be["m"][stage]
            if one.tank == dam.tank and self.grown(one, day) and state[one] > (one == dam)
        }

    def _carried_over(self, world: World, path: _Path, stage: int, day: int) -> set[str]:
        """Return the males of tanks she left without eggs, if this brood can be her first since."""
        found: set[str] = set()
        left = False
        for at in range(stage - 1, min(path) - 1, -1):
            record, last = self.booked[at], self.booked[at].last
            if day - last > MOULT_DAYS:
                break
            if record.kind == "hatched" and self._surely_hers(world, path, at):
                break
            if path[at].tank != path[at + 1].tank:
                left = True
                if record.berried:
                    break
            if left and self.grown(path[at], last):
                found |= self._males(world, at, path[at], last)
        return found

    def _surely_hers(self, world: World, path: _Path, number: int) -> bool:
        """Say whether a brood hatched while no other grown female was in its tank."""
        record, state = self.booked[number], world.states[number]
        return record.tank == path[number].tank and all(
            one == path[number] and state[one] == 1
            for one in world.can_be["f"][number]
            if one.tank == record.tank and self.grown(one, record.last - LOW_DAYS)
        )


def possible_parents(records: Sequence[Record], *, most_worlds: int = 150) -> dict[str, ParentSets]:
    """Return for each brood the groups that some world allowed by the records has as parents.

    Raises
    ------
    TooManyWorldsError
        If there are more than `most_worlds`.
    """
    judge = _Judge(records)
    worlds = [world for world in worlds_of(judge.booked, most_worlds) if judge.holds(world)]
    sets: dict[str, ParentSets] = {}
    for number, record in enumerate(judge.booked):
        if record.kind == "hatched":
            pairs = {pair for world in worlds for pair in judge.parents(world, number)}
            sets[str(record.group)] = ParentSets(
                dams=frozenset(dam for dam, _ in pairs), sires=frozenset(sire for _, sire in pairs)
            )
    return sets
