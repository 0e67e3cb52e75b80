"""Bounds of sums of unknowns against a list of every set of numbers that satisfies everything."""

import random
from collections.abc import Iterator
from itertools import product

import pytest

from filialog.journal.ledger import unknowns as unknowns_module
from filialog.journal.ledger.constraints import Constraints
from filialog.journal.ledger.programs import Row, ShareOut, least_of_share_out
from filialog.journal.ledger.unknowns import Sum, Unknowns

Numbers = tuple[int, ...]


class _Listed:
    """Unknowns with every set of numbers they can be, and the steps that made them."""

    def __init__(self, seed: int) -> None:
        self.random = random.Random(seed)
        self.unknowns = Unknowns()
        self.sets: list[Numbers] = [()]
        self.sums: list[Sum] = []

    def value(self, total: Sum, numbers: Numbers) -> int:
        return total.number + sum(n * numbers[unknown] for unknown, n in total.terms)

    def any_sum(self) -> Sum:
        chosen = self.random.sample(self.sums, min(len(self.sums), self.random.randint(1, 3)))
        total = Sum(self.random.randint(0, 2))
        for one in chosen:
            total = total.plus(one, self.random.choice((1, 1, -1)))
        return total

    def share_out(self) -> None:
        number = self.random.randint(1, 3)
        low = self.random.randint(0, 2)
        high = low + self.random.randint(0, 2)
        shares = self.unknowns.share_out(number=number, low=low, high=high)
        if number == 1 and low == high:
            assert shares == (Sum(low),)
        else:
            self._extend(number, low, high)
        self.sums.extend(shares)

    def _extend(self, number: int, low: int, high: int) -> None:
        ways = [way for way in product(range(high + 1), repeat=number) if low <= sum(way) <= high]
        self.sets = [(*numbers, *way) for numbers in self.sets for way in ways]

    def take(self) -> None:
        places = [self.any_sum() for _ in range(self.random.randint(1, 3))]
        low = self.random.randint(0, 2)
        high = low + self.random.randint(0, 1)
        before = self.sets
        first = len(before[0])
        exact = len(places) == 1 and low == high
        if not exact:
            self._extend(len(places), low, high)
        taken = [
            Sum(low) if exact else Sum(0, ((first + number, 1),)) for number in range(len(places))
        ]
        left = [place.plus(share, -1) for place, share in zip(places, taken, strict=True)]
        self.sets = [
            numbers for numbers in self.sets if all(self.value(one, numbers) >= 0 for one in left)
        ]
        shares = self.unknowns.take(places, low=low, high=high)
        assert (shares is not None) == bool(self.sets)
        if shares is None:
            self.sets = before
        else:
            assert list(shares) == taken
            self.sums.extend(left)

    def require(self) -> None:
        total = self.any_sum()
        low = self.random.choice((None, self.random.randint(-1, 3)))
        high = self.random.choice((None, self.random.randint(0, 4)))
        if low is not None and high is not None and high < low:
            low, high = high, low
        agree = [
            numbers
            for numbers in self.sets
            if (low is None or self.value(total, numbers) >= low)
            and (high is None or self.value(total, numbers) <= high)
        ]
        assert self.unknowns.require(total, low=low, high=high) == bool(agree)
        self.sets = agree or self.sets

    def there_and_back(self) -> None:
        mark = self.unknowns.mark()
        state = (self.sets, list(self.sums))
        for _ in range(2):
            self.step(back=False)
        self.unknowns.return_to(mark)
        self.sets, self.sums = state

    def step(self, *, back: bool = True) -> None:
        steps = [self.take, self.require, self.require]
        if len(self.sets[0]) < 6:
            steps.append(self.share_out)
        if back:
            steps.append(self.there_and_back)
        self.random.choice(steps)()

    def questions(self) -> Iterator[tuple[Sum, list[int]]]:
        for _ in range(6):
            total = self.any_sum()
            yield total, [self.value(total, numbers) for numbers in self.sets]


def _listed(seed: int) -> Iterator[_Listed]:
    """Give the state after every step, up to six of them."""
    listed = _Listed(seed)
    listed.share_out()
    listed.share_out()
    for _ in range(6):
        listed.step()
        yield listed
        if len(listed.sets) > 3_000:
            return


