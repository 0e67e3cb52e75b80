import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.lineage import (
    effective_size_by_family_size,
    effective_size_by_inbreeding_rate,
    effective_size_by_sex,
    effective_size_needed,
    effective_size_of_overlapping_generations,
    effective_size_over_generations,
    effective_size_sex_linked,
    effective_size_with_selfing,
    heterozygosity_kept,
    inbreeding_rate,
)

COUNTS = st.integers(1, 10_000)
SIZES = st.floats(1.0, 1e6)
WRONG = pytest.mark.parametrize("wrong", [0.0, -1.0, math.nan, math.inf])


def test_by_sex__one_sire_with_many_dams_is_less_than_four() -> None:
    assert effective_size_by_sex(males=1, females=1) == 2.0
    assert effective_size_by_sex(males=1, females=1_000_000) == pytest.approx(4.0, abs=1e-5)


@given(males=COUNTS, females=COUNTS)
def test_by_sex__is_symmetric_and_at_most_all_breeders(males: int, females: int) -> None:
    size = effective_size_by_sex(males=males, females=females)

    assert size == pytest.approx(effective_size_by_sex(males=females, females=males))
    assert size <= males + females + 1e-9
    assert (size == pytest.approx(males + females, rel=1e-12)) == (males == females)
    assert 1 / size == pytest.approx(1 / (4 * males) + 1 / (4 * females))


def kinship_rise(*, males: int, females: int) -> float:
    """Iterate the kinship of a line with random mating to its steady rate."""
    kinship = inbred = rate = 0.0  # of different animals, and of an animal's own two genes
    for _ in range(400):
        itself = (1 + inbred) / 2
        both_from_males = (1 - 1 / males) * kinship + itself / males
        both_from_females = (1 - 1 / females) * kinship + itself / females
        after = (both_from_males + both_from_females + 2 * kinship) / 4
        rate = (after - kinship) / (1 - kinship)
        kinship, inbred = after, kinship
    return rate


@pytest.mark.parametrize(("males", "females"), [(10, 250), (40, 10), (50, 50)])
def test_by_sex__agrees_with_the_iterated_kinship(males: int, females: int) -> None:
    by_rate = effective_size_by_inbreeding_rate(kinship_rise(males=males, females=females))

    # The iteration also holds that no animal mates with itself: about half an animal more.
    assert by_rate == pytest.approx(
        effective_size_by_sex(males=males, females=females) + 0.5, abs=0.1
    )


def x_linked_rise(*, males: int, females: int) -> float:
    """Iterate the kinship of X genes with random mating to its steady rate."""
    two_females = two_males = mixed = inbred = rate = 0.0
    for _ in range(600):
        from_females = (1 - 1 / females) * two_females + (1 + inbred) / (2 * females)
        from_males = (1 - 1 / males) * two_males + 1 / males
        after = (from_females + mixed) / 2  # a male has his one X from his dam
        rate = (after - mixed) / (1 - mixed)
        two_females = (from_females + from_males + 2 * mixed) / 4
        two_males, mixed, inbred = from_females, after, mixed
    return rate


@pytest.mark.parametrize(("males", "females"), [(60, 60), (20, 100), (100, 20)])
def test_sex_linked__agrees_with_the_iterated_kinship(males: int, females: int) -> None:
    by_rate = effective_size_by_inbreeding_rate(x_linked_rise(males=males, females=females))

    size = effective_size_sex_linked(heterogametic=males, homogametic=females)
    assert by_rate == pytest.approx(size, rel=0.02)


def test_sex_linked__of_equal_sexes_is_three_quarters() -> None:
    assert effective_size_sex_linked(heterogametic=8, homogametic=8) == pytest.approx(12.0)


@WRONG
def test_by_sex__a_sex_that_does_not_breed_is_refused(wrong: float) -> None:
    for numbers in ({"males": wrong, "females": 3.0}, {"males": 3.0, "females": wrong}):
        with pytest.raises(DomainError, match="number of breeding animals"):
            effective_size_by_sex(**numbers)
    for numbers in (
        {"heterogametic": wrong, "homogametic": 3.0},
        {"heterogametic": 3.0, "homogametic": wrong},
    ):
        with pytest.raises(DomainError, match="number of breeding animals"):
            effective_size_sex_linked(**numbers)


