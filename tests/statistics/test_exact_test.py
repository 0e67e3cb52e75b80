"""The exact test against SciPy and against enumeration in fractions."""

import math
from collections.abc import Iterator, Sequence
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from filialog.domain_error import DomainError
from filialog.statistics import FitState, exact_test, outcome_count, shares_of_ratio, single

FractionMixture = Sequence[tuple[Fraction, Sequence[Fraction]]]


def outcomes(animals: int, classes: int) -> Iterator[tuple[int, ...]]:
    if classes == 1:
        yield (animals,)
        return
    for first in range(animals + 1):
        for rest in outcomes(animals - first, classes - 1):
            yield (first, *rest)


def probability(counts: Sequence[int], mixture: FractionMixture) -> Fraction:
    total = Fraction(0)
    for weight, shares in mixture:
        part = weight * math.factorial(sum(counts))
        for count, share in zip(counts, shares, strict=True):
            part *= share**count / Fraction(math.factorial(count))
        total += part
    return total


def p_by_enumeration(observed: Sequence[int], mixture: FractionMixture) -> Fraction:
    """Add up in fractions, where ties are ties and need no tolerance."""
    limit = probability(observed, mixture)
    every = (probability(c, mixture) for c in outcomes(sum(observed), len(observed)))
    return sum((p for p in every if p <= limit), Fraction(0))


@st.composite
def mixtures(draw: st.DrawFn) -> tuple[list[int], list[tuple[Fraction, tuple[Fraction, ...]]]]:
    classes = draw(st.integers(2, 4))
    observed = draw(st.lists(st.integers(0, 4), min_size=classes, max_size=classes))
    number = draw(st.integers(1, 3))
    weights = shares_of_ratio(draw(st.lists(st.integers(1, 5), min_size=number, max_size=number)))
    ratios = st.lists(st.integers(0, 6), min_size=classes, max_size=classes).filter(any)
    return observed, [(weight, shares_of_ratio(draw(ratios))) for weight in weights]


@given(mixtures())
def test_exact__equals_enumeration_in_fractions(
    case: tuple[list[int], list[tuple[Fraction, tuple[Fraction, ...]]]],
) -> None:
    observed, mixture = case
    fit = exact_test(observed, mixture)

    assert fit.p_value == pytest.approx(float(p_by_enumeration(observed, mixture)), abs=1e-10)
    assert fit.observed_probability == pytest.approx(float(probability(observed, mixture)))


@given(st.integers(0, 120), st.integers(1, 120), st.integers(1, 19))
def test_exact__of_two_classes_equals_scipy_binomtest(seen: int, counted: int, part: int) -> None:
    seen = min(seen, counted)
    share = part / 20
    fit = exact_test([seen, counted - seen], single((share, 1.0 - share)))
    reference = stats.binomtest(seen, counted, share)

    assert fit.p_value == pytest.approx(float(reference.pvalue), rel=1e-9)


def test_exact__agrees_with_binomtest_for_a_large_brood() -> None:
    for seen in (200, 226, 250, 290):
        fit = exact_test([seen, 1000 - seen], single((0.25, 0.75)))

        assert fit.p_value == pytest.approx(
            float(stats.binomtest(seen, 1000, 0.25).pvalue), rel=1e-9
        )


def test_exact__counts_all_ties() -> None:
    # 24 orders of one animal in each of four classes: every outcome is a tie or rarer.
    assert exact_test([1, 1, 1, 1], single((0.25,) * 4)).p_value == 1.0
    assert exact_test([2, 1, 0, 0], single((0.25,) * 4)).p_value == pytest.approx(
        float(p_by_enumeration([2, 1, 0, 0], single_exact(4)))
    )


def single_exact(classes: int) -> FractionMixture:
    return [(Fraction(1), [Fraction(1, classes)] * classes)]


def test_exact__mixture_is_not_its_average() -> None:
    mixture = [(0.5, (1.0, 0.0)), (0.5, (0.5, 0.5))]

    assert exact_test([20, 0], mixture).p_value == 1.0
    assert exact_test([20, 0], single((0.75, 0.25))).p_value < 0.01


def test_exact__equal_components_are_one() -> None:
    twice = exact_test([7, 3], [(0.3, (0.75, 0.25)), (0.7, (0.75, 0.25))])
    once = exact_test([7, 3], single((0.75, 0.25)))

    assert twice.p_value == pytest.approx(once.p_value, rel=1e-12)


def test_exact__component_of_weight_zero_does_not_count() -> None:
    fit = exact_test([0, 3], [(1, (1, 0)), (0, (0, 1))])

    assert fit.state is FitState.IMPOSSIBLE


def test_exact__class_that_cannot_occur_takes_no_part() -> None:
    three = exact_test([7, 3, 0], single((0.75, 0.25, 0.0)))
    two = exact_test([7, 3], single((0.75, 0.25)))

    assert (three.p_value, three.outcomes) == (two.p_value, two.outcomes)


def test_exact__impossible_is_named() -> None:
    fit = exact_test([7, 3, 1], single((0.75, 0.25, 0.0)))

    assert (fit.state, fit.p_value, fit.observed_probability) == (FitState.IMPOSSIBLE, 0.0, 0.0)


def test_exact__impossible_although_each_class_alone_is_possible() -> None:
    # Either all young of the first class or all of the second, never both.
    fit = exact_test([1, 1], [(0.5, (1, 0)), (0.5, (0, 1))])

    assert (fit.state, fit.p_value) == (FitState.IMPOSSIBLE, 0.0)


def test_exact__zero_animals_one_class_one_animal() -> None:
    nothing = exact_test([0, 0], single((0.75, 0.25)))
    one_class = exact_test([5], single((1,)))
    one_animal = exact_test([0, 1], single((0.75, 0.25)))

    assert (nothing.state, nothing.p_value) == (FitState.NOTHING_COUNTED, 1.0)
    assert (one_class.state, one_class.p_value) == (FitState.ONE_CLASS, 1.0)
    assert one_animal.state is FitState.TESTED
    assert one_animal.p_value == pytest.approx(0.25)


def test_exact__too_small_for_a_float_is_tested_and_not_impossible() -> None:
    fit = exact_test([3000, 0], single((0.5, 0.5)))

    assert (fit.state, fit.p_value) == (FitState.TESTED, 0.0)


def test_exact__refuses_too_many_outcomes_and_names_the_limit() -> None:
    with pytest.raises(DomainError, match="1000000"):
        exact_test([100, 100, 100, 100], single((0.25,) * 4))


@pytest.mark.parametrize(
    "components",
    [
        pytest.param([], id="no component"),
        pytest.param([(0.5, (0.5, 0.5))], id="weights below one"),
        pytest.param([(1.5, (0.5, 0.5)), (-0.5, (0.5, 0.5))], id="negative weight"),
        pytest.param([(1.0, (0.5, 0.4))], id="shares below one"),
    ],
)
def test_exact__refuses(components: list[tuple[float, tuple[float, ...]]]) -> None:
    with pytest.raises(DomainError):
        exact_test([1, 1], components)


@given(st.integers(0, 7), st.integers(1, 4))
def test_outcome_count__counts_what_enumeration_lists(animals: int, classes: int) -> None:
    listed = list(outcomes(animals, classes))

    assert outcome_count(animals=animals, classes=classes) == len(listed)
