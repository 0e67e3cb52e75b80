"""What is known of the unknowns of a book, and one set of numbers that agrees with all of it.

Unknowns come in *share-outs*, whose total lies between two bounds. Constraints that bind across
share-outs are *rows*. The *witness* is a whole number for each unknown; together they satisfy
everything, so that most questions of whether something can be need no solving.
"""

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from functools import partial
from typing import TypeVar

from filialog.journal.ledger.programs import Program, Row, ShareOut, least_of_share_out

__all__ = ["Constraints", "Terms", "negative"]

Terms = Sequence[tuple[int, int]]
"""(unknown, multiple) by ascending unknown, no multiple zero."""

_Item = TypeVar("_Item")


class Constraints:
    """Share-outs, caps and rows, with a way back from every change."""

    def __init__(self) -> None:
        self.share_outs: list[ShareOut] = []
        self.home: list[int] = []
        """Share-out of each unknown."""
        self.cap: list[int | None] = []
        """The most that each unknown can be, where more is known than its share-out says."""
        self.witness: list[int] = []
        self.rows_at: dict[int, list[Row]] = {}
        """The rows that touch each share-out."""
        self.rows_with: dict[int, list[tuple[Row, int]]] = {}
        """The rows that each unknown stands in, with its multiple."""
        self.value_of: dict[int, int] = {}
        """The value of each row in the witness, by the row's identity."""
        self._ranges: dict[int, list[tuple[int, int | None, int | None]]] = {}
        """For rows by identity, the bounds of what they have of each share-out."""
        self._undo: list[Callable[[], object]] = []

    # The way back

    def mark(self) -> int:
        """Remember this state."""
        return len(self._undo)

    def return_to(self, mark: int) -> None:
        """Forget all that came after a mark; the witness agrees with what is left."""
        while len(self._undo) > mark:
            self._undo.pop()()

    def settle(self) -> None:
        """Give up the way back from here; marks made before are void."""
        self._undo.clear()

    # Changes

    def add_share_out(self, witness: Sequence[int], *, low: int, high: int | None) -> range:
        """Add a share-out with a guess at its members; return its unknowns."""
        one = ShareOut(len(self.home), len(witness), low, high)
        self.home.extend([len(self.share_outs)] * one.number)
        self.share_outs.append(one)
        self.cap.extend([None] * one.number)
        self.witness.extend(witness)
        self._undo.append(partial(self._forget, one.first))
        return one.members

    def _forget(self, first: int) -> None:
        self.share_outs.pop()
        del self.home[first:], self.cap[first:], self.witness[first:]

    def take_up(self, row: Row) -> None:
        """Note a constraint in the simplest way it can be written; the witness may disagree."""
        homes = self.homes_of(row)
        multiples = {multiple for _, multiple in row.terms}
        if multiples == {-1}:
            low, high = (None if one is None else -one for one in (row.high, row.low))
            row = Row(tuple((unknown, 1) for unknown, _ in row.terms), low, high)
            multiples = {1}
        if multiples == {1}:
            if row.high == 0:
                for unknown, _ in row.terms:
                    self._narrow_unknown(unknown, 0)
                return
            if len(homes) == 1 and len(row.terms) == self.share_outs[homes[0]].number:
                self._narrow_share_out(homes[0], row.low, row.high)
                return
            if len(row.terms) == 1 and row.low is None and row.high is not None:
                self._narrow_unknown(row.terms[0][0], row.high)
                return
        for unknown, _ in row.terms:
            for known, _ in self.rows_with.get(unknown, [])[:]:
                if known.terms[-1][0] == unknown and row.implies(known):
                    self._drop_row(known)
                    self._undo.append(partial(self._add_row, known))
        self._add_row(row)
        self._undo.append(partial(self._drop_row, row))

    def _add_row(self, row: Row) -> None:
        for home in self.homes_of(row):
            self.rows_at.setdefault(home, []).append(row)
        for unknown, multiple in row.terms:
            self.rows_with.setdefault(unknown, []).append((row, multiple))
        self.value_of[id(row)] = self.value(row.terms)

    def _drop_row(self, row: Row) -> None:
        for home in self.homes_of(row):
            _drop(self.rows_at, home, row)
        for unknown, multiple in row.terms:
            _drop(self.rows_with, unknown, (row, multiple))
        del self.value_of[id(row)]
        self._ranges.pop(id(row), None)

    def _narrow_unknown(self, unknown: int, high: int) -> None:
        old = self.cap[unknown]
        if old is None or high < old:
            self._set_cap(unknown, high)
            self._undo.append(partial(self._set_cap, unknown, old))

    def _set_cap(self, unknown: int, cap: int | None) -> None:
        self.cap[unknown] = cap
        self._ranges.clear()

    def _narrow_share_out(self, home: int, low: int | None, high: int | None) -> None:
        one = self.share_outs[home]
        self._undo.append(partial(self._reset, one, one.low, one.high))
        most = one.high
        if high is not None:
            most = high if most is None else min(most, high)
        self._reset(one, one.low if low is None else max(one.low, low), most)

    def _reset(self, one: ShareOut, low: int, high: int | None) -> None:
        one.low, one.high = low, high
        self._ranges.clear()

    def move_witness(self, changes: Iterable[tuple[int, int]]) -> None:
        """Add to the witness."""
        for unknown, step in changes:
            self.witness[unknown] += step
            for row, multiple in self.rows_with.get(unknown, ()):
                self.value_of[id(row)] += multiple * step

    # What they say

    def value(self, terms: Iterable[tuple[int, int]]) -> int:
        """Return the value of terms in the witness."""
        witness = self.witness
        return sum(multiple * witness[unknown] for unknown, multiple in terms)

    def homes_of(self, row: Row) -> list[int]:
        """Return the share-outs that a row touches."""
        return sorted({self.home[unknown] for unknown, _ in row.terms})

    def by_home(self, terms: Iterable[tuple[int, int]]) -> dict[int, dict[int, int]]:
        """Divide terms by share-out."""
        found: dict[int, dict[int, int]] = {}
        for unknown, multiple in terms:
            found.setdefault(self.home[unknown], {})[unknown] = multiple
        return found

    def least_without_rows(self, terms: Iterable[tuple[int, int]]) -> int | None:
        """Return the least value of terms where rows are left aside, None where there is none."""
        total = 0
        for home, multiples in self.by_home(terms).items():
            part = least_of_share_out(self.share_outs[home], multiples, self.cap)
            if part is None:
                return None
            total += part
        return total

    def outer_least(self, terms: Terms) -> int | None:
        """Return a value that terms cannot fall below: the greatest that comes without solving."""
        total = self.least_without_rows(terms)
        if not self.rows_at:
            return total
        # What a row says of the first terms holds; only the later ones can lower it.
        for position, (unknown, multiple) in enumerate(terms, start=1):
            for row, row_multiple in self.rows_with.get(unknown, ()):
                if len(row.terms) != position or row.terms[-1][0] != unknown:
                    continue
                same_way = row_multiple == multiple
                limit = row.low if same_way else None if row.high is None else -row.high
                first = row.terms if same_way else negative(row.terms)
                if limit is None or tuple(first) != tuple(terms[:position]):
                    continue
                rest = self.least_without_rows(terms[position:])
                if rest is not None and (total is None or limit + rest > total):
                    total = limit + rest
        return total

    # Parts of them, to be solved

    def part(self, start: Iterable[int], size: int) -> tuple[list[int], bool]:
        """Return share-outs that rows tie to some, the nearest first, and whether that is all."""
        homes = sorted(start)
        seen = set(homes)
        most = max(size, len(homes))
        for home in homes:  # grows while it is walked
            if len(homes) >= size:
                return homes[:most], False
            for row in self.rows_at.get(home, ()):
                near = {self.home[unknown] for unknown, _ in row.terms} - seen
                seen |= near
                homes.extend(sorted(near))
        return homes, True

    def program(self, homes: Sequence[int], *, free: bool) -> Program:
        """Return the program of some share-outs.

        What rows say of other share-outs is taken to be whatever helps, or as the witness has it.
        """
        inside = set(homes)
        rows = []
        for row in self._rows_of(homes):
            outside = [term for term in row.terms if self.home[term[0]] not in inside]
            if not outside:
                rows.append(row)
                continue
            if free:
                least, most = self._range_of(row, inside)
            else:
                least = most = self.value(outside)
            low = None if row.low is None or most is None else row.low - most
            high = None if row.high is None or least is None else row.high - least
            terms = tuple(term for term in row.terms if self.home[term[0]] in inside)
            rows.append(Row(terms, low, high))
        return Program(
            share_outs=[self.share_outs[home] for home in homes], rows=rows, cap=self.cap
        )

    def _range_of(self, row: Row, inside: Collection[int]) -> tuple[int | None, int | None]:
        """Return the bounds of what a row has outside some share-outs, rows left aside."""
        ranges = self._ranges.get(id(row))
        if ranges is None:
            ranges = []
            for home, multiples in self.by_home(row.terms).items():
                one = self.share_outs[home]
                least = least_of_share_out(one, multiples, self.cap)
                minus = least_of_share_out(one, dict(negative(multiples.items())), self.cap)
                ranges.append((home, least, None if minus is None else -minus))
            self._ranges[id(row)] = ranges
        lows = [least for home, least, _ in ranges if home not in inside]
        highs = [most for home, _, most in ranges if home not in inside]
        return _sum_or_none(lows), _sum_or_none(highs)

    def fits(self, homes: Iterable[int], solution: Mapping[int, int]) -> bool:
        """Say whether a solution of a part satisfies all rows, the rest as in the witness."""
        for row in self._rows_of(homes):
            value = sum(n * solution.get(one, self.witness[one]) for one, n in row.terms)
            if (row.low is not None and value < row.low) or (
                row.high is not None and value > row.high
            ):
                return False
        return True

    def _rows_of(self, homes: Iterable[int]) -> list[Row]:
        found = {id(row): row for home in homes for row in self.rows_at.get(home, ())}
        return list(found.values())


def negative(terms: Iterable[tuple[int, int]]) -> list[tuple[int, int]]:
    """Return the terms times minus one."""
    return [(unknown, -multiple) for unknown, multiple in terms]


def _sum_or_none(numbers: Sequence[int | None]) -> int | None:
    known = [number for number in numbers if number is not None]
    return sum(known) if len(known) == len(numbers) else None


def _drop(lists: dict[int, list[_Item]], key: int, item: _Item) -> None:
    lists[key].remove(item)
    if not lists[key]:
        del lists[key]
