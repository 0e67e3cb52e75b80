"""Draw the counts of the example journal by chance, so that nobody chose them.

The crosses of the story are data below. For each brood the script draws how many young hatch,
the genotype of each by Mendel's first law from its own dam and sire, its sex, whether it lives
to each count, and whether the keeper's eye or net finds it. It prints the table that the diaries
in `example_site/` quote; `test_example_counts.py` draws again and compares.

Every brood and every event has a stream of its own, so that a new brood changes no other one.
Only `Random.random` is used: its stream for a given seed is promised by the language.

Assumptions, none of them published for a colour of this animal: one autosomal locus `g`, full
penetrance, brood sizes within the 21-51 of Nur & Christianus (2013) for grown strong dams and
below it for young or weak ones, and the relative viability of `g/g` young written below.
"""

from collections.abc import Callable
from dataclasses import dataclass
from random import Random

__all__ = ["BROODS", "SEED", "Drawing", "Tally", "draw", "table"]

SEED = 20260215
"""The first day of the journal; fixed before the story was written, never tried again."""

ALIVE_AT_FIRST_COUNT = 0.85
"""Chance that a young with an allele `G` lives from hatching to the first count."""

ALIVE_TO_NEXT_COUNT = 0.95
"""The same from one count to the next."""

VIABILITY_GG = 0.85
"""Factor on both for `g/g` young."""

RIGHT_SEX_AT_58_DAYS = 0.85
"""Chance that an animal netted as female at about 58 days is one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Animal:
    """One animal."""

    genotype: str
    """`G/G`, `G/g` or `g/g`."""
    female: bool
    """Its true sex, visible or not."""

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


def _pick(stream: Random, pool: tuple[Animal, ...]) -> Animal:
    return pool[int(stream.random() * len(pool))]


def _child(stream: Random, *, dam: Animal, sire: Animal) -> Animal:
    """Take one allele at random from each parent."""
    alleles = [parent.genotype.split("/")[stream.random() < 0.5] for parent in (dam, sire)]
    return Animal(genotype="/".join(sorted(alleles)), female=stream.random() < 0.5)


def _survivors(stream: Random, animals: tuple[Animal, ...], chance: float) -> tuple[Animal, ...]:
    def factor(animal: Animal) -> float:
        return VIABILITY_GG if animal.genotype == "g/g" else 1.0

    return tuple(animal for animal in animals if stream.random() < chance * factor(animal))


def _counted(stream: Random, brood: Brood, look: Look, living: tuple[Animal, ...]) -> Tally:
    numbers = {"slate": 0, "amberglass": 0, "unsorted": 0}
    for animal in living:
        if stream.random() >= look.found:
            continue
        numbers["unsorted" if stream.random() < look.doubtful else animal.look] += 1
    return Tally(
        brood=brood.name,
        date=look.date,
        age_days=look.age_days,
        how=look.how,
        numbers=tuple(numbers.items()),
    )


def _draw_brood(
    brood: Brood, *, dams: tuple[Animal, ...], sires: tuple[Animal, ...]
) -> tuple[tuple[Tally, ...], int, tuple[Animal, ...]]:
    """Return its counts, how many hatched, and who is alive at the last count."""
    stream = Random(f"{SEED}:{brood.name}")
    hatched = brood.smallest + int(stream.random() * (brood.largest - brood.smallest + 1))
    dam = _pick(stream, dams)
    living = tuple(_child(stream, dam=dam, sire=_pick(stream, sires)) for _ in range(hatched))
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
        living = _survivors(stream, living, chance)
        tallies.append(_counted(stream, brood, look, living))
        chance = ALIVE_TO_NEXT_COUNT
    return tuple(tallies), hatched, living


def _by_sex(group: str, date: str, animals: tuple[Animal, ...]) -> Tally:
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
    rest = _by_sex("loam", "2026-06-13", tuple(pool))
    chosen = tuple(_take(stream, pool, lambda a: a.female) for _ in range(2)) + tuple(
        _take(stream, pool, lambda a: not a.female) for _ in range(2)
    )
    return (_by_sex("loam-f", "2026-06-08", taken), rest), taken, chosen


def draw() -> Drawing:
    """Draw the whole story; the same every time."""
    tallies: list[Tally] = []
    alive: list[tuple[str, int, int]] = []
    f1: tuple[Animal, ...] = ()
    pools = {**FOUNDERS}
    for brood in BROODS:
        if brood.dams == "F1" and "F1 females" not in pools:
            by_sex, taken, chosen = _sex_the_f1(f1)
            tallies.extend(by_sex)
            pools["F1 females"] = tuple(animal for animal in (*taken, *chosen) if animal.female)
            pools["F1 males"] = tuple(animal for animal in chosen if not animal.female)
        dams = pools["F1 females" if brood.dams == "F1" else brood.dams]
        sires = pools["F1 males" if brood.sires == "F1" else brood.sires]
        rows, hatched, living = _draw_brood(brood, dams=dams, sires=sires)
        tallies.extend(rows)
        alive.append((brood.name, hatched, len(living)))
        if brood.cross.endswith("(F1)"):
            f1 = (*f1, *living)
    return Drawing(tallies=tuple(tallies), alive=tuple(alive))


def table(drawing: Drawing) -> str:
    """Write what was drawn as a Markdown table."""
    lines = [
        f"Seed {SEED}; relative viability of g/g young {VIABILITY_GG}.",
        "",
        "| brood or group | date | age in days | how | numbers | total |",
        "| --- | --- | --- | --- | --- | --- |",
    ]
    for row in drawing.tallies:
        numbers = ", ".join(f"{name} {number}" for name, number in row.numbers)
        age = "" if row.age_days is None else str(row.age_days)
        lines.append(f"| {row.brood} | {row.date} | {age} | {row.how} | {numbers} | {row.total} |")
    lines += ["", "| brood | hatched | alive at the last count |", "| --- | --- | --- |"]
    lines += [f"| {name} | {hatched} | {living} |" for name, hatched, living in drawing.alive]
    return "\n".join(lines)


if __name__ == "__main__":
    print(table(draw()))
