"""The worked cases of tests, intervals and family sizes, by public functions."""

import math
from collections import Counter
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest

from filialog.statistics import (
    agresti_coull_interval,
    benjamini_hochberg,
    bonferroni_adjusted,
    break_even_share,
    clopper_pearson_interval,
    cutoff_design,
    exact_test,
    exact_test_by_distance,
    holm_adjusted,
    jeffreys_interval,
    log_likelihood_ratio,
    normal_family_size,
    rule_of_three,
    share_difference,
    shares_of_ratio,
    single,
    unseen_share,
    wilson_interval,
)
from tools.fit_cases import exact_binomial, goodness_of_fit, heterogeneity
from tools.worked_cases import Case, exact_numbers, expected_numbers, flat, read_cases

CASES = [
    case
    for path in sorted((Path(__file__).parent / "statistics").glob("*.yaml"))
    for case in read_cases(path)
]


def exact_multinomial(inputs: Case) -> Case:
    shares = shares_of_ratio(inputs["ratio"])
    fit = exact_test(inputs["observed"], single(shares))
    return {
        "p_observed": fit.observed_probability,
        "p_by_probability": fit.p_value,
        "p_by_chi2": exact_test_by_distance(inputs["observed"], shares).p_value,
    }


def bayes_factors(inputs: Case) -> Case:
    first, second = Fraction(inputs["p1"]), Fraction(inputs["p2"])
    factors = []
    for seen, counted in inputs["data"]:
        ratio = log_likelihood_ratio(
            [seen, counted - seen],
            expected=single((first, 1 - first)),
            rival=single((second, 1 - second)),
        )
        assert ratio is not None
        factors.append(math.exp(ratio))
    return {
        "BF": factors,
        "posterior_p1_equal_prior": [factor / (1.0 + factor) for factor in factors],
    }


def break_even(inputs: Case) -> Case:
    return {
        "share": [
            break_even_share(Fraction(one), Fraction(other)) for one, other in inputs["pairs"]
        ]
    }


def intervals(inputs: Case) -> Case:
    numbers = {"seen": inputs["x"], "counted": inputs["n"], "confidence": inputs["confidence"]}
    found = {
        "wilson": wilson_interval(**numbers),
        "clopper_pearson": clopper_pearson_interval(**numbers),
        "jeffreys_plain": jeffreys_interval(**numbers, reach_ends=False),
        "jeffreys_bcd": jeffreys_interval(**numbers),
        "agresti_coull_unclipped": agresti_coull_interval(**numbers, clipped=False),
    }
    limits = {name: [interval.low, interval.high] for name, interval in found.items()}
    return {"estimate": inputs["x"] / inputs["n"], **limits}


def none_seen(inputs: Case) -> Case:
    return {
        "exact": [unseen_share(counted=number) for number in inputs["n"]],
        "rule": [rule_of_three(counted=number) for number in inputs["n"]],
    }


def difference(inputs: Case) -> Case:
    found = share_difference(
        first_seen=inputs["x1"],
        first_counted=inputs["n1"],
        second_seen=inputs["x2"],
        second_counted=inputs["n2"],
    )
    return {
        "difference": found.difference,
        "interval": [found.interval.low, found.interval.high],
    }


def many_tests(inputs: Case) -> Case:
    rate, p_values = inputs["q"], inputs["p"]
    found, holm = benjamini_hochberg(p_values, rate=rate), holm_adjusted(p_values)
    return {
        "n_rejected_bh": len(found.found),
        "n_rejected_bonferroni": sum(p <= rate for p in bonferroni_adjusted(p_values)),
        "threshold": found.threshold,
        "adjusted": found.adjusted,
        "n_rejected_holm": sum(p <= rate for p in holm),
        "holm_adjusted": holm,
    }


def family_sizes(inputs: Case) -> Case:
    numbers = [
        [
            normal_family_size(first=Fraction(one), second=Fraction(other), deviate=deviate)
            for deviate in inputs["t"]
        ]
        for one, other in inputs["pairs"]
    ]
    return {"n": numbers, "n_ceil": [[math.ceil(number) for number in row] for row in numbers]}


def designs(inputs: Case) -> Case:
    found = []
    for low, high, first, second in inputs["designs"]:
        design = cutoff_design(
            low=Fraction(low),
            high=Fraction(high),
            most_wrong_if_low=Fraction(first),
            most_wrong_if_high=Fraction(second),
        )
        assert design is not None
        found.append(design)
    return {
        "n": [design.young for design in found],
        "cutoff": [design.cutoff for design in found],
        "alpha": [design.wrong_if_low for design in found],
        "beta": [design.wrong_if_high for design in found],
    }


COMPUTE: dict[str, Callable[[Case], Case]] = {
    "gof": goodness_of_fit,
    "heterogeneity": heterogeneity,
    "multinomial_exact": exact_multinomial,
    "binom_exact": exact_binomial,
    "bayes_factor": bayes_factors,
    "bf_breakeven": break_even,
    "ci": intervals,
    "rule_of_three": none_seen,
    "newcombe_diff": difference,
    "bh": many_tests,
    "hanson_n": family_sizes,
    "exact_design": designs,
}


def test_cases__are_all_there() -> None:
    families = Counter(case["id"].split("-")[0] for case in CASES)

    assert families == {"CI": 9, "EXA": 6, "GTS": 3, "BF": 2, "BH": 1, "POW": 2}


@pytest.mark.parametrize("case", [pytest.param(case, id=case["id"]) for case in CASES])
def test_worked_case__gives_the_expected_numbers(case: Case) -> None:
    computed = flat(COMPUTE[case["calc"]](case["inputs"]))

    for path, value in (expected_numbers(case) | exact_numbers(case)).items():
        wanted = pytest.approx(value, abs=case["tolerance"], rel=1e-6 if value > 1e3 else 0)
        assert float(computed[path]) == wanted, path


@pytest.mark.parametrize(
    "case", [pytest.param(case, id=case["id"]) for case in CASES if "published" in case]
)
def test_worked_case__gives_the_printed_numbers(case: Case) -> None:
    computed = flat(COMPUTE[case["calc"]](case["inputs"]))

    for path, number in case["published"].items():
        half_a_digit = number.get("tol", 0.5 * 10.0 ** -number.get("places", 0))
        assert float(computed[path]) == pytest.approx(number["value"], abs=half_a_digit), path
