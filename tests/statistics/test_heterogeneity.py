"""Heterogeneity between broods against SciPy's contingency test and special cases."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from filialog.domain_error import DomainError
from filialog.statistics import (
    FitState,
    Part,
    brood_heterogeneity,
    chi_square_test,
    g_test,
)

brood_lists = st.integers(2, 4).flatmap(
    lambda classes: st.lists(
        st.lists(st.integers(1, 60), min_size=classes, max_size=classes), min_size=2, max_size=6
    )
)


@given(brood_lists)
def test_heterogeneity__of_g_is_the_contingency_g(broods: list[list[int]]) -> None:
    classes = len(broods[0])
    result = brood_heterogeneity(broods, [1 / classes] * classes)
    reference = stats.contingency.chi2_contingency(
        broods, correction=False, lambda_="log-likelihood"
    )

    assert result.heterogeneity_g is not None
    assert result.heterogeneity_g.statistic == pytest.approx(float(reference.statistic), abs=1e-8)
    assert result.heterogeneity_g.df == reference.dof


@given(brood_lists)
def test_contingency__agrees_with_scipy(broods: list[list[int]]) -> None:
    classes = len(broods[0])
    result = brood_heterogeneity(broods, [1 / classes] * classes)
    reference = stats.contingency.chi2_contingency(broods, correction=False)

    part = result.contingency_chi_square
    assert part.statistic == pytest.approx(float(reference.statistic), abs=1e-8)
    assert part.df == reference.dof
    # A statistic of nothing but rounding has a p value that differs from 1 by its root.
    assert part.p_value == pytest.approx(float(reference.pvalue), rel=1e-6, abs=1e-5)


@given(brood_lists)
def test_total__is_the_sum_over_broods(broods: list[list[int]]) -> None:
    classes = len(broods[0])
    shares = [1 / classes] * classes
    result = brood_heterogeneity(broods, shares)

    assert result.total_chi_square.statistic == pytest.approx(
        sum(chi_square_test(brood, shares).statistic for brood in broods)
    )
    assert result.total_chi_square.df == len(broods) * (classes - 1)
    assert result.pooled_g.statistic == g_test(result.pooled_counts, shares).statistic


def test_heterogeneity__ignores_a_brood_without_animals() -> None:
    with_empty = brood_heterogeneity([[18, 2], [0, 0], [9, 8]], (0.75, 0.25))
    without = brood_heterogeneity([[18, 2], [9, 8]], (0.75, 0.25))

    assert with_empty == without
    assert with_empty.broods == 2


def test_heterogeneity__of_one_brood_has_no_freedom() -> None:
    result = brood_heterogeneity([[18, 2]], (0.75, 0.25))

    assert result.heterogeneity_chi_square == Part(statistic=0.0, df=0, p_value=1.0)
    assert result.heterogeneity_g == Part(statistic=0.0, df=0, p_value=1.0)
    assert result.contingency_chi_square == Part(statistic=0.0, df=0, p_value=1.0)


def test_heterogeneity__of_nothing_counted_is_named() -> None:
    result = brood_heterogeneity([[0, 0], [0, 0]], (0.75, 0.25))

    assert (result.state, result.broods) == (FitState.NOTHING_COUNTED, 0)
    assert result.pooled_chi_square.p_value == 1.0
    assert result.total_g == Part(statistic=0.0, df=0, p_value=1.0)
    assert result.heterogeneity_g == Part(statistic=0.0, df=0, p_value=1.0)


def test_heterogeneity__of_one_class_is_named() -> None:
    result = brood_heterogeneity([[3, 0], [5, 0]], (1, 0))

    assert result.state is FitState.ONE_CLASS
    assert result.total_chi_square == Part(statistic=0.0, df=0, p_value=1.0)


def test_heterogeneity__with_an_impossible_class_has_no_partition() -> None:
    result = brood_heterogeneity([[3, 0], [5, 1]], (1, 0))

    assert result.state is FitState.IMPOSSIBLE
    assert result.total_chi_square == Part(statistic=math.inf, df=0, p_value=0.0)
    assert result.heterogeneity_chi_square is None
    assert result.heterogeneity_g is None
    assert result.contingency_chi_square.df == 1


def test_contingency__leaves_out_a_class_never_seen() -> None:
    result = brood_heterogeneity([[8, 2, 0], [5, 5, 0]], (0.5, 0.25, 0.25))

    assert result.contingency_chi_square.df == 1
    assert result.heterogeneity_chi_square is not None
    assert result.heterogeneity_chi_square.df == 2


def test_heterogeneity__refuses_no_brood_and_unequal_classes() -> None:
    with pytest.raises(DomainError, match="number of broods"):
        brood_heterogeneity([], (0.75, 0.25))
    with pytest.raises(DomainError, match="classes of a brood"):
        brood_heterogeneity([[1, 2], [1, 2, 3]], (0.75, 0.25))
