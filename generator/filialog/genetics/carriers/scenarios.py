"""What a computation of hidden carriers takes for granted, and the answers it goes through."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from enum import Enum
from fractions import Fraction
from itertools import product

from filialog.domain_error import DomainError
from filialog.genetics.carriers.blocks import CarrierBlock, blocks_of
from filialog.genetics.carriers.evidence import Evidence
from filialog.genetics.carriers.pools import (
    BroodOf,
    CarrierPool,
    FounderPool,
    JoinedOf,
    Parents,
    PoolShare,
    TakenFrom,
)
from filialog.genetics.genotype_law import GenotypeLaw
from filialog.genetics.trait_model import Genotype, TraitModel

__all__ = ["Assumption", "Scenario", "assumptions_of", "blocks_needed", "scenarios"]


class Assumption(Enum):
    """What was taken for granted."""

    BLIND_SPLITS = "blind splits"
    """What was taken from a pool without a look was taken blind to genotypes."""
    UNKNOWN_PARENTS = "unknown parents"
    """Parents of whom nothing is recorded have all alleles equally frequent."""
    SIZE_UNKNOWN = "size unknown"
    """Parents drawn from a pool of unknown size are never the same animal."""
    SOME_DRAWS = "some draws"
    """In large families only the first draws can be the same animal, fewer where the
    network would be too large, the others being animals apart; or joined
    pools are taken as large, or only some of many candidates, or of many sets of shares
    among the young, are gone through."""
    COMPLETE_SORTS = "complete sorts"
    """A sort with an exact count took every animal of that look."""
    EITHER_MATING = "either mating"
    """Not known whether one or several were parents: `range_of` shows both."""
    SHARE_BOUNDS = "share bounds"
    """Shares of a joined pool are known within bounds: `range_of` shows the ends."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scenario:
    """One answer to what the record leaves open."""

    number: int
    pools: Mapping[str, CarrierPool]
    unknown: Parents


def blocks_needed(
    model: TraitModel, pools: Mapping[str, CarrierPool], evidence: Sequence[Evidence]
) -> tuple[CarrierBlock, ...]:
    """Return the blocks of the model, all joined where pools or evidence tie them."""
    blocks = blocks_of(model)
    if len(blocks) == 1:
        return blocks
    tied = any(
        isinstance(one.origin, BroodOf)
        and (one.origin.mating is not Parents.ONE or one.origin.cloud is not Parents.ONE)
        for one in pools.values()
    )
    laws = [
        point.law
        for one in pools.values()
        if isinstance(one.origin, FounderPool)
        for point in one.origin.points
    ]
    if tied or not all(_independent(law, blocks) for law in laws):
        return blocks_of(model, joined=True)
    for piece in evidence:
        genotypes = frozenset(getattr(piece, "genotypes", ()))
        parts = [{block.part(genotype) for genotype in genotypes} for block in blocks]
        together = 1
        for part in parts:
            together *= len(part)
        if genotypes and together != len(genotypes):
            return blocks_of(model, joined=True)
    return blocks


def _independent(law: GenotypeLaw, blocks: Sequence[CarrierBlock]) -> bool:
    alone: list[dict[Genotype, Fraction]] = []
    for block in blocks:
        part: dict[Genotype, Fraction] = {}
        for genotype, probability in law.probabilities:
            own = block.part(genotype)
            part[own] = part.get(own, Fraction(0)) + probability
        alone.append(part)
    size = 1
    for part in alone:
        size *= len(part)
    if size != len(law.probabilities):
        return False
    for genotype, probability in law.probabilities:
        expected = Fraction(1)
        for block, part in zip(blocks, alone, strict=True):
            expected *= part[block.part(genotype)]
        if expected != probability:
            return False
    return True


def scenarios(pools: Mapping[str, CarrierPool]) -> tuple[Scenario, ...]:
    """Return the answers to what is open: matings, and shares at the ends of their bounds."""
    open_mating = any(
        isinstance(one.origin, BroodOf) and Parents.UNKNOWN in (one.origin.mating, one.origin.cloud)
        for one in pools.values()
    )
    joins = [dict(pools)]
    for name, pool in pools.items():
        ends = _ends(pool.origin.parts) if isinstance(pool.origin, JoinedOf) else ()
        if ends:
            several = joins if len(joins) * len(ends) <= 16 else joins[:1]
            joins = [
                {**one, name: replace(pool, origin=JoinedOf(parts=parts))}
                for one in several
                for parts in ends
            ]
    answers = product(joins, (Parents.ONE, Parents.SEVERAL) if open_mating else (Parents.ONE,))
    return tuple(
        Scenario(number=number, pools=one, unknown=unknown)
        for number, (one, unknown) in enumerate(answers)
    )


def _ends(parts: tuple[PoolShare, ...]) -> tuple[tuple[PoolShare, ...], ...]:
    """Return shares within their bounds: all but one of the parts at an end of theirs."""
    if all(part.low is None for part in parts):
        return ()
    bounds = [
        (Fraction(0), Fraction(1))
        if part.low is None or part.high is None
        else (part.low, part.high)
        for part in parts
    ]
    found: dict[tuple[Fraction, ...], None] = {}
    for rest in range(len(parts)):
        others = [bound for place, bound in enumerate(bounds) if place != rest]
        for chosen in product(*others):
            left = 1 - sum(chosen, Fraction(0))
            if bounds[rest][0] <= left <= bounds[rest][1]:
                found[(*chosen[:rest], left, *chosen[rest:])] = None
    if not found:
        raise DomainError("bounds of shares", str(bounds), "some that can add up to 1")
    return tuple(
        tuple(
            PoolShare(pool=part.pool, share=share)
            for part, share in zip(parts, shares, strict=True)
        )
        for shares in found
    )


def assumptions_of(pool: CarrierPool, pools: Mapping[str, CarrierPool]) -> set[Assumption]:
    """Return what is taken for granted of one pool."""
    found = set()
    match pool.origin:
        case BroodOf(dams=dams, sires=sires, mating=mating, cloud=cloud):
            if not (dams and sires):
                found.add(Assumption.UNKNOWN_PARENTS)
            if Parents.UNKNOWN in (mating, cloud):
                found.add(Assumption.EITHER_MATING)
            if any(pools[share.pool].size is None for share in (*dams, *sires)):
                found.add(Assumption.SIZE_UNKNOWN)
        case TakenFrom(look=look):
            if look is None:
                found.add(Assumption.BLIND_SPLITS)
            elif pool.size is not None:
                found.add(Assumption.COMPLETE_SORTS)
        case JoinedOf(parts=parts):
            if any(part.low is not None for part in parts):
                found.add(Assumption.SHARE_BOUNDS)
        case FounderPool():
            pass
    return found
