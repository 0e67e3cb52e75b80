"""Rival explanations, against the likelihoods of SciPy and fine grids of their own."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq, minimize_scalar
from scipy.stats import binom, chi2, multinomial

from filialog.domain_error import DomainError
from filialog.statistics import (
    Rival,
    foreign_share,
    log_likelihood_ratio,
    relative_survival,
    rival_odds,
)

_DROP = float(chi2.ppf(0.95, 1)) / 2.0


# --- rivals without a free number -----------------------------------------------------------


def test_rival_odds__are_ratios_of_whole_brood_likelihoods() -> None:
    """Nine plain and two fancy: one of two sires, by the binomials of SciPy."""
    mixture = [(0.25, (1.0, 0.0)), (0.75, (0.75, 0.25))]
    (found,) = rival_odds(
        [9, 2], expected=[(1, (0.5, 0.5))], rivals=[Rival(name="one of two", components=mixture)]
    )

    assert found.name == "one of two"
    assert found.log_ratio == pytest.approx(
        math.log(0.75 * binom.pmf(2, 11, 0.25) / binom.pmf(2, 11, 0.5)), rel=1e-9
    )


def test_rival_odds__are_the_inverse_of_the_ratio_for_the_expectation() -> None:
    rival = Rival(name="r", components=[(1, (0.5, 0.5))])
    (found,) = rival_odds([28, 12], expected=[(1, (0.75, 0.25))], rivals=[rival])
    back = log_likelihood_ratio([28, 12], expected=[(1, (0.75, 0.25))], rival=rival.components)

    assert back is not None
    assert found.log_ratio == pytest.approx(-back, rel=1e-12)


def test_rival_odds__where_one_or_both_cannot_give_the_count() -> None:
    plain, fancy = [(1, (1.0, 0.0))], [(1, (0.0, 1.0))]
    half = Rival(name="half", components=[(1, (0.5, 0.5))])
    found = rival_odds([3, 2], expected=plain, rivals=[half, Rival(name="f", components=fancy)])

    assert [one.log_ratio for one in found] == [math.inf, None]
    (never,) = rival_odds(
        [3, 2], expected=half.components, rivals=[Rival(name="p", components=plain)]
    )
    assert never.log_ratio == -math.inf
    assert rival_odds([3, 2], expected=plain, rivals=[]) == ()


# --- survival -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("counts", "share"),
    [((55, 5), 0.25), ((12, 8), 0.25), ((700, 200), 0.25), ((30, 31), 0.5), ((90, 4), 1 / 16)],
)
def test_survival__of_one_expectation_is_the_share_turned_round(
    counts: tuple[int, int], share: float
) -> None:
    """Estimate by hand; interval ends by root finding on the binomial of SciPy."""
    fitted = relative_survival(counts, [(1, (1 - share, share))], place=1)
    rest, seen = counts

    def log_of(logarithm: float) -> float:
        survival = math.exp(logarithm)
        return float(
            binom.logpmf(seen, rest + seen, survival * share / (1 - share + survival * share))
        )

    best = math.log(seen / rest * (1 - share) / share)
    low, high = (
        math.exp(brentq(lambda x: log_of(x) - log_of(best) + _DROP, *ends))
        for ends in ((best - 9, best), (best, best + 9))
    )
    assert fitted is not None
    assert fitted.estimate == pytest.approx(math.exp(best), rel=1e-6)
    assert (fitted.low, fitted.high) == pytest.approx((low, high), rel=1e-6)
    assert fitted.log_ratio == pytest.approx(log_of(best) - log_of(0.0), abs=1e-9)


def test_survival__of_a_mixture_is_the_best_of_a_fine_grid() -> None:
    mixture = [(0.6, (0.5, 0.25, 0.25)), (0.4, (0.75, 0.25, 0.0))]
    counts = [30, 6, 9]
    fitted = relative_survival(counts, mixture, place=1)

    survivals = np.exp(np.linspace(-5, 5, 20_001))
    likelihood = np.zeros_like(survivals)
    for weight, shares in mixture:
        whole = 1 - shares[1] + survivals * shares[1]
        table = np.stack([shares[0] / whole, survivals * shares[1] / whole, shares[2] / whole], 1)
        likelihood += weight * multinomial.pmf(counts, sum(counts), table)
    inside = survivals[likelihood >= likelihood.max() * math.exp(-_DROP)]
    assert fitted is not None
    assert fitted.estimate == pytest.approx(survivals[likelihood.argmax()], rel=6e-4)
    assert (fitted.low, fitted.high) == pytest.approx((inside[0], inside[-1]), rel=6e-4)


def test_survival__of_two_close_components_lies_between_their_own() -> None:
    """Each alone has its best at 2/3 and 1; together the best is searched for."""
    mixture = [(0.5, (0.5, 0.5)), (0.5, (0.6, 0.4))]
    fitted = relative_survival([30, 20], mixture, place=1)

    def minus_likelihood(survival: float) -> float:
        shares = [survival * s / (1 - s + survival * s) for s in (0.5, 0.4)]
        return -sum(0.5 * float(binom.pmf(20, 50, share)) for share in shares)

    best = float(minimize_scalar(minus_likelihood, bounds=(2 / 3, 1), method="bounded",
                                 options={"xatol": 1e-9}).x)  # fmt: skip
    assert 0.7 < best < 0.95
    assert fitted is not None
    assert fitted.estimate == pytest.approx(best, rel=1e-5)


def test_survival__interval_of_two_peaks_spans_both() -> None:
    """Either component alone has its own best survival; both peaks are within reach."""
    mixture = [(0.5, (0.95, 0.05)), (0.5, (0.05, 0.95))]
    fitted = relative_survival([400, 400], mixture, place=1)

    assert fitted is not None
    assert fitted.low < 1 / 19 * 1.01
    assert fitted.high > 19 * 0.99


@pytest.mark.parametrize(
    ("counts", "shares", "expected"),
    [
        pytest.param((20, 0), (0.75, 0.25), (0.0, 0.0), id="none seen"),
        pytest.param((0, 20), (0.75, 0.25), (math.inf, math.inf), id="only it seen"),
    ],
)
def test_survival__at_an_end_is_open_to_one_side(
    counts: tuple[int, int], shares: tuple[float, float], expected: tuple[float, float]
) -> None:
    fitted = relative_survival(counts, [(1, shares)], place=1)

    assert fitted is not None
    assert fitted.estimate == expected[0]
    assert expected[1] in {fitted.low, fitted.high}
    assert fitted.low < fitted.high


@pytest.mark.parametrize(
    ("counts", "shares"),
    [
        pytest.param((0, 0), (0.75, 0.25), id="no animal"),
        pytest.param((10, 3), (1.0, 0.0), id="look that cannot be"),
        pytest.param((10, 0), (1.0, 0.0), id="no other look"),
    ],
)
def test_survival__without_an_answer(counts: tuple[int, int], shares: tuple[float, float]) -> None:
    assert relative_survival(counts, [(1, shares)], place=1) is None


@settings(deadline=None, max_examples=60)
@given(
    st.lists(st.integers(0, 40), min_size=3, max_size=3).filter(any),
    st.lists(st.integers(1, 9), min_size=3, max_size=3),
    st.integers(0, 2),
)
def test_survival__interval_holds_one_just_where_the_gain_is_small(
    counts: list[int], ratio: list[int], place: int
) -> None:
    shares = tuple(part / sum(ratio) for part in ratio)
    fitted = relative_survival(counts, [(1, shares)], place=place)

    assert fitted is not None
    assert fitted.low <= fitted.estimate <= fitted.high
    assert fitted.log_ratio >= 0.0
    if abs(fitted.log_ratio - _DROP) > 1e-6:
        assert (fitted.low <= 1.0 <= fitted.high) is (fitted.log_ratio < _DROP)


# --- young of other parents -----------------------------------------------------------------


@pytest.mark.parametrize(
    ("counts", "own", "foreign"),
    [
        ((6, 34), (0.0, 1.0), (1.0, 0.0)),
        ((33, 27), (0.75, 0.25), (0.5, 0.5)),
        ((50, 10), (0.5, 0.5), (1.0, 0.0)),
    ],
)
def test_foreign__part_and_interval_are_those_of_scipy(
    counts: tuple[int, int], own: tuple[float, float], foreign: tuple[float, float]
) -> None:
    fitted = foreign_share(counts, [(1, own)], [(1, foreign)])

    def log_of(part: float) -> float:
        share = (1 - part) * own[1] + part * foreign[1]
        return float(binom.logpmf(counts[1], sum(counts), share))

    best = float(minimize_scalar(lambda x: -log_of(x), bounds=(0, 1), method="bounded",
                                 options={"xatol": 1e-10}).x)  # fmt: skip
    assert fitted is not None
    assert fitted.estimate == pytest.approx(best, abs=1e-5)
    for end, limit in ((fitted.low, 1e-12), (fitted.high, 1 - 1e-12)):
        if limit == pytest.approx(end, abs=1e-9):
            assert log_of(limit) >= log_of(best) - _DROP
        else:
            assert log_of(end) == pytest.approx(log_of(best) - _DROP, abs=1e-6)


def test_foreign__mixtures_are_joined_pair_by_pair() -> None:
    own = [(0.5, (0.75, 0.25)), (0.5, (1.0, 0.0))]
    foreign = [(0.3, (0.0, 1.0)), (0.7, (0.5, 0.5))]
    fitted = foreign_share([20, 20], own, foreign)

    parts = np.linspace(0, 1, 20_001)
    likelihood = sum(
        w * u * binom.pmf(20, 40, (1 - parts) * s[1] + parts * t[1])
        for w, s in own
        for u, t in foreign
    )
    assert fitted is not None
    assert fitted.estimate == pytest.approx(parts[np.argmax(likelihood)], abs=1e-4)
    assert fitted.log_ratio == pytest.approx(math.log(likelihood.max() / likelihood[0]), abs=1e-6)


def test_foreign__count_that_fits_has_no_foreign_young() -> None:
    fitted = foreign_share([30, 10], [(1, (0.75, 0.25))], [(1, (0.5, 0.5))])

    assert fitted is not None
    assert (fitted.estimate, fitted.low, fitted.log_ratio) == (0.0, 0.0, 0.0)


def test_foreign__makes_an_impossible_count_possible() -> None:
    fitted = foreign_share([1, 19], [(1, (0.0, 1.0))], [(1, (1.0, 0.0))])

    assert fitted is not None
    assert fitted.log_ratio == math.inf
    assert 0.0 < fitted.low < 0.05 < fitted.high


def test_foreign__without_an_answer() -> None:
    assert foreign_share([0, 0], [(1, (1.0, 0.0))], [(1, (0.5, 0.5))]) is None
    assert foreign_share([5, 1], [(1, (1.0, 0.0))], [(1, (1.0, 0.0))]) is None


@pytest.mark.parametrize("confidence", [0.0, 1.0, math.nan])
def test_fits__refuse_a_confidence_out_of_range(confidence: float) -> None:
    half = [(1, (0.5, 0.5))]
    with pytest.raises(DomainError):
        relative_survival([1, 1], half, place=0, confidence=confidence)
    with pytest.raises(DomainError):
        foreign_share([1, 1], half, half, confidence=confidence)


@pytest.mark.parametrize("place", [-1, 2])
def test_survival__refuses_a_class_that_is_not_there(place: int) -> None:
    with pytest.raises(DomainError):
        relative_survival([1, 1], [(1, (0.5, 0.5))], place=place)
