"""Unknown whole numbers under linear constraints, and the exact bounds of their sums.

Everything a keeper leaves open becomes an unknown: a count written as `~12`, or which of three
groups a dead animal was of. Unknowns that share one total form a *share-out*: one died, so the
shares of the three groups sum to one. Most sums need no more than that and are bounded by hand
in closed form. Constraints that bind across share-outs (no group falls below zero, a count of
a tank holds) are kept as rows; only the sums that touch a row are solved as small integer
programs, by HiGHS through SciPy. Both ways are exact: the minimum and the maximum are attained.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

__all__ = ["Bounds", "Mark", "Sum", "Unknowns"]

Bounds = tuple[int, int | None]
"""Smallest and greatest value; None where there is no greatest."""


@dataclass(frozen=True, slots=True)
class Sum:
    """A whole number plus whole multiples of unknowns."""

    number: int = 0
    """The known part."""
    terms: tuple[tuple[int, int], ...] = ()
    """(unknown, multiple) by ascending unknown, no multiple zero."""

    def plus(self, other: "Sum", times: int = 1) -> "Sum":
        """Return this sum plus a multiple of another."""
        if not other.terms:
            return Sum(self.number + times * other.number, self.terms)
        merged = dict(self.terms)
        for unknown, multiple in other.terms:
            merged[unknown] = merged.get(unknown, 0) + times * multiple
        terms = tuple(sorted((key, value) for key, value in merged.items() if value))
        return Sum(self.number + times * other.number, terms)

    @staticmethod
    def of(sums: Iterable["Sum"]) -> "Sum":
        """Return the sum of sums."""
        total = Sum()
        for part in sums:
            total = total.plus(part)
        return total


@dataclass(slots=True)
class _ShareOut:
    """Unknowns from 0 upwards whose total lies between two bounds."""

    members: tuple[int, ...]
    low: int
    high: int | None


@dataclass(slots=True)
class _Row:
    """A constraint across share-outs: low <= terms <= high."""

    terms: tuple[tuple[int, int], ...]
    low: int | None
    high: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """A state of the unknowns to return to."""

    number: int
    unknowns: int
    narrowed: int
    cluster: tuple[int, ...] | None
    rows: Mapping[int, list[_Row]]
    members: Mapping[int, list[int]]


@dataclass(slots=True)
class Unknowns:
    """All unknowns of one book, with what is known of them."""

    _share_outs: list[_ShareOut] = field(default_factory=list)
    _home: list[int] = field(default_factory=list)
    """Share-out of each unknown."""
    _cluster: list[int] = field(default_factory=list)
    """Union-find parent of each share-out."""
    _rows: dict[int, list[_Row]] = field(default_factory=dict)
    """Rows of each cluster, by its root."""
    _members: dict[int, list[int]] = field(default_factory=dict)
    """Share-outs of each cluster that has rows, by its root."""
    _narrowed: list[tuple[int, int, int | None]] = field(default_factory=list)
    """Share-outs whose bounds were narrowed, with what they were before."""

    def mark(self) -> Mark:
        """Remember this state."""
        return Mark(
            number=len(self._share_outs),
            unknowns=len(self._home),
            narrowed=len(self._narrowed),
            cluster=tuple(self._cluster) if self._rows else None,
            rows=dict(self._rows),
            members=dict(self._members),
        )

    def return_to(self, mark: Mark) -> None:
        """Forget all that came after a mark."""
        while len(self._narrowed) > mark.narrowed:
            home, low, high = self._narrowed.pop()
            self._share_outs[home].low = low
            self._share_outs[home].high = high
        if self._rows:
            clusters = range(mark.number) if mark.cluster is None else mark.cluster
            self._cluster = list(clusters)
        del self._share_outs[mark.number :]
        del self._home[mark.unknowns :]
        del self._cluster[mark.number :]
        self._rows = dict(mark.rows)
        self._members = dict(mark.members)

    def share_out(self, *, number: int, low: int, high: int | None) -> tuple[Sum, ...]:
        """Make `number` unknowns from 0 upwards whose total lies in [low, high]."""
        first = len(self._home)
        home = len(self._share_outs)
        members = tuple(range(first, first + number))
        self._share_outs.append(_ShareOut(members, low, high))
        self._cluster.append(home)
        self._home.extend([home] * number)
        if number == 1 and low == high:
            return (Sum(low),)
        return tuple(Sum(0, ((member, 1),)) for member in members)

    def unknown(self, *, low: int, high: int | None) -> Sum:
        """Make one unknown in [low, high]."""
        if low == high:
            return Sum(low)
        return self.share_out(number=1, low=low, high=high)[0]

    def bounds(self, total: Sum) -> Bounds:
        """Return the exact bounds of a sum; the constraints are satisfiable by construction."""
        low = self.least(total)
        greatest = self.greatest(total)
        return (low, greatest)

    def greatest(self, total: Sum) -> int | None:
        """Return the greatest value of a sum, None where there is none."""
        least = self._least([(unknown, -multiple) for unknown, multiple in total.terms])
        return None if least is None else total.number - least

    def least(self, total: Sum) -> int:
        """Return the least value of a sum of animals, never below zero in a valid book."""
        least = self._least(total.terms)
        return total.number + (least if least is not None else -total.number)

    def require(self, total: Sum, *, low: int | None = None, high: int | None = None) -> bool:
        """Add the constraint low <= total <= high; False, and nothing added, if it cannot hold."""
        least = self._least(total.terms)
        minus = self._least([(unknown, -multiple) for unknown, multiple in total.terms])
        most = None if minus is None else -minus
        need_low = None if low is None else low - total.number
        need_high = None if high is None else high - total.number
        if need_low is not None and most is not None and most < need_low:
            return False
        if need_high is not None and least is not None and least > need_high:
            return False
        if need_low is not None and least is not None and least >= need_low:
            need_low = None
        if need_high is not None and most is not None and most <= need_high:
            need_high = None
        if need_low is None and need_high is None:
            return True
        if self._narrow(total.terms, need_low, need_high):
            return True
        return self._add_row(_Row(total.terms, need_low, need_high))

    def _narrow(self, terms: Sequence[tuple[int, int]], low: int | None, high: int | None) -> bool:
        """Take up a constraint on one lone unknown, or on one whole share-out, without a row."""
        homes = {self._home[unknown] for unknown, _ in terms}
        if len(homes) != 1:
            return False
        home = homes.pop()
        share_out = self._share_outs[home]
        multiples = {multiple for _, multiple in terms}
        if len(terms) != len(share_out.members) or multiples not in ({1}, {-1}):
            return False
        if multiples == {-1}:
            low, high = (None if high is None else -high), (None if low is None else -low)
        self._narrowed.append((home, share_out.low, share_out.high))
        if low is not None:
            share_out.low = max(share_out.low, low)
        if high is not None:
            share_out.high = high if share_out.high is None else min(share_out.high, high)
        return True

    def _add_row(self, row: _Row) -> bool:
        roots = sorted({self._root(self._home[unknown]) for unknown, _ in row.terms})
        rows = [*(one for root in roots for one in self._rows.get(root, ())), row]
        members = [one for root in roots for one in self._members.get(root, [root])]
        # Ranges of single share-outs always overlap here; several rows together may not.
        if _solve(self._share_outs, members, rows, ()) is _IMPOSSIBLE:
            return False
        for root in roots[1:]:
            self._cluster[root] = roots[0]
            self._rows.pop(root, None)
            self._members.pop(root, None)
        self._rows[roots[0]] = rows
        self._members[roots[0]] = members
        return True

    def _root(self, home: int) -> int:
        while self._cluster[home] != home:
            self._cluster[home] = self._cluster[self._cluster[home]]
            home = self._cluster[home]
        return home

    def _least(self, terms: Iterable[tuple[int, int]]) -> int | None:
        """Return the least value of a sum of multiples, None where there is none."""
        by_home: dict[int, dict[int, int]] = {}
        for unknown, multiple in terms:
            by_home.setdefault(self._home[unknown], {})[unknown] = multiple
        total = 0
        by_root: dict[int, dict[int, int]] = {}
        for home, multiples in by_home.items():
            root = self._root(home)
            if root in self._rows:
                by_root.setdefault(root, {}).update(multiples)
                continue
            part = _least_of_share_out(self._share_outs[home], multiples)
            if part is None:
                return None
            total += part
        for root, multiples in by_root.items():
            part = _solve(
                self._share_outs, self._members[root], self._rows[root], tuple(multiples.items())
            )
            if part is None or part is _IMPOSSIBLE:
                return None
            total += part
        return total


_IMPOSSIBLE = -(10**15)
"""Stands for a set of rows that no numbers satisfy; no sum of animals comes near it."""


def _least_of_share_out(share_out: _ShareOut, multiples: Mapping[int, int]) -> int | None:
    """Least value of a sum over one share-out: fill the cheapest member."""
    cheapest = min(multiples.get(member, 0) for member in share_out.members)
    if cheapest < 0:
        return None if share_out.high is None else cheapest * share_out.high
    return cheapest * share_out.low


def _solve(
    share_outs: Sequence[_ShareOut],
    homes: Sequence[int],
    rows: Sequence[_Row],
    objective: Sequence[tuple[int, int]],
) -> int | None:
    """Least value of an objective over whole numbers under rows, by HiGHS."""
    import numpy as np  # noqa: PLC0415 - most journals never get here
    from scipy.optimize import Bounds as Box  # noqa: PLC0415
    from scipy.optimize import LinearConstraint, milp  # noqa: PLC0415
    from scipy.sparse import csr_array  # noqa: PLC0415

    column = {
        member: number
        for number, member in enumerate(
            member for home in homes for member in share_outs[home].members
        )
    }
    all_rows = [
        _Row(tuple((member, 1) for member in one.members), one.low, one.high)
        for one in (share_outs[home] for home in homes)
    ]
    all_rows.extend(rows)
    entries = [
        (number, column[unknown], multiple)
        for number, row in enumerate(all_rows)
        for unknown, multiple in row.terms
    ]
    matrix = csr_array(
        (
            [entry[2] for entry in entries],
            ([entry[0] for entry in entries], [entry[1] for entry in entries]),
        ),
        shape=(len(all_rows), len(column)),
    )
    lows = [-np.inf if row.low is None else row.low for row in all_rows]
    highs = [np.inf if row.high is None else row.high for row in all_rows]
    cost = np.zeros(len(column))
    for unknown, multiple in objective:
        cost[column[unknown]] = multiple
    result = milp(
        cost,
        constraints=LinearConstraint(matrix, lows, highs),
        bounds=Box(0, np.inf),
        integrality=np.ones(len(column)),
    )
    if result.status == 0:
        return round(float(result.fun))
    # Without an objective nothing is unbounded, so a failure then means that no numbers fit;
    # with one, the rows are known to be satisfiable, so it means that there is no least value.
    return None if objective else _IMPOSSIBLE
