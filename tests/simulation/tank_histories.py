"""Invented histories of a few tanks, animal by animal, and what an honest keeper wrote of them.

Everything is drawn from a seed. Each day females that are ready moult and mate with a male of the
tank they are in, eggs ripen with the warmth of that tank, young hatch and grow up, animals die,
and now and then the keeper moves, sorts, joins or looks. The records never lie: a day that is
given as a window holds the true one, a count given as a range the true number, and a body of
which the keeper cannot tell the group is recorded without one. What they leave out is not known
to a reader, but the history keeps it: who was dam and who was sire of each brood.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from random import Random

from simulation.tank_life import MATURITY_DAYS, Animal, Birth, Rack, born_on
from simulation.tank_records import BOOKED, Record, Share, diary_line

__all__ = ["History", "tank_history"]

_LAST_DAY = 230
_MOST_BROODS = 7
_TANKS = ("fen", "tarn", "weir", "mere", "beck")
_FOUNDERS = ("alder", "birch", "cedar", "dogwood", "elder", "fir", "gorse", "holly")


@dataclass(frozen=True, slots=True, kw_only=True)
class History:
    """What the keeper wrote, and what was true."""

    seed: int
    tanks: tuple[str, ...]
    records: tuple[Record, ...]
    births: tuple[Birth, ...]

    @property
    def diary(self) -> str:
        """The records as lines of a diary."""
        return "\n".join(map(diary_line, self.records)) + "\n"


@dataclass(slots=True)
class _Keeper(Rack):
    """What the keeper does, and writes down."""

    def die(self, today: int) -> None:
        """Let one animal die; half of the bodies are not known by their group."""
        one = self.draw.choice([animal for animal in self.living() if not animal.strayed])
        others = self._others(one)
        one.alive = False
        how = "named" if self.unnamed >= 3 else self.draw.choice(("named", "named", "of", ""))
        self.unnamed += how != "named"
        either = how == "of" and bool(others)
        self.write(Record(
            kind="died", first=today, last=today, tank=one.booked, low=1, high=1,
            group=one.group if how and not either else None,
            of=tuple(sorted((one.group, self.draw.choice(others)))) if either else (),
        ))  # fmt: skip

    def _others(self, one: Animal) -> list[str]:
        """Return the other groups in the tank the keeper has an animal in."""
        return sorted({group for group, tank in self.cells() if tank == one.booked} - {one.group})

    def move_one_of(self, today: int) -> None:
        """Move an animal of which the keeper only knows two groups it can be from."""
        one = self.draw.choice(self.living())
        others = self._others(one)
        if self.unnamed >= 3 or not others:
            return
        self.unnamed += 1
        tank, group = one.booked, one.group
        to = self.draw.choice([other for other in self.tanks if other != tank])
        new = self.new_name("one") if self.draw.random() < 0.6 else None
        self.put([one], to)
        one.call(new or group)
        self.write(Record(
            kind="moved", first=today, last=today, tank=tank, to=to, new=new, low=1, high=1,
            of=tuple(sorted((group, self.draw.choice(others)))),
        ))  # fmt: skip

    def move_all(self, today: int) -> None:
        """Move a whole group to another tank."""
        cells = self.cells()
        (group, tank), animals = self.draw.choice(list(cells.items()))
        to = self.draw.choice([one for one in self.tanks if one != tank])
        eggs = len(animals) == 1 and animals[0].clutch is not None and self.draw.random() < 0.6
        self.put(animals, to)
        self.write(Record(
            kind="moved", first=today, last=today, tank=tank, group=group, to=to, berried=eggs,
        ))  # fmt: skip

    def move_some(self, today: int) -> None:
        """Move a part of a group to another tank, under a name of its own or the old one."""
        cells = [(cell, found) for cell, found in self.cells().items() if len(found) > 1]
        if not cells:
            return
        (group, tank), animals = self.draw.choice(cells)
        to = self.draw.choice([one for one in self.tanks if one != tank])
        carrying = [one for one in animals if one.clutch is not None]
        eggs = bool(carrying) and self.draw.random() < 0.6
        if eggs:
            taken = [self.draw.choice(carrying)]
        else:
            taken = self.draw.sample(animals, self.draw.randint(1, len(animals) - 1))
        tell_sex = eggs or (self.draw.random() < 0.5 and all(one.sex_known for one in taken))
        females = sum(one.female for one in taken)
        new = self.new_name(group.split("-")[0]) if self.draw.random() < 0.75 else None
        self.put(taken, to)
        for one in taken:
            one.call(new or group)
            one.sex_known |= tell_sex
        self.write(Record(
            kind="moved", first=today, last=today, tank=tank, group=group, to=to, new=new,
            low=len(taken), high=len(taken), berried=eggs and self.draw.random() < 0.7,
            females=females if tell_sex else None,
            males=len(taken) - females if tell_sex and len(taken) > females else None,
        ))  # fmt: skip

    def sort(self, today: int) -> None:
        """Part the females and males of a group that has grown up."""
        cells = [
            (cell, found)
            for cell, found in self.cells().items()
            if all(today - born_on(one) >= 50 for one in found)
            and 0 < sum(one.female for one in found) < len(found)
        ]
        if not cells:
            return
        (group, tank), animals = self.draw.choice(cells)
        shares = []
        for female, mark in ((True, "f"), (False, "m")):
            taken = [one for one in animals if one.female is female]
            if female is False and self.draw.random() < 0.3:
                break
            name = self.new_name(f"{group.split('-')[0]}-{mark}")
            for one in taken:
                one.call(name)
                one.sex_known = True
            number = len(taken)
            shares.append(Share(
                group=name, count=number,
                females=number if female else None, males=None if female else number,
            ))  # fmt: skip
        self.write(Record(
            kind="sorted", first=today, last=today, tank=tank, group=group, shares=tuple(shares),
        ))  # fmt: skip

    def join(self, today: int) -> None:
        """Let two groups of a tank be one from now on, whole or in part."""
        by_tank: dict[str, list[str]] = {}
        for group, tank in self.cells():
            by_tank.setdefault(tank, []).append(group)
        pairs = [(tank, groups) for tank, groups in by_tank.items() if len(groups) > 1]
        everywhere = [group for group, _ in self.cells()]
        if not pairs:
            return
        tank, groups = self.draw.choice(pairs)
        chosen = [one for one in self.draw.sample(groups, 2) if everywhere.count(one) == 1]
        if len(chosen) < 2:
            return
        new, shares, whole = self.new_name("mix"), [], self.draw.random() < 0.6
        for group in sorted(chosen):
            animals = self.cells()[group, tank]
            number = len(animals) if whole else self.draw.randint(1, len(animals))
            for one in self.draw.sample(animals, number):
                one.call(new)
            shares.append(Share(group=group, count=None if whole else number))
        self.write(Record(
            kind="joined", first=today, last=today, tank=tank, shares=tuple(shares), new=new,
        ))  # fmt: skip

    def pair(self, today: int) -> None:
        """Put females to males in an empty tank, and say so."""
        cells = {
            cell: found
            for cell, found in self.cells().items()
            if all(one.sex_known and today - born_on(one) >= MATURITY_DAYS for one in found)
        }
        empty = [tank for tank in self.tanks if not any(cell[1] == tank for cell in self.cells())]
        females = [cell for cell, found in cells.items() if all(one.female for one in found)]
        males = [cell for cell, found in cells.items() if not any(one.female for one in found)]
        if not (empty and females and males):
            return
        dams, sires, to = (self.draw.choice(found) for found in (females, males, empty))
        assert isinstance(to, str)
        for cell in (dams, sires):
            self.put(cells[(cell[0], cell[1])], to)
            self.write(Record(
                kind="moved", first=today, last=today, tank=cell[1], group=cell[0], to=to,
            ))  # fmt: skip
        self.write(Record(
            kind="paired", first=today, last=today, tank=to, dams=(dams[0],), sires=(sires[0],),
        ))  # fmt: skip

    def look(self, today: int) -> None:
        """Look at the females of a group: at all of them, or at some."""
        cells = [
            (cell, [one for one in found if one.female])
            for cell, found in self.cells().items()
            if all(one.sex_known for one in found) and any(one.female for one in found)
        ]
        if not cells:
            return
        (group, tank), females = self.draw.choice(cells)
        if any(one.strayed for one in females):
            return
        carrying = [one for one in females if one.clutch is not None]
        if any(clutch.laid == today for one in carrying if (clutch := one.clutch)):
            return
        kind = "berried" if carrying and self.draw.random() < 0.6 else "not-berried"
        number = len(carrying) if kind == "berried" else len(females) - len(carrying)
        if number == 0:
            return
        if self.draw.random() < 0.3:
            number = self.draw.randint(1, number)
        self.write(Record(
            kind=kind, first=today, last=today, tank=tank, group=group, low=number, high=number,
        ))  # fmt: skip

    def measure(self, today: int) -> None:
        """Take the temperature where there is a thermometer."""
        for tank in sorted(self.measured):
            self.write(Record(
                kind="temperature", first=today, last=today, tank=tank,
                temperature_c=round(self.warmth_c[tank] + self.draw.uniform(-0.3, 0.3), 1),
            ))  # fmt: skip

    def stray(self, today: int, *, recorded: bool) -> None:
        """Let a grown animal jump into another tank; the keeper goes on booking it in the old."""
        grown = [
            one for one in self.living()
            if not one.strayed and today - born_on(one) >= MATURITY_DAYS
        ]  # fmt: skip
        one = self.draw.choice(grown)
        one.strayed = True
        old, one.tank = (
            one.tank,
            self.draw.choice([tank for tank in self.tanks if tank != one.tank]),
        )
        if recorded:
            self.write(Record(
                kind="strayed", first=today, last=today, tank=old, to=one.tank,
            ))  # fmt: skip


def _keeper(draw: Random) -> _Keeper:
    tanks = _TANKS[: draw.randint(3, 5)]
    keeper = _Keeper(
        draw=draw,
        tanks=tanks,
        warmth_c={tank: draw.uniform(20.5, 27.5) for tank in tanks},
        measured=frozenset(tank for tank in tanks if draw.random() < 0.6),
    )
    for group in _FOUNDERS[: draw.randint(4, 8)]:
        number, sexes = draw.randint(1, 6), draw.choice(("mixed", "females", "males"))
        females = {"mixed": draw.randint(0, number), "females": number, "males": 0}[sexes]
        known, tank = draw.random() < 0.6, draw.choice(tanks)
        for index in range(number):
            ready = draw.randint(3, 160) if index < females else 0
            keeper.animals.append(Animal(
                female=index < females, group=group, tank=tank, booked=tank, born=None,
                ready=ready, sex_known=known, names=[group],
            ))  # fmt: skip
        low, high = number, number + (not known and draw.random() < 0.4)
        keeper.write(Record(
            kind="bought", first=0, last=0, tank=tank, group=group, low=low, high=high,
            females=females if known else None, males=number - females if known else None,
        ))  # fmt: skip
    return keeper


def _with_windows(records: Sequence[Record], draw: Random) -> tuple[Record, ...]:
    """Widen some days to windows that reach no other day on which anything was written."""
    days = sorted({record.first for record in records})
    crowded = {day for day in days if sum(record.first == day for record in records) > 1}
    found = []
    for record in records:
        day = record.first
        if record.kind in BOOKED and day > 0 and day not in crowded and draw.random() < 0.4:
            before = max(one for one in days if one < day)
            after = min((one for one in days if one > day), default=day + 4)
            first = max(before + 1, day - draw.randint(0, 3))
            last = min(after - 1, day + draw.randint(0, 3))
            days = sorted({*days, first, last})
            found.append(replace(record, first=first, last=last))
        else:
            found.append(record)
    return tuple(found)


def tank_history(seed: int, *, stray: str | None = None) -> History:
    """Draw a history; `stray` is `recorded` or `unrecorded` for one in which an animal jumps."""
    draw = Random(f"tanks:{seed}")
    keeper = _keeper(draw)
    acts: tuple[tuple[float, Callable[[int], None]], ...] = (
        (0.22, keeper.die),
        (0.26, keeper.move_all),
        (0.20, keeper.move_some),
        (0.06, keeper.move_one_of),
        (0.12, keeper.sort),
        (0.06, keeper.join),
        (0.10, keeper.pair),
    )
    jump = draw.randint(30, 90) if stray else None
    act, look = draw.randint(5, 15), draw.randint(3, 9)
    for today in range(1, _LAST_DAY):
        hatched = keeper.day(today)
        if len(keeper.births) >= _MOST_BROODS:
            break
        if jump is not None and today >= jump and not hatched and today not in (act, look):
            keeper.stray(today, recorded=stray == "recorded")
            jump = None
        elif today >= act and not hatched and len(keeper.living()) > 3:
            weights = [weight for weight, _ in acts]
            draw.choices([do for _, do in acts], weights)[0](today)
            act = today + draw.randint(4, 14)
        elif today >= look and not hatched:
            keeper.look(today)
            look = today + draw.randint(4, 11)
        if today % 12 == 5:
            keeper.measure(today)
    return History(
        seed=seed,
        tanks=keeper.tanks,
        records=_with_windows(keeper.records, draw),
        births=tuple(keeper.births),
    )
