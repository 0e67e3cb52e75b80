import math

import numpy as np
import pytest

from filialog.domain_error import DomainError
from filialog.genetics import (
    heritability_by_midparents,
    heritability_by_one_parent,
    realised_heritability,
    selection_step,
)


def test_step__without_errors_has_no_interval() -> None:
    step = selection_step(mean_before=40, mean_chosen=50, mean_young=44, error_young=0.5)

    assert (step.heritability, step.low, step.high) == (0.4, None, None)


def test_step__the_interval_covers_as_often_as_it_says() -> None:
    random = np.random.default_rng(51)
    before, young = random.normal(10, 0.3, 4000), random.normal(11, 0.4, 4000)
    hits = 0
    for mean_before, mean_young in zip(before.tolist(), young.tolist(), strict=True):
        step = selection_step(
            mean_before=mean_before,
            mean_chosen=mean_before + 2.5,  # the chosen of this very sample
            mean_young=mean_young,
            error_before=0.3,
            error_young=0.4,
            confidence=0.9,
        )
        assert step.low is not None
        assert step.high is not None
        hits += step.low <= 0.4 <= step.high

    assert hits / 4000 == pytest.approx(0.9, abs=0.02)


def test_step__selection_downwards_keeps_the_interval_in_order() -> None:
    step = selection_step(
        mean_before=10, mean_chosen=8, mean_young=9, error_before=0.1, error_young=0.1
    )

    assert step.heritability == 0.5
    assert step.low is not None
    assert step.high is not None
    assert step.low < 0.5 < step.high


def test_step__means_known_exactly_have_no_width() -> None:
    step = selection_step(
        mean_before=10, mean_chosen=12, mean_young=11, error_before=0.0, error_young=0.0
    )

    assert (step.low, step.heritability, step.high) == (0.5, 0.5, 0.5)


def test_step__without_selection_there_is_no_heritability() -> None:
    step = selection_step(
        mean_before=10, mean_chosen=10, mean_young=11, error_before=0.1, error_young=0.1
    )

    assert (step.differential, step.response) == (0.0, 1.0)
    assert (step.heritability, step.low, step.high) == (None, None, None)


MEANS = {"mean_before": 1.0, "mean_chosen": 2.0, "mean_young": 1.5}


@pytest.mark.parametrize(
    ("name", "wrong"),
    [
        ("mean_before", math.nan),
        ("mean_chosen", math.inf),
        ("mean_young", math.nan),
        ("error_before", -0.1),
        ("error_young", math.nan),
        ("error_young", math.inf),
        ("confidence", 1.0),
    ],
)
def test_step__impossible_numbers_are_refused(name: str, wrong: float) -> None:
    with pytest.raises(DomainError):
        selection_step(**{**MEANS, name: wrong})


def test_realised__a_steady_line_gives_its_heritability_three_times() -> None:
    found = realised_heritability(
        cumulated_differentials=[0, 2, 5, 6], cumulated_responses=[0, 0.5, 1.25, 1.5]
    )

    assert found.ratio == pytest.approx(0.25)
    for fit in (found.line, found.line_through_origin):
        assert fit.slope == pytest.approx(0.25)
        assert fit.standard_error == pytest.approx(0.0, abs=1e-12)
    assert found.line.intercept == pytest.approx(0.0, abs=1e-12)


def test_realised__too_few_generations_give_no_interval() -> None:
    started = realised_heritability(cumulated_differentials=[0], cumulated_responses=[0])
    once = realised_heritability(cumulated_differentials=[0, 4], cumulated_responses=[0, 1])
    twice = realised_heritability(cumulated_differentials=[0, 4, 8], cumulated_responses=[0, 1, 3])

    assert (started.ratio, started.line.slope, started.line_through_origin.slope) == (None,) * 3
    assert (once.ratio, once.line.slope, once.line_through_origin.slope) == (0.25,) * 3
    assert (once.line.low, once.line_through_origin.low) == (None, None)
    assert twice.line.low is not None
    assert twice.line_through_origin.low is not None


def test_realised__selection_to_and_fro_has_no_ratio_but_a_slope() -> None:
    found = realised_heritability(cumulated_differentials=[0, 4, 0], cumulated_responses=[0, 2, 0])

    assert found.ratio is None
    assert found.line.slope == pytest.approx(0.5)


@pytest.mark.parametrize(
    ("differentials", "responses"),
    [
        pytest.param([], [], id="nothing"),
        pytest.param([1.0, 0.0], [0.0, 0.0], id="differential does not start at 0"),
        pytest.param([0.0, 0.0], [1.0, 0.0], id="response does not start at 0"),
        pytest.param([0.0, 2.0], [0.0], id="lengths"),
        pytest.param([0.0, math.nan], [0.0, 1.0], id="nan"),
    ],
)
def test_realised__impossible_records_are_refused(
    differentials: list[float], responses: list[float]
) -> None:
    with pytest.raises(DomainError):
        realised_heritability(cumulated_differentials=differentials, cumulated_responses=responses)


def test_parent_regressions__agree_with_seeded_families() -> None:
    heritability, random = 0.4, np.random.default_rng(52)
    parents = random.normal(0, math.sqrt(heritability), (40_000, 2))
    grades = parents + random.normal(0, math.sqrt(1 - heritability), parents.shape)
    young = parents.mean(axis=1) + random.normal(0, 0.5, len(parents))
    dams, sires = grades[:, 0].tolist(), grades[:, 1].tolist()

    both = heritability_by_midparents(dams=dams, sires=sires, young=young.tolist())
    one = heritability_by_one_parent(parents=dams, young=young.tolist())

    assert both.slope == pytest.approx(heritability, abs=0.02)
    assert one.slope == pytest.approx(heritability, abs=0.03)
    for fit in (both, one):
        assert fit.low is not None
        assert fit.high is not None
        assert fit.low < heritability < fit.high
    assert one.standard_error is not None
    assert both.standard_error is not None
    assert one.standard_error > both.standard_error


def test_one_parent__doubles_slope_error_and_limits_together() -> None:
    fit = heritability_by_one_parent(parents=[1, 2, 3, 4], young=[1.0, 1.3, 1.4, 1.9])

    assert fit.slope is not None
    assert fit.standard_error is not None
    assert fit.low is not None
    assert fit.high is not None
    assert fit.slope == pytest.approx(0.56)
    assert fit.high - fit.low == pytest.approx(2 * 4.302653 * fit.standard_error, rel=1e-6)
    assert (fit.high + fit.low) / 2 == pytest.approx(fit.slope)


def test_parent_regressions__one_family_is_not_enough() -> None:
    fit = heritability_by_midparents(dams=[1], sires=[2], young=[3])

    assert (fit.points, fit.slope, fit.low) == (1, None, None)
    assert heritability_by_one_parent(parents=[], young=[]).slope is None


def test_parent_regressions__lists_of_different_length_are_refused() -> None:
    with pytest.raises(DomainError, match="number of dams"):
        heritability_by_midparents(dams=[1, 2], sires=[1], young=[1, 2])
    with pytest.raises(DomainError, match="number of y values"):
        heritability_by_one_parent(parents=[1, 2], young=[1])


def test_parent_regressions__a_grade_that_is_none_is_refused() -> None:
    with pytest.raises(DomainError):
        heritability_by_midparents(dams=[1, math.nan], sires=[1, 2], young=[1, 2])
