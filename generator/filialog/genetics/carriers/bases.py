"""The law of one animal of each origin, given the variables of its origin."""

from collections.abc import Mapping, Sequence
from itertools import product
from typing import TYPE_CHECKING

from filialog.genetics.carriers.blocks import CarrierBlock
from filialog.genetics.carriers.histories import Kind
from filialog.genetics.carriers.matings import BroodPlan
from filialog.genetics.carriers.pools import CarrierPool, FounderPool
from filialog.genetics.carriers.simplex import SharePoint, share_points
from filialog.genetics.inference import Factor
from filialog.genetics.trait_model import Sex, ShownBy, TraitModel

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

__all__ = ["BaseLaws", "Variables"]

Variables = tuple[str, ...]

_MOST_POINTS = 400


class BaseLaws:
    """Tables of founder pools and broods, by the variables that their animals share.

    Those of a brood are its parents and, where there are several, the shares of the young;
    those of a founder pool with several possible laws the number of the law.
    """

    def __init__(
        self,
        model: TraitModel,
        blocks: Sequence[CarrierBlock],
        pools: Mapping[str, CarrierPool],
        *,
        plans: Mapping[str, BroodPlan],
        degrees: Mapping[str, int],
        alias: Mapping[str, str],
    ) -> None:
        self._alias = alias
        self._model, self._blocks, self._pools, self._plans = model, blocks, pools, plans
        self.states: dict[str, int] = {}
        self.exact = True
        self._points: dict[str, tuple[SharePoint, ...]] = {}
        for name, plan in plans.items():
            pairs = len(plan.dams) * len(plan.sires)
            if plan.declared is not None:
                self._points[name] = (SharePoint(1.0, tuple(map(float, plan.declared))),)
            else:
                points, exact = share_points(pairs, degree=degrees.get(name, 0), most=_MOST_POINTS)
                self._points[name] = points
                self.exact = self.exact and exact
            if len(self._points[name]) > 1:
                self.states[f"{name}/shares"] = len(self._points[name])
            for parent in (*plan.dams, *plan.sires):
                for number, block in enumerate(blocks):
                    self.states[self.variable(parent.name, number)] = block.count
        for name, pool in pools.items():
            if isinstance(pool.origin, FounderPool) and len(pool.origin.points) > 1:
                self.states[f"{name}/law"] = len(pool.origin.points)
        self._tables: dict[tuple[str, int, frozenset[str] | None], Array] = {}
        self._young: dict[tuple[object, ...], Array] = {}
        self._weighted: dict[tuple[Kind, Sex | None, int], Array] = {}

    def variable(self, animal: str, block: int) -> str:
        """Return the variable of a parent: that of the animal it is for certain, or its own."""
        return f"{self._alias.get(animal, animal)}:{block}"

    def context(self, base: str, block: int) -> Variables:
        """Return the variables that all animals of an origin share, as one block sees them."""
        plan = self._plans.get(base)
        if plan is None:
            return (f"{base}/law",) if f"{base}/law" in self.states else ()
        parents = tuple(self.variable(one.name, block) for one in (*plan.dams, *plan.sires))
        shares = (f"{base}/shares",) if len(self._points[base]) > 1 else ()
        return (*parents, *shares)

    def factors(self, order: Sequence[str]) -> list[Factor]:
        """Return the prior of what is not drawn from pools, and that broods exist."""
        import numpy as np  # noqa: PLC0415

        found = []
        for name in order:
            origin = self._pools[name].origin
            if f"{name}/law" in self.states and isinstance(origin, FounderPool):
                table = np.array([float(point.weight) for point in origin.points])
                found.append(Factor(variables=(f"{name}/law",), table=table))
            if f"{name}/shares" in self.states:
                table = np.array([point.weight for point in self._points[name]])
                found.append(Factor(variables=(f"{name}/shares",), table=table))
            if name in self._plans:
                for block in range(len(self._blocks)):
                    fertile = self.chance(Kind(name), None, block) > 0
                    if not fertile.all():
                        table = fertile.astype(float)
                        found.append(Factor(variables=self.context(name, block), table=table))
        return found

    def chance(self, kind: Kind, sex: Sex | None, block: int) -> "Array":
        """Return by context the probability that an animal of the origin is of the kind."""
        import numpy as np  # noqa: PLC0415

        chance: Array = np.sum(self._seen(kind, sex, block), axis=-1)
        if sex is None and kind.looks is None and kind.genotypes is None:
            chance = (chance > 0).astype(float)  # without rounding
        return np.asarray(chance, dtype=np.float64)

    def law(self, kind: Kind, sex: Sex | None, block: int) -> "Array":
        """Return by context the law of an animal of the kind; even where there is none."""
        import numpy as np  # noqa: PLC0415

        seen = self._seen(kind, sex, block)
        whole = seen.sum(axis=-1, keepdims=True)
        even = np.full_like(seen, 1 / seen.shape[-1])
        found: Array = np.divide(seen, whole, out=even, where=whole > 0)
        return found

    def _seen(self, kind: Kind, sex: Sex | None, block: int) -> "Array":
        key = (kind, sex, block)
        if key not in self._weighted:
            here = self._blocks[block]
            looks = kind.looks if here.shows else None
            by_dam = self._model.shown_by is ShownBy.DAM
            table = self._table(kind.base, block, looks if by_dam else None)
            if looks is not None and not by_dam:
                table = table * here.chances(looks)
            if kind.genotypes is not None:
                table = table * here.among(kind.genotypes)
            of_sex = None if sex is None else here.of_sex(sex)
            # An animal that cannot be of the sex in which it bred is sex-reversed.
            if of_sex is not None and (table * of_sex).any():
                table = table * of_sex
            self._weighted[key] = table
        return self._weighted[key]

    def _table(self, base: str, block: int, dam_looks: frozenset[str] | None) -> "Array":
        """Return the law by context; with looks of the dam's genotype, the part that shows them."""
        import numpy as np  # noqa: PLC0415

        key = (base, block, dam_looks)
        if key in self._tables:
            return self._tables[key]
        here, origin = self._blocks[block], self._pools[base].origin
        if isinstance(origin, FounderPool):
            rows = np.stack([here.marginal(point.law) for point in origin.points])
            table = rows if len(rows) > 1 else rows[0]
        else:
            plan, points = self._plans[base], self._points[base]
            shape = (len(plan.dams), len(plan.sires), points, block, dam_looks)
            if shape not in self._young:
                self._young[shape] = self._young_of(shape[0], shape[1], points, block, dam_looks)
            table = self._young[shape]
        self._tables[key] = table
        return table

    def _young_of(
        self,
        dams: int,
        sires: int,
        points: tuple[SharePoint, ...],
        block: int,
        dam_looks: frozenset[str] | None,
    ) -> "Array":
        import numpy as np  # noqa: PLC0415

        here = self._blocks[block]
        young = here.young
        shown = young if dam_looks is None else young * here.chances(dam_looks)[:, None, None]
        if dams == sires == 1:
            return shown
        count, parents = here.count, dams + sires
        total = np.zeros((count,) * parents + (len(points), count))
        alive = np.zeros((count,) * parents + (len(points), 1))
        shares = np.array([point.shares for point in points])
        for pair, (dam, sire) in enumerate(product(range(dams), range(sires))):
            wide = [1] * parents
            wide[dam] = wide[dams + sire] = count
            weight = shares[:, pair, None]
            total = total + shown.reshape(*wide, 1, count) * weight
            fertile = young.sum(axis=2).reshape(*wide, 1, 1) > 0
            alive = alive + fertile * weight
        table = np.divide(total, alive, out=np.zeros_like(total), where=alive > 0)
        return table if len(points) > 1 else table.reshape((count,) * (parents + 1))
