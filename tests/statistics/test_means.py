"""Means with Student's t interval."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from filialog.domain_error import DomainError
from filialog.statistics import mean_interval

_SLEEP = (1.2, 2.4, 1.3, 1.3, 0.0, 1.0, 1.8, 0.8, 4.6, 1.4)
"""Hours of sleep gained, differences of two soporifics, ten patients: Student 1908."""


def test_mean_interval__of_the_sleep_data_is_the_one_printed() -> None:
    """Student 1908 prints mean +1.58 and (divisor n) s.d. 1.17; the interval 0.70 to 2.46 is that
    of the help page of R's `t.test`, quoted from memory."""
    found = mean_interval(_SLEEP)

    assert found.mean == pytest.approx(1.58, abs=0.005)
    assert found.deviation == pytest.approx(1.17 * math.sqrt(10 / 9), abs=0.006)
    assert (found.low, found.high) == pytest.approx((0.7001142, 2.4598858), abs=5e-8)


@given(
    st.lists(st.integers(1, 5).map(float), min_size=2, max_size=60).filter(
        lambda values: len(set(values)) > 1
    ),
    st.sampled_from([0.5, 0.9, 0.95, 0.99]),
)
def test_mean_interval__is_that_of_scipy(values: list[float], confidence: float) -> None:
    found = mean_interval(values, confidence=confidence)
    low, high = stats.t.interval(
        confidence, len(values) - 1, loc=sum(values) / len(values), scale=stats.sem(values)
    )

    assert (found.low, found.high) == pytest.approx((low, high), rel=1e-9)
    assert found.number == len(values)


@pytest.mark.parametrize(("values", "deviation"), [((2.0,), None), ((0.1, 0.1, 0.1), 0.0)])
def test_mean_interval__without_spread_there_is_none(
    values: tuple[float, ...], deviation: float | None
) -> None:
    found = mean_interval(values)

    assert (found.mean, found.low, found.high) == (values[0], None, None)
    assert found.deviation == deviation


@pytest.mark.parametrize(
    ("values", "confidence"),
    [
        ((), 0.95),
        ((1.0, math.nan), 0.95),
        ((1.0, math.inf), 0.95),
        ((1.0, 2.0), 0.0),
        ((1.0, 2.0), 1.0),
        ((1.0, 2.0), math.nan),
    ],
)
def test_mean_interval__refuses(values: tuple[float, ...], confidence: float) -> None:
    with pytest.raises(DomainError):
        mean_interval(values, confidence=confidence)
