import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.genetics import (
    accuracy_of_full_sibs,
    accuracy_of_half_sibs,
    accuracy_of_own_records,
    accuracy_of_young,
    breeding_value,
    breeding_value_from_young,
    expected_young,
    selection_index,
)

SHARE = st.floats(0, 1)


def test_breeding_value__of_an_average_animal_is_none() -> None:
    assert breeding_value(own=7, mean=7, heritability=0.9) == 0.0
    assert breeding_value(own=9, mean=7, heritability=0.0) == 0.0
    assert breeding_value(own=5, mean=7, heritability=1.0) == -2.0


def test_expected_young__are_half_way() -> None:
    assert expected_young(dam_value=3.0, sire_value=-1.0) == 1.0


def test_accuracies__agree_with_seeded_families() -> None:
    heritability, common, sibs, random = 0.5, 0.2, 6, np.random.default_rng(41)
    families = 60_000
    add, rest = math.sqrt(heritability), math.sqrt(1 - heritability - common)
    middle = random.normal(0, add / math.sqrt(2), (families, 1))  # mean of both parents
    values = middle + random.normal(0, add / math.sqrt(2), (families, sibs + 1))
    tank = random.normal(0, math.sqrt(common), (families, 1))
    grades = values + tank + random.normal(0, rest, values.shape)
    found = np.corrcoef(grades[:, 1:].mean(axis=1), values[:, 0])[0, 1]

    assert accuracy_of_full_sibs(
        heritability=heritability, sibs=sibs, common_environment=common
    ) == pytest.approx(float(found), abs=0.01)


def test_accuracy_of_young__and_their_value_agree_with_seeded_sires() -> None:
    heritability, young, random = 0.3, 8, np.random.default_rng(42)
    sires = random.normal(0, math.sqrt(heritability), 60_000)
    rest = random.normal(0, math.sqrt(1 - heritability / 4), (sires.size, young))
    means = (sires[:, None] / 2 + rest).mean(axis=1)
    found = np.corrcoef(means, sires)[0, 1]
    slope = np.cov(means, sires)[0, 1] / means.var(ddof=1)

    assert accuracy_of_young(heritability=heritability, young=young) == pytest.approx(
        float(found), abs=0.01
    )
    assert breeding_value_from_young(
        young_mean=1.0, mean=0.0, young=young, heritability=heritability
    ) == pytest.approx(float(slope), abs=0.02)


@given(heritability=st.floats(0.01, 1), numbers=st.tuples(st.integers(0, 50), st.integers(0, 50)))
def test_accuracies__never_fall_with_more_relatives(
    heritability: float, numbers: tuple[int, int]
) -> None:
    few, many = sorted(numbers)
    for accuracy in (accuracy_of_half_sibs, accuracy_of_full_sibs):
        low, high = (accuracy(heritability=heritability, sibs=n) for n in (few, many))
        assert 0.0 <= low <= high + 1e-12 <= 1.0
    low, high = (
        accuracy_of_own_records(heritability=heritability, records=n, repeatability=1.0)
        for n in (few, many)
    )
    assert low <= high + 1e-12


def test_accuracies__limits_with_very_many_relatives() -> None:
    assert accuracy_of_young(heritability=0.2, young=10**9) == pytest.approx(1.0, abs=1e-6)
    assert accuracy_of_half_sibs(heritability=0.2, sibs=10**9) == pytest.approx(0.5, abs=1e-6)
    assert accuracy_of_full_sibs(heritability=0.2, sibs=10**9) == pytest.approx(
        math.sqrt(0.5), abs=1e-6
    )


def test_own_records__repeating_helps_where_gradings_differ() -> None:
    once = accuracy_of_own_records(heritability=0.25)
    exact_grading = accuracy_of_own_records(heritability=0.25, records=4, repeatability=1.0)
    rough_grading = accuracy_of_own_records(heritability=0.25, records=4, repeatability=0.25)

    assert exact_grading == once == 0.5
    assert rough_grading == pytest.approx(math.sqrt(4 * 0.25 / (1 + 3 * 0.25)))


def test_accuracies__without_any_grade_are_none() -> None:
    assert accuracy_of_own_records(heritability=0.5, records=0) == 0.0
    assert accuracy_of_young(heritability=0.5, young=0) == 0.0
    assert accuracy_of_full_sibs(heritability=0.5, sibs=0) == 0.0
    assert breeding_value_from_young(young_mean=9, mean=1, young=0, heritability=0.5) == 0.0


@pytest.mark.parametrize("wrong", [-0.1, 1.1, math.nan])
def test_accuracies__an_impossible_heritability_is_refused(wrong: float) -> None:
    with pytest.raises(DomainError, match="heritability"):
        accuracy_of_own_records(heritability=wrong)
    with pytest.raises(DomainError, match="heritability"):
        accuracy_of_young(heritability=wrong, young=1)
    with pytest.raises(DomainError, match="heritability"):
        accuracy_of_full_sibs(heritability=wrong, sibs=1)
    with pytest.raises(DomainError, match="heritability"):
        breeding_value(own=1, mean=1, heritability=wrong)
    with pytest.raises(DomainError, match="relationship"):
        accuracy_of_half_sibs(heritability=0.5, sibs=1, relationship=wrong)


def test_accuracies__negative_numbers_of_animals_are_refused() -> None:
    with pytest.raises(DomainError, match="number of records"):
        accuracy_of_own_records(heritability=0.5, records=-1)
    with pytest.raises(DomainError, match="number of relatives"):
        accuracy_of_half_sibs(heritability=0.5, sibs=-1)
    with pytest.raises(DomainError, match="number of relatives"):
        accuracy_of_full_sibs(heritability=0.5, sibs=-1)


