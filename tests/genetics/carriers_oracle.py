"""Every world of a small journal: each animal, each index, each assignment, one by one.

Nothing here is shared with the network: pools are lists of numbered animals with a
genotype and a look each, and evidence is a yes or no to a world.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import combinations, product

from filialog.genetics import Genotype, TraitModel, certain, cross, look_chances, looks_in_class
from filialog.genetics.carriers import (
    BroodOf,
    CarrierPool,
    Declared,
    Evidence,
    FounderPool,
    JoinedOf,
    Parents,
    PoolShare,
    SeenLook,
    TakenFrom,
    TallyEvidence,
)
from filialog.genetics.genotype_law import ContradictionError

__all__ = ["OracleResult", "enumerate_worlds"]


def world_dams(world: "World") -> set[int]:
    return {dam for dams, _ in world.parents.values() for dam in dams}


def world_sires(world: "World") -> set[int]:
    return {sire for _, sires in world.parents.values() for sire in sires}


@dataclass(frozen=True)
class World:
    weight: float
    animals: tuple[tuple[Genotype, str], ...] = ()
    pools: Mapping[str, tuple[int, ...]] = field(default_factory=dict)
    tallied: frozenset[int] = frozenset()
    parents: Mapping[str, tuple[tuple[int, ...], tuple[int, ...]]] = field(default_factory=dict)

    def grown(self, name: str, young: Sequence[tuple[Genotype, str]], weight: float) -> "World":
        first = len(self.animals)
        return replace(
            self,
            weight=self.weight * weight,
            animals=(*self.animals, *young),
            pools={**self.pools, name: tuple(range(first, first + len(young)))},
        )


@dataclass(frozen=True)
class OracleResult:
    evidence: float
    laws: Mapping[str, Mapping[Genotype, float]]
    pairs: Mapping[tuple[str, str], Mapping[tuple[Genotype, Genotype], float]]


class _Oracle:
    def __init__(
        self, model: TraitModel, pools: Sequence[CarrierPool], evidence: Sequence[Evidence]
    ) -> None:
        self.model = model
        self.pools = {pool.name: pool for pool in pools}
        self.order = [pool.name for pool in pools]
        self.evidence = evidence
        self.children = {
            name: [p for p in pools if isinstance(p.origin, TakenFrom) and p.origin.pool == name]
            for name in self.pools
        }
        self._young: dict[tuple[Genotype, Genotype], list[tuple[Genotype, str, float]]] = {}

    def worlds(self) -> Iterator[World]:
        yield from self._from(0, World(1.0))

    def _from(self, place: int, world: World) -> Iterator[World]:
        if place == len(self.order):
            yield world
            return
        pool = self.pools[self.order[place]]
        for grown in self._pool(pool, world):
            for seen in self._seen(pool.name, grown):
                yield from self._from(place + 1, seen)

    def _pool(self, pool: CarrierPool, world: World) -> Iterator[World]:
        match pool.origin:
            case FounderPool(points=points):
                for point in points:
                    law = [
                        (genotype, look, float(p) * chance)
                        for genotype, p in point.law.probabilities
                        for look, chance in self._shown(genotype)
                    ]
                    yield from self._members(pool, world, float(point.weight), [law])
            case BroodOf():
                yield from self._brood(pool, pool.origin, world)
            case TakenFrom():
                yield from self._take(pool, pool.origin, world)
            case JoinedOf(parts=parts):
                members = tuple(animal for part in parts for animal in self._left(part.pool, world))
                yield replace(world, pools={**world.pools, pool.name: members})

    def _shown(self, genotype: Genotype) -> list[tuple[str, float]]:
        return [(look, float(chance)) for look, chance in look_chances(genotype, self.model)]

    def _members(
        self,
        pool: CarrierPool,
        world: World,
        weight: float,
        laws: Sequence[Sequence[tuple[Genotype, str, float]]],
    ) -> Iterator[World]:
        """Grow a pool; with several laws each member follows one of them, by urn."""
        assert pool.size is not None
        for assigned in product(range(len(laws)), repeat=pool.size):
            urn = 1.0
            for place, chosen in enumerate(assigned):
                urn *= (1 + assigned[:place].count(chosen)) / (len(laws) + place)
            for young in product(*(laws[chosen] for chosen in assigned)):
                share = weight * urn
                for _, _, probability in young:
                    share *= probability
                yield world.grown(pool.name, [(g, look) for g, look, _ in young], share)

    def _young_of(self, dam: Genotype, sire: Genotype) -> list[tuple[Genotype, str, float]]:
        if (dam, sire) not in self._young:
            try:
                law = cross(certain(dam), certain(sire), self.model).young.probabilities
            except ContradictionError:
                law = ()
            self._young[dam, sire] = [
                (genotype, look, float(p) * chance)
                for genotype, p in law
                for look, chance in self._shown(genotype)
            ]
        return self._young[dam, sire]

    def _drawn(
        self, shares: Sequence[PoolShare], how: Parents, world: World
    ) -> Iterator[tuple[tuple[int, ...], float]]:
        """Choose one animal of a set, or all that can be parents."""
        if how is Parents.SEVERAL:
            yield tuple(a for share in shares for a in world.pools[share.pool]), 1.0
            return
        total = sum(len(world.pools[share.pool]) for share in shares)
        for share in shares:
            members = world.pools[share.pool]
            weight = len(members) / total if share.share is None else float(share.share)
            for animal in members:
                yield (animal,), weight / len(members)

    def _brood(self, pool: CarrierPool, origin: BroodOf, world: World) -> Iterator[World]:
        taken = {
            dam
            for other in origin.carried_with
            if other in world.parents
            for dam in world.parents[other][0]
        }
        pairs = []
        for dams, share in self._free(origin.dams, origin.cloud, world, taken | world_sires(world)):
            used = world_dams(world) | set(dams)
            for sires, other in self._free(origin.sires, origin.mating, world, used):
                pairs.append((dams, sires, share * other))
        for dams, sires, weight in pairs:
            genotype = [animal for animal, _ in world.animals]
            laws = [self._young_of(genotype[dam], genotype[sire]) for dam in dams for sire in sires]
            here = replace(world, parents={**world.parents, pool.name: (dams, sires)})
            yield from self._members(pool, here, weight, laws)

    def _free(
        self, shares: Sequence[PoolShare], how: Parents, world: World, other_than: set[int]
    ) -> list[tuple[tuple[int, ...], float]]:
        """Choose among the animals that are left to choose from."""
        found = [
            (animals, weight)
            for animals, weight in self._drawn(shares, how, world)
            if not other_than & set(animals)
        ]
        whole = sum(weight for _, weight in found)
        return [(animals, weight / whole) for animals, weight in found]

    def _left(self, name: str, world: World) -> list[int]:
        taken = {
            animal for child in self.children[name] for animal in world.pools.get(child.name, ())
        }
        return [animal for animal in world.pools[name] if animal not in taken]

    def _take(self, pool: CarrierPool, origin: TakenFrom, world: World) -> Iterator[World]:
        assert pool.size is not None
        left = self._left(origin.pool, world)
        if origin.look is not None:
            looks = looks_in_class(origin.look, self.model)
            left = [animal for animal in left if world.animals[animal][1] in looks]
            counted = sum(
                count
                for piece in self.evidence
                if isinstance(piece, TallyEvidence) and piece.pool == origin.pool
                for look, count in piece.looks
                if set(looks_in_class(look, self.model)) <= set(looks)
            )
            before = len(world.pools[origin.pool]) - len(self._left(origin.pool, world))
            if counted >= pool.size + before:
                left = [animal for animal in left if animal in world.tallied]
            elif len(left) != pool.size:
                return
        some = list(combinations(left, pool.size))
        for chosen in some:
            yield replace(
                world, weight=world.weight / len(some), pools={**world.pools, pool.name: chosen}
            )

    def _seen(self, name: str, world: World) -> Iterator[World]:
        worlds = [world]
        for piece in self.evidence:
            if piece.pool == name:
                worlds = [after for one in worlds for after in self._piece(piece, one)]
        yield from worlds

    def _piece(self, piece: Evidence, world: World) -> Iterator[World]:
        members = world.pools[piece.pool]
        match piece:
            case SeenLook(look=look):
                wanted = looks_in_class(look, self.model)
                if all(world.animals[animal][1] in wanted for animal in members):
                    yield world
            case Declared(genotypes=genotypes):
                if all(world.animals[animal][0] in genotypes for animal in members):
                    yield world
            case TallyEvidence(looks=looks):
                counted = sum(count for _, count in looks)
                some = list(combinations(members, counted))
                for chosen in some:
                    shown = [world.animals[animal][1] for animal in chosen]
                    if all(
                        sum(one in looks_in_class(look, self.model) for one in shown) == count
                        for look, count in looks
                    ):
                        yield replace(
                            world,
                            weight=world.weight / len(some),
                            tallied=world.tallied | set(chosen),
                        )


def enumerate_worlds(
    model: TraitModel,
    pools: Sequence[CarrierPool],
    evidence: Sequence[Evidence],
    *,
    pairs: Sequence[tuple[str, str]] = (),
) -> OracleResult:
    """Go through all worlds; pools stand in an order in which they can come about."""
    oracle = _Oracle(model, pools, evidence)
    total = 0.0
    laws: dict[str, dict[Genotype, float]] = {p.name: defaultdict(float) for p in pools}
    joint: dict[tuple[str, str], dict[tuple[Genotype, Genotype], float]] = {
        pair: defaultdict(float) for pair in pairs
    }
    for world in oracle.worlds():
        total += world.weight
        for name, members in world.pools.items():
            for animal in members:
                laws[name][world.animals[animal][0]] += world.weight / len(members)
        for dams, sires in pairs:
            females = [a for a in world.pools[dams] if a not in world_sires(world)]
            for dam in females:
                used = world_dams(world) | {dam}
                males = [animal for animal in world.pools[sires] if animal not in used]
                for sire in males:
                    both = (world.animals[dam][0], world.animals[sire][0])
                    joint[dams, sires][both] += world.weight / len(females) / len(males)
    return OracleResult(
        evidence=total,
        laws={n: {g: p / total for g, p in law.items()} for n, law in laws.items()}
        if total
        else {},
        pairs={n: {g: p / total for g, p in law.items()} for n, law in joint.items()}
        if total
        else {},
    )
