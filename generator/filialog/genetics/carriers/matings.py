"""The parents of each brood as draws from pools: one of a set, or several candidates."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from filialog.genetics.carriers.drawings import Draw
from filialog.genetics.carriers.pools import BroodOf, CarrierPool, Parents, PoolShare

__all__ = ["UNKNOWN_PARENT", "BroodPlan", "ParentPlan", "brood_plan"]

UNKNOWN_PARENT = "\x1funknown parent"
"""Name of the pool from which parents come of whom nothing is recorded."""

_MOST_CANDIDATES = 3
"""Candidates of one sex among whom shares of the young are integrated."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ParentPlan:
    """One animal that is, or may be, a parent."""

    name: str
    draws: tuple[Draw, ...]
    """Where it may come from."""
    shares: tuple[Fraction, ...]
    """Prior probability of each."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BroodPlan:
    """The parents of one brood."""

    dams: tuple[ParentPlan, ...]
    sires: tuple[ParentPlan, ...]
    declared: tuple[Fraction, ...] | None
    """Shares of the young by pair of dam and sire, where they are declared."""
    exact: bool
    """Whether all candidates are among the parents."""


def brood_plan(
    pool: CarrierPool,
    pools: Mapping[str, CarrierPool],
    *,
    unknown: Parents,
    not_dams: Sequence[Draw] = (),
) -> BroodPlan:
    """Return the parents of a brood.

    Parameters
    ----------
    pool
        The brood.
    pools
        All pools by name.
    unknown
        What is assumed where it is not known whether there was one parent or several.
    not_dams
        Dams of clutches carried at the same time.
    """
    origin = pool.origin
    assert isinstance(origin, BroodOf)
    found: dict[str, tuple[tuple[ParentPlan, ...], tuple[Fraction, ...] | None, bool]] = {}
    for role, shares, how in (
        ("dam", origin.dams, origin.cloud),
        ("sire", origin.sires, origin.mating),
    ):
        number = unknown if how is Parents.UNKNOWN else how
        others = frozenset(draw.name for draw in not_dams) if role == "dam" else frozenset()
        maker = _Parents(
            pool.name, role, shares or (PoolShare(pool=UNKNOWN_PARENT),), pools, others
        )
        found[role] = maker.one() if number is Parents.ONE else maker.several()
    (dams, dam_shares, dams_exact), (sires, sire_shares, sires_exact) = found.values()
    declared = None
    if (dam_shares or len(dams) == 1) and (sire_shares or len(sires) == 1):
        one = (Fraction(1),)
        declared = tuple(d * s for d in dam_shares or one for s in sire_shares or one)
    return BroodPlan(dams=dams, sires=sires, declared=declared, exact=dams_exact and sires_exact)


class _Parents:
    """Makes the parents of one sex."""

    def __init__(
        self,
        brood: str,
        role: str,
        shares: tuple[PoolShare, ...],
        pools: Mapping[str, CarrierPool],
        others: frozenset[str],
    ) -> None:
        self.brood, self.role, self.shares, self.others = brood, role, shares, others
        self.animals = []
        for share in shares:
            pool = pools[share.pool]
            own = pool.females if role == "dam" else pool.males
            self.animals.append(pool.size if own is None else own)

    def _draw(self, pool: str, parent: int, others: frozenset[str]) -> Draw:
        name = f"{self.brood}/{self.role}{parent}/{pool}"
        sure = len(self.shares) == 1
        return Draw(
            name=name,
            brood=self.brood,
            pool=pool,
            role=self.role,
            other_than=others,
            sure=sure,
        )

    def _weights(self) -> tuple[Fraction, ...]:
        declared = [share.share for share in self.shares if share.share is not None]
        if declared:
            return tuple(declared)
        known = [number for number in self.animals if number is not None]
        if len(known) < len(self.shares):
            return (Fraction(1, len(self.shares)),) * len(self.shares)
        return tuple(Fraction(number, sum(known)) for number in known)

    def _plan(self, parent: int, others: frozenset[str]) -> ParentPlan:
        pairs = [
            (share.pool, weight)
            for share, weight in zip(self.shares, self._weights(), strict=True)
            if weight
        ]
        return ParentPlan(
            name=f"{self.brood}/{self.role}{parent}",
            draws=tuple(self._draw(pool, parent, others) for pool, _ in pairs),
            shares=tuple(weight for _, weight in pairs),
        )

    def one(self) -> tuple[tuple[ParentPlan, ...], None, bool]:
        return (self._plan(0, self.others),), None, True

    def several(self) -> tuple[tuple[ParentPlan, ...], tuple[Fraction, ...] | None, bool]:
        known = [number for number in self.animals if number is not None]
        total = sum(known)
        plans: list[ParentPlan] = []
        before = self.others
        if len(known) < len(self.animals) or total > _MOST_CANDIDATES:
            for parent in range(_MOST_CANDIDATES):
                plans.append(self._plan(parent, before))
                before |= {draw.name for draw in plans[-1].draws}
            return tuple(plans), None, False
        for share, number in zip(self.shares, known, strict=True):
            for _ in range(number):
                draw = self._draw(share.pool, len(plans), before)
                plan = ParentPlan(
                    name=f"{self.brood}/{self.role}{len(plans)}",
                    draws=(draw,),
                    shares=(Fraction(1),),
                )
                plans.append(plan)
                before |= {draw.name}
        declared = [share.share for share in self.shares if share.share is not None]
        fixed = tuple(declared) if declared and total == len(self.shares) else None
        return tuple(plans), fixed, True
