"""Small integer programs over share-outs: the least value of a sum under rows, by HiGHS.

In: the share-outs and rows that hang together, and a set of numbers known to satisfy them.
Out: least values, exact, and new such sets of numbers.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

__all__ = ["Program", "Row", "ShareOut", "least_of_share_out"]

_MOST_KEPT = 24
"""Solutions that a program remembers, to answer from before it solves."""


@dataclass(slots=True)
class ShareOut:
    """Unknowns from 0 upwards whose total lies between two bounds."""

    first: int
    """Its first unknown; the others follow."""
    number: int
    low: int
    high: int | None

    def reset(self, low: int, high: int | None) -> None:
        """Change the bounds of the total."""
        self.low, self.high = low, high


@dataclass(frozen=True, slots=True, eq=False)
class Row:
    """A constraint across share-outs: low <= terms <= high."""

    terms: tuple[tuple[int, int], ...]
    low: int | None
    high: int | None


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
    for unknown in range(share_out.first, share_out.first + share_out.number):
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


@dataclass(slots=True)
class Program:
    """Share-outs that rows tie together."""

    share_outs: Sequence[ShareOut]
    rows: Sequence[Row]
    cap: Sequence[int | None]
    """The most of each unknown, where known."""
    witness: list[int]
    """A value of each unknown that satisfies everything; `satisfy` replaces those of here."""
    _kept: list[dict[int, int]] = field(default_factory=list)
    """Other values that satisfy everything, the latest first."""

    def least(self, objective: Mapping[int, int], outer: int | None) -> int | None:
        """Return the least value of an objective, None where there is none.

        `outer` is a bound the value cannot fall below; where a known solution attains it, nothing
        is solved.
        """
        if outer is not None:
            if outer == sum(n * self.witness[unknown] for unknown, n in objective.items()):
                return outer
            for kept in self._kept:
                if outer == sum(n * kept[unknown] for unknown, n in objective.items()):
                    return outer
        solution = self._solve(objective)
        if solution is None:
            # The witness satisfies the rows, so a failure means that there is no least value.
            return None
        self._kept = [solution, *self._kept[: _MOST_KEPT - 1]]
        return sum(n * solution[unknown] for unknown, n in objective.items())

    def satisfy(self) -> bool:
        """Find numbers that satisfy everything and make them the witness; False if none do."""
        solution = self._solve({})
        if solution is None:
            return False
        for unknown, value in solution.items():
            self.witness[unknown] = value
        return True

    def _solve(self, objective: Mapping[int, int]) -> dict[int, int] | None:
        """Minimise an objective over whole numbers; None where it fails."""
        import numpy as np  # noqa: PLC0415 - most journals never get here
        from scipy.optimize import Bounds as Box  # noqa: PLC0415
        from scipy.optimize import LinearConstraint, milp  # noqa: PLC0415
        from scipy.sparse import csr_array  # noqa: PLC0415

        column = {
            unknown: number
            for number, unknown in enumerate(
                unknown
                for one in self.share_outs
                for unknown in range(one.first, one.first + one.number)
            )
        }
        rows = [
            Row(tuple((one.first + member, 1) for member in range(one.number)), one.low, one.high)
            for one in self.share_outs
        ]
        rows.extend(self.rows)
        entries = [
            (number, column[unknown], multiple)
            for number, row in enumerate(rows)
            for unknown, multiple in row.terms
        ]
        matrix = csr_array(
            (
                [float(entry[2]) for entry in entries],
                ([entry[0] for entry in entries], [entry[1] for entry in entries]),
            ),
            shape=(len(rows), len(column)),
        )
        cost = np.zeros(len(column))
        for unknown, multiple in objective.items():
            cost[column[unknown]] = multiple
        result = milp(
            cost,
            constraints=LinearConstraint(
                matrix,
                _floats([row.low for row in rows], -np.inf),
                _floats([row.high for row in rows], np.inf),
            ),
            bounds=Box(0, _floats([self.cap[unknown] for unknown in column], np.inf)),
            integrality=np.ones(len(column)),
            options={"mip_rel_gap": 0.0},
        )
        if result.status != 0:
            return None
        return {unknown: round(float(result.x[number])) for unknown, number in column.items()}


def _floats(values: Iterable[int | None], otherwise: float) -> list[float]:
    return [otherwise if value is None else float(value) for value in values]
