import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.genetics import (
    selection_intensity,
    selection_intensity_of_few,
    truncation_selection,
)


@given(st.floats(0.001, 0.999))
def test_intensity__all_animals_together_average_to_nothing(chosen: float) -> None:
    # The chosen at i and the others at their own mean balance: p i(p) = (1 - p) i(1 - p).
    assert chosen * selection_intensity(chosen) == pytest.approx(
        (1 - chosen) * selection_intensity(1 - chosen)
    )


def test_intensity__of_the_best_half_is_the_half_normal_mean() -> None:
    assert selection_intensity(0.5) == pytest.approx(math.sqrt(2 / math.pi))
    assert str(truncation_selection(0.5).threshold) == "0.0"


def test_intensity__of_all_is_none() -> None:
    assert selection_intensity(1.0) == 0.0


@pytest.mark.parametrize("chosen", [0.05, 0.3, 0.8])
def test_truncation__agrees_with_seeded_draws(chosen: float) -> None:
    drawn = np.sort(np.random.default_rng(11).normal(size=400_000))
    best = drawn[len(drawn) - round(chosen * len(drawn)) :]
    cut = truncation_selection(chosen)

    assert cut.intensity == pytest.approx(float(best.mean()), abs=0.01)
    assert cut.threshold == pytest.approx(float(best[0]), abs=0.01)
    assert cut.variance_lost == pytest.approx(1 - float(best.var()), abs=0.01)


@pytest.mark.parametrize("wrong", [0.0, -0.1, 1.1, math.nan])
def test_intensity__an_impossible_share_is_refused(wrong: float) -> None:
    with pytest.raises(DomainError, match="share of animals chosen"):
        selection_intensity(wrong)


def test_truncation__of_all_has_no_threshold() -> None:
    with pytest.raises(DomainError, match="share of animals chosen"):
        truncation_selection(1.0)


def test_intensity_of_few__known_expected_maxima() -> None:
    # Expected largest of 2 and of 3 standard normals: 1/sqrt(pi) and 3/(2 sqrt(pi)).
    assert selection_intensity_of_few(chosen=1, measured=2) == pytest.approx(math.pi**-0.5)
    assert selection_intensity_of_few(chosen=1, measured=3) == pytest.approx(1.5 * math.pi**-0.5)
    # Of 3, the middle one has expectation 0, so the best 2 average to half the best.
    assert selection_intensity_of_few(chosen=2, measured=3) == pytest.approx(0.75 * math.pi**-0.5)


@given(st.integers(1, 60), st.integers(1, 60))
def test_intensity_of_few__chosen_and_others_balance(chosen: int, others: int) -> None:
    measured = chosen + others

    assert chosen * selection_intensity_of_few(chosen=chosen, measured=measured) == pytest.approx(
        others * selection_intensity_of_few(chosen=others, measured=measured), abs=1e-8
    )
    assert selection_intensity_of_few(chosen=chosen, measured=measured) < selection_intensity(
        chosen / measured
    )


@pytest.mark.parametrize(("chosen", "measured"), [(1, 7), (3, 7), (6, 7)])
def test_intensity_of_few__agrees_with_seeded_draws(chosen: int, measured: int) -> None:
    drawn = np.sort(np.random.default_rng(12).normal(size=(100_000, measured)), axis=1)

    assert selection_intensity_of_few(chosen=chosen, measured=measured) == pytest.approx(
        float(drawn[:, measured - chosen :].mean()), abs=0.01
    )


@pytest.mark.parametrize("measured", [10**4, 10**6, 10**9])
def test_intensity_of_few__of_very_many_comes_to_that_of_the_share(measured: int) -> None:
    few = selection_intensity_of_few(chosen=measured // 5, measured=measured)

    assert few == pytest.approx(selection_intensity(0.2), abs=2 / measured)


def test_intensity_of_few__choosing_all_or_the_only_one_is_no_selection() -> None:
    assert selection_intensity_of_few(chosen=1, measured=1) == 0.0
    assert selection_intensity_of_few(chosen=9, measured=9) == 0.0


@pytest.mark.parametrize(("chosen", "measured"), [(0, 5), (6, 5), (1, 0), (-1, 5)])
def test_intensity_of_few__impossible_numbers_are_refused(chosen: int, measured: int) -> None:
    with pytest.raises(DomainError, match="animals"):
        selection_intensity_of_few(chosen=chosen, measured=measured)
