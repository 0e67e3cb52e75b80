"""Small integer programs over share-outs: the least value of a sum under rows, by HiGHS.

In: the share-outs and rows that hang together, and a set of numbers known to satisfy them.
Out: least values, exact, and new such sets of numbers.

Members of a share-out that stand in no row and have no cap of their own can stand in for one
another: together they are one column, whose animals fall to the cheapest of them.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Vector = NDArray[np.float64]

__all__ = ["Program", "Row", "ShareOut", "least_of_share_out"]

_MOST_KEPT = 64
"""Solutions that a program remembers, to answer from before it solves."""


@dataclass(slots=True)
class ShareOut:
    """Unknowns from 0 upwards whose total lies between two bounds."""

    first: int
    """Its first unknown; the others follow."""
    number: int
    low: int
    high: int | None

    @property
    def members(self) -> range:
        """Its unknowns."""
        return range(self.first, self.first + self.number)

    def reset(self, low: int, high: int | None) -> None:
        """Change the bounds of the total."""
        self.low, self.high = low, high


@dataclass(frozen=True, slots=True)
class Row:
    """A constraint across share-outs: low <= terms <= high."""

    terms: tuple[tuple[int, int], ...]
    low: int | None
    high: int | None

    def implies(self, other: "Row") -> bool:
        """Say whether the other row, which has no term that this one lacks, adds nothing."""
        more = [multiple for _, multiple in self.terms[len(other.terms) :]]
        if self.low is not None and self.high is None:
            return other.high is None and (other.low or 0) <= self.low and all(n < 0 for n in more)
        if self.high is not None and self.low is None:
            return other.low is None and (other.high or 0) >= self.high and all(n > 0 for n in more)
        return False


def least_of_share_out(
    share_out: ShareOut, multiples: Mapping[int, int], cap: Sequence[int | None]
) -> int | None:
    """Least value of a sum over one share-out, None where there is none: fill the cheapest."""
    by_multiple = sorted((multiple, unknown) for unknown, multiple in multiples.items())
    value = total = 0
    for multiple, unknown in by_multiple:
        if multiple >= 0:
            break
        room = _lower(None if share_out.high is None else share_out.high - total, cap[unknown])
        if room is None:
            return None
        total += room
        value += multiple * room
    # What must be handed out beyond that goes to members that cost nothing, then to the others.
    need = share_out.low - total
    if need > 0:
        need -= _room_of_others(share_out, multiples, cap, need)
    for multiple, unknown in by_multiple:
        if need <= 0:
            break
        if multiple >= 0:
            most = cap[unknown]
            share = need if most is None else min(need, most)
            value += multiple * share
            need -= share
    return value


def _room_of_others(
    share_out: ShareOut, multiples: Mapping[int, int], cap: Sequence[int | None], need: int
) -> int:
    """Return how much of a need finds room in the members that stand in no multiple."""
    if len(multiples) == share_out.number:
        return 0
    room = 0
    for unknown in share_out.members:
        if unknown not in multiples:
            most = cap[unknown]
            if most is None or room + most >= need:
                return need
            room += most
    return room


def _lower(one: int | None, other: int | None) -> int | None:
    if one is None or other is None:
        return one if other is None else other
    return min(one, other)


class Program:
    """Share-outs that rows tie together."""

    def __init__(
        self,
        *,
        homes: Sequence[int],
        share_outs: Sequence[ShareOut],
        rows: Sequence[Row],
        cap: Sequence[int | None],
        witness: list[int],
    ) -> None:
        """`witness` satisfies everything unless `satisfy` is still to be called."""
        import numpy as np  # noqa: PLC0415 - most journals never get here

        self.homes = homes
        self._rows = rows
        self._witness = witness
        self._cap = cap
        in_rows = {unknown for row in rows for unknown, _ in row.terms}
        self._column: dict[int, int] = {}
        """Column of each unknown that has one of its own."""
        self._free: list[tuple[int, range]] = []
        """Columns that stand for all other members of a share-out, with those members."""
        self._share_outs = share_outs
        self._free_of: dict[int, int] = {}
        """Column that stands for an unknown without one of its own."""
        number = 0
        for one in share_outs:
            others = 0
            for unknown in one.members:
                if unknown in in_rows or cap[unknown] is not None:
                    self._column[unknown] = number
                    number += 1
                else:
                    others += 1
            if others:
                self._free.append((number, one.members))
                self._free_of.update(
                    (unknown, number) for unknown in one.members if unknown not in self._column
                )
                number += 1
        self._others = dict(self._free)
        self._number = number
        self._parts: tuple[Any, Any, Any] | None = None
        self._kept: list[Vector] = [self._vector_of_witness(np.zeros(number))]

    def _vector_of_witness(self, vector: "Vector") -> "Vector":
        for unknown, column in self._column.items():
            vector[column] = self._witness[unknown]
        for unknown, column in self._free_of.items():
            vector[column] += self._witness[unknown]
        return vector

    def least(self, objective: Mapping[int, int], outer: int | None) -> int | None:
        """Return the least value of an objective, None where there is none.

        `outer` is a bound the value cannot fall below; where a known solution attains it, nothing
        is solved.
        """
        cost = self._cost(objective)
        if outer is not None and self._best_kept(cost) <= outer:
            return outer
        solution = self._solve(cost)
        if solution is None:
            # Some numbers satisfy the rows, so a failure means that there is no least value.
            return None
        self._kept = [solution, *self._kept[: _MOST_KEPT - 1]]
        return round(float(cost @ solution))

    def attains(self, objective: Mapping[int, int], outer: int | None) -> bool:
        """Say whether a known solution attains a bound."""
        return outer is not None and self._best_kept(self._cost(objective)) <= outer

    def satisfy(self) -> bool:
        """Find numbers that satisfy everything and make them the witness; False if none do."""
        import numpy as np  # noqa: PLC0415

        solution = self._solve(np.zeros(self._number))
        if solution is None:
            return False
        self._kept = [solution]
        for unknown in self._free_of:
            self._witness[unknown] = 0
        for column, members in self._free:
            first = next(unknown for unknown in members if unknown not in self._column)
            self._witness[first] = int(solution[column])
        for unknown, column in self._column.items():
            self._witness[unknown] = int(solution[column])
        return True

    def _best_kept(self, cost: "Vector") -> int:
        return min(round(float(cost @ solution)) for solution in self._kept)

    def _cost(self, objective: Mapping[int, int]) -> "Vector":
        """Return the cost of each column; a free column costs what its cheapest member does."""
        import numpy as np  # noqa: PLC0415

        cost = np.zeros(self._number)
        free: dict[int, list[int]] = {}
        for unknown, multiple in objective.items():
            column = self._column.get(unknown)
            if column is not None:
                cost[column] = multiple
            else:
                free.setdefault(self._free_of[unknown], []).append(multiple)
        for column, multiples in free.items():
            members = sum(1 for one in self._others[column] if one not in self._column)
            cost[column] = min(multiples) if len(multiples) == members else min(0, *multiples)
        return cost

    def _solve(self, cost: "Vector") -> "Vector | None":
        """Minimise over whole numbers; None where it fails."""
        import numpy as np  # noqa: PLC0415
        from scipy.optimize import milp  # noqa: PLC0415

        if self._parts is None:
            self._parts = self._built()
        constraints, bounds, whole = self._parts
        result = milp(
            cost,
            constraints=constraints,
            bounds=bounds,
            integrality=whole,
            options={"mip_rel_gap": 0.0},
        )
        return np.rint(result.x) if result.status == 0 else None

    def _built(self) -> tuple[Any, Any, Any]:
        import numpy as np  # noqa: PLC0415
        from scipy.optimize import Bounds as Box  # noqa: PLC0415
        from scipy.optimize import LinearConstraint  # noqa: PLC0415
        from scipy.sparse import csr_array  # noqa: PLC0415

        lines: list[dict[int, int]] = [
            {self._column[unknown]: multiple for unknown, multiple in row.terms}
            for row in self._rows
        ]
        lines.extend(
            {
                self._column[unknown] if unknown in self._column else self._free_of[unknown]: 1
                for unknown in one.members
            }
            for one in self._share_outs
        )
        matrix = csr_array(
            (
                [float(multiple) for line in lines for multiple in line.values()],
                (
                    [number for number, line in enumerate(lines) for _ in line],
                    [column for line in lines for column in line],
                ),
            ),
            shape=(len(lines), self._number),
        )
        limits: list[Row | ShareOut] = [*self._rows, *self._share_outs]
        most = np.full(self._number, np.inf)
        for unknown, column in self._column.items():
            cap = self._cap[unknown]
            if cap is not None:
                most[column] = cap
        return (
            LinearConstraint(
                matrix,
                _floats((one.low for one in limits), -np.inf),
                _floats((one.high for one in limits), np.inf),
            ),
            Box(0, most),
            np.ones(self._number),
        )


def _floats(values: Iterable[int | None], otherwise: float) -> list[float]:
    return [otherwise if value is None else float(value) for value in values]
