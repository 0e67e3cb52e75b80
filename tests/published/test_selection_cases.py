"""The worked cases of selection and heritability, computed through the public functions."""

import math
from collections.abc import Callable
from pathlib import Path

import pytest

from filialog.genetics import (
    accuracy_of_own_records,
    accuracy_of_young,
    breeding_value,
    expected_young,
    forecast_means,
    heritability_by_midparents,
    heritability_by_one_parent,
    heritability_from_sibs,
    realised_heritability,
    response_by_intensity,
    response_per_time,
    response_to_selection,
    selection_intensity,
    selection_intensity_of_few,
    selection_step,
    truncation_selection,
)
from tools.worked_cases import Case, exact_numbers, expected_numbers, flat, read_cases

CASES = read_cases(Path(__file__).parent / "lineage" / "selection.yaml")


def realised(inputs: Case) -> Case:
    step = selection_step(
        mean_before=inputs["mean0"], mean_chosen=inputs["selected"], mean_young=inputs["mean1"]
    )
    assert step.heritability is not None
    return {
        "S": step.differential,
        "R": step.response,
        "h2": step.heritability,
        "VA": step.heritability * inputs["VP"],
    }


def response(inputs: Case) -> Case:
    means = forecast_means(
        mean=inputs["mean0"], heritability=inputs["h2"], differentials=[inputs["S"]]
    )
    change = response_to_selection(heritability=inputs["h2"], differential=inputs["S"])
    return {"R": change, "mean1": means[1]}


def estimated_value(inputs: Case) -> Case:
    value = breeding_value(own=inputs["own"], mean=inputs["mean"], heritability=inputs["h2"])
    ages = {"dam_interval": inputs["L"], "sire_interval": inputs["L"]}
    return {
        "S": inputs["own"] - inputs["mean"],
        "EBV": value,
        "EPD": expected_young(dam_value=value, sire_value=0.0),
        "per_year": response_per_time(dams=value, sires=value, **ages),
        "per_year_one_parent": response_per_time(dams=value, sires=0.0, **ages),
    }


def intensities(inputs: Case) -> Case:
    return {
        "i": [selection_intensity(chosen) for chosen in inputs["p"]],
        "x": [truncation_selection(chosen).threshold for chosen in inputs["p"]],
    }


def intensities_of_few(inputs: Case) -> Case:
    return {
        "i": [
            selection_intensity_of_few(chosen=chosen, measured=measured)
            for chosen, measured in inputs["pairs"]
        ]
    }


def from_sibs(inputs: Case) -> Case:
    accuracy = accuracy_of_own_records(heritability=inputs["h2"])
    return {
        "h2_from_hs": heritability_from_sibs(correlation=inputs["t_hs"], full_sibs=False),
        "h2_upper_from_fs": heritability_from_sibs(correlation=inputs["t_fs"], full_sibs=True),
        "sigmaA_h": response_by_intensity(
            intensity=1.0, accuracy=accuracy, additive_sd=math.sqrt(inputs["VA"])
        ),
    }


def parent_regressions(inputs: Case) -> Case:
    sires, dams, young = (list(column) for column in zip(*inputs["rows"], strict=True))
    both = heritability_by_midparents(dams=dams, sires=sires, young=young)
    one = heritability_by_one_parent(parents=sires, young=young)
    assert one.slope is not None
    return {
        "b_midparent": both.slope,
        "intercept": both.intercept,
        "se_b": both.standard_error,
        "h2_midparent": both.slope,
        "b_father": one.slope / 2.0,
        "h2_from_father": one.slope,
    }


def realised_over_generations(inputs: Case) -> Case:
    found = realised_heritability(
        cumulated_differentials=inputs["cum_S"], cumulated_responses=inputs["cum_R"]
    )
    return {
        "ratio": found.ratio,
        "ols_slope": found.line.slope,
        "ols_intercept": found.line.intercept,
        "ols_se": found.line.standard_error,
        "origin_slope": found.line_through_origin.slope,
    }


def accuracies(inputs: Case) -> Case:
    heritability = inputs["h2"]
    return {
        "own": accuracy_of_own_records(heritability=heritability),
        "progeny": [accuracy_of_young(heritability=heritability, young=n) for n in inputs["n"]],
    }


COMPUTE: dict[str, Callable[[Case], Case]] = {
    "realised_h2": realised,
    "response": response,
    "ebv": estimated_value,
    "intensity": intensities,
    "intensity_finite": intensities_of_few,
    "sib_h2": from_sibs,
    "po_regression": parent_regressions,
    "realised_multi": realised_over_generations,
    "accuracy": accuracies,
}


def test_selection_cases__are_all_there() -> None:
    assert [case["id"] for case in CASES] == [
        f"BRE-{number:02}" for number in (1, 2, 4, 6, 7, 9, 11, 12, 14)
    ]


@pytest.mark.parametrize("case", [pytest.param(case, id=case["id"]) for case in CASES])
def test_selection_case__gives_the_expected_numbers(case: Case) -> None:
    computed = flat(COMPUTE[case["calc"]](case["inputs"]))

    for path, value in expected_numbers(case).items():
        assert float(computed[path]) == pytest.approx(value, abs=case["tolerance"], rel=0), path
    for path, value in exact_numbers(case).items():
        assert float(computed[path]) == pytest.approx(value, abs=1e-12, rel=0), path


@pytest.mark.parametrize(
    "case", [pytest.param(case, id=case["id"]) for case in CASES if "published" in case]
)
def test_selection_case__gives_the_printed_numbers(case: Case) -> None:
    computed = flat(COMPUTE[case["calc"]](case["inputs"]))

    for path, number in case["published"].items():
        half_a_digit = number.get("tol", 0.5 * 10.0 ** -number.get("places", 0))
        assert float(computed[path]) == pytest.approx(number["value"], abs=half_a_digit), path
