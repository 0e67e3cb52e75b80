"""Young of several pairs: mixtures within the cloud, against direct summing and SciPy."""

import math
from collections.abc import Callable, Sequence
from fractions import Fraction
from itertools import product

import pytest
from scipy.stats import betabinom, dirichlet, multinomial

from filialog.domain_error import DomainError
from filialog.genetics import (
    BroodComponents,
    cloud_components,
    cloud_probability,
    one_of_several,
)
from filialog.genetics import clouds as room

HALF, NONE, WHOLE = Fraction(1, 2), Fraction(0), Fraction(1)
CARRIER: BroodComponents = ((WHOLE, (HALF, HALF)),)
PLAIN: BroodComponents = ((WHOLE, (NONE, WHOLE)),)
EITHER: BroodComponents = ((HALF, (HALF, HALF)), (HALF, (NONE, WHOLE)))


def test_cloud_components__weigh_the_shares_within_the_cloud() -> None:
    three = [(Fraction(1, 6), CARRIER), (Fraction(2, 6), EITHER), (Fraction(3, 6), PLAIN)]

    assert cloud_components(three) == (
        (HALF, (Fraction(1, 4), Fraction(3, 4))),
        (HALF, (Fraction(1, 12), Fraction(11, 12))),
    )


def test_cloud_components__of_one_pair_are_its_own() -> None:
    assert cloud_components([(WHOLE, EITHER)]) == EITHER


def test_one_of_several__and_cloud_have_the_same_mean_and_different_spread() -> None:
    parts = [(Fraction(1, 3), CARRIER), (Fraction(2, 3), PLAIN)]
    between, within = one_of_several(parts), cloud_components(parts)

    assert sum(weight * shares[0] for weight, shares in between) == Fraction(1, 6)
    assert within == ((WHOLE, (Fraction(1, 6), Fraction(5, 6))),)
    assert len(between) == 2


@pytest.mark.parametrize("join", [one_of_several, cloud_components])
@pytest.mark.parametrize(
    "shares",
    [
        pytest.param((HALF, Fraction(1, 4)), id="below one"),
        pytest.param((Fraction(3, 2), -HALF), id="negative"),
    ],
)
def test_shares__that_are_none_are_refused(
    join: Callable[[Sequence[tuple[Fraction, BroodComponents]]], BroodComponents],
    shares: tuple[Fraction, ...],
) -> None:
    with pytest.raises(DomainError):
        join(list(zip(shares, (CARRIER, PLAIN), strict=True)))


def test_cloud_components__refuse_too_many_ways() -> None:
    many = [(Fraction(1, 20), EITHER)] * 20

    with pytest.raises(DomainError, match="ways the parents can be"):
        cloud_components(many)


def test_cloud_probability__of_two_pure_pairs_is_a_beta_binomial() -> None:
    # With shares uniform on 0..1 every count is equally likely: SciPy's betabinom(n, 1, 1).
    pure = [(WHOLE, NONE), (NONE, WHOLE)]
    for seen in range(8):
        expected = betabinom.pmf(seen, 7, 1, 1)
        assert float(cloud_probability((seen, 7 - seen), pure)) == pytest.approx(expected)


def test_cloud_probability__is_one_over_all_counts() -> None:
    pairs = [(HALF, HALF, NONE), (Fraction(1, 4), HALF, Fraction(1, 4)), (NONE, NONE, WHOLE)]
    young = 6
    total = sum(
        cloud_probability((a, b, young - a - b), pairs)
        for a, b in product(range(young + 1), repeat=2)
        if a + b <= young
    )

    assert total == 1


def test_cloud_probability__agrees_with_drawing_the_shares() -> None:
    # Third way: the mean over a fixed sample of shares, SciPy's Dirichlet and multinomial.
    pairs = [(0.5, 0.5), (0.0, 1.0), (0.25, 0.75)]
    exact = cloud_probability((3, 9), [tuple(map(Fraction, one)) for one in pairs])
    drawn = dirichlet.rvs([1, 1, 1], size=20_000, random_state=5)
    shares = drawn @ [list(one) for one in pairs]
    chances = multinomial.pmf([3, 9], 12, shares)

    assert chances.mean() == pytest.approx(float(exact), abs=4 * chances.std() / math.sqrt(20_000))


@pytest.mark.parametrize("pairs", [2, 3, 4])
def test_cloud_probability__by_quadrature_equals_the_exact_one(
    pairs: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    shares = [
        (Fraction(1, 4), Fraction(3, 4)), (HALF, HALF), (NONE, WHOLE), (Fraction(1, 3),
         Fraction(2, 3)),
    ][:pairs]  # fmt: skip
    exact = cloud_probability((4, 9), shares)
    assert isinstance(exact, Fraction)
    monkeypatch.setattr(room, "_MOST_TERMS", 0)

    assert cloud_probability((4, 9), shares) == pytest.approx(float(exact), rel=1e-12)


def test_cloud_probability__of_nothing_counted_is_one() -> None:
    assert cloud_probability((0, 0), [(HALF, HALF)]) == 1


@pytest.mark.parametrize(
    ("counts", "pairs"),
    [
        pytest.param((1, 1), [], id="no pair"),
        pytest.param((1,), [(HALF, HALF)], id="other looks"),
        pytest.param((-1, 2), [(HALF, HALF)], id="negative"),
    ],
)
def test_cloud_probability__refuses(
    counts: tuple[int, ...], pairs: list[tuple[Fraction, ...]]
) -> None:
    with pytest.raises(DomainError):
        cloud_probability(counts, pairs)
