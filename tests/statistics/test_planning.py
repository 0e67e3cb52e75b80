"""Many tests, sorters, family sizes and stopping, against SciPy and against definitions."""

import math
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from filialog.domain_error import DomainError
from filialog.statistics import (
    benjamini_hochberg,
    benjamini_hochberg_adjusted,
    binomial_tails,
    chance_to_reject,
    chance_to_settle,
    corrected_share,
    cutoff_design,
    jeffreys_interval,
    share_as_sorted,
    share_difference,
    shares_as_sorted,
    stopping_time,
    young_that_suffice,
)

p_lists = st.lists(st.floats(0.0, 1.0), min_size=1, max_size=30)
counts = st.integers(1, 300).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n)))
QUARTER, HALF = (0.75, 0.25), (0.5, 0.5)


@given(p_lists)
def test_adjusted__agrees_with_scipy(p_values: list[float]) -> None:
    reference = stats.false_discovery_control(p_values)

    assert benjamini_hochberg_adjusted(p_values) == pytest.approx(reference.tolist(), rel=1e-12)


def test_many_tests__none_and_not_a_number() -> None:
    assert benjamini_hochberg([]).found == ()
    assert benjamini_hochberg([0.2]).threshold is None
    for bad in (math.nan, -0.1, 1.1):
        with pytest.raises(DomainError):
            benjamini_hochberg_adjusted([0.5, bad])


@given(counts, st.sampled_from([0.5, 0.25, 0.4375]))
def test_tails__agree_with_scipy(count: tuple[int, int], share: float) -> None:
    seen, counted = count
    tails = binomial_tails(seen=seen, counted=counted, share=share)
    for found, side in (
        (tails.at_most, "less"), (tails.at_least, "greater"), (tails.two_sided, "two-sided"),
    ):  # fmt: skip
        reference = stats.binomtest(seen, counted, share, alternative=side)
        assert found == pytest.approx(float(reference.pvalue), rel=1e-8, abs=1e-14)
    assert tails.at_most + tails.at_least == pytest.approx(1.0 + tails.observed)


@given(counts)
def test_jeffreys__tails_are_those_of_the_beta_distribution(count: tuple[int, int]) -> None:
    seen, counted = count
    plain = jeffreys_interval(seen=seen, counted=counted, reach_ends=False)
    law = stats.beta(seen + 0.5, counted - seen + 0.5)

    assert float(law.cdf(plain.low)) == pytest.approx(0.025)
    assert float(law.sf(plain.high)) == pytest.approx(0.025)
    ends = jeffreys_interval(seen=seen, counted=counted)
    assert ends.low == (0.0 if seen == 0 else plain.low)
    assert ends.high == (1.0 if seen == counted else plain.high)


def test_difference__of_nothing_is_unknown() -> None:
    found = share_difference(first_seen=0, first_counted=0, second_seen=1, second_counted=4)

    assert found.difference is None
    assert found.interval.low >= -1.0
    assert found.interval.high <= 1.0


@given(st.floats(0.0, 1.0), st.floats(0.6, 1.0), st.floats(0.6, 1.0))
def test_sorter__two_classes_are_the_matrix(share: float, sense: float, other: float) -> None:
    found = share_as_sorted(share=share, sensitivity=sense, specificity=other)
    matrix = ((sense, 1.0 - sense), (1.0 - other, other))

    assert shares_as_sorted((share, 1.0 - share), matrix)[0] == pytest.approx(found, abs=1e-12)


def test_sorter__correction_undoes_the_mistakes() -> None:
    # 0.25 * 0.8 + 0.75 * 0.1 = 0.275
    found = corrected_share(seen=275, counted=1000, sensitivity=0.8, specificity=0.9)

    assert found.share == pytest.approx(0.25)
    assert found.interval.low < 0.25 < found.interval.high
    none = corrected_share(seen=0, counted=10, sensitivity=0.8, specificity=0.9)
    assert none.share == 0.0
    assert none.uncut == pytest.approx(-1 / 7)
    assert corrected_share(seen=0, counted=0, sensitivity=1, specificity=1).share is None
    with pytest.raises(DomainError):
        corrected_share(seen=1, counted=2, sensitivity=0.5, specificity=0.5)


