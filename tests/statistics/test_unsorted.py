"""Bounds over all ways to sort the rest, against trying every way one by one."""

import time
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.statistics import (
    Method,
    Verdict,
    exact_test,
    judge,
    shares_of_ratio,
    single,
    unsorted_bounds,
)


@st.composite
def counts_with_rest(
    draw: st.DrawFn,
) -> tuple[list[int], list[tuple[int, tuple[int, ...]]], list[list[int]]]:
    classes = draw(st.integers(2, 3))
    observed = draw(st.lists(st.integers(0, 8), min_size=classes, max_size=classes))
    places = st.sets(st.integers(0, classes - 1), min_size=1).map(lambda s: tuple(sorted(s)))
    rest = draw(st.lists(st.tuples(st.integers(0, 2), places), max_size=3))
    ratio = st.lists(st.integers(0, 5), min_size=classes, max_size=classes).filter(any)
    return observed, rest, [draw(ratio) for _ in range(draw(st.integers(1, 2)))]


@settings(deadline=None)
@given(counts_with_rest())
def test_bounds__equal_those_of_every_single_assignment(
    case: tuple[list[int], list[tuple[int, tuple[int, ...]]], list[list[int]]],
) -> None:
    observed, rest, ratios = case
    mixture = [(1 / len(ratios), shares_of_ratio(ratio)) for ratio in ratios]
    singles = [places for number, places in rest for _ in range(number)]
    sorted_in = set()
    for choice in product(*singles):
        counts = list(observed)
        for place in choice:
            counts[place] += 1
        sorted_in.add(tuple(counts))
    p_values = {counts: exact_test(counts, mixture).p_value for counts in sorted_in}
    bounds = unsorted_bounds(observed, rest, mixture)

    assert bounds.method is Method.EXACT
    assert bounds.allocations == len(sorted_in)
    assert bounds.p_low == pytest.approx(min(p_values.values()), rel=1e-9)
    assert bounds.p_high == pytest.approx(max(p_values.values()), rel=1e-9)
    assert p_values[bounds.counts_at_p_low] == pytest.approx(bounds.p_low, rel=1e-9)
    assert p_values[bounds.counts_at_p_high] == pytest.approx(bounds.p_high, rel=1e-9)
    animals = sum(observed) + len(singles)
    for place, share in enumerate(bounds.shares):
        if share is None:
            assert animals == 0
        else:
            seen = [counts[place] for counts in sorted_in]
            assert share.low == min(seen) / animals
            assert share.high == max(seen) / animals


def test_bounds__of_large_counts_are_those_of_the_judge() -> None:
    mixture = [(0.5, (0.75, 0.125, 0.125)), (0.5, (0.5, 0.25, 0.25))]
    bounds = unsorted_bounds([400, 150, 140], [(12, (0, 1, 2))], mixture)

    assert bounds.method is Method.G_WILLIAMS
    for counts, p_value in (
        (bounds.counts_at_p_low, bounds.p_low),
        (bounds.counts_at_p_high, bounds.p_high),
    ):
        assert sum(counts) == 702
        assert judge(counts, mixture, []).p_value == pytest.approx(p_value, rel=1e-9)


def test_bounds__of_an_impossible_class_reach_zero() -> None:
    bounds = unsorted_bounds([5, 0], [(1, (0, 1))], single((1, 0)))

    assert (bounds.p_low, bounds.counts_at_p_low) == (0.0, (5, 1))
    assert (bounds.p_high, bounds.counts_at_p_high) == (1.0, (6, 0))


def test_bounds__of_nothing_counted_say_nothing() -> None:
    bounds = unsorted_bounds([0, 0], [], single((0.75, 0.25)))

    assert (bounds.p_low, bounds.p_high, bounds.shares) == (1.0, 1.0, (None, None))
    assert judge([0, 0], single((0.75, 0.25)), []).verdict is Verdict.NOTHING_COUNTED


def test_bounds__of_one_class_and_one_animal() -> None:
    bounds = unsorted_bounds([0], [(1, (0,))], single((1,)))

    assert (bounds.p_low, bounds.p_high, bounds.counts_at_p_low) == (1.0, 1.0, (1,))


@pytest.mark.parametrize(
    "unsorted",
    [
        pytest.param([(-1, (0, 1))], id="negative"),
        pytest.param([(1, ())], id="no class"),
        pytest.param([(1, (0, 2))], id="unknown class"),
        pytest.param([(1, (-1,))], id="negative place"),
        pytest.param([(2_000_000, (0, 1))], id="too many ways"),
    ],
)
def test_bounds__refuse(unsorted: list[tuple[int, tuple[int, ...]]]) -> None:
    with pytest.raises(DomainError):
        unsorted_bounds([1, 1], unsorted, single((0.5, 0.5)))


def test_bounds__of_240_young_in_three_looks_take_no_time() -> None:
    rest, expected = [(40, (0, 1, 2))], single((0.5, 0.25, 0.25))
    unsorted_bounds([1, 1, 1], rest, expected)
    times = []
    for _ in range(3):
        start = time.perf_counter()
        bounds = unsorted_bounds([100, 60, 40], rest, expected)
        times.append(time.perf_counter() - start)

    assert bounds.allocations == 861
    assert min(times) < 0.05
