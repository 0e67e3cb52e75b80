"""Likelihoods against SciPy; numbers of young against their definition."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy import stats

from filialog.domain_error import DomainError
from filialog.statistics import (
    log_likelihood,
    log_likelihood_ratio,
    more_needed,
    shares_of_ratio,
    single,
    young_needed,
    young_to_see,
)

share = st.floats(0.02, 0.98)


@given(st.lists(st.tuples(st.integers(0, 30), st.integers(1, 9)), min_size=2, max_size=5))
def test_log_likelihood__agrees_with_scipy(table: list[tuple[int, int]]) -> None:
    observed = [count for count, _ in table]
    shares = [float(part) for part in shares_of_ratio([part for _, part in table])]
    expected = float(stats.multinomial.logpmf(observed, sum(observed), shares))

    assert log_likelihood(observed, single(shares)) == pytest.approx(expected, abs=1e-9)


def test_log_likelihood__of_a_mixture_is_the_log_of_the_sum() -> None:
    mixture = [(0.25, (0.75, 0.25)), (0.75, (0.5, 0.5))]
    expected = 0.25 * stats.binom.pmf(3, 10, 0.75) + 0.75 * stats.binom.pmf(3, 10, 0.5)

    assert log_likelihood([3, 7], mixture) == pytest.approx(math.log(float(expected)))


def test_log_likelihood__does_not_underflow() -> None:
    mixture = [(0.5, (0.5, 0.5)), (0.5, (0.4, 0.6))]

    assert log_likelihood([5000, 0], mixture) == pytest.approx(5000 * math.log(0.5) + math.log(0.5))


def test_log_likelihood__impossible_and_nothing() -> None:
    assert log_likelihood([1, 1], single((1, 0))) == -math.inf
    assert log_likelihood([0, 0], single((1, 0))) == 0.0


def test_log_likelihood_ratio__names_what_cannot_be_compared() -> None:
    own, other, third = single((1, 0, 0)), single((0, 1, 0)), single((0.5, 0.5, 0))

    assert log_likelihood_ratio([0, 0, 1], expected=own, rival=other) is None
    assert log_likelihood_ratio([2, 0, 0], expected=own, rival=other) == math.inf
    assert log_likelihood_ratio([0, 2, 0], expected=own, rival=third) == -math.inf
    ratio = log_likelihood_ratio([2, 0, 0], expected=own, rival=third)
    assert ratio == pytest.approx(math.log(4))


@given(share, share, st.floats(2.0, 1000.0))
def test_young_needed__is_the_smallest_number(own: float, other: float, odds: float) -> None:
    assume(abs(own - other) > 1e-3)
    number = young_needed((own, 1 - own), (other, 1 - other), odds=odds)
    per_young = float(stats.entropy([own, 1 - own], [other, 1 - other]))

    assert number is not None
    assert number * per_young >= math.log(odds) * (1 - 1e-9)
    assert number == 1 or (number - 1) * per_young < math.log(odds) * (1 + 1e-9)


def test_young_needed__three_to_one_against_one_to_one() -> None:
    # KL = 0.75 ln 1.5 + 0.25 ln 0.5 = 0.1308; ln 20 / 0.1308 = 22.9.
    assert young_needed((0.75, 0.25), (0.5, 0.5)) == 23
    assert young_needed((0.5, 0.5), (0.75, 0.25)) == 21


def test_young_needed__equal_and_excluding_rivals() -> None:
    assert young_needed((0.75, 0.25), (0.75, 0.25)) is None
    assert young_needed((0.1 + 0.2, 0.7), (0.3, 0.7)) is None  # 0.1 + 0.2 is not quite 0.3
    assert young_needed((0.75, 0.25), (1, 0)) == 1
    assert young_needed((1, 0), (0.75, 0.25)) == 11


def test_young_needed__of_nearly_equal_shares_is_large_and_finite() -> None:
    # KL is close to d² / (2 p q) for a small difference d: here 2e-18.
    number = young_needed((0.5, 0.5), (0.5 + 1e-9, 0.5 - 1e-9))

    assert number == pytest.approx(math.log(20) / 2e-18, rel=1e-3)


def test_more_needed__falls_with_every_young_that_agrees() -> None:
    numbers = [
        more_needed([3 * k, k], expected_shares=(0.75, 0.25), rival_shares=(0.5, 0.5))
        for k in range(7)
    ]

    assert numbers == [23, 19, 15, 11, 7, 3, 0]


def test_more_needed__of_nothing_counted_is_young_needed() -> None:
    assert more_needed([0, 0], expected_shares=(0.6, 0.4), rival_shares=(0.5, 0.5)) == young_needed(
        (0.6, 0.4), (0.5, 0.5)
    )


def test_more_needed__rival_without_a_look_waits_until_one_should_show() -> None:
    # 1 - (3/4)^11 is the first to reach 95 %, however many plain ones came before.
    for plain in (0, 3, 10):
        number = more_needed([plain, 0], expected_shares=(0.75, 0.25), rival_shares=(1, 0))
        assert number == 11 == young_to_see(share=0.25, confidence=0.95)
    assert more_needed([3, 1], expected_shares=(0.75, 0.25), rival_shares=(1, 0)) == 0
    assert more_needed([0, 0], expected_shares=(0, 1), rival_shares=(1, 0)) == 1


def test_more_needed__says_none_when_no_number_helps() -> None:
    assert more_needed([3, 1], expected_shares=(0.5, 0.5), rival_shares=(0.5, 0.5)) is None
    assert more_needed([3, 1], expected_shares=(1, 0), rival_shares=(0.5, 0.5)) is None


@given(st.floats(0.001, 0.999), st.floats(0.01, 0.9999))
def test_young_to_see__is_the_smallest_number(part: float, confidence: float) -> None:
    number = young_to_see(share=part, confidence=confidence)

    assert number is not None
    assert 1 - (1 - part) ** number >= confidence - 1e-12
    assert number == 1 or 1 - (1 - part) ** (number - 1) < confidence + 1e-12


def test_young_to_see__whole_quotients_and_ends() -> None:
    # 1 - (1/2)^n is exactly 0.5, 0.75, 0.875, ...
    assert [young_to_see(share=0.5, confidence=1 - 0.5**n) for n in range(1, 12)] == list(
        range(1, 12)
    )
    # Here the rounded quotient of the logs lies a hair above 47.
    assert young_to_see(share=0.07, confidence=1 - (1 - 0.07) ** 47) == 47
    assert young_to_see(share=0.0) is None
    assert young_to_see(share=1.0) == 1


@pytest.mark.parametrize("odds", [1.0, 0.5, math.inf, math.nan])
def test_young_needed__refuses_odds(odds: float) -> None:
    with pytest.raises(DomainError, match="odds"):
        young_needed((0.75, 0.25), (0.5, 0.5), odds=odds)


def test_young_to_see__refuses() -> None:
    for part, confidence in [(-0.1, 0.95), (1.1, 0.95), (math.nan, 0.95), (0.5, 1.0), (0.5, 0.0)]:
        with pytest.raises(DomainError):
            young_to_see(share=part, confidence=confidence)
