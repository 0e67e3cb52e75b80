"""Unknown whole numbers under linear constraints, and the exact bounds of their sums.

Everything a keeper leaves open becomes an unknown: a count written as `~12`, or which of three
groups a dead animal was of. Unknowns that share one total form a *share-out*: one died, so the
shares of the three groups sum to one. Most sums need no more than that and are bounded by hand
in closed form. Constraints that bind across share-outs (no group falls below zero, a count of
a tank holds) are kept as rows; only the sums that touch a row are solved as small integer
programs (see `programs`). Both ways are exact: the minimum and the maximum are attained.

One set of numbers that satisfies everything, the *witness*, is carried along: as long as it
agrees with what is added, nothing has to be solved to know that all still fits together.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import partial

from filialog.journal.ledger.programs import Program, Row, ShareOut, least_of_share_out

__all__ = ["Bounds", "Mark", "Sum", "Unknowns"]

Bounds = tuple[int, int | None]
"""Smallest and greatest value; None where there is no greatest."""

_LARGEST_PART = 128
_FIRST_PART = 32
"""Share-outs that are solved together at first."""

_MOST_KEPT = 24
"""Solutions that are remembered, to answer from before solving."""

Mark = int
"""A state of the unknowns to return to."""


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
        number = 0
        merged: dict[int, int] = {}
        for part in sums:
            number += part.number
            for unknown, multiple in part.terms:
                merged[unknown] = merged.get(unknown, 0) + multiple
        return Sum(number, tuple(sorted((key, value) for key, value in merged.items() if value)))


@dataclass(slots=True)
class Unknowns:
    """All unknowns of one book, with what is known of them."""

    _share_outs: list[ShareOut] = field(default_factory=list)
    _home: list[int] = field(default_factory=list)
    """Share-out of each unknown."""
    _cap: list[int | None] = field(default_factory=list)
    """The most that each unknown can be, where more is known than its share-out says."""
    _witness: list[int] = field(default_factory=list)
    """A value of each unknown; together they satisfy every constraint."""
    _rows_at: dict[int, list[Row]] = field(default_factory=dict)
    """The rows that touch each share-out."""
    _rows_with: dict[int, list[Row]] = field(default_factory=dict)
    """The rows that each unknown stands in."""
    _kept: list[dict[int, int]] = field(default_factory=list)
    """What other solutions have otherwise than the witness; they satisfy everything too."""
    _undo: list[Callable[[], object]] = field(default_factory=list)

    # The way back

    def mark(self) -> Mark:
        """Remember this state."""
        return len(self._undo)

    def return_to(self, mark: Mark) -> None:
        """Forget all that came after a mark."""
        while len(self._undo) > mark:
            self._undo.pop()()

    def settle(self) -> None:
        """Give up the way back from here; marks made before are void."""
        self._undo.clear()

    # New unknowns

    def unknown(self, *, low: int, high: int | None) -> Sum:
        """Make one unknown in [low, high]."""
        return self.share_out(number=1, low=low, high=high)[0]

    def share_out(self, *, number: int, low: int, high: int | None) -> tuple[Sum, ...]:
        """Make `number` unknowns from 0 upwards whose total lies in [low, high]."""
        if number == 1 and low == high:
            return (Sum(low),)
        return self._new((low, *[0] * (number - 1)), low=low, high=high)

    def take(self, places: Sequence[Sum], *, low: int, high: int | None) -> tuple[Sum, ...] | None:
        """Share out a number over places of which none may fall below zero.

        Returns what is taken of each place; None, and nothing made, where it cannot be.
        """
        mark = self.mark()
        if len(places) == 1 and low == high:
            shares: tuple[Sum, ...] = (Sum(low),)
        else:
            there = [max(0, self._value(place)) for place in places]
            shares = self._new(_split(low, there), low=low, high=high)
        left = [place.plus(share, -1) for place, share in zip(places, shares, strict=True)]
        if self._require([(one, 0, None) for one in left]):
            return shares
        self.return_to(mark)
        return None

    def _new(self, witness: tuple[int, ...], *, low: int, high: int | None) -> tuple[Sum, ...]:
        first, number = len(self._home), len(witness)
        self._share_outs.append(ShareOut(first, number, low, high))
        self._home.extend([len(self._share_outs) - 1] * number)
        self._cap.extend([None] * number)
        self._witness.extend(witness)
        self._undo.append(lambda: self._forget(first))
        return tuple(Sum(0, ((first + member, 1),)) for member in range(number))

    def _forget(self, first: int) -> None:
        self._share_outs.pop()
        del self._home[first:], self._cap[first:], self._witness[first:]
        self._kept.clear()

    # Bounds

    def bounds(self, total: Sum) -> Bounds:
        """Return the exact bounds of a sum; the constraints are satisfiable by construction."""
        return (self.least(total), self.greatest(total))

    def greatest(self, total: Sum) -> int | None:
        """Return the greatest value of a sum, None where there is none."""
        least = self._least(_negative(total.terms))
        return None if least is None else total.number - least

    def least(self, total: Sum) -> int:
        """Return the least value of a sum of animals, never below zero in a valid book."""
        least = self._least(total.terms)
        return total.number + (least if least is not None else -total.number)

    def possible(self, total: Sum) -> bool:
        """Say whether a sum can be more than zero."""
        return self.can_reach(total, 1)

    def can_reach(self, total: Sum, number: int, *, sure: bool = False) -> bool:
        """Say whether a sum can be so much or more.

        Where many share-outs hang together, only the nearest are solved, unless the answer must
        be `sure`: what they leave open is taken to be possible.
        """
        if self._value(total) >= number:
            return True
        most = self._outer_greatest(total)
        if most is not None and most < number:
            return False
        if self._nudge(total.terms, number - self._value(total)):
            return True
        return self._can_be(total, low=number, sure=sure)

    def _can_be(
        self, total: Sum, *, low: int | None = None, high: int | None = None, sure: bool
    ) -> bool:
        """Say whether a sum can lie between two bounds, and leave everything as it is."""
        mark = self.mark()
        holds = self._require([(total, low, high)], sure=sure)
        self.return_to(mark)
        return holds

    def perhaps(self, total: Sum) -> bool:
        """Say whether a sum may be more than zero, as far as can be told without solving."""
        if self._value(total) > 0:
            return True
        most = self._outer_greatest(total)
        return most is None or most > 0

    def surely(self, total: Sum) -> bool:
        """Say whether a sum can only be more than zero."""
        return self._value(total) > 0 and not self._can_be(total, high=0, sure=False)

    def _value(self, total: Sum) -> int:
        """Return the value of a sum in the witness."""
        return total.number + sum(
            multiple * self._witness[unknown] for unknown, multiple in total.terms
        )

    def _least(self, terms: Iterable[tuple[int, int]]) -> int | None:
        """Return the least value of a sum of multiples, None where there is none."""
        total = 0
        tied: dict[int, int] = {}
        for home, multiples in self._by_home(terms).items():
            if home in self._rows_at:
                tied.update(multiples)
                continue
            part = least_of_share_out(self._share_outs[home], multiples, self._cap)
            if part is None:
                return None
            total += part
        least = self._least_under_rows(tied) if tied else 0
        return None if least is None else total + least

    def _least_under_rows(self, objective: Mapping[int, int]) -> int | None:
        """Return the least value of an objective whose unknowns rows tie to others.

        Rows far away seldom matter. So a part of all share-outs is solved with what lies outside
        taken as free, which gives a bound the value cannot fall below; where a solution of
        everything attains it, that is the least value, else a larger part is taken.
        """
        outer = self._outer_least(objective.items())
        if outer is not None and self._attained(objective) <= outer:
            return outer
        size = _FIRST_PART
        while True:
            homes, whole = self._part({self._home[unknown] for unknown in objective}, size)
            if outer is not None and not whole:
                inner = self._program(homes, free=False).solve(objective)
                if inner is not None:
                    self._keep(inner)
                    if self._attained(objective) <= outer:
                        return outer
            found = self._program(homes, free=True).solve(objective)
            if found is None and whole:
                # Some numbers satisfy the rows, so a failure means that there is no least value.
                return None
            if found is not None:
                least = sum(n * found[unknown] for unknown, n in objective.items())
                if whole or self._fits(homes, found):
                    self._keep(found)
                    return least
                outer = least if outer is None else max(outer, least)
                if self._attained(objective) <= outer:
                    return outer
            if size >= _LARGEST_PART:
                return outer
            size *= 4

    def _attained(self, objective: Mapping[int, int]) -> int:
        """Return the least value of an objective among the solutions at hand."""
        witness = self._witness
        value = sum(n * witness[unknown] for unknown, n in objective.items())
        for kept in self._kept:
            value = min(value, sum(n * kept.get(one, witness[one]) for one, n in objective.items()))
        return value

    def _keep(self, solution: dict[int, int]) -> None:
        self._kept = [solution, *self._kept[: _MOST_KEPT - 1]]

    def _part(self, start: Iterable[int], size: int) -> tuple[list[int], bool]:
        """Return share-outs that rows tie to some, the nearest first, and whether that is all."""
        homes = sorted(start)
        seen = set(homes)
        for home in homes:  # grows while it is walked
            if len(homes) >= size:
                return homes, False
            for row in self._rows_at.get(home, ()):
                near = {self._home[unknown] for unknown, _ in row.terms} - seen
                seen |= near
                homes.extend(sorted(near))
        return homes, True

    def _program(self, homes: Sequence[int], *, free: bool) -> Program:
        """Return the program of some share-outs.

        What rows say of other share-outs is taken to be whatever helps, or as the witness has it.
        """
        inside = set(homes)
        rows = []
        for row in self._rows_of(homes):
            outside = [term for term in row.terms if self._home[term[0]] not in inside]
            if not outside:
                rows.append(row)
                continue
            if free:
                least = self._least_without_rows(outside)
                minus = self._least_without_rows(_negative(outside))
                most = None if minus is None else -minus
            else:
                least = most = self._value(Sum(0, tuple(outside)))
            low = None if row.low is None or most is None else row.low - most
            high = None if row.high is None or least is None else row.high - least
            terms = tuple(term for term in row.terms if self._home[term[0]] in inside)
            rows.append(Row(terms, low, high))
        return Program(
            share_outs=[self._share_outs[home] for home in homes], rows=rows, cap=self._cap
        )

    def _rows_of(self, homes: Iterable[int]) -> list[Row]:
        found = {id(row): row for home in homes for row in self._rows_at.get(home, ())}
        return list(found.values())

    def _fits(self, homes: Iterable[int], solution: Mapping[int, int]) -> bool:
        """Say whether a solution of a part satisfies all rows, the rest as in the witness."""
        witness = self._witness
        for row in self._rows_of(homes):
            value = sum(n * solution.get(one, witness[one]) for one, n in row.terms)
            if (row.low is not None and value < row.low) or (
                row.high is not None and value > row.high
            ):
                return False
        return True

    def _nudge(self, terms: Sequence[tuple[int, int]], need: int) -> bool:
        """Raise the value of a sum in the witness by shifting animals within share-outs.

        No constraint comes to be broken, nor broken worse; False where this does not suffice.
        """
        for unknown, multiple in terms:
            step = 1 if multiple > 0 else -1
            while need > 0 and self._shift(unknown, step):
                self._kept.clear()
                need -= abs(multiple)
            if need <= 0:
                return True
        return False

    def _shift(self, unknown: int, step: int) -> bool:
        """Change an unknown by one, and another of its share-out the other way if need be."""
        witness, share_out = self._witness, self._share_outs[self._home[unknown]]
        if not 0 <= witness[unknown] + step <= self._most(unknown):
            return False
        total = sum(witness[share_out.first : share_out.first + share_out.number]) + step
        within = share_out.low <= total and (share_out.high is None or total <= share_out.high)
        if within and self._harmless(((unknown, step),)):
            witness[unknown] += step
            return True
        for other in share_out.members:
            if other == unknown or not 0 <= witness[other] - step <= self._most(other):
                continue
            if self._harmless(((unknown, step), (other, -step))):
                witness[unknown] += step
                witness[other] -= step
                return True
        return False

    def _most(self, unknown: int) -> float:
        cap = self._cap[unknown]
        return float("inf") if cap is None else cap

    def _harmless(self, changes: tuple[tuple[int, int], ...]) -> bool:
        """Say whether changes of the witness break no row, nor break one worse."""
        by_row: dict[int, tuple[Row, int]] = {}
        for unknown, step in changes:
            for row in self._rows_with.get(unknown, ()):
                multiple = next(n for one, n in row.terms if one == unknown)
                change = by_row[id(row)][1] if id(row) in by_row else 0
                by_row[id(row)] = (row, change + multiple * step)
        for row, change in by_row.values():
            if not change:
                continue
            value = sum(n * self._witness[one] for one, n in row.terms) + change
            if change < 0 and row.low is not None and value < row.low:
                return False
            if change > 0 and row.high is not None and value > row.high:
                return False
        return True

    def _repair(self, start: Iterable[int], *, sure: bool) -> bool:
        """Move the witness so that it satisfies the rows of some share-outs; False if none can.

        Where the largest part leaves it open, and need not be `sure`, the witness stays wrong: the
        rows must be dropped again.
        """
        seeds = set(start)
        size = _FIRST_PART
        while True:
            homes, whole = self._part(seeds, size)
            found = self._program(homes, free=False).solve({})
            if found is not None:
                for unknown, value in found.items():
                    self._witness[unknown] = value
                self._kept.clear()
                return True
            if whole or self._program(homes, free=True).solve({}) is None:
                return False
            if size >= _LARGEST_PART and not sure:
                return True
            size *= 4

    def _by_home(self, terms: Iterable[tuple[int, int]]) -> dict[int, dict[int, int]]:
        found: dict[int, dict[int, int]] = {}
        for unknown, multiple in terms:
            found.setdefault(self._home[unknown], {})[unknown] = multiple
        return found

    def _outer_least(self, terms: Iterable[tuple[int, int]]) -> int | None:
        """Return a value that a sum cannot fall below: the greatest that comes without solving."""
        terms = tuple(terms)
        total = self._least_without_rows(terms)
        if not self._rows_at:
            return total
        # What a row says of the first terms holds; only the later ones can lower it.
        for position, (unknown, multiple) in enumerate(terms, start=1):
            for row in self._rows_with.get(unknown, ()):
                if len(row.terms) != position or row.terms[-1][0] != unknown:
                    continue
                sign = row.terms[-1][1] * multiple
                limit = row.low if sign > 0 else None if row.high is None else -row.high
                first = row.terms if sign > 0 else tuple((one, -n) for one, n in row.terms)
                if limit is None or first != terms[:position]:
                    continue
                rest = self._least_without_rows(terms[position:])
                if rest is not None and (total is None or limit + rest > total):
                    total = limit + rest
        return total

    def _least_without_rows(self, terms: Iterable[tuple[int, int]]) -> int | None:
        total = 0
        for home, multiples in self._by_home(terms).items():
            part = least_of_share_out(self._share_outs[home], multiples, self._cap)
            if part is None:
                return None
            total += part
        return total

    def _outer_greatest(self, total: Sum) -> int | None:
        minus = self._outer_least(_negative(total.terms))
        return None if minus is None else total.number - minus

    # Constraints

    def require(self, total: Sum, *, low: int | None = None, high: int | None = None) -> bool:
        """Add the constraint low <= total <= high; False, and nothing added, if it cannot hold."""
        return self._require([(total, low, high)])

    def _require(
        self, wanted: Sequence[tuple[Sum, int | None, int | None]], *, sure: bool = True
    ) -> bool:
        """Add constraints; the witness moves only where it does not agree with them."""
        mark = self.mark()
        touched: dict[int, None] = {}
        for total, low, high in wanted:
            least, most = self._outer_least(total.terms), self._outer_greatest(total)
            least = None if least is None else total.number + least
            if (low is not None and most is not None and most < low) or (
                high is not None and least is not None and least > high
            ):
                self.return_to(mark)
                return False
            need_low = None if low is None or (least is not None and least >= low) else low
            need_high = None if high is None or (most is not None and most <= high) else high
            if need_low is None and need_high is None:
                continue
            touched.update(dict.fromkeys(self._home[unknown] for unknown, _ in total.terms))
            self._take_up(
                Row(
                    total.terms,
                    None if need_low is None else need_low - total.number,
                    None if need_high is None else need_high - total.number,
                )
            )
        for total, low, high in wanted:
            value = self._value(total)
            if low is not None and value < low:
                agrees = self._nudge(total.terms, low - value)
            elif high is not None and value > high:
                agrees = self._nudge(_negative(total.terms), value - high)
            else:
                continue
            if not agrees:
                break
        else:
            return True
        if self._repair(touched, sure=sure):
            return True
        self.return_to(mark)
        return False

    def _take_up(self, row: Row) -> None:
        """Note a constraint in the simplest way it can be written."""
        self._kept.clear()
        homes = self._homes_of(row)
        multiples = {multiple for _, multiple in row.terms}
        if multiples == {-1}:
            row = Row(
                tuple((unknown, 1) for unknown, _ in row.terms),
                None if row.high is None else -row.high,
                None if row.low is None else -row.low,
            )
            multiples = {1}
        if multiples == {1}:
            if row.high == 0:
                for unknown, _ in row.terms:
                    self._narrow_unknown(unknown, 0)
                return
            if len(homes) == 1 and len(row.terms) == self._share_outs[homes[0]].number:
                self._narrow_share_out(homes[0], row.low, row.high)
                return
            if len(row.terms) == 1 and row.low is None and row.high is not None:
                self._narrow_unknown(row.terms[0][0], row.high)
                return
        for unknown, _ in row.terms[-2:]:
            for known in self._rows_with.get(unknown, [])[:]:
                if known.terms[-1][0] == unknown and row.implies(known):
                    self._drop_row(known)
                    self._undo.append(partial(self._add_row, known))
        self._add_row(row)
        self._undo.append(partial(self._drop_row, row))

    def _add_row(self, row: Row) -> None:
        for home in self._homes_of(row):
            self._rows_at.setdefault(home, []).append(row)
        for unknown, _ in row.terms:
            self._rows_with.setdefault(unknown, []).append(row)

    def _drop_row(self, row: Row) -> None:
        for home in self._homes_of(row):
            _drop(self._rows_at, home, row)
        for unknown, _ in row.terms:
            _drop(self._rows_with, unknown, row)

    def _homes_of(self, row: Row) -> list[int]:
        return sorted({self._home[unknown] for unknown, _ in row.terms})

    def _narrow_unknown(self, unknown: int, high: int) -> None:
        old = self._cap[unknown]
        if old is None or high < old:
            self._set_cap(unknown, high)
            self._undo.append(partial(self._set_cap, unknown, old))

    def _set_cap(self, unknown: int, cap: int | None) -> None:
        self._cap[unknown] = cap

    def _narrow_share_out(self, home: int, low: int | None, high: int | None) -> None:
        old = self._share_outs[home]
        self._undo.append(partial(self._reset, home, old.low, old.high))
        most = old.high
        if high is not None:
            most = high if most is None else min(most, high)
        self._reset(home, old.low if low is None else max(old.low, low), most)

    def _reset(self, home: int, low: int, high: int | None) -> None:
        self._share_outs[home].reset(low, high)

    def fixed(self, total: Sum) -> Sum:
        """Return the same sum without the unknowns that can only be zero."""
        if all(self._cap[unknown] != 0 for unknown, _ in total.terms):
            return total
        return Sum(total.number, tuple(term for term in total.terms if self._cap[term[0]] != 0))


def _negative(terms: Sequence[tuple[int, int]]) -> list[tuple[int, int]]:
    return [(unknown, -multiple) for unknown, multiple in terms]


def _drop(lists: dict[int, list[Row]], key: int, row: Row) -> None:
    lists[key].remove(row)
    if not lists[key]:
        del lists[key]


def _split(total: int, there: Sequence[int]) -> tuple[int, ...]:
    """Share a number out, the fullest places first; what finds no room goes to the first."""
    shares = [0] * len(there)
    rest = total
    for place in sorted(range(len(there)), key=lambda one: -there[one]):
        shares[place] = min(there[place], rest)
        rest -= shares[place]
    shares[0] += rest
    return tuple(shares)