@pytest.mark.parametrize(("low", "high"), [(0.25, 0.5), (0.1, 0.5), (0.0, 0.25)])
def test_design__is_the_first_that_any_cutoff_allows(low: float, high: float) -> None:
    design = cutoff_design(low=low, high=high)
    assert design is not None
    first = next(
        young
        for young in range(1, 200)
        if any(
            stats.binom.sf(cut - 1, young, low) <= 0.05
            and stats.binom.cdf(cut - 1, young, high) <= 0.05
            for cut in range(young + 1)
        )
    )

    assert design.young == first


def test_power__adds_up_the_counts_that_are_rejected() -> None:
    for young in (0, 1, 7, 24):
        wanted = sum(
            float(stats.binom.pmf(seen, young, 0.5))
            for seen in range(young + 1)
            if young and stats.binomtest(seen, young, 0.25).pvalue < 0.05
        )
        found = chance_to_reject(young=young, expected=0.25, true=0.5)
        assert found == pytest.approx(wanted, abs=1e-12)


def test_settle__equals_adding_up_every_order_of_young() -> None:
    expected, rival = (0.5, 0.3, 0.2), (0.2, 0.3, 0.5)
    wanted = 0.0
    for order in product(range(3), repeat=6):
        mine = math.prod(expected[place] for place in order)
        if mine / math.prod(rival[place] for place in order) >= 20.0:
            wanted += mine
    found = chance_to_settle([0, 0, 0], expected_shares=expected, rival_shares=rival, more=6)

    assert found == pytest.approx(wanted, abs=1e-12)


def test_suffice__is_the_first_number_with_the_chance() -> None:
    number = young_that_suffice([9, 3], expected_shares=QUARTER, rival_shares=HALF)
    assert number is not None
    chances = [
        chance_to_settle([9, 3], expected_shares=QUARTER, rival_shares=HALF, more=more)
        for more in range(number + 1)
    ]

    assert all(chance is not None and chance < 0.9 for chance in chances[:-1])
    assert chances[-1] is not None
    assert chances[-1] >= 0.9


@settings(max_examples=20, deadline=None)
@given(st.sampled_from([(0.75, 0.25), (0.9375, 0.0625)]), st.sampled_from([5.0, 20.0]))
def test_stopping__obeys_walds_identity_and_bound(
    expected: tuple[float, float], odds: float
) -> None:
    found = stopping_time([0, 0], expected_shares=expected, rival_shares=HALF, odds=odds)
    assert found is not None
    per_young = sum(p * math.log(p / 0.5) for p in expected)
    steps = [abs(math.log(p / 0.5)) for p in expected]
    # Wald: mean ratio at the stop = mean number x mean step; it overshoots by a step at most.
    at_stop = found.mean * per_young
    sides = (found.chance_for - found.chance_against) * math.log(odds)

    assert found.chance_for + found.chance_against == pytest.approx(1.0, abs=1e-9)
    assert found.chance_against <= 1.0 / odds
    assert abs(at_stop - sides) <= max(steps)


def test_stopping__where_one_young_decides() -> None:
    found = stopping_time([4, 0], expected_shares=(0.5, 0.5), rival_shares=(1.0, 0.0), odds=100.0)
    assert found is not None
    # 4 like the rival speak 16:1 against; a third of a hundred needs three more of them.
    assert found.mean == pytest.approx(1 + 0.5 + 0.25)
    assert found.chance_against == pytest.approx(0.125)


def test_stopping__without_an_answer() -> None:
    assert stopping_time([1, 1], expected_shares=HALF, rival_shares=HALF) is None
    assert stopping_time([1, 1], expected_shares=(1, 0), rival_shares=HALF) is None
    assert young_that_suffice([0, 0], expected_shares=HALF, rival_shares=HALF) is None
    with pytest.raises(DomainError):
        stopping_time([1, 1], expected_shares=QUARTER, rival_shares=HALF, chance=math.nan)
