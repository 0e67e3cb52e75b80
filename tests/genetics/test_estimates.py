"""Estimates from counts: against direct maximising, by hand, and at their edges."""

import math
from fractions import Fraction
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import minimize_scalar
from scipy.stats import chisquare

from filialog.domain_error import DomainError
from filialog.genetics import (
    check_deaths_by_eggs,
    haldane_distance_cm,
    haldane_recombination,
    hardy_weinberg_test,
    kosambi_distance_cm,
    kosambi_recombination,
    order_of_three,
    recombination_from_f2,
    recombination_from_test_cross,
    relative_viability,
    share_without_singles,
    truncated_share,
    viability_of_linked,
)

COUNTS = st.tuples(*[st.integers(1, 400)] * 4)


@given(COUNTS)
def test_f2__theta_is_where_the_likelihood_is_greatest(counts: tuple[int, ...]) -> None:
    def minus_log_likelihood(theta: float) -> float:
        shares = (2 + theta, 1 - theta, 1 - theta, theta)
        return -sum(n * math.log(share) for n, share in zip(counts, shares, strict=True))

    found = minimize_scalar(
        minus_log_likelihood, bounds=(1e-9, 1 - 1e-9), method="bounded", options={"xatol": 1e-10}
    )
    result = recombination_from_f2(counts)

    assert minus_log_likelihood(result.theta) <= found.fun + 1e-9 * abs(found.fun)
    assert result.coupling + result.repulsion == pytest.approx(1.0)


def test_f2__without_double_recessives_is_closest_repulsion() -> None:
    result = recombination_from_f2((200, 100, 100, 0))

    assert result.theta == 0.0
    assert result.repulsion == 0.0


def test_f2__of_an_exact_ratio_gives_its_fraction_back() -> None:
    # r = 17/100 in coupling: the shares of LNK-16, times 10^6.
    result = recombination_from_f2((672225, 77775, 77775, 172225))

    assert result.coupling == pytest.approx(0.17, abs=1e-12)


def test_test_cross__above_one_half_has_no_evidence_for_linkage() -> None:
    result = recombination_from_test_cross(parental=3, recombinant=7)

    assert (result.recombination, result.lod) == (0.7, 0.0)


def test_test_cross__without_recombinants_is_n_times_log_two() -> None:
    result = recombination_from_test_cross(parental=12, recombinant=0)

    assert result.standard_error == 0.0
    assert result.lod == pytest.approx(12 * math.log10(2))


@pytest.mark.parametrize(("parental", "recombinant"), [(0, 0), (-1, 4)])
def test_test_cross__refuses(parental: int, recombinant: int) -> None:
    with pytest.raises(DomainError):
        recombination_from_test_cross(parental=parental, recombinant=recombinant)


@pytest.mark.parametrize("counts", [(1, 2, 3), (0, 0, 0, 0), (1, -1, 1, 1)])
def test_f2__refuses(counts: tuple[int, ...]) -> None:
    with pytest.raises(DomainError):
        recombination_from_f2(counts)


def test_three_points__find_the_middle_however_the_loci_are_given() -> None:
    # Order a, b, c with 10 % and 20 %, no interference: 1000 young by class.
    true = {(1, 1, 1): 360, (0, 0, 0): 360, (1, 0, 0): 40, (0, 1, 1): 40,
            (1, 1, 0): 90, (0, 0, 1): 90, (1, 0, 1): 10, (0, 1, 0): 10}  # fmt: skip
    for places in permutations(range(3)):
        given = {tuple(shown[p] for p in places): n for shown, n in true.items()}
        result = order_of_three(["abc"[p] for p in places], given)
        assert result.order in {("a", "b", "c"), ("c", "b", "a")}
        assert {result.first_stretch, result.second_stretch} == {0.1, 0.2}
        assert result.ends == pytest.approx(0.26)
        assert result.coincidence == pytest.approx(1.0)
        assert result.interference == pytest.approx(0.0)


def test_three_points__without_recombinants_have_no_coincidence() -> None:
    result = order_of_three("abc", {(1, 1, 1): 5, (0, 0, 0): 5})

    assert result.coincidence is None
    assert result.interference is None


@pytest.mark.parametrize(
    ("loci", "counts"),
    [
        pytest.param("ab", {(1, 1, 1): 1}, id="two loci"),
        pytest.param("abc", {}, id="nothing"),
        pytest.param("abc", {(1, 1, 2): 1}, id="no class"),
        pytest.param("abc", {(1, 1, 1): -1}, id="negative"),
    ],
)
def test_three_points__refuse(loci: str, counts: dict[tuple[int, ...], int]) -> None:
    with pytest.raises(DomainError):
        order_of_three(loci, counts)


@given(st.floats(0.0, 300.0))
def test_map_functions__turn_back_and_stay_below_half(distance: float) -> None:
    haldane = haldane_recombination(distance_cm=distance)
    kosambi = kosambi_recombination(distance_cm=distance)

    assert 0.0 <= haldane <= kosambi <= 0.5 or haldane == pytest.approx(kosambi)
    if kosambi < 0.499:
        assert kosambi_distance_cm(recombination=kosambi) == pytest.approx(distance, abs=1e-9)
        assert haldane_distance_cm(recombination=haldane) == pytest.approx(distance, abs=1e-9)


