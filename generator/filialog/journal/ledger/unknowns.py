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

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from functools import partial

from filialog.journal.ledger.programs import Program, Row, ShareOut, least_of_share_out

__all__ = ["Bounds", "Mark", "Sum", "Unknowns"]

Bounds = tuple[int, int | None]
"""Smallest and greatest value; None where there is no greatest."""

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
    _programs: dict[int, Program] = field(default_factory=dict)
    """The integer program that each share-out with rows belongs to, as far as asked for."""
    _undo: list[Callable[[], object]] = field(default_factory=list)

    # The way back

    def mark(self) -> Mark:
        """Remember this state."""
        return len(self._undo)

    def return_to(self, mark: Mark) -> None:
        """Forget all that came after a mark."""
        while len(self._undo) > mark:
            self._undo.pop()()
        self._programs.clear()

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

    # Bounds

    def bounds(self, total: Sum) -> Bounds:
        """Return the exact bounds of a sum; the constraints are satisfiable by construction."""
        return (self.least(total), self.greatest(total))

    def greatest(self, total: Sum) -> int | None:
        """Return the greatest value of a sum, None where there is none."""
        least = self._least([(unknown, -multiple) for unknown, multiple in total.terms])
        return None if least is None else total.number - least

    def least(self, total: Sum) -> int:
        """Return the least value of a sum of animals, never below zero in a valid book."""
        least = self._least(total.terms)
        return total.number + (least if least is not None else -total.number)

    def possible(self, total: Sum) -> bool:
        """Say whether a sum can be more than zero."""
        if self._value(total) > 0:
            return True
        high = self._outer(total)[1]
        if high is not None and high <= 0:
            return False
        greatest = self.greatest(total)
        return greatest is None or greatest > 0

    def _value(self, total: Sum) -> int:
        """Return the value of a sum in the witness."""
        return total.number + sum(
            multiple * self._witness[unknown] for unknown, multiple in total.terms
        )

    def _least(self, terms: Iterable[tuple[int, int]]) -> int | None:
        """Return the least value of a sum of multiples, None where there is none."""
        total = 0
        asked: dict[int, tuple[Program, dict[int, int]]] = {}
        for home, multiples in self._by_home(terms).items():
            if home in self._rows_at:
                program = self._program(home)
                asked.setdefault(id(program), (program, {}))[1].update(multiples)
                continue
            part = least_of_share_out(self._share_outs[home], multiples, self._cap)
            if part is None:
                return None
            total += part
        for program, multiples in asked.values():
            part = program.least(multiples, self._outer_least(multiples.items()))
            if part is None:
                return None
            total += part
        return total

    def _by_home(self, terms: Iterable[tuple[int, int]]) -> dict[int, dict[int, int]]:
        found: dict[int, dict[int, int]] = {}
        for unknown, multiple in terms:
            found.setdefault(self._home[unknown], {})[unknown] = multiple
        return found

    def _outer_least(self, terms: Iterable[tuple[int, int]]) -> int | None:
        """Return the least value where rows are left aside; the true one is no less."""
        total = 0
        for home, multiples in self._by_home(terms).items():
            part = least_of_share_out(self._share_outs[home], multiples, self._cap)
            if part is None:
                return None
            total += part
        return total

    def _outer(self, total: Sum) -> tuple[int | None, int | None]:
        """Return bounds where rows are left aside; the true ones lie within."""
        least = self._outer_least(total.terms)
        minus = self._outer_least([(unknown, -multiple) for unknown, multiple in total.terms])
        return (
            None if least is None else total.number + least,
            None if minus is None else total.number - minus,
        )

    def _program(self, home: int) -> Program:
        """Return the program of all share-outs that rows tie to this one."""
        known = self._programs.get(home)
        if known is not None:
            return known
        homes, rows = [home], dict[int, Row]()
        seen = {home}
        for one in homes:  # grows while it is walked
            for row in self._rows_at.get(one, ()):
                if id(row) in rows:
                    continue
                rows[id(row)] = row
                for unknown, _ in row.terms:
                    other = self._home[unknown]
                    if other not in seen:
                        seen.add(other)
                        homes.append(other)
        program = Program(
            share_outs=[self._share_outs[one] for one in homes],
            rows=list(rows.values()),
            cap=self._cap,
            witness=self._witness,
        )
        self._programs.update(dict.fromkeys(homes, program))
        return program

    # Constraints

    def require(self, total: Sum, *, low: int | None = None, high: int | None = None) -> bool:
        """Add the constraint low <= total <= high; False, and nothing added, if it cannot hold."""
        return self._require([(total, low, high)])

    def _require(self, wanted: Sequence[tuple[Sum, int | None, int | None]]) -> bool:
        """Add constraints; the witness moves only where it does not agree with them."""
        mark = self.mark()
        touched: dict[int, None] = {}
        for total, low, high in wanted:
            least, most = self._outer(total)
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
        if all(
            (low is None or self._value(total) >= low)
            and (high is None or self._value(total) <= high)
            for total, low, high in wanted
        ):
            return True
        solved: set[int] = set()
        for home in touched:
            program = self._program(home)
            if id(program) in solved:
                continue
            solved.add(id(program))
            if not program.satisfy():
                self.return_to(mark)
                return False
        return True

    def _take_up(self, row: Row) -> None:
        """Note a constraint in the simplest way it can be written."""
        self._programs.clear()
        homes = sorted({self._home[unknown] for unknown, _ in row.terms})
        multiples = {multiple for _, multiple in row.terms}
        if multiples == {-1} and row.low is not None:
            row = Row(
                tuple((unknown, 1) for unknown, _ in row.terms),
                None if row.high is None else -row.high,
                -row.low,
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
        for home in homes:
            rows = self._rows_at.setdefault(home, [])
            rows.append(row)
            self._undo.append(partial(self._drop_row, home))

    def _drop_row(self, home: int) -> None:
        self._rows_at[home].pop()
        if not self._rows_at[home]:
            del self._rows_at[home]

    def _narrow_unknown(self, unknown: int, high: int) -> None:
        old = self._cap[unknown]
        if old is None or high < old:
            self._cap[unknown] = high
            self._undo.append(lambda: self._cap.__setitem__(unknown, old))

    def _narrow_share_out(self, home: int, low: int | None, high: int | None) -> None:
        share_out = self._share_outs[home]
        old = (share_out.low, share_out.high)
        self._undo.append(lambda: share_out.reset(*old))
        share_out.reset(
            share_out.low if low is None else max(share_out.low, low),
            share_out.high
            if high is None
            else high
            if share_out.high is None
            else min(share_out.high, high),
        )

    def fixed(self, total: Sum) -> Sum:
        """Return the same sum without the unknowns that can only be zero."""
        if all(self._cap[unknown] != 0 for unknown, _ in total.terms):
            return total
        return Sum(total.number, tuple(term for term in total.terms if self._cap[term[0]] != 0))


def _split(total: int, there: Sequence[int]) -> tuple[int, ...]:
    """Share a number out, the fullest places first; what finds no room goes to the first."""
    shares = [0] * len(there)
    rest = total
    for place in sorted(range(len(there)), key=lambda one: -there[one]):
        shares[place] = min(there[place], rest)
        rest -= shares[place]
    shares[0] += rest
    return tuple(shares)
