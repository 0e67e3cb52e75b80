"""Small journals for tests of hidden carriers: a model of three looks, pools in short words."""

import random
from fractions import Fraction

from filialog.genetics import (
    CoarseLook,
    Condition,
    ConditionKind,
    Genotype,
    GenotypeLaw,
    Locus,
    LookRule,
    TraitModel,
    certain,
    look_chances,
    looks_in_class,
    pool_law,
)
from filialog.genetics.carriers import (
    BroodOf,
    CarrierPool,
    Evidence,
    FounderPool,
    FrequencyPoint,
    JoinedOf,
    Parents,
    PoolShare,
    TakenFrom,
    TallyEvidence,
)
from filialog.genetics.crosses import cross

__all__ = ["SHADES", "RandomJournal", "brood", "founders", "shares"]

GENE = Locus(name="gene", alleles=("A", "a"))


def _pair(*alleles: str) -> tuple[Condition, ...]:
    return (Condition(locus="gene", kind=ConditionKind.IS, alleles=alleles),)


SHADES = TraitModel(
    name="shades",
    loci=(GENE,),
    looks=(
        LookRule(look="pale", conditions=_pair("a", "a")),
        LookRule(look="mid", conditions=_pair("A", "a"), others=(("dark", Fraction(1, 4)),)),
        LookRule(look="dark"),
    ),
    coarse=(CoarseLook(name="coloured", looks=("mid", "dark")),),
)
"""Dark, mid and pale; a quarter of the A/a look like A/A."""


def founders(name: str, size: int | None, *laws: GenotypeLaw, **more: int) -> CarrierPool:
    """Return founders of one law, or of one of several that are equally probable."""
    points = tuple(FrequencyPoint(weight=Fraction(1, len(laws)), law=law) for law in laws)
    return CarrierPool(name=name, origin=FounderPool(points=points), size=size, **more)


def shares(*names: str) -> tuple[PoolShare, ...]:
    """Return a set of pools."""
    return tuple(PoolShare(pool=name) for name in names)


def brood(
    name: str,
    dams: tuple[PoolShare, ...],
    sires: tuple[PoolShare, ...],
    size: int | None = None,
    mating: Parents = Parents.ONE,
) -> CarrierPool:
    """Return the young of one dam, and of one sire or several."""
    origin = BroodOf(dams=dams, sires=sires, mating=mating)
    return CarrierPool(name=name, origin=origin, size=size)


