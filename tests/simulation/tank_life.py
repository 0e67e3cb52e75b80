"""Animals of a few tanks: who mates with whom, how eggs ripen, what hatches.

Numbers of *Neocaridina davidi*: no animal breeds before its sixtieth day (Nur & Christianus 2013,
the age at which sex cannot be told yet, taken as the earliest); eggs hatch when the daily excess
over 12.5 °C has added up to about 230 °C d, within 15 to 31 days (a line through three published
points, two of them read on secondary pages). That a female which was moved without eggs may use
sperm from her old tank for her first brood is not tested by anyone and taken as possible until
her next moult, four weeks at most (common practice, no source). How often animals mate, die, are
moved or looked at is made up.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from random import Random

from simulation.tank_records import Record

__all__ = [
    "BASE_C",
    "DEGREE_DAYS",
    "HIGH_DAYS",
    "LOW_DAYS",
    "MATURITY_DAYS",
    "MOULT_DAYS",
    "Animal",
    "Birth",
    "Clutch",
    "Mating",
    "Rack",
    "born_on",
]

MATURITY_DAYS = 60
LOW_DAYS, HIGH_DAYS = 15, 31
MOULT_DAYS = 28
BASE_C, DEGREE_DAYS = 12.5, 230.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Birth:
    """Who the parents of a brood truly were."""

    brood: str
    dam: frozenset[str]
    """The name of her group at the mating, and every later one."""
    sires: tuple[frozenset[str], ...]
    """The same for every male that sired young of the brood."""
    strayed: bool
    """True where one of them was in a tank that the records do not have it in."""


@dataclass(slots=True, kw_only=True)
class Clutch:
    """Eggs that a female carries."""

    laid: int
    dam_names: int
    """How many names the dam had when she mated, less one."""
    sires: list[tuple["Animal", int]]
    warmth: float
    """Degree days that are left to hatching."""


@dataclass(slots=True, kw_only=True)
class Animal:
    """One animal, as it truly is and as the keeper has it."""

    female: bool
    group: str
    tank: str
    """Where it truly is."""
    booked: str
    """Where the keeper has it."""
    born: int | None
    ready: int
    """The first day on which it can breed (a female: moults next)."""
    sex_known: bool
    names: list[str]
    clutch: Clutch | None = None
    met: "Mating | None" = None
    """Her last mating that led to no eggs yet."""
    stored: "Mating | None" = None
    """The mating of which she has sperm from a tank she left."""
    alive: bool = True
    strayed: bool = False

    def call(self, group: str) -> None:
        """Take a name."""
        if group != self.group:
            self.group = group
            self.names.append(group)


@dataclass(frozen=True, slots=True, kw_only=True)
class Mating:
    """A mating that led to no eggs yet."""

    day: int
    sire: Animal
    dam_names: int
    sire_names: int
    """How many names the two had then, less one."""


def born_on(one: Animal) -> int:
    """Return the day of birth; bought animals were grown when they came."""
    return -MATURITY_DAYS if one.born is None else one.born


@dataclass(slots=True)
class Rack:
    """The tanks and their animals, day by day, and what was written down of them."""

    draw: Random
    tanks: tuple[str, ...]
    warmth_c: dict[str, float]
    measured: frozenset[str]
    animals: list[Animal] = field(default_factory=list)
    records: list[Record] = field(default_factory=list)
    births: list[Birth] = field(default_factory=list)
    names: int = 0
    unnamed: int = 0
    today: int = 0

    def write(self, record: Record) -> None:
        """Write something down."""
        self.records.append(record)

    def living(self, tank: str | None = None) -> list[Animal]:
        """Return the animals alive, in one tank or in all."""
        return [one for one in self.animals if one.alive and tank in (None, one.tank)]

    def cells(self) -> dict[tuple[str, str], list[Animal]]:
        """Return the animals by the group and the tank the keeper has them in."""
        found: dict[tuple[str, str], list[Animal]] = {}
        for one in self.living():
            found.setdefault((one.group, one.booked), []).append(one)
        return dict(sorted(found.items()))

    def new_name(self, stem: str) -> str:
        """Return a name that no group had."""
        self.names += 1
        return f"{stem}-{self.names}"

    def put(self, animals: Sequence[Animal], tank: str) -> None:
        """Let the keeper net animals from one tank to another; one that strayed is not among them.

        A female without eggs that mated in the last fortnight takes sperm along at times.
        """
        for one in animals:
            fresh = one.met is not None and self.today - one.met.day <= MOULT_DAYS // 2
            if one.clutch is None and fresh and self.draw.random() < 0.5:
                one.stored = one.met
                one.ready = self.today + self.draw.randint(1, MOULT_DAYS // 2)
            one.booked = tank
            if not one.strayed:
                one.tank = tank

    def _males(self, tank: str, day: int) -> list[Animal]:
        return [one for one in self.living(tank) if not one.female and one.ready <= day]

    def day(self, today: int) -> bool:
        """Let a day pass; say whether anything hatched."""
        self.today = today
        hatched = False
        for one in [animal for animal in self.living() if animal.female]:
            if one.clutch is not None:
                warmth = self.warmth_c[one.tank] + self.draw.uniform(-0.3, 0.3)
                one.clutch.warmth -= warmth - BASE_C
                age = today - one.clutch.laid
                if age >= LOW_DAYS and (one.clutch.warmth <= 0 or age == HIGH_DAYS):
                    self._hatch(one, today)
                    hatched = True
            elif one.ready <= today:
                self._moult(one, today)
            elif today - born_on(one) >= MATURITY_DAYS and self.draw.random() < 0.06:
                self._meet(one, today)
        return hatched

    def _moult(self, one: Animal, today: int) -> None:
        males = self._males(one.tank, today)
        if one.stored is not None:
            sires, dam_names = [(one.stored.sire, one.stored.sire_names)], one.stored.dam_names
        elif males and self.draw.random() < 0.8:
            chosen = self.draw.sample(males, min(len(males), self.draw.choice((1, 1, 1, 2))))
            sires, dam_names = [(male, len(male.names) - 1) for male in chosen], len(one.names) - 1
        else:
            one.met, one.ready = None, today + self.draw.randint(20, MOULT_DAYS)
            return
        one.met = one.stored = None
        one.clutch = Clutch(
            laid=today,
            dam_names=dam_names,
            sires=sires,
            warmth=DEGREE_DAYS + self.draw.uniform(-8.0, 8.0),
        )

    def _meet(self, one: Animal, today: int) -> None:
        """Let a female mate that does not lay yet."""
        if males := self._males(one.tank, today):
            male = self.draw.choice(males)
            one.met = Mating(
                day=today, sire=male, dam_names=len(one.names) - 1, sire_names=len(male.names) - 1
            )

    def _hatch(self, dam: Animal, today: int) -> None:
        clutch, brood = dam.clutch, self.new_name("brood")
        assert clutch is not None
        dam.clutch, dam.ready = None, today + self.draw.randint(5, 120)
        self.births.append(
            Birth(
                brood=brood,
                dam=frozenset(dam.names[clutch.dam_names :]),
                sires=tuple(frozenset(sire.names[names:]) for sire, names in clutch.sires),
                strayed=dam.strayed or any(sire.strayed for sire, _ in clutch.sires),
            )
        )
        young = self.draw.randint(2, 5)
        for _ in range(young):
            female = self.draw.random() < 0.5
            self.animals.append(
                Animal(
                    female=female, group=brood, tank=dam.tank, booked=dam.tank, born=today,
                    ready=today + MATURITY_DAYS + self.draw.randint(0, 25),
                    sex_known=False, names=[brood],
                )
            )  # fmt: skip
        low, high = self.draw.choice(((young, young), (young - 1, young + 1), (None, None)))
        dams: tuple[str, ...] = ()
        if self.draw.random() < 0.15 and not dam.strayed:
            others = sorted({
                one.group for one in self.living(dam.tank)
                if one.female and today - born_on(one) >= MATURITY_DAYS + LOW_DAYS
            } - {dam.group})  # fmt: skip
            dams = (
                dam.group,
                *self.draw.sample(others, min(len(others), self.draw.choice((0, 1)))),
            )
        self.write(Record(
            kind="hatched", first=today, last=today, tank=dam.tank, group=brood,
            low=low, high=high, dams=tuple(sorted(dams)),
        ))  # fmt: skip
