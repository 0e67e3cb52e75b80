"""Small integer programs over share-outs: the least value of a sum under rows, by HiGHS.

In: share-outs, and rows that tie them together. Out: whole numbers that satisfy all of it and
make a sum least, exactly.

Members of a share-out that stand in no row and have no cap of their own can stand in for one
another: together they are one column, whose animals fall to the cheapest of them.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

__all__ = ["Program", "Row", "ShareOut", "least_of_share_out"]


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


@dataclass(frozen=True, slots=True)
class Row:
    """A constraint across share-outs: low <= terms <= high."""

    terms: tuple[tuple[int, int], ...]
    low: int | None
    high: int | None

    def implies(self, other: "Row") -> bool:
        """Say whether the other row, on all terms of this one or on the first, adds nothing."""
        if self.terms[: len(other.terms)] != other.terms:
            return False
        more = [multiple for _, multiple in self.terms[len(other.terms) :]]
        if self.low is not None and self.high is None:
            lower = other.low is not None and other.low <= self.low
            return other.high is None and lower and all(n < 0 for n in more)
        if self.high is not None and self.low is None:
            higher = other.high is not None and other.high >= self.high
            return other.low is None and higher and all(n > 0 for n in more)
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
    """Share-outs that rows tie together, and nothing beside them."""

    def __init__(
        self, *, share_outs: Sequence[ShareOut], rows: Sequence[Row], cap: Sequence[int | None]
    ) -> None:
        self._share_outs = share_outs
        self._rows = rows
        self._column: dict[int, int] = {}
        """The column of each unknown, its own or one that it shares."""
        self._alike: list[tuple[int, list[int]]] = []
        """The columns that several unknowns share, with these."""
        self._most: list[float] = []
        in_rows = {unknown for row in rows for unknown, _ in row.terms}
        for one in share_outs:
            alike = []
            for unknown in one.members:
                most = cap[unknown]
                if unknown in in_rows or most is not None:
                    self._column[unknown] = len(self._most)
                    self._most.append(float("inf") if most is None else most)
                else:
                    alike.append(unknown)
            if alike:
                self._alike.append((len(self._most), alike))
                self._column.update(dict.fromkeys(alike, len(self._most)))
                self._most.append(float("inf"))

    def solve(self, objective: Mapping[int, int]) -> dict[int, int] | None:
        """Return numbers that make the objective least; None where none satisfy the rows.

        None as well where the objective has no least value.
        """
        import numpy as np  # noqa: PLC0415 - most journals never get here
        from scipy.optimize import Bounds as Box  # noqa: PLC0415
        from scipy.optimize import LinearConstraint, milp  # noqa: PLC0415

        cost = np.zeros(len(self._most))
        for unknown, multiple in objective.items():
            cost[self._column[unknown]] = multiple
        cheapest = {}
        for column, alike in self._alike:
            cheapest[column] = min(alike, key=lambda unknown: objective.get(unknown, 0))
            cost[column] = objective.get(cheapest[column], 0)
        limits: list[Row | ShareOut] = [*self._rows, *self._share_outs]
        result = milp(
            cost,
            constraints=LinearConstraint(
                self._matrix(),
                _floats((one.low for one in limits), -np.inf),
                _floats((one.high for one in limits), np.inf),
            ),
            bounds=Box(0, np.array(self._most)),
            integrality=np.ones(len(self._most)),
            options={"mip_rel_gap": 0.0},
        )
        if result.status != 0:
            return None
        value = [round(number) for number in result.x.tolist()]
        return {
            unknown: value[column] if cheapest.get(column, unknown) == unknown else 0
            for unknown, column in self._column.items()
        }

    def _matrix(self) -> object:
        from scipy.sparse import csr_array  # noqa: PLC0415

        lines = [
            {self._column[unknown]: multiple for unknown, multiple in row.terms}
            for row in self._rows
        ]
        lines.extend(
            {self._column[unknown]: 1 for unknown in one.members} for one in self._share_outs
        )
        starts = [0]
        for line in lines:
            starts.append(starts[-1] + len(line))
        return csr_array(
            (
                [float(multiple) for line in lines for multiple in line.values()],
                [column for line in lines for column in line],
                starts,
            ),
            shape=(len(lines), len(self._most)),
        )


def _floats(values: Iterable[int | None], otherwise: float) -> list[float]:
    return [otherwise if value is None else float(value) for value in values]
