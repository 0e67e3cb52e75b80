import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from filialog.domain_error import DomainError
from filialog.genetics import heritability_from_sibs, sib_correlation

FAMILIES = st.lists(st.lists(st.integers(0, 9), min_size=1, max_size=6), min_size=2, max_size=6)


def test_correlation__of_families_that_are_all_alike_inside_is_one() -> None:
    found = sib_correlation([[1, 1], [2, 2], [5, 5]])

    assert (found.correlation, found.low, found.high) == (1.0, None, None)


def test_correlation__of_families_with_the_same_mean_is_below_none() -> None:
    found = sib_correlation([[0.1, 0.3], [0.2, 0.2]])

    assert found.correlation == pytest.approx(-1.0)
    assert (found.low, found.high) == (None, None)


@given(FAMILIES)
def test_correlation__follows_from_the_f_statistic_of_scipy(families: list[list[int]]) -> None:
    found = sib_correlation(families)
    total = sum(len(family) for family in families)
    varied = any(len(set(family)) > 1 for family in families)
    if total == len(families) or not varied:
        return
    f = float(stats.f_oneway(*families).statistic)
    size = (total - sum(len(family) ** 2 for family in families) / total) / (len(families) - 1)

    assert found.correlation == pytest.approx((f - 1) / (f + size - 1), abs=1e-9)
    if f < 1e-9:
        return
    assert found.low is not None
    assert found.high is not None
    freedom = (len(families) - 1, total - len(families))
    for limit, part in ((found.low, 0.975), (found.high, 0.025)):
        ratio = f / float(stats.f.ppf(part, *freedom))
        assert limit == pytest.approx((ratio - 1) / (ratio + size - 1), abs=1e-9)


def test_correlation__the_interval_covers_as_often_as_it_says() -> None:
    random, true = np.random.default_rng(61), 0.25
    hits = 0
    for _ in range(1500):
        family = random.normal(0, math.sqrt(true), (8, 1))
        grades = family + random.normal(0, math.sqrt(1 - true), (8, 5))
        found = sib_correlation(grades.tolist(), confidence=0.8)
        assert found.low is not None
        assert found.high is not None
        hits += found.low <= true <= found.high

    assert hits / 1500 == pytest.approx(0.8, abs=0.035)


@pytest.mark.parametrize(
    "families",
    [
        pytest.param([], id="no family"),
        pytest.param([[1.0, 2.0]], id="one family"),
        pytest.param([[1.0, 2.0], []], id="one family with grades"),
        pytest.param([[1.0], [2.0], [3.0]], id="one young each"),
        pytest.param([[4.0, 4.0], [4.0, 4.0]], id="all alike"),
    ],
)
def test_correlation__of_too_little_is_unknown(families: list[list[float]]) -> None:
    found = sib_correlation(families)

    assert (found.correlation, found.low, found.high) == (None, None, None)


def test_correlation__empty_families_do_not_count() -> None:
    families = [[1.0, 2.0, 4.0], [4.0, 7.0]]

    assert sib_correlation([*families, []]) == sib_correlation(families)


@pytest.mark.parametrize("wrong", [math.nan, math.inf])
def test_correlation__a_grade_that_is_none_is_refused(wrong: float) -> None:
    with pytest.raises(DomainError, match="grade"):
        sib_correlation([[1.0, wrong], [2.0, 3.0]])


def test_correlation__impossible_confidence_is_refused() -> None:
    with pytest.raises(DomainError, match="confidence"):
        sib_correlation([[1.0, 2.0], [2.0, 3.0]], confidence=0.0)


def test_heritability_from_sibs__half_sibs_count_double() -> None:
    assert heritability_from_sibs(correlation=0.1, full_sibs=True) == 0.2
    assert heritability_from_sibs(correlation=0.1, full_sibs=False) == 0.4
    assert heritability_from_sibs(correlation=1.0, full_sibs=True) == 2.0
    assert heritability_from_sibs(correlation=-1.0, full_sibs=False) == -4.0


@pytest.mark.parametrize("wrong", [-1.1, 1.1, math.nan])
def test_heritability_from_sibs__impossible_correlation_is_refused(wrong: float) -> None:
    with pytest.raises(DomainError, match="correlation of sibs"):
        heritability_from_sibs(correlation=wrong, full_sibs=True)