@pytest.mark.parametrize("value", [-1.0, math.nan, math.inf])
def test_map_functions__refuse(value: float) -> None:
    with pytest.raises(DomainError):
        haldane_recombination(distance_cm=value)
    with pytest.raises(DomainError):
        kosambi_recombination(distance_cm=value)
    with pytest.raises(DomainError):
        haldane_distance_cm(recombination=value)
    with pytest.raises(DomainError):
        kosambi_distance_cm(recombination=value)


@given(st.integers(1, 300), st.integers(1, 300))
def test_viability__interval_holds_the_estimate_and_test_is_scipys(first: int, second: int) -> None:
    result = relative_viability(first=first, second=second, expected_ratio=1 / 3)
    total = first + second
    expected = chisquare([first, second], [0.75 * total, 0.25 * total])

    assert result.low <= result.estimate <= result.high
    assert result.chi_square == pytest.approx(float(expected.statistic))
    assert result.p_value == pytest.approx(float(expected.pvalue), abs=1e-12)


def test_viability__of_a_class_that_was_not_seen() -> None:
    result = relative_viability(first=10, second=0)

    assert (result.estimate, result.low, result.high) == (0.0, 0.0, math.inf)
    assert result.standard_error == 0.0


@pytest.mark.parametrize(
    "wrong",
    [
        {"first": 0},
        {"second": -1},
        {"expected_ratio": 0.0},
        {"expected_ratio": math.nan},
        {"confidence": 1.0},
    ],
)
def test_viability__refuses(wrong: dict[str, float]) -> None:
    with pytest.raises(DomainError):
        relative_viability(**{"first": 4, "second": 4, **wrong})  # type: ignore[arg-type]


def test_viability_of_linked__gives_back_what_made_the_counts() -> None:
    # r = 0.2, viabilities 0.5 and 0.8, times 1000: kept 400 each, crossed 100 each.
    result = viability_of_linked((400, 80, 50, 160))

    assert result.recombination == pytest.approx(0.2)
    assert result.first == pytest.approx(0.5)
    assert result.second == pytest.approx(0.8)


def test_viability_of_linked__in_repulsion_has_the_other_classes_crossed() -> None:
    # r = 0.2, viabilities 0.5 and 0.8, times 1000: crossed 100 each, kept 400 each.
    result = viability_of_linked((100, 320, 200, 40), coupling=False)

    assert result.recombination == pytest.approx(0.2)
    assert result.first == pytest.approx(0.5)
    assert result.second == pytest.approx(0.8)
    assert result.naive_recombination == pytest.approx(140 / 660)


@pytest.mark.parametrize("counts", [(1, 2, 3), (1, 0, 3, 4), (1, -2, 3, 4)])
def test_viability_of_linked__refuses(counts: tuple[int, ...]) -> None:
    with pytest.raises(DomainError):
        viability_of_linked(counts)


@pytest.mark.parametrize(
    ("eggs", "first", "second"), [(10, 0, 0), (10, 4, 5), (10, 8, 3), (-1, 1, 1)]
)
def test_eggs__refuse(eggs: int, first: int, second: int) -> None:
    with pytest.raises(DomainError):
        check_deaths_by_eggs(eggs=eggs, first=first, second=second)


def test_truncated_share__equals_counting_every_family() -> None:
    # Second way: all families of four with a share of 1/4, those without the class left out.
    p = Fraction(1, 4)
    weights = [math.comb(4, k) * p**k * (1 - p) ** (4 - k) for k in range(5)]
    mean = sum((k * weight for k, weight in enumerate(weights)), Fraction(0)) / 4

    assert truncated_share(p, 4) == mean / (1 - weights[0])


@pytest.mark.parametrize(("share", "young"), [(Fraction(0), 3), (Fraction(2), 3), (Fraction(1), 0)])
def test_truncated_share__refuses(share: Fraction, young: int) -> None:
    with pytest.raises(DomainError):
        truncated_share(share, young)


def test_share_without_singles__of_singles_only_is_none() -> None:
    assert share_without_singles([(1, 1), (1, 1)]) is None
    assert share_without_singles([]) is None
    with pytest.raises(DomainError):
        share_without_singles([(4, 0)])


@given(st.tuples(*[st.integers(0, 200)] * 3).filter(lambda n: sum(n) > 0))
def test_hardy_weinberg__chi_square_is_n_times_f_squared(observed: tuple[int, int, int]) -> None:
    # A known identity for two alleles (from memory): chi-square = n F².
    result = hardy_weinberg_test(observed)

    assert sum(result.expected_counts) == pytest.approx(sum(observed))
    if result.missing_share is None:
        assert (result.chi_square, result.df, result.p_value) == (0.0, 0, 1.0)
    else:
        wanted = sum(observed) * result.missing_share**2
        assert result.chi_square == pytest.approx(wanted, abs=1e-9)


@pytest.mark.parametrize("observed", [(0, 0, 0), (1, 2), (1, -1, 2)])
def test_hardy_weinberg__refuses(observed: tuple[int, ...]) -> None:
    with pytest.raises(DomainError):
        hardy_weinberg_test(observed)