@pytest.mark.parametrize("first_part", [32, 1])
@pytest.mark.parametrize("seed", range(150))
def test_bounds__are_the_least_and_greatest_of_every_set_of_numbers(
    seed: int, first_part: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """However few share-outs are solved at first."""
    monkeypatch.setattr(unknowns_module, "_FIRST_PART", first_part)
    for listed in _listed(seed):
        for total, values in listed.questions():
            assert listed.unknowns.bounds(total) == (min(values), max(values))
            assert listed.unknowns.possible(total) == (max(values) > 0)
            assert listed.unknowns.surely(total) == (min(values) > 0)
            assert listed.unknowns.can_reach(total, 2, sure=True) == (max(values) >= 2)
            if max(values) > 0:
                assert listed.unknowns.perhaps(total)


@pytest.mark.parametrize("seed", range(150, 300))
def test_bounds__of_more_than_is_solved_together_leave_nothing_out(
    seed: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What can be added, and what cannot, stays exact; only bounds may be wider."""
    monkeypatch.setattr(unknowns_module, "_FIRST_PART", 1)
    monkeypatch.setattr(unknowns_module, "_LARGEST_PART", 1)
    for listed in _listed(seed):
        for total, values in listed.questions():
            low, high = listed.unknowns.bounds(total)
            assert low <= min(values)
            assert high is None or high >= max(values)
            assert listed.unknowns.can_reach(total, 2, sure=True) == (max(values) >= 2)
            if max(values) > 0:
                assert listed.unknowns.possible(total)
            if listed.unknowns.surely(total):
                assert min(values) > 0


def test_bounds__stay_open_where_nothing_closes_them() -> None:
    unknowns = Unknowns()
    some = unknowns.unknown(low=1, high=None)
    other = unknowns.unknown(low=0, high=3)

    assert unknowns.bounds(some) == (1, None)
    assert unknowns.bounds(some.plus(other)) == (1, None)
    assert unknowns.bounds(some.plus(some, -1)) == (0, 0)


def test_bounds__open_ones_are_closed_by_a_row() -> None:
    unknowns = Unknowns()
    some = unknowns.unknown(low=1, high=None)
    more = unknowns.unknown(low=0, high=None)
    assert unknowns.require(some.plus(more), high=5)

    assert unknowns.bounds(some) == (1, 5)
    assert unknowns.bounds(more) == (0, 4)
    assert unknowns.bounds(some.plus(more, -1)) == (-3, 5)


def test_require__finds_no_number_in_a_gap_between_bounds() -> None:
    """Three totals of two each: the sum of any two can be 0 or 2, never 1."""
    unknowns = Unknowns()
    a, b, c = (unknowns.unknown(low=0, high=1) for _ in range(3))
    assert unknowns.require(a.plus(b), low=1, high=1)
    assert unknowns.require(b.plus(c), low=1, high=1)

    assert unknowns.bounds(a.plus(c)) == (0, 2)
    assert not unknowns.require(a.plus(c), low=1, high=1)
    assert unknowns.bounds(a.plus(c)) == (0, 2)


@pytest.mark.parametrize(
    ("low", "high", "caps", "multiples", "least"),
    [
        pytest.param(2, 5, (None, None), {0: -1}, -5, id="takes-all-there-are"),
        pytest.param(2, None, (None, None), {0: -1}, None, id="no-end"),
        pytest.param(2, None, (4, None), {0: -1}, -4, id="no-more-than-its-cap"),
        pytest.param(2, 5, (None, None), {0: 1}, 0, id="the-other-one-takes-it"),
        pytest.param(2, 5, (None, 1), {0: 1}, 1, id="the-other-one-takes-what-it-can"),
        pytest.param(2, 5, (None, None), {0: 3, 1: 2}, 4, id="the-cheaper-one-takes-it"),
        pytest.param(2, 5, (None, 1), {0: 3, 1: 2}, 5, id="the-cheaper-one-then-the-dearer"),
        pytest.param(2, 5, (None, 0), {0: -1, 1: 1}, -5, id="one-that-can-only-be-zero"),
    ],
)
def test_least_of_share_out__fills_the_cheapest(
    low: int,
    high: int | None,
    caps: tuple[int | None, ...],
    multiples: dict[int, int],
    least: int | None,
) -> None:
    assert least_of_share_out(ShareOut(0, 2, low, high), multiples, caps) == least


@pytest.mark.parametrize(
    ("row", "other", "implied"),
    [
        pytest.param(Row(((0, 1), (1, -1)), 3, None), Row(((0, 1),), 2, None), True, id="later"),
        pytest.param(Row(((0, 1), (1, -1)), 1, None), Row(((0, 1),), 2, None), False, id="weaker"),
        pytest.param(Row(((0, 1), (1, 1)), 3, None), Row(((0, 1),), 2, None), False, id="gained"),
        pytest.param(Row(((0, 1), (1, 1)), None, 3), Row(((0, 1),), None, 3), True, id="above"),
        pytest.param(Row(((0, 1),), 2, 2), Row(((0, 1),), 1, None), False, id="two-sided"),
        pytest.param(Row(((1, 1),), 2, None), Row(((0, 1),), 1, None), False, id="other-terms"),
    ],
)
def test_row__implies_one_on_its_first_terms(row: Row, other: Row, *, implied: bool) -> None:
    assert row.implies(other) == implied


def test_rows__that_add_nothing_are_dropped_and_come_back() -> None:
    known = Constraints()
    known.add_share_out((5,), low=0, high=9)
    known.add_share_out((1, 0), low=1, high=1)
    known.take_up(Row(((0, 1), (1, -1)), 1, None))
    mark = known.mark()
    known.add_share_out((0, 1), low=1, high=1)
    known.take_up(Row(((0, 1), (1, -1), (3, -1)), 2, None))

    assert [row.low for row in known.rows_at[0]] == [2]
    known.return_to(mark)
    assert [row.low for row in known.rows_at[0]] == [1]
    assert known.value_of[id(known.rows_at[0][0])] == 4
