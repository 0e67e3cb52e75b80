"""Pools of animals as evidence about genotypes sees them, and where their members come from."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from graphlib import CycleError, TopologicalSorter

from filialog.domain_error import DomainError
from filialog.genetics.genotype_law import GenotypeLaw
from filialog.genetics.trait_model import TraitModel, looks_in_class

__all__ = [
    "BroodOf",
    "CarrierPool",
    "FounderPool",
    "FrequencyPoint",
    "JoinedOf",
    "Parents",
    "PoolShare",
    "TakenFrom",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class FrequencyPoint:
    """One of the laws that the founders of a pool may follow."""

    weight: Fraction
    """Probability of this law; those of all points are together 1."""
    law: GenotypeLaw
    """Law of every founder of the pool, given this point."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FounderPool:
    """No recorded parents: members are drawn from one law, or from one of several."""

    points: tuple[FrequencyPoint, ...]
    """One point: members are independent. More (a grid of allele frequencies): the law is
    unknown but the same for all of them, so that each tells of the others."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PoolShare:
    """One pool of a set or of a joined pool."""

    pool: str
    """Its name."""
    share: Fraction | None = None
    """Probability of a draw from it. None: by the number of its animals."""
    low: Fraction | None = None
    """Least share, where only bounds are known."""
    high: Fraction | None = None
    """Greatest share, where only bounds are known."""


class Parents(Enum):
    """How many parents of one sex the young of a brood have among them."""

    ONE = "one"
    """One animal for the whole brood."""
    SEVERAL = "several"
    """Any of the candidates, with shares of the young that are not known."""
    UNKNOWN = "unknown"
    """Not known which of the two: results are a range."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BroodOf:
    """Young that hatched together."""

    dams: tuple[PoolShare, ...] = ()
    """Where the dam comes from; empty means unknown."""
    sires: tuple[PoolShare, ...] = ()
    """Where the sire comes from; empty means unknown."""
    mating: Parents = Parents.ONE
    """How many sires the young have."""
    cloud: Parents = Parents.ONE
    """How many dams the young have."""
    carried_with: tuple[str, ...] = ()
    """Broods whose clutches were carried at the same time: by other dams."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TakenFrom:
    """Part of another pool."""

    pool: str
    """Name of that pool, as it was before anything was taken."""
    look: str | None = None
    """Look, or class of looks, by which it was sorted; None: taken blind to looks."""
    least: int = 1
    """Least number of animals taken. With exactly so many in `CarrierPool.size` the sort
    is complete: what stays behind does not show the look."""


@dataclass(frozen=True, slots=True, kw_only=True)
class JoinedOf:
    """Pools put together: what was not taken from them before."""

    parts: tuple[PoolShare, ...]
    """The pools, at least one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CarrierPool:
    """Animals recorded together; a pool of size 1 is one animal."""

    name: str
    """Unique among the pools."""
    origin: FounderPool | BroodOf | TakenFrom | JoinedOf
    """Where its members come from."""
    size: int | None = None
    """Number of its members when it came about; None is unknown."""
    females: int | None = None
    """Number of females from which a dam is drawn; None: any member may be it."""
    males: int | None = None
    """Number of males from which a sire is drawn; None: any member may be it."""


def parent_names(pool: CarrierPool) -> tuple[str, ...]:
    """Return the pools that the origin names, each once."""
    match pool.origin:
        case FounderPool():
            return ()
        case BroodOf(dams=dams, sires=sires):
            return tuple(dict.fromkeys(share.pool for share in (*dams, *sires)))
        case TakenFrom(pool=source):
            return (source,)
        case JoinedOf(parts=parts):
            return tuple(share.pool for share in parts)


def ordered(pools: Mapping[str, CarrierPool]) -> tuple[str, ...]:
    """Return the names so that each stands after its sources, what is taken before joins."""
    taken: dict[str, list[str]] = {}
    for pool in pools.values():
        if isinstance(pool.origin, TakenFrom):
            taken.setdefault(pool.origin.pool, []).append(pool.name)
    sorter: TopologicalSorter[str] = TopologicalSorter()
    for pool in pools.values():
        before = list(parent_names(pool))
        if isinstance(pool.origin, JoinedOf):
            before += [name for part in pool.origin.parts for name in taken.get(part.pool, ())]
        sorter.add(pool.name, *(name for name in before if name != pool.name))
        if pool.name in parent_names(pool):
            raise DomainError("pool", pool.name, "one that does not come from itself")
    try:
        return tuple(sorter.static_order())
    except CycleError as cycle:
        raise DomainError(
            "pools", cycle.args[1], "pools that do not come from themselves"
        ) from None


def check_pools(pools: tuple[CarrierPool, ...], model: TraitModel) -> dict[str, CarrierPool]:
    """Return the pools by name; a DomainError where they do not fit together."""
    named: dict[str, CarrierPool] = {}
    for pool in pools:
        if pool.name in named:
            raise DomainError("name of a pool", pool.name, "a name that no other pool has")
        named[pool.name] = pool
        for quantity in ("size", "females", "males"):
            number = getattr(pool, quantity)
            if number is not None and not number >= 1:
                raise DomainError(f"{quantity} of {pool.name}", number, "1 or more, or None")
    for pool in pools:
        for source in parent_names(pool):
            if source not in named:
                raise DomainError(f"source of {pool.name}", source, "a pool that is listed")
        _check_origin(pool, named, model)
    return named


def _check_origin(pool: CarrierPool, named: Mapping[str, CarrierPool], model: TraitModel) -> None:
    match pool.origin:
        case FounderPool(points=points):
            total = sum((point.weight for point in points), Fraction(0))
            if total != 1 or any(point.weight < 0 for point in points):
                raise DomainError(f"weights of {pool.name}", total, "0 or more and together 1")
        case TakenFrom(pool=source, look=look):
            if look is not None:
                looks_in_class(look, model)
            whole = named[source].size
            if whole is not None and pool.size is not None and pool.size > whole:
                raise DomainError(
                    f"size of {pool.name}", pool.size, f"at most {whole}, of {source}"
                )
        case JoinedOf(parts=parts):
            if not parts:
                raise DomainError(f"parts of {pool.name}", 0, "at least one")
            _check_shares(pool.name, parts)
        case BroodOf(dams=dams, sires=sires, carried_with=others):
            _check_shares(pool.name, dams)
            _check_shares(pool.name, sires)
            for other in others:
                if other not in named or not isinstance(named[other].origin, BroodOf):
                    raise DomainError(f"brood carried with {pool.name}", other, "a listed brood")


def _check_shares(name: str, shares: tuple[PoolShare, ...]) -> None:
    names = [share.pool for share in shares]
    if len(set(names)) != len(names):
        raise DomainError(f"set of {name}", names, "each pool once")
    known = [share.share for share in shares if share.share is not None]
    if known and (len(known) != len(shares) or sum(known) != 1 or min(known) < 0):
        raise DomainError(f"shares of {name}", [str(one) for one in known], "all, together 1")
    for share in shares:
        low, high = share.low, share.high
        if (low is None) != (high is None) or (
            low is not None and high is not None and not 0 <= low <= high <= 1
        ):
            raise DomainError(
                f"bounds of {share.pool} in {name}", (low, high), "0 ≤ low ≤ high ≤ 1"
            )