@given(st.lists(SIZES, min_size=1, max_size=8))
def test_over_generations__lies_between_the_smallest_and_the_mean(sizes: list[float]) -> None:
    size = effective_size_over_generations(sizes)

    assert min(sizes) * (1 - 1e-12) <= size <= sum(sizes) / len(sizes) * (1 + 1e-12)
    assert size == pytest.approx(effective_size_over_generations(sizes[::-1]))


def test_over_generations__keeps_what_the_single_generations_keep() -> None:
    sizes = [200, 1000, 400]
    steady = [effective_size_over_generations(sizes)] * 3

    assert heterozygosity_kept(steady) == pytest.approx(heterozygosity_kept(sizes), abs=1e-5)


def test_over_generations__none_is_refused() -> None:
    with pytest.raises(DomainError, match="number of generations"):
        effective_size_over_generations([])


@WRONG
def test_over_generations__an_impossible_size_is_refused(wrong: float) -> None:
    with pytest.raises(DomainError, match="effective size"):
        effective_size_over_generations([10.0, wrong])


def test_by_family_size__equal_families_double_and_chance_gives_about_all() -> None:
    assert effective_size_by_family_size(breeders=20, variance=0) == 39.0
    chance = 2 * (1 - 1 / 20)  # variance of a binomial: each of 40 genes from one of 20
    assert effective_size_by_family_size(breeders=20, variance=chance) == pytest.approx(20.0)


@given(breeders=st.integers(2, 500), mean=st.floats(1.1, 20), variances=st.tuples(SIZES, SIZES))
def test_by_family_size__falls_as_families_differ_more(
    breeders: int, mean: float, variances: tuple[float, float]
) -> None:
    low, high = sorted(variances)

    sizes = [
        effective_size_by_family_size(breeders=breeders, variance=v, mean=mean) for v in (low, high)
    ]
    assert sizes[0] >= sizes[1] > 0


def test_by_family_size__is_the_chance_that_two_genes_have_one_parent() -> None:
    numbers = np.array([0, 1, 1, 2, 3, 5])  # young of each of six breeders
    genes = numbers.sum()
    same_parent = (numbers * (numbers - 1)).sum() / (genes * (genes - 1))

    size = effective_size_by_family_size(
        breeders=6, variance=float(numbers.var()), mean=float(numbers.mean())
    )

    assert size == pytest.approx(1 / same_parent)


@pytest.mark.parametrize(
    "numbers",
    [
        pytest.param({"breeders": 1, "variance": 2.0}, id="one animal"),
        pytest.param({"breeders": math.nan, "variance": 2.0}, id="nan breeders"),
        pytest.param({"breeders": 20, "variance": -0.1}, id="negative variance"),
        pytest.param({"breeders": 20, "variance": math.nan}, id="nan variance"),
        pytest.param({"breeders": 20, "variance": 2.0, "mean": 1.0}, id="line dies out"),
    ],
)
def test_by_family_size__impossible_numbers_are_refused(numbers: dict[str, float]) -> None:
    with pytest.raises(DomainError):
        effective_size_by_family_size(**numbers)


def test_overlapping__with_ages_of_one_is_the_discrete_number() -> None:
    size = effective_size_of_overlapping_generations(
        young_per_interval=20, generation_intervals=1, variance=2
    )

    assert size == 20.0


@pytest.mark.parametrize(
    "numbers",
    [
        {"young_per_interval": 0.0, "generation_intervals": 1.0},
        {"young_per_interval": 1.0, "generation_intervals": 0.0},
        {"young_per_interval": 1.0, "generation_intervals": math.nan},
        {"young_per_interval": 1.0, "generation_intervals": 1.0, "variance": -1.0},
    ],
)
def test_overlapping__impossible_numbers_are_refused(numbers: dict[str, float]) -> None:
    with pytest.raises(DomainError):
        effective_size_of_overlapping_generations(**numbers)


@given(
    start=st.floats(0.0, 0.9),
    rate=st.floats(0.001, 0.5),
    generations=st.integers(1, 30),
)
def test_inbreeding_rate__undoes_steady_inbreeding(
    start: float, rate: float, generations: int
) -> None:
    after = 1 - (1 - start) * (1 - rate) ** generations

    found = inbreeding_rate(before=start, after=after, generations=generations)

    assert found == pytest.approx(rate, rel=1e-6)


