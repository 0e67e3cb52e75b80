import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.genetics import (
    additive_variance_after_selection,
    correlated_response,
    differential_of_both_sexes,
    forecast_means,
    response_by_intensity,
    response_per_time,
    response_to_selection,
    selection_intensity,
    truncation_selection,
)

SHARE = st.floats(0, 1)
CHANGE = st.floats(-100, 100)


@given(heritability=SHARE, spread=st.floats(0.1, 10), chosen=st.floats(0.05, 0.95))
def test_response__is_the_same_by_differential_and_by_intensity(
    heritability: float, spread: float, chosen: float
) -> None:
    intensity = selection_intensity(chosen)

    assert response_to_selection(
        heritability=heritability, differential=intensity * spread
    ) == pytest.approx(
        response_by_intensity(
            intensity=intensity,
            accuracy=math.sqrt(heritability),
            additive_sd=math.sqrt(heritability) * spread,
        )
    )


def test_response__one_selected_sex_gives_half() -> None:
    both = differential_of_both_sexes(dams=3.0, sires=3.0)
    one = differential_of_both_sexes(dams=0.0, sires=3.0)

    assert (both, one) == (3.0, 1.5)


def test_response__agrees_with_a_seeded_line() -> None:
    heritability, random = 0.4, np.random.default_rng(31)
    values = random.normal(0, math.sqrt(heritability), 200_000)
    grades = values + random.normal(0, math.sqrt(1 - heritability), values.size)
    best = np.argsort(grades)[-values.size // 5 :]
    # Each young takes half the value of two of the best, and chance round it.
    parents = values[random.permutation(best)[: best.size // 2 * 2]].reshape(-1, 2)
    young = parents.mean(axis=1) + random.normal(0, math.sqrt(heritability / 2), len(parents))
    cut = truncation_selection(0.2)

    assert response_to_selection(
        heritability=heritability, differential=cut.intensity
    ) == pytest.approx(float(young.mean()), abs=0.02)
    assert additive_variance_after_selection(
        variance=heritability,
        base_variance=heritability,
        heritability=heritability,
        variance_lost=cut.variance_lost,
    ) == pytest.approx(float(young.var()), abs=0.01)


@given(mean=CHANGE, heritability=SHARE, plan=st.lists(CHANGE, max_size=8))
def test_forecast__ends_at_the_total_response(
    mean: float, heritability: float, plan: list[float]
) -> None:
    means = forecast_means(mean=mean, heritability=heritability, differentials=plan)

    assert len(means) == len(plan) + 1
    assert means[0] == mean
    assert means[-1] == pytest.approx(mean + heritability * math.fsum(plan), abs=1e-9)


def test_per_time__ages_count_by_their_mean() -> None:
    assert response_per_time(dams=2, sires=4, dam_interval=3, sire_interval=1) == pytest.approx(
        differential_of_both_sexes(dams=2, sires=4) / 2
    )


def test_correlated_response__of_the_trait_itself_is_the_response() -> None:
    direct = response_by_intensity(intensity=1.4, accuracy=0.6, additive_sd=2.0)

    def other(correlation: float) -> float:
        return correlated_response(
            intensity=1.4,
            accuracy=0.6,
            genetic_correlation=correlation,
            other_additive_sd=2.0,
        )

    assert (other(1.0), other(0.0), other(-1.0)) == (direct, 0.0, -direct)


def test_variance_after_selection__falls_to_the_known_balance() -> None:
    # Fixed point of V = (1 - k h2) V / 2 + V0 / 2 with h2 = V / (V + E): here V0 = E = 1.
    lost, variance = 0.8, 1.0
    for _ in range(100):
        variance = additive_variance_after_selection(
            variance=variance,
            base_variance=1.0,
            heritability=variance / (variance + 1.0),
            variance_lost=lost,
        )

    # (1 + k) V^2 + (E - V0) V - V0 E = 0
    assert variance == pytest.approx(1 / math.sqrt(1.8))


def test_variance_after_selection__without_selection_only_inbreeding_takes() -> None:
    kept = {"variance": 2.0, "base_variance": 2.0, "heritability": 0.5, "variance_lost": 0.0}

    assert additive_variance_after_selection(**kept) == 2.0
    assert additive_variance_after_selection(**kept, inbreeding_rise=0.25) == 1.75


@pytest.mark.parametrize("wrong", [-0.1, 1.1, math.nan])
def test_response__an_impossible_share_is_refused(wrong: float) -> None:
    with pytest.raises(DomainError, match="heritability"):
        response_to_selection(heritability=wrong, differential=1.0)
    with pytest.raises(DomainError, match="heritability"):
        forecast_means(mean=0.0, heritability=wrong, differentials=[])
    with pytest.raises(DomainError, match="accuracy"):
        response_by_intensity(intensity=1.0, accuracy=wrong, additive_sd=1.0)
    for name in ("heritability", "variance_lost", "inbreeding_rise"):
        numbers = {"variance": 1.0, "base_variance": 1.0, "heritability": 0.5}
        with pytest.raises(DomainError, match=r"heritability|part|inbreeding"):
            additive_variance_after_selection(**{**numbers, "variance_lost": 0.5, name: wrong})


@pytest.mark.parametrize("wrong", [math.nan, math.inf])
def test_response__a_number_that_is_none_is_refused(wrong: float) -> None:
    with pytest.raises(DomainError, match="selection differential"):
        response_to_selection(heritability=0.5, differential=wrong)
    with pytest.raises(DomainError, match="selection intensity"):
        response_by_intensity(intensity=wrong, accuracy=0.5, additive_sd=1.0)
    with pytest.raises(DomainError, match="mean grade"):
        forecast_means(mean=wrong, heritability=0.5, differentials=[])
    for dams, sires in ((wrong, 0.0), (0.0, wrong)):
        with pytest.raises(DomainError, match="selection differential"):
            differential_of_both_sexes(dams=dams, sires=sires)
        with pytest.raises(DomainError, match="superiority"):
            response_per_time(dams=dams, sires=sires, dam_interval=1, sire_interval=1)


@pytest.mark.parametrize("wrong", [0.0, -1.0, math.nan])
def test_per_time__an_age_that_is_none_is_refused(wrong: float) -> None:
    with pytest.raises(DomainError, match="generation interval of the dams"):
        response_per_time(dams=1, sires=1, dam_interval=wrong, sire_interval=1)
    with pytest.raises(DomainError, match="generation interval of the sires"):
        response_per_time(dams=1, sires=1, dam_interval=1, sire_interval=wrong)


@pytest.mark.parametrize("wrong", [-1.0, math.nan, math.inf])
def test_response__an_impossible_spread_is_refused(wrong: float) -> None:
    with pytest.raises(DomainError, match="standard deviation"):
        response_by_intensity(intensity=1.0, accuracy=0.5, additive_sd=wrong)
    for name in ("variance", "base_variance"):
        numbers = {"variance": 1.0, "base_variance": 1.0, "heritability": 0.5}
        with pytest.raises(DomainError, match="variance"):
            additive_variance_after_selection(**{**numbers, "variance_lost": 0.5, name: wrong})


@pytest.mark.parametrize("wrong", [-1.1, 1.1, math.nan])
def test_correlated_response__an_impossible_correlation_is_refused(wrong: float) -> None:
    with pytest.raises(DomainError, match="genetic correlation"):
        correlated_response(
            intensity=1.0, accuracy=0.5, genetic_correlation=wrong, other_additive_sd=1.0
        )
