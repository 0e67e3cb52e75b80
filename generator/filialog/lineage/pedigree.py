"""Which group of animals came from which: the value that all of lineage computes on."""

import graphlib
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from enum import Enum
from fractions import Fraction
from typing import Any, TypeVar

from filialog.domain_error import DomainError

__all__ = [
    "Blend",
    "Brood",
    "Founder",
    "Mating",
    "Origin",
    "Part",
    "Pedigree",
    "Pool",
    "Share",
    "equal_shares",
    "parentage_cycle",
]

_T = TypeVar("_T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """One candidate in a set, with its probability."""

    pool: str
    """Name of the pool from which the animal may come."""
    weight: Fraction
    """Probability that it does, above 0 and at most 1; a set's weights sum to 1."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Founder:
    """No recorded parents: the members are taken as unrelated and not inbred."""

    strain: str
    """The pure line they belong to; founders of one line share it."""


class Mating(Enum):
    """How many parents of one sex the young of a brood have among them."""

    ONE = "one"
    """One animal, drawn once for the whole brood."""
    SEVERAL = "several"
    """Several: any of the candidate animals, each with a share of the young that is not known."""
    UNKNOWN = "unknown"
    """Not known which of the two: what depends on it is a range."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Brood:
    """Young that hatched together: of one dam and one sire, or a cloud of more."""

    dams: tuple[Share, ...] = ()
    """Where the dam comes from; empty means unknown."""
    sires: tuple[Share, ...] = ()
    """Where the sire comes from; empty means unknown."""
    mating: Mating = Mating.ONE
    """How many sires the young have."""
    cloud: Mating = Mating.ONE
    """How many dams the young have: SEVERAL is a mixed cloud of several females' young."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """Split from another pool, without choice by descent."""

    of: str
    """Name of the pool it was taken from."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Blend:
    """Several pools put together; a member comes from one of them."""

    parts: tuple[Share, ...]
    """The pools that were joined, at least one."""


Origin = Founder | Brood | Part | Blend


@dataclass(frozen=True, slots=True, kw_only=True)
class Pool:
    """Animals recorded together; a pool of size 1 is one animal."""

    name: str
    """Unique in its pedigree."""
    origin: Origin
    """Where its members come from."""
    size: int | None = None
    """Number of animals from which a parent is drawn, 1 or more; None is unknown."""
    females: int | None = None
    """Number of females from which a dam is drawn, 1 or more; None is unknown."""
    males: int | None = None
    """Number of males from which a sire is drawn, 1 or more; None is unknown."""


def equal_shares(*pools: str) -> tuple[Share, ...]:
    """Make a set of equally probable candidates.

    Parameters
    ----------
    *pools
        Names of the candidates; none makes the empty set, which means unknown.

    Returns
    -------
    tuple of Share
        One share per name in the order given, each of weight 1 / (number of names).

    Examples
    --------
    >>> [str(share.weight) for share in equal_shares("a", "b", "c")]
    ['1/3', '1/3', '1/3']
    """
    return tuple(Share(pool=name, weight=Fraction(1, len(pools))) for name in pools)


def source_names(origin: Origin) -> tuple[str, ...]:
    """Give the pools that an origin names, each once, dams before sires."""
    match origin:
        case Founder():
            return ()
        case Brood(dams=dams, sires=sires):
            return tuple(dict.fromkeys(share.pool for share in (*dams, *sires)))
        case Part(of=of):
            return (of,)
        case Blend(parts=parts):
            return tuple(share.pool for share in parts)


def parentage_cycle(pools: Iterable[Pool]) -> tuple[str, ...]:
    """Find pools that would be their own ancestors.

    Parameters
    ----------
    pools
        Pools in any order. Names of pools that are not among them are passed over.

    Returns
    -------
    tuple of str
        The names along one cycle, each a source of the next and the last a source of
        the first, beginning with the name that sorts first; empty if there is none.
        The result does not depend on the order of `pools`. Where several cycles
        exist, one of them is given.

    Examples
    --------
    >>> a = Pool(name="a", origin=Brood(dams=equal_shares("c")))
    >>> b = Pool(name="b", origin=Part(of="a"))
    >>> c = Pool(name="c", origin=Part(of="b"))
    >>> parentage_cycle([c, b, a])
    ('a', 'b', 'c')
    """
    sources = {pool.name: source_names(pool.origin) for pool in pools}
    graph = {
        name: sorted(source for source in sources[name] if source in sources)
        for name in sorted(sources)
    }
    try:
        graphlib.TopologicalSorter(graph).prepare()
    except graphlib.CycleError as error:
        names: list[str] = error.args[1][1:]
        first = names.index(min(names))
        return tuple(names[first:] + names[:first])
    return ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Pedigree:
    """Pools whose links are known to be sound: every name exists and nothing is circular.

    Parameters
    ----------
    pools
        The pools, in any order.

    Raises
    ------
    DomainError
        If a name is used twice, a source is not among the pools, a pool is its own
        ancestor, the weights of a set are not above 0 with sum 1, a set names a pool
        twice, nothing was blended, a number of animals is below 1, or there are more
        females and males than animals.

    Examples
    --------
    >>> young = Pool(name="young", origin=Brood(dams=equal_shares("old")))
    >>> old = Pool(name="old", origin=Founder(strain="blue"), size=12)
    >>> [pool.name for pool in Pedigree(pools=(young, old)).ordered]
    ['old', 'young']
    """

    pools: tuple[Pool, ...]
    """As given."""
    ordered: tuple[Pool, ...] = field(init=False, repr=False, compare=False)
    """The same pools by the longest chain of links back to a founder, else as given: every
    source stands before what came from it."""
    _by_name: dict[str, Pool] = field(init=False, repr=False, compare=False)
    _results: dict[Callable[..., object], Any] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        by_name: dict[str, Pool] = {}
        for pool in self.pools:
            if pool.name in by_name:
                raise DomainError("name of a pool", pool.name, "a name used once")
            by_name[pool.name] = pool
        for pool in self.pools:
            _check(pool, by_name)
        cycle = parentage_cycle(self.pools)
        if cycle:
            raise DomainError("ancestry", " -> ".join((*cycle, cycle[0])), "no circle")
        graph = {pool.name: source_names(pool.origin) for pool in self.pools}
        links: dict[str, int] = {}
        for name in graphlib.TopologicalSorter(graph).static_order():
            links[name] = 1 + max((links[source] for source in graph[name]), default=-1)
        ordered = sorted(self.pools, key=lambda pool: links[pool.name])
        object.__setattr__(self, "ordered", tuple(ordered))
        object.__setattr__(self, "_by_name", by_name)
        object.__setattr__(self, "_results", {})

    def pool(self, name: str) -> Pool:
        """Give the pool of that name.

        Parameters
        ----------
        name
            Name of a pool of this pedigree.

        Returns
        -------
        Pool
            The pool.

        Raises
        ------
        DomainError
            If there is no pool of that name.

        Examples
        --------
        >>> blue = Pool(name="blue 1", origin=Founder(strain="blue"))
        >>> Pedigree(pools=(blue,)).pool("blue 1").origin
        Founder(strain='blue')
        """
        found = self._by_name.get(name)
        if found is None:
            raise DomainError("name of a pool", name, "a pool of the pedigree")
        return found

    def once(self, compute: Callable[["Pedigree"], _T]) -> _T:
        """Compute something of the whole pedigree and keep it with the value.

        Parameters
        ----------
        compute
            A pure function (or class) of the pedigree; it is the key, so it must be
            the same object each time.

        Returns
        -------
        object
            The result of the first call.

        Examples
        --------
        >>> Pedigree(pools=()).once(lambda pedigree: len(pedigree.pools))
        0
        """
        if compute not in self._results:
            self._results[compute] = compute(self)
        result: _T = self._results[compute]
        return result


def _check(pool: Pool, by_name: dict[str, Pool]) -> None:
    for what, number in (("animals", pool.size), ("females", pool.females), ("males", pool.males)):
        if number is not None and number < 1:
            raise DomainError(f"number of {what} in {pool.name}", number, "1 or more")
    sexed = (pool.females or 0) + (pool.males or 0)
    # The only animal of a pool can be both, as where it is selfed.
    if pool.size is not None and sexed > pool.size > 1:
        raise DomainError(f"females and males in {pool.name}", sexed, f"at most {pool.size}")
    for source in source_names(pool.origin):
        if source not in by_name:
            raise DomainError(f"source of {pool.name}", source, "a pool of the pedigree")
    match pool.origin:
        case Brood(dams=dams, sires=sires):
            _check_set(f"dam set of {pool.name}", dams)
            _check_set(f"sire set of {pool.name}", sires)
        case Blend(parts=parts):
            if not parts:
                raise DomainError(f"parts of {pool.name}", (), "at least one pool")
            _check_set(f"parts of {pool.name}", parts)
        case _:
            pass


def _check_set(quantity: str, shares: tuple[Share, ...]) -> None:
    if not shares:
        return
    names = [share.pool for share in shares]
    if len(set(names)) != len(names):
        raise DomainError(quantity, tuple(names), "each pool once")
    for share in shares:
        if not share.weight > 0:  # written so that NaN fails too
            raise DomainError(f"weight in the {quantity}", share.weight, "above 0")
    total = sum(share.weight for share in shares)
    if total != 1:
        raise DomainError(f"sum of weights in the {quantity}", str(total), "1")
