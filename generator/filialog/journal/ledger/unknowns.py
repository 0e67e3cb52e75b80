"""Unknown whole numbers under linear constraints, and the bounds of their sums.

Everything a keeper leaves open becomes an unknown: a count written as `~12`, or which of three
groups a dead animal was of. Unknowns that share one total form a *share-out*: one died, so the
shares of the three groups sum to one. Most sums need no more than that and are bounded by hand
in closed form. Constraints that bind across share-outs (no group falls below zero, a count of
a tank holds) are kept as rows; sums that touch a row are solved as small integer programs, by
HiGHS through SciPy, where nothing simpler settles them.

Both ways are exact: the minimum and the maximum are attained. Only where more than 128
share-outs hang together, by rows that nothing cuts off, may a bound be wider than it must be;
it never leaves out a number that can be.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from filialog.journal.ledger.constraints import Constraints, negative
from filialog.journal.ledger.programs import Row, least_of_share_out
from filialog.journal.ledger.shifts import raise_by, raise_once

__all__ = ["Bounds", "Mark", "Sum", "Unknowns"]

Bounds = tuple[int, int | None]
"""Smallest and greatest value; None where there is no greatest."""

Mark = int
"""A state of the unknowns to return to."""

_FIRST_PART = 32
"""Share-outs that are solved together at first."""

_LARGEST_PART = 128
"""Share-outs that are solved together to find a bound."""

_GOLDEN_RATIO = 0.6180339887498949
"""Its multiples, whole parts aside, spread evenly over a stretch however many are taken."""


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


class Unknowns:
    """All unknowns of one book, with what is known of them."""

    def __init__(self) -> None:
        self._known = Constraints()
        self._answers: dict[tuple[tuple[int, int], ...], int | None] = {}
        """Least values under rows that were found since the last change."""

    def mark(self) -> Mark:
        """Remember this state."""
        return self._known.mark()

    def return_to(self, mark: Mark) -> None:
        """Forget all that came after a mark."""
        if mark < self.mark():
            self._known.return_to(mark)
            self._answers = {}

    def settle(self) -> None:
        """Give up the way back from here; marks made before are void."""
        self._known.settle()

    # New unknowns

    def unknown(self, *, low: int, high: int | None) -> Sum:
        """Make one unknown in [low, high]."""
        return self.share_out(number=1, low=low, high=high)[0]

    def share_out(self, *, number: int, low: int, high: int | None) -> tuple[Sum, ...]:
        """Make `number` unknowns from 0 upwards whose total lies in [low, high]."""
        if number == 1 and low == high:
            return (Sum(low),)
        return self._new((_middle(low, high), *[0] * (number - 1)), low=low, high=high)

    def take(self, places: Sequence[Sum], *, low: int, high: int | None) -> tuple[Sum, ...] | None:
        """Share out a number over places of which none may fall below zero.

        Returns what is taken of each place; None, and nothing made, where it cannot be.
        """
        mark = self.mark()
        if len(places) == 1 and low == high:
            shares: tuple[Sum, ...] = (Sum(low),)
        else:
            there = [max(0, self._value(place)) for place in places]
            guess = _split(_middle(low, high), there, turn=len(self._known.share_outs))
            shares = self._new(guess, low=low, high=high)
        left = [place.plus(share, -1) for place, share in zip(places, shares, strict=True)]
        if self._require([(one, 0, None) for one in left]):
            return shares
        self.return_to(mark)
        return None

    def _new(self, guess: Sequence[int], *, low: int, high: int | None) -> tuple[Sum, ...]:
        members = self._known.add_share_out(guess, low=low, high=high)
        return tuple(Sum(0, ((unknown, 1),)) for unknown in members)

    # Bounds

    def bounds(self, total: Sum) -> Bounds:
        """Return the bounds of a sum; the constraints are satisfiable by construction."""
        return (self.least(total), self.greatest(total))

    def greatest(self, total: Sum) -> int | None:
        """Return the greatest value of a sum, None where there is none."""
        least = self._least(negative(total.terms))
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
        value = self._value(total)
        if value >= number:
            return True
        most = self._outer_greatest(total)
        if most is not None and most < number:
            return False
        if raise_by(total.terms, number - value, self._known):
            return True
        return self._can_be(total, low=number, sure=sure)

    def perhaps(self, total: Sum) -> bool:
        """Say whether a sum may be more than zero, as far as can be told without solving."""
        if self._value(total) > 0:
            return True
        most = self._outer_greatest(total)
        return most is None or most > 0

    def surely(self, total: Sum) -> bool:
        """Say whether a sum can only be more than zero."""
        return self._value(total) > 0 and not self._can_be(total, high=0, sure=False)

    def _can_be(
        self, total: Sum, *, low: int | None = None, high: int | None = None, sure: bool
    ) -> bool:
        """Say whether a sum can lie between two bounds, and leave everything as it is."""
        mark, answers = self.mark(), self._answers
        holds = self._require([(total, low, high)], sure=sure)
        self.return_to(mark)
        self._answers = answers
        return holds

    def fixed(self, total: Sum) -> Sum:
        """Return the same sum without the unknowns that can only be zero."""
        cap = self._known.cap
        if all(cap[unknown] != 0 for unknown, _ in total.terms):
            return total
        return Sum(total.number, tuple(term for term in total.terms if cap[term[0]] != 0))

    def _value(self, total: Sum) -> int:
        """Return the value of a sum in the witness."""
        return total.number + self._known.value(total.terms)

    def _outer_greatest(self, total: Sum) -> int | None:
        minus = self._known.outer_least(negative(total.terms))
        return None if minus is None else total.number - minus

    def _least(self, terms: Iterable[tuple[int, int]]) -> int | None:
        """Return the least value of a sum of multiples, None where there is none."""
        known = self._known
        total = 0
        tied: dict[int, int] = {}
        for home, multiples in known.by_home(terms).items():
            if home in known.rows_at:
                tied.update(multiples)
                continue
            part = least_of_share_out(known.share_outs[home], multiples, known.cap)
            if part is None:
                return None
            total += part
        if not tied:
            return total
        key = tuple(tied.items())
        if key not in self._answers:
            self._answers[key] = self._least_under_rows(tied)
        least = self._answers[key]
        return None if least is None else total + least

    def _least_under_rows(self, objective: Mapping[int, int]) -> int | None:
        """Return the least value of an objective whose unknowns rows tie to others.

        The witness is lowered as far as shifts go. Where that does not reach a bound, a part of
        all share-outs is solved with what lies outside taken as free, which gives a better bound;
        a larger part is solved where that one is not attained either.
        """
        known = self._known
        terms = tuple(objective.items())
        outer = known.outer_least(terms)
        if outer is not None:
            while known.value(terms) > outer and raise_once(negative(terms), known):
                pass
            if known.value(terms) == outer:
                return outer
        start = {known.home[unknown] for unknown in objective}
        for size in (_FIRST_PART, _LARGEST_PART):
            homes, whole = known.part(start, size)
            if size == _LARGEST_PART and not whole:
                break
            found = known.program(homes, free=True).solve(objective)
            if found is None:
                if whole:
                    # Some numbers satisfy the rows, so there is no least value.
                    return None
                continue
            least = sum(n * found[unknown] for unknown, n in terms)
            outer = least if outer is None else max(outer, least)
            if whole or known.value(terms) == outer or known.fits(homes, found):
                break
        return outer

    # Constraints

    def require(self, total: Sum, *, low: int | None = None, high: int | None = None) -> bool:
        """Add the constraint low <= total <= high; False, and nothing added, if it cannot hold."""
        return self._require([(total, low, high)])

    def _require(
        self, wanted: Sequence[tuple[Sum, int | None, int | None]], *, sure: bool = True
    ) -> bool:
        """Add constraints; the witness moves only where it does not agree with them."""
        known = self._known
        mark = self.mark()
        touched: set[int] = set()
        for total, low, high in wanted:
            least, most = known.outer_least(total.terms), self._outer_greatest(total)
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
            self._answers = {}
            touched.update(known.home[unknown] for unknown, _ in total.terms)
            known.take_up(
                Row(
                    total.terms,
                    None if need_low is None else need_low - total.number,
                    None if need_high is None else need_high - total.number,
                )
            )
        if all(self._agrees(*one) for one in wanted) or self._repair(touched, sure=sure):
            return True
        self.return_to(mark)
        return False

    def _agrees(self, total: Sum, low: int | None, high: int | None) -> bool:
        """Say whether the witness agrees with a constraint, moved a little if need be."""
        value = self._value(total)
        if low is not None and value < low:
            return raise_by(total.terms, low - value, self._known)
        if high is not None and value > high:
            return raise_by(negative(total.terms), value - high, self._known)
        return True

    def _repair(self, start: Iterable[int], *, sure: bool) -> bool:
        """Move the witness so that it satisfies the rows of some share-outs; False if none can.

        Where the largest part leaves it open, and it need not be `sure`, the witness stays wrong:
        what was added must be dropped again.
        """
        known = self._known
        seeds = set(start)
        size = _FIRST_PART
        while True:
            homes, whole = known.part(seeds, size)
            found = known.program(homes, free=False).solve({})
            if found is not None:
                known.move_witness(
                    [
                        (unknown, value - known.witness[unknown])
                        for unknown, value in found.items()
                        if value != known.witness[unknown]
                    ]
                )
                return True
            if whole or known.program(homes, free=True).solve({}) is None:
                return False
            if size >= _LARGEST_PART and not sure:
                return True
            size *= 4


def _middle(low: int, high: int | None) -> int:
    return low if high is None else (low + high) // 2


def _split(total: int, there: Sequence[int], *, turn: int) -> tuple[int, ...]:
    """Share a number out, in the long run by how many there are in each place.

    A guess near to what happened agrees with later counts more often. What finds no room goes to
    the first place.
    """
    shares = [0] * len(there)
    left = list(there)
    for number in range(total):
        room = sum(left)
        if not room:
            shares[0] += total - number
            break
        point = int((turn + number) * _GOLDEN_RATIO % 1 * room)
        place = 0
        while point >= left[place]:
            point -= left[place]
            place += 1
        shares[place] += 1
        left[place] -= 1
    return tuple(shares)
