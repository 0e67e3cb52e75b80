"""Intervals against SciPy, symmetry, and the ends."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from filialog.domain_error import DomainError
from filialog.statistics import Interval, clopper_pearson_interval, wilson_interval

counts = st.integers(1, 400).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n)))
confidences = st.sampled_from([0.5, 0.8, 0.9, 0.95, 0.99])


@given(counts, confidences)
def test_wilson__agrees_with_scipy(count: tuple[int, int], confidence: float) -> None:
    seen, counted = count
    interval = wilson_interval(seen=seen, counted=counted, confidence=confidence)
    reference = stats.binomtest(seen, counted).proportion_ci(confidence, method="wilson")

    assert interval.low == pytest.approx(float(reference.low), abs=1e-9)
    assert interval.high == pytest.approx(float(reference.high), abs=1e-9)


@given(counts, confidences)
def test_clopper_pearson__agrees_with_scipy(count: tuple[int, int], confidence: float) -> None:
    seen, counted = count
    interval = clopper_pearson_interval(seen=seen, counted=counted, confidence=confidence)
    reference = stats.binomtest(seen, counted).proportion_ci(confidence, method="exact")

    assert interval.low == pytest.approx(float(reference.low), abs=1e-9)
    assert interval.high == pytest.approx(float(reference.high), abs=1e-9)


@given(counts)
def test_clopper_pearson__limits_are_where_the_tails_are(count: tuple[int, int]) -> None:
    # The definition itself: at each limit the tail beyond the count is 2.5 %.
    seen, counted = count
    interval = clopper_pearson_interval(seen=seen, counted=counted)

    if seen > 0:
        assert float(stats.binom.sf(seen - 1, counted, interval.low)) == pytest.approx(0.025)
    if seen < counted:
        assert float(stats.binom.cdf(seen, counted, interval.high)) == pytest.approx(0.025)


@given(counts)
def test_wilson__limits_solve_the_score_equation(count: tuple[int, int]) -> None:
    seen, counted = count
    z = float(stats.norm.isf(0.025))
    interval = wilson_interval(seen=seen, counted=counted)

    for limit in (interval.low, interval.high):
        distance = (seen / counted - limit) ** 2
        assert distance == pytest.approx(z * z * limit * (1 - limit) / counted, abs=1e-12)


def test_interval__ends_are_exact() -> None:
    for make in (wilson_interval, clopper_pearson_interval):
        for counted in range(1, 80):
            assert make(seen=0, counted=counted).low == 0.0
            assert make(seen=counted, counted=counted).high == 1.0


def test_interval__of_nothing_counted_is_everything() -> None:
    assert wilson_interval(seen=0, counted=0) == Interval(low=0.0, high=1.0)
    assert clopper_pearson_interval(seen=0, counted=0) == Interval(low=0.0, high=1.0)


@pytest.mark.parametrize(
    ("seen", "counted", "confidence"),
    [
        pytest.param(3, 2, 0.95, id="more seen than counted"),
        pytest.param(-1, 2, 0.95, id="negative"),
        pytest.param(0, -1, 0.95, id="negative total"),
        pytest.param(1, 2, 1.0, id="certainty"),
        pytest.param(1, 2, 0.0, id="no confidence"),
        pytest.param(1, 2, math.nan, id="not a number"),
    ],
)
def test_interval__refuses(seen: int, counted: int, confidence: float) -> None:
    with pytest.raises(DomainError):
        wilson_interval(seen=seen, counted=counted, confidence=confidence)
    with pytest.raises(DomainError):
        clopper_pearson_interval(seen=seen, counted=counted, confidence=confidence)