class RandomJournal:
    """A journal that was lived through, so that its evidence is possible."""

    def __init__(self, seed: int, *, most: int = 8) -> None:
        self.draw = random.Random(seed)
        self.left = most
        self.pools: list[CarrierPool] = []
        self.evidence: list[Evidence] = []
        self.animals: list[tuple[Genotype, str]] = []
        self.members: dict[str, list[int]] = {}
        self._founders("does", self.draw.randint(1, 2))
        self._founders("bucks", self.draw.randint(1, 2))
        self._brood("first", self.draw.randint(1, min(4, self.left)))
        self._tally("first", partly=True)
        self._split_and_join()
        if self.left:
            self._second_brood()

    def _law(self) -> GenotypeLaw:
        q = Fraction(self.draw.randint(1, 3), 4)
        return pool_law(SHADES, {"gene": {"A": 1 - q, "a": q}})

    def _grow(self, pool: CarrierPool, genotypes: list[Genotype]) -> None:
        first = len(self.animals)
        for genotype in genotypes:
            looks = look_chances(genotype, SHADES)
            weights = [float(chance) for _, chance in looks]
            self.animals.append((genotype, self.draw.choices(looks, weights)[0][0]))
        self.pools.append(pool)
        self.members[pool.name] = list(range(first, len(self.animals)))
        self.left -= len(genotypes)

    def _from_law(self, law: GenotypeLaw, count: int) -> list[Genotype]:
        genotypes = [genotype for genotype, _ in law.probabilities]
        return self.draw.choices(genotypes, [float(p) for _, p in law.probabilities], k=count)

    def _founders(self, name: str, size: int) -> None:
        laws = [self._law() for _ in range(self.draw.randint(1, 2))]
        pool = founders(name, size, *laws)
        self._grow(pool, self._from_law(self.draw.choice(laws), size))

    def _young(self, dam: int, sire: int, count: int) -> list[Genotype]:
        dams, sires = (certain(self.animals[parent][0]) for parent in (dam, sire))
        return self._from_law(cross(dams, sires, SHADES).young, count)

    def _brood(self, name: str, size: int) -> None:
        mating = self.draw.choice([Parents.ONE, Parents.SEVERAL])
        dam = self.draw.choice(self.members["does"])
        young = [
            genotype
            for _ in range(size)
            for genotype in self._young(dam, self.members["bucks"][0], 1)
        ]
        self._grow(brood(name, shares("does"), shares("bucks"), size, mating), young)

    def _tally(self, name: str, *, partly: bool) -> None:
        if self.draw.random() < 0.5:
            return
        members = self.members[name]
        counted = self.draw.randint(1, len(members)) if partly else len(members)
        looks = [self.animals[animal][1] for animal in members[:counted]]
        names = ["pale", "coloured"] if self.draw.random() < 0.5 else ["pale", "mid", "dark"]
        counts = tuple(
            (look, sum(one in looks_in_class(look, SHADES) for one in looks)) for look in names
        )
        self.evidence.append(TallyEvidence(label=f"tally {name}", pool=name, looks=counts))

    def _take(self, name: str, source: str, look: str | None) -> bool:
        """Split off some, blind, or all of a look; True where there were any."""
        taken = {
            animal
            for pool in self.pools
            if isinstance(pool.origin, TakenFrom) and pool.origin.pool == source
            for animal in self.members[pool.name]
        }
        left = [animal for animal in self.members[source] if animal not in taken]
        if look is None:
            self.draw.shuffle(left)
            left = left[: max(1, len(left) // 2)]
        else:
            wanted = looks_in_class(look, SHADES)
            left = [animal for animal in left if self.animals[animal][1] in wanted]
        if left:
            origin = TakenFrom(pool=source, look=look)
            self.pools.append(CarrierPool(name=name, origin=origin, size=len(left)))
            self.members[name] = sorted(left)
        return bool(left)

    def _split_and_join(self) -> None:
        if any(piece.pool == "first" for piece in self.evidence):
            self._take("part", "first", None)
        else:
            self._take("part", "first", self.draw.choice([None, "coloured", "pale"]))
        sorted_out = "part" in self.members and self._take("sorted", "part", "coloured")
        source = "sorted" if sorted_out else "first"
        parts = (*shares(source), *shares("bucks" if self.draw.random() < 0.3 else "does"))
        taken = {
            animal
            for part in parts
            for pool in self.pools
            if isinstance(pool.origin, TakenFrom) and pool.origin.pool == part.pool
            for animal in self.members[pool.name]
        }
        members = [a for part in parts for a in self.members[part.pool] if a not in taken]
        if not members:
            return
        self.pools.append(CarrierPool(name="joined", origin=JoinedOf(parts=parts)))
        self.members["joined"] = members
        if self.draw.random() < 0.5:
            self._tally("joined", partly=False)
        self._take("last", "joined", self.draw.choice(["mid", "dark", "pale"]))

    def _second_brood(self) -> None:
        dams = "last" if "last" in self.members else "does"
        both = {*self.members[dams]} & {*self.members["bucks"]}
        if both:
            dams = "does"
        dam = self.draw.choice(self.members[dams])
        sire = self.draw.choice(self.members["bucks"])
        size = self.draw.randint(1, min(2, self.left))
        young = brood("second", shares(dams), shares("bucks"), size)
        self._grow(young, self._young(dam, sire, size))
        self._tally("second", partly=False)
