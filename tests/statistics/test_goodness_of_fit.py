"""Chi-square and G against SciPy, hand-sized cases and named special cases."""

import math
from fractions import Fraction
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from filialog.domain_error import DomainError
from filialog.statistics import FitState, Method, chi_square_test, g_test, shares_of_ratio
from filialog.statistics.goodness_of_fit import chi_square_tail

tables = st.lists(st.tuples(st.integers(0, 300), st.integers(1, 20)), min_size=2, max_size=6)


@given(tables)
def test_chi_square__agrees_with_scipy(table: list[tuple[int, int]]) -> None:
    observed, ratio = [c for c, _ in table], [r for _, r in table]
    if sum(observed) == 0:
        return
    fit = chi_square_test(observed, shares_of_ratio(ratio))
    reference = stats.chisquare(observed, [sum(observed) * r / sum(ratio) for r in ratio])

    assert fit.statistic == pytest.approx(float(reference.statistic), rel=1e-9, abs=1e-9)
    assert fit.p_value == pytest.approx(float(reference.pvalue), rel=1e-9, abs=1e-300)


@given(tables)
def test_g__agrees_with_scipy(table: list[tuple[int, int]]) -> None:
    observed, ratio = [c for c, _ in table], [r for _, r in table]
    if sum(observed) == 0:
        return
    fit = g_test(observed, shares_of_ratio(ratio))
    expected = [sum(observed) * r / sum(ratio) for r in ratio]
    reference = stats.power_divergence(observed, expected, lambda_="log-likelihood")

    assert fit.statistic == pytest.approx(float(reference.statistic), rel=1e-9, abs=1e-9)
    # Near a perfect fit of 1 df the p value falls with the square root of the statistic.
    assert fit.p_value == pytest.approx(float(reference.pvalue), rel=1e-6, abs=1e-4)


def test_williams__divides_by_the_factor_worked_by_hand() -> None:
    # a = 3, v = 2, n = 10: q = 1 + 8 / 120.
    shares = shares_of_ratio([1, 2, 1])
    plain, corrected = g_test([5, 3, 2], shares), g_test([5, 3, 2], shares, williams=True)

    assert plain.statistic / corrected.statistic == pytest.approx(1 + 8 / 120, rel=1e-12)
    assert corrected.method is Method.G_WILLIAMS
    assert plain.method is Method.G


def test_williams__does_not_count_a_class_that_cannot_occur() -> None:
    three = g_test([7, 3, 0], (0.75, 0.25, 0.0), williams=True)
    two = g_test([7, 3], (0.75, 0.25), williams=True)

    assert (three.statistic, three.df, three.p_value) == (two.statistic, two.df, two.p_value)


@given(st.integers(1, 8), st.floats(0.0, 80.0))
def test_chi_square_tail__agrees_with_scipy(df: int, statistic: float) -> None:
    expected = float(stats.chi2.sf(statistic, df))

    assert chi_square_tail(statistic=statistic, df=df) == pytest.approx(expected, rel=1e-10)


def test_chi_square_tail__without_freedom_is_a_point_at_zero() -> None:
    assert chi_square_tail(statistic=0.0, df=0) == 1.0
    assert chi_square_tail(statistic=0.1, df=0) == 0.0


@given(tables, st.randoms(use_true_random=False))
def test_fit__ignores_the_order_of_classes(table: list[tuple[int, int]], random: Random) -> None:
    shuffled = list(table)
    random.shuffle(shuffled)
    one = chi_square_test([c for c, _ in table], shares_of_ratio([r for _, r in table]))
    other = chi_square_test([c for c, _ in shuffled], shares_of_ratio([r for _, r in shuffled]))

    assert one.statistic == pytest.approx(other.statistic, rel=1e-12)


def test_fit__shows_expected_counts() -> None:
    fit = chi_square_test([315, 101, 108, 32], shares_of_ratio([9, 3, 3, 1]))

    assert fit.expected_counts == (312.75, 104.25, 104.25, 34.75)


@pytest.mark.parametrize("williams", [False, True])
def test_fit__of_zero_animals_is_named_and_no_nan(williams: bool) -> None:
    for fit in (
        chi_square_test([0, 0], (0.75, 0.25)),
        g_test([0, 0], (0.75, 0.25), williams=williams),
    ):
        assert fit.state is FitState.NOTHING_COUNTED
        assert (fit.statistic, fit.df, fit.p_value) == (0.0, 1, 1.0)


@pytest.mark.parametrize("williams", [False, True])
def test_fit__of_one_class_is_named(williams: bool) -> None:
    for fit in (
        chi_square_test([7], (1,)),
        chi_square_test([7, 0], (1, 0)),
        g_test([7, 0], (1, 0), williams=williams),
    ):
        assert fit.state is FitState.ONE_CLASS
        assert (fit.statistic, fit.df, fit.p_value) == (0.0, 0, 1.0)


@pytest.mark.parametrize("williams", [False, True])
def test_fit__of_an_impossible_class_is_named(williams: bool) -> None:
    for fit in (
        chi_square_test([7, 1], (1, 0)),
        g_test([7, 1], (1, 0), williams=williams),
        g_test([7, 2, 1], (0.5, 0.5, 0), williams=williams),
    ):
        assert fit.state is FitState.IMPOSSIBLE
        assert (fit.statistic, fit.p_value) == (math.inf, 0.0)


def test_fit__of_one_animal_is_a_test() -> None:
    fit = chi_square_test([0, 1], (0.75, 0.25))

    assert fit.state is FitState.TESTED
    assert fit.statistic == pytest.approx(3.0)


@pytest.mark.parametrize(
    ("observed", "shares"),
    [
        pytest.param([], [], id="no class"),
        pytest.param([1, -1], [0.5, 0.5], id="negative count"),
        pytest.param([1.5, 1], [0.5, 0.5], id="half an animal"),
        pytest.param([1, 1], [0.5, 0.6], id="shares above one"),
        pytest.param([1, 1], [1.0], id="too few shares"),
        pytest.param([1, 1], [1.5, -0.5], id="share out of range"),
        pytest.param([1, 1], [math.nan, 0.5], id="not a number"),
    ],
)
def test_fit__refuses(observed: list[int], shares: list[float]) -> None:
    with pytest.raises(DomainError):
        chi_square_test(observed, shares)
    with pytest.raises(DomainError):
        g_test(observed, shares)


def test_shares_of_ratio__are_exact() -> None:
    assert shares_of_ratio([9, 3, 3, 1]) == tuple(Fraction(n, 16) for n in (9, 3, 3, 1))
    with pytest.raises(DomainError, match="at least one part above zero"):
        shares_of_ratio([0, 0])


def test_fit__says_that_there_is_no_class() -> None:
    with pytest.raises(DomainError, match="number of classes"):
        chi_square_test([], [])