def test_inbreeding_rate__of_one_generation_is_the_textbook_fraction() -> None:
    assert inbreeding_rate(before=0.05, after=0.12) == pytest.approx((0.12 - 0.05) / (1 - 0.05))


def test_inbreeding_rate__after_an_outcross_is_negative_and_gives_no_size() -> None:
    rate = inbreeding_rate(before=0.3, after=0.1)

    assert rate == pytest.approx(-0.2 / 0.7)
    assert effective_size_by_inbreeding_rate(rate) is None
    assert effective_size_by_inbreeding_rate(0.0) is None


def test_inbreeding_rate__to_complete_inbreeding_is_one() -> None:
    assert inbreeding_rate(before=0.2, after=1.0) == 1.0
    assert effective_size_by_inbreeding_rate(1.0) == 0.5


@pytest.mark.parametrize(
    "numbers",
    [
        pytest.param({"before": 1.0, "after": 1.0}, id="nothing left to lose"),
        pytest.param({"before": -0.1, "after": 0.1}, id="negative start"),
        pytest.param({"before": 0.0, "after": 1.1}, id="end above one"),
        pytest.param({"before": math.nan, "after": 0.1}, id="nan start"),
        pytest.param({"before": 0.0, "after": math.nan}, id="nan end"),
        pytest.param({"before": 0.0, "after": 0.1, "generations": 0.0}, id="no generation"),
        pytest.param({"before": 0.0, "after": 0.1, "generations": math.nan}, id="nan time"),
    ],
)
def test_inbreeding_rate__impossible_numbers_are_refused(numbers: dict[str, float]) -> None:
    with pytest.raises(DomainError):
        inbreeding_rate(**numbers)


@pytest.mark.parametrize("wrong", [1.1, math.nan, -math.inf])
def test_by_inbreeding_rate__an_impossible_rate_is_refused(wrong: float) -> None:
    with pytest.raises(DomainError, match="rise of inbreeding"):
        effective_size_by_inbreeding_rate(wrong)


@given(animals=st.floats(1, 1e6), selfed=st.floats(0, 1))
def test_with_selfing__equals_the_formula_by_inbreeding(animals: float, selfed: float) -> None:
    inbred = selfed / (2 - selfed)

    assert effective_size_with_selfing(animals=animals, selfed=selfed) == pytest.approx(
        animals / (1 + inbred)
    )


@pytest.mark.parametrize(
    "numbers",
    [
        {"animals": 0.0, "selfed": 0.5},
        {"animals": math.nan, "selfed": 0.5},
        {"animals": 10.0, "selfed": -0.1},
        {"animals": 10.0, "selfed": 1.1},
        {"animals": 10.0, "selfed": math.nan},
    ],
)
def test_with_selfing__impossible_numbers_are_refused(numbers: dict[str, float]) -> None:
    with pytest.raises(DomainError):
        effective_size_with_selfing(**numbers)


@given(kept=st.floats(0.05, 0.99), generations=st.integers(1, 100))
def test_needed__just_keeps_the_share(kept: float, generations: int) -> None:
    size = effective_size_needed(kept=kept, generations=generations)

    assert heterozygosity_kept([size] * generations) == pytest.approx(kept)


@pytest.mark.parametrize(
    ("kept", "generations"),
    [(0.0, 5), (1.0, 5), (math.nan, 5), (0.9, 0), (0.9, -1), (0.9, math.nan)],
)
def test_needed__impossible_wishes_are_refused(kept: float, generations: float) -> None:
    with pytest.raises(DomainError):
        effective_size_needed(kept=kept, generations=generations)


@pytest.mark.parametrize(
    "size",
    [
        lambda: effective_size_by_sex(males=2, females=3),
        lambda: effective_size_over_generations([2, 3]),
        lambda: effective_size_by_family_size(breeders=20, variance=2),
        lambda: effective_size_with_selfing(animals=10, selfed=0),
    ],
)
def test_sizes__are_plain_floats(size: Callable[[], float]) -> None:
    assert type(size()) is float
