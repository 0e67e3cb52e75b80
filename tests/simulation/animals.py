"""Animals, broods and counts as the simulation of the example draws them.

Assumptions, none of them published for a colour of this animal: one autosomal locus `g`, full
penetrance, brood sizes within the 21-51 of Nur & Christianus (2013) for grown strong dams and
below it for young or weak ones, and the relative viability of `g/g` young written below.

Only `Random.random` is used: its stream for a given seed is promised by the language.
"""

from dataclasses import dataclass, replace
from random import Random

__all__ = [
    "SEED",
    "VIABILITY_GG",
    "Animal",
    "Brood",
    "Drawing",
    "Look",
    "Tally",
    "draw_brood",
    "pick",
]

SEED = 20260215
"""The first day of the journal; fixed before the story was written, never tried again."""

ALIVE_AT_FIRST_COUNT = 0.85
"""Chance that a young with an allele `G` lives from hatching to the first count."""

ALIVE_TO_NEXT_COUNT = 0.95
"""The same from one count to the next."""

VIABILITY_GG = 0.85
"""Factor on both for `g/g` young."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Animal:
    """One animal."""

    genotype: str
    """`G/G`, `G/g` or `g/g`."""
    female: bool
    """Its true sex, visible or not."""
    unusual: str = ""
    """`milky` or `halves` where no look fits it; empty for nearly all."""

    @property
    def look(self) -> str:
        """What it shows, `G` being dominant."""
        return "amberglass" if self.genotype == "g/g" else "slate"


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """One count that the keeper makes of a brood."""

    date: str
    """Day of the count."""
    age_days: int
    """Days since hatching."""
    how: str
    """The diary's word: looked, netted, emptied."""
    found: float
    """Chance that a living young is found."""
    doubtful: float = 0.0
    """Chance that a young found cannot be put to a look yet."""
    coarse: bool = False
    """True where it is only told whether a young has colour at all."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Brood:
    """One brood of the story."""

    name: str
    """Its name in the journal."""
    hatched: str
    """Day its young were first seen."""
    cross: str
    """Dam × sire in words."""
    dams: str
    """Pool the dam is drawn from."""
    sires: str
    """Pool the sires are drawn from, one for each young."""
    smallest: int
    """Fewest young that can hatch."""
    largest: int
    """Most young that can hatch."""
    counts: tuple[Look, ...]
    """The keeper's counts, in order."""
    found_at_hatching: float = 0.6
    """Chance that one of the newly hatched is seen on the first evening."""
    mothers: int = 1
    """Dams that hatched their young together."""
    stray_share: tuple[float, float] | None = None
    """Where another tank's male got in: bounds of the part of the brood that is his."""
    milky: float = 0.0
    """Chance that a young has the milky look that nobody can explain."""
    halves: bool = False
    """True where one young with an allele `G` lost it in one half of its body."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tally:
    """What one count gave: a row of the table."""

    brood: str
    """Name of the brood, or of the group for a count by sex."""
    date: str
    """Day."""
    age_days: int | None
    """Age at the count, where one brood is counted."""
    how: str
    """How it was counted."""
    numbers: tuple[tuple[str, int], ...]
    """How many of each look or sex, zero included."""

    def number(self, name: str) -> int:
        """Return one of the numbers."""
        return dict(self.numbers)[name]

    @property
    def total(self) -> int:
        """All animals counted."""
        return sum(number for _, number in self.numbers)


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """All that was drawn."""

    tallies: tuple[Tally, ...]
    """Rows of the table, in the order drawn."""
    alive: tuple[tuple[str, int, int], ...]
    """By brood: young hatched, and young alive at its last count."""


def pick(stream: Random, pool: tuple[Animal, ...]) -> Animal:
    """Take any of a pool."""
    return pool[int(stream.random() * len(pool))]


def child(stream: Random, *, dam: Animal, sire: Animal) -> Animal:
    """Take one allele at random from each parent."""
    alleles = [parent.genotype.split("/")[stream.random() < 0.5] for parent in (dam, sire)]
    return Animal(genotype="/".join(sorted(alleles)), female=stream.random() < 0.5)


def survivors(stream: Random, animals: tuple[Animal, ...], chance: float) -> tuple[Animal, ...]:
    """Return who lives on; fewer of the `g/g` do."""

    def factor(animal: Animal) -> float:
        return VIABILITY_GG if animal.genotype == "g/g" else 1.0

    return tuple(animal for animal in animals if stream.random() < chance * factor(animal))


def counted(stream: Random, brood: Brood, look: Look, living: tuple[Animal, ...]) -> Tally:
    """Draw what the keeper finds and how it is classed."""
    numbers = {"slate": 0, "amberglass": 0, "unsorted": 0}
    if look.coarse:
        numbers = {"coloured": 0, "unsorted": 0}
    for animal in living:
        if stream.random() >= look.found:
            continue
        if stream.random() < look.doubtful:
            name = "unsorted"
        elif animal.unusual:
            name = "other"
        else:
            name = "coloured" if look.coarse else animal.look
        numbers[name] = numbers.get(name, 0) + 1
    return Tally(
        brood=brood.name,
        date=look.date,
        age_days=look.age_days,
        how=look.how,
        numbers=tuple(numbers.items()),
    )


def _young(
    stream: Random,
    brood: Brood,
    number: int,
    *,
    dams: tuple[Animal, ...],
    sires: tuple[Animal, ...],
    stray: Animal | None,
) -> tuple[Animal, ...]:
    """Draw the newly hatched, each from its own dam and sire."""
    pool = list(dams)
    mothers = [pool.pop(int(stream.random() * len(pool))) for _ in range(brood.mothers)]
    share = 0.0
    if brood.stray_share is not None:
        low, high = brood.stray_share
        share = low + (high - low) * stream.random()

    def dam() -> Animal:
        return mothers[0] if len(mothers) == 1 else pick(stream, tuple(mothers))

    def sire() -> Animal:
        if stray is not None and stream.random() < share:
            return stray
        return pick(stream, sires)

    hatched = [child(stream, dam=dam(), sire=sire()) for _ in range(number)]
    for place, animal in enumerate(hatched):
        if brood.milky and stream.random() < brood.milky:
            hatched[place] = replace(animal, unusual="milky")
    return tuple(hatched)


def _halved(stream: Random, living: tuple[Animal, ...]) -> tuple[Animal, ...]:
    """Let one young that carries `G` and lives have lost it on one side."""
    places = [place for place, animal in enumerate(living) if animal.genotype == "G/g"]
    chosen = places[int(stream.random() * len(places))]
    return tuple(
        replace(animal, unusual="halves") if place == chosen else animal
        for place, animal in enumerate(living)
    )


def draw_brood(
    brood: Brood,
    *,
    dams: tuple[Animal, ...],
    sires: tuple[Animal, ...],
    stray: Animal | None = None,
) -> tuple[tuple[Tally, ...], int, tuple[Animal, ...]]:
    """Return its counts, how many hatched, and who is alive at the last count."""
    stream = Random(f"{SEED}:{brood.name}")
    hatched = brood.smallest + int(stream.random() * (brood.largest - brood.smallest + 1))
    living = _young(stream, brood, hatched, dams=dams, sires=sires, stray=stray)
    glimpsed = sum(stream.random() < brood.found_at_hatching for _ in living)
    tallies = [
        Tally(
            brood=brood.name,
            date=brood.hatched,
            age_days=0,
            how="hatching",
            numbers=(("glimpsed", glimpsed),),
        )
    ]
    chance = ALIVE_AT_FIRST_COUNT
    for look in brood.counts:
        living = survivors(stream, living, chance)
        if brood.halves and look is brood.counts[0]:
            living = _halved(stream, living)
        tallies.append(counted(stream, brood, look, living))
        chance = ALIVE_TO_NEXT_COUNT
    return tuple(tallies), hatched, living