@pytest.mark.parametrize("wrong", [None, 0.4, 1.1, math.nan])
def test_own_records__repeats_need_a_possible_repeatability(wrong: float | None) -> None:
    with pytest.raises(DomainError, match="repeatability"):
        accuracy_of_own_records(heritability=0.5, records=2, repeatability=wrong)


@pytest.mark.parametrize("wrong", [-0.1, 0.6, math.nan])
def test_full_sibs__an_impossible_common_part_is_refused(wrong: float) -> None:
    with pytest.raises(DomainError, match="shared by brood mates"):
        accuracy_of_full_sibs(heritability=0.5, sibs=2, common_environment=wrong)


@pytest.mark.parametrize("wrong", [math.nan, math.inf])
def test_breeding_values__numbers_that_are_none_are_refused(wrong: float) -> None:
    for own, mean in ((wrong, 1.0), (1.0, wrong)):
        with pytest.raises(DomainError, match="grade"):
            breeding_value(own=own, mean=mean, heritability=0.5)
        with pytest.raises(DomainError, match="mean grade"):
            breeding_value_from_young(young_mean=own, mean=mean, young=1, heritability=0.5)
        with pytest.raises(DomainError, match="breeding value"):
            expected_young(dam_value=own, sire_value=mean)


def test_index__of_one_trait_is_its_heritability() -> None:
    index = selection_index(phenotypic=[[4.0]], genetic=[[1.0]], values=[1.0])

    assert index.weights == pytest.approx((0.25,))
    assert index.accuracy == pytest.approx(0.5)
    assert index.responses == pytest.approx((0.5,))


def test_index__of_unrelated_traits_weighs_value_by_heritability() -> None:
    index = selection_index(
        phenotypic=[[1.0, 0.0], [0.0, 4.0]], genetic=[[0.5, 0.0], [0.0, 1.0]], values=[2.0, 3.0]
    )

    assert index.weights == pytest.approx((2.0 * 0.5, 3.0 * 0.25))


PHENOTYPIC = [[1.0, 0.3], [0.3, 2.0]]
GENETIC = [[0.4, -0.2], [-0.2, 0.9]]


@given(st.tuples(st.floats(-3, 3), st.floats(-3, 3)))
def test_index__no_other_weights_follow_the_goal_better(other: tuple[float, float]) -> None:
    worth = np.array([1.0, 0.5])
    index = selection_index(phenotypic=PHENOTYPIC, genetic=GENETIC, values=[1.0, 0.5])

    def accuracy(weights: "np.ndarray[tuple[int], np.dtype[np.float64]]") -> float:
        spread = weights @ np.array(PHENOTYPIC) @ weights
        goal = worth @ np.array(GENETIC) @ worth
        if spread <= 1e-12:
            return 0.0
        return float(weights @ np.array(GENETIC) @ worth / math.sqrt(spread * goal))

    assert accuracy(np.array(index.weights)) == pytest.approx(index.accuracy)
    assert accuracy(np.array(other)) <= index.accuracy + 1e-12


def test_index__responses_agree_with_seeded_selection() -> None:
    index = selection_index(phenotypic=PHENOTYPIC, genetic=GENETIC, values=[1.0, 0.5])
    random = np.random.default_rng(43)
    values = random.multivariate_normal([0, 0], GENETIC, 200_000)
    rest = np.array(PHENOTYPIC) - np.array(GENETIC)
    grades = values + random.multivariate_normal([0, 0], rest, 200_000)
    points = grades @ np.array(index.weights)
    best = np.argsort(points)[-20_000:]
    intensity = float((points[best].mean() - points.mean()) / points.std())

    assert index.responses == pytest.approx(
        [float(value) / intensity for value in values[best].mean(axis=0)], abs=0.02
    )


@pytest.mark.parametrize(
    ("phenotypic", "genetic", "values", "words"),
    [
        pytest.param([], [], [], "phenotypic covariances", id="no trait"),
        pytest.param([[1.0]], [[0.5, 0.0]], [1.0], "genetic covariances", id="not square"),
        pytest.param([[1.0]], [[0.5]], [1.0, 1.0], "phenotypic covariances", id="sizes"),
        pytest.param([[math.nan]], [[0.5]], [1.0], "phenotypic covariances", id="nan"),
        pytest.param([[1.0]], [[0.5]], [math.nan], "worth of a trait", id="nan worth"),
        pytest.param([[0.0]], [[0.0]], [1.0], "phenotypic covariances", id="no variance"),
        pytest.param([[1.0]], [[-0.5]], [1.0], "genetic covariances", id="negative variance"),
        pytest.param([[1.0]], [[1.5]], [1.0], "genetic covariances", id="more than all"),
        pytest.param([[1.0]], [[0.0]], [1.0], "breeding goal", id="nothing inherited"),
        pytest.param([[1.0]], [[0.5]], [0.0], "breeding goal", id="nothing wanted"),
        pytest.param(
            [[1.0, 0.1], [0.2, 1.0]],
            [[0.5, 0.0], [0.0, 0.5]],
            [1.0, 1.0],
            "phenotypic covariances",
            id="not symmetric",
        ),
    ],
)
def test_index__impossible_numbers_are_refused(
    phenotypic: list[list[float]], genetic: list[list[float]], values: list[float], words: str
) -> None:
    with pytest.raises(DomainError, match=words):
        selection_index(phenotypic=phenotypic, genetic=genetic, values=values)
