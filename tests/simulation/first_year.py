"""The crosses of the example from February to August 2026, and how they are drawn."""

from collections.abc import Callable, Mapping, Sequence
from random import Random
from typing import NamedTuple

from simulation.animals import SEED, Animal, Brood, Look, Tally, draw_brood

__all__ = ["BROODS", "FirstYear", "by_sex", "draw_first_year"]

RIGHT_SEX_AT_58_DAYS = 0.85
"""Chance that an animal netted as female at about 58 days is one."""

BROODS = (
    Brood(
        name="hazel-01",
        hatched="2026-03-27",
        cross="slate × amberglass (F1)",
        dams="flint",
        sires="pane",
        smallest=22,
        largest=36,
        counts=(
            Look(date="2026-04-24", age_days=28, how="netted", found=0.9),
            Look(date="2026-05-20", age_days=54, how="emptied", found=1.0),
        ),
    ),
    Brood(
        name="alder-01",
        hatched="2026-04-02",
        cross="slate × amberglass (F1)",
        dams="flint",
        sires="pane",
        smallest=22,
        largest=36,
        counts=(
            Look(date="2026-05-03", age_days=31, how="looked", found=0.6),
            Look(date="2026-05-21", age_days=49, how="emptied", found=1.0),
        ),
    ),
    Brood(
        name="sedge-01",
        hatched="2026-04-16",
        cross="amberglass × amberglass",
        dams="pane",
        sires="pane",
        smallest=10,
        largest=18,
        counts=(
            Look(date="2026-05-26", age_days=40, how="emptied", found=1.0),
            Look(date="2026-08-29", age_days=135, how="emptied", found=1.0),
        ),
    ),
    Brood(
        name="rowan-01",
        hatched="2026-07-11",
        cross="F1 × F1 (F2)",
        dams="F1",
        sires="F1",
        smallest=22,
        largest=36,
        counts=(
            Look(date="2026-08-08", age_days=28, how="netted", found=0.9, doubtful=0.08),
            Look(date="2026-08-29", age_days=49, how="emptied", found=1.0),
        ),
    ),
    Brood(
        name="rowan-02",
        hatched="2026-08-06",
        cross="F1 × F1 (F2)",
        dams="F1",
        sires="F1",
        smallest=22,
        largest=36,
        counts=(
            Look(date="2026-08-29", age_days=23, how="emptied", found=1.0, doubtful=0.15),
            Look(date="2026-09-19", age_days=44, how="emptied", found=1.0),
        ),
    ),
    Brood(
        name="hazel-02",
        hatched="2026-07-12",
        cross="F1 × amberglass (BC1)",
        dams="F1",
        sires="pane",
        smallest=20,
        largest=34,
        counts=(
            Look(date="2026-08-09", age_days=28, how="netted", found=0.9, doubtful=0.08),
            Look(date="2026-08-29", age_days=48, how="emptied", found=1.0),
        ),
    ),
    Brood(
        name="alder-02",
        hatched="2026-07-20",
        cross="F1 × amberglass (BC1)",
        dams="F1",
        sires="pane",
        smallest=20,
        largest=34,
        counts=(
            Look(date="2026-08-10", age_days=21, how="looked", found=0.5, doubtful=0.1),
            Look(date="2026-08-30", age_days=41, how="emptied", found=1.0),
        ),
    ),
    Brood(
        name="alder-03",
        hatched="2026-08-07",
        cross="F1 × amberglass (BC1)",
        dams="F1",
        sires="pane",
        smallest=4,
        largest=8,
        counts=(Look(date="2026-08-30", age_days=23, how="emptied", found=1.0),),
    ),
)
"""The broods of the story, parents before young."""

FOUNDERS: dict[str, tuple[Animal, ...]] = {
    "flint": (Animal(genotype="G/G", female=True),) * 4,
    "pane": (Animal(genotype="g/g", female=False),) * 4,
}
"""What the simulation takes the bought stock to be; the keeper in the story only assumes it."""


def by_sex(group: str, date: str, animals: Sequence[Animal]) -> Tally:
    """Return how many of each sex there are."""
    females = sum(animal.female for animal in animals)
    numbers = (("females", females), ("males", len(animals) - females))
    return Tally(brood=group, date=date, age_days=None, how="sexed", numbers=numbers)


def _take(stream: Random, pool: list[Animal], wanted: Callable[[Animal], bool]) -> Animal:
    """Take one of the wanted kind out of the pool, at random."""
    fitting = [place for place, animal in enumerate(pool) if wanted(animal)]
    return pool.pop(fitting[int(stream.random() * len(fitting))])


def _sex_the_f1(
    f1: tuple[Animal, ...],
) -> tuple[tuple[Tally, ...], tuple[Animal, ...], tuple[Animal, ...]]:
    """Draw the four taken for females, the one that dies, and the pair set chosen."""
    stream = Random(f"{SEED}:loam")
    pool = list(f1)
    taken = tuple(
        _take(
            stream,
            pool,
            (lambda a: a.female)
            if stream.random() < RIGHT_SEX_AT_58_DAYS
            else (lambda a: not a.female),
        )
        for _ in range(4)
    )
    _take(stream, pool, lambda _: True)  # found dead on 30 May
    rest = by_sex("loam", "2026-06-13", tuple(pool))
    chosen = tuple(_take(stream, pool, lambda a: a.female) for _ in range(2)) + tuple(
        _take(stream, pool, lambda a: not a.female) for _ in range(2)
    )
    return (by_sex("loam-f", "2026-06-08", taken), rest), taken, chosen


class FirstYear(NamedTuple):
    """What the first year leaves behind."""

    tallies: tuple[Tally, ...]
    """Rows of the table, in the order drawn."""
    alive: tuple[tuple[str, int, int], ...]
    """By brood: young hatched, and young alive at its last count."""
    living: Mapping[str, tuple[Animal, ...]]
    """By brood: who is alive at its last count."""


def draw_first_year() -> FirstYear:
    """Draw the first year; the same every time."""
    tallies: list[Tally] = []
    alive: list[tuple[str, int, int]] = []
    left: dict[str, tuple[Animal, ...]] = {}
    f1: tuple[Animal, ...] = ()
    pools = {**FOUNDERS}
    for brood in BROODS:
        if brood.dams == "F1" and "F1 females" not in pools:
            sexes, taken, chosen = _sex_the_f1(f1)
            tallies.extend(sexes)
            pools["F1 females"] = tuple(animal for animal in (*taken, *chosen) if animal.female)
            pools["F1 males"] = tuple(animal for animal in chosen if not animal.female)
        dams = pools["F1 females" if brood.dams == "F1" else brood.dams]
        sires = pools["F1 males" if brood.sires == "F1" else brood.sires]
        rows, hatched, living = draw_brood(brood, dams=dams, sires=sires)
        tallies.extend(rows)
        alive.append((brood.name, hatched, len(living)))
        left[brood.name] = living
        if brood.cross.endswith("(F1)"):
            f1 = (*f1, *living)
    return FirstYear(tallies=tuple(tallies), alive=tuple(alive), living=left)
