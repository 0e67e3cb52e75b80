"""The worked cases of tests/published/*.yaml, computed through the public functions."""

import math
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
import yaml

from filialog.genetics import (
    Condition,
    ConditionKind,
    Locus,
    LookRule,
    TraitModel,
    certain,
    cross,
    look_shares,
)
from filialog.statistics import (
    FitState,
    Part,
    brood_heterogeneity,
    chi_square_test,
    clopper_pearson_interval,
    exact_test,
    g_test,
    log_likelihood_ratio,
    shares_of_ratio,
    single,
    wilson_interval,
)
from tools.cross_cases import cross_of_parents

Case = dict[str, Any]

NOT_COMPUTED = {
    "p_by_chi2",
    "p_less",
    "p_greater",
    "p_doubled",
    "p_mid",
    "jeffreys_plain",
    "jeffreys_bcd",
    "agresti_coull_unclipped",
}
"""Other conventions, listed with the cases for comparison."""


def read_cases() -> list[Case]:
    found: list[Case] = []
    for path in sorted(Path(__file__).parent.glob("*.yaml")):
        text = path.read_text(encoding="utf-8")
        data = yaml.load(text, Loader=yaml.CSafeLoader)  # noqa: TID251 - test data, not a journal
        found.extend(data["cases"])
    return found


CASES = read_cases()


def goodness_of_fit(inputs: Case) -> Case:
    observed, shares = inputs["observed"], shares_of_ratio(inputs["ratio"])
    chi_square = chi_square_test(observed, shares)
    plain, corrected = g_test(observed, shares), g_test(observed, shares, williams=True)
    assert chi_square.state is FitState.TESTED
    return {
        "n": sum(observed),
        "expected_counts": chi_square.expected_counts,
        "chi2": chi_square.statistic,
        "df": chi_square.df,
        "p_chi2": chi_square.p_value,
        "G": plain.statistic,
        "p_G": plain.p_value,
        "williams_q": plain.statistic / corrected.statistic,
        "G_williams": corrected.statistic,
        "p_G_williams": corrected.p_value,
        "ratio_to_one": observed[0] / observed[1],
    }


def goodness_of_fit_of_two(inputs: Case) -> Case:
    first = chi_square_test(inputs["observed"], shares_of_ratio(inputs["ratio1"]))
    second = chi_square_test(inputs["observed"], shares_of_ratio(inputs["ratio2"]))
    return {
        "chi2_1": first.statistic,
        "p_1": first.p_value,
        "chi2_2": second.statistic,
        "p_2": second.p_value,
    }


def heterogeneity(inputs: Case) -> Case:
    result = brood_heterogeneity(inputs["broods"], shares_of_ratio(inputs["ratio"]))
    computed: Case = {"pooled_counts": result.pooled_counts}
    parts: dict[str, Part | None] = {
        "total_chi2": result.total_chi_square,
        "pooled_chi2": result.pooled_chi_square,
        "het_chi2": result.heterogeneity_chi_square,
        "total_G": result.total_g,
        "pooled_G": result.pooled_g,
        "het_G": result.heterogeneity_g,
        "contingency_chi2": result.contingency_chi_square,
    }
    for name, part in parts.items():
        assert part is not None
        computed[name] = part.statistic
        computed[f"p_{name}"] = part.p_value
        computed[f"{name.split('_')[0]}_df"] = part.df
    computed["p_contingency"] = computed["p_contingency_chi2"]
    return computed


def dihybrid_partition(inputs: Case) -> Case:
    """Split 3 df into the two 3:1 ratios and the rest, which is linkage."""
    both, first, second, neither = inputs["observed"]
    three_to_one = shares_of_ratio([3, 1])
    total = chi_square_test(inputs["observed"], shares_of_ratio([9, 3, 3, 1])).statistic
    of_a = chi_square_test([both + first, second + neither], three_to_one).statistic
    of_b = chi_square_test([both + second, first + neither], three_to_one).statistic
    return {
        "chi2_A": of_a,
        "chi2_B": of_b,
        "chi2_linkage": total - of_a - of_b,
        "chi2_total": total,
    }


def progeny_misclassification(inputs: Case) -> Case:
    """Hybrids whose young all look dominant are taken for pure ones (Fisher 1936)."""
    gene = Locus(name="gene", alleles=("A", "a"))
    recessive = Condition(locus="gene", kind=ConditionKind.HOM, alleles=("a",))
    model = TraitModel(
        name="one",
        loci=(gene,),
        looks=(LookRule(look="recessive", conditions=(recessive,)), LookRule(look="dominant")),
    )
    selfed = certain((("A", "a"),))
    dominant = dict(look_shares(cross(selfed, selfed, model).young, model))["dominant"]
    missed = dominant ** inputs["n_offspring"]
    pure = Fraction(1, 3) + Fraction(2, 3) * missed
    pooled = [sum(column) for column in zip(*inputs["trials"], strict=True)]
    return {
        "p_het_scored_pure": missed,
        "expected_share_pure": pure,
        "expected_share_hybrid": 1 - pure,
        "pooled_counts": pooled,
        "chi2_vs_corrected": chi_square_test(pooled, (pure, 1 - pure)).statistic,
        "chi2_vs_1_2": chi_square_test(pooled, shares_of_ratio([1, 2])).statistic,
    }


def exact_multinomial(inputs: Case) -> Case:
    fit = exact_test(inputs["observed"], single(shares_of_ratio(inputs["ratio"])))
    return {"p_observed": fit.observed_probability, "p_by_probability": fit.p_value}


def exact_binomial(inputs: Case) -> Case:
    share = Fraction(inputs["p"])
    fit = exact_test([inputs["x"], inputs["n"] - inputs["x"]], single((share, 1 - share)))
    return {"p_two_sided_small_p": fit.p_value}


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


def intervals(inputs: Case) -> Case:
    numbers = {"seen": inputs["x"], "counted": inputs["n"], "confidence": inputs["confidence"]}
    wilson, exact = wilson_interval(**numbers), clopper_pearson_interval(**numbers)
    return {
        "estimate": inputs["x"] / inputs["n"],
        "wilson": [wilson.low, wilson.high],
        "clopper_pearson": [exact.low, exact.high],
    }


COMPUTE: dict[str, Callable[[Case], Case]] = {
    "gof": goodness_of_fit,
    "gof_two": goodness_of_fit_of_two,
    "heterogeneity": heterogeneity,
    "partition_dihybrid": dihybrid_partition,
    "progeny_misclass": progeny_misclassification,
    "cross": cross_of_parents,
    "multinomial_exact": exact_multinomial,
    "binom_exact": exact_binomial,
    "bayes_factor": bayes_factors,
    "ci": intervals,
}


def flat(value: object, path: str = "") -> dict[str, Any]:
    """Return the numbers of nested mappings and lists by dotted path."""
    if isinstance(value, dict):
        pairs = [(str(key), part) for key, part in value.items()]
    elif isinstance(value, list | tuple):
        pairs = [(str(key), part) for key, part in enumerate(value)]
    else:
        return {path: value}
    together: dict[str, Any] = {}
    for key, part in pairs:
        together |= flat(part, f"{path}.{key}" if path else key)
    return together


def promised(case: Case, key: str) -> dict[str, Any]:
    return {
        path: value
        for path, value in flat(case.get(key, {})).items()
        if path.split(".")[0] not in NOT_COMPUTED
    }


def test_cases__are_all_there() -> None:
    families: dict[str, int] = {}
    for case in CASES:
        family = case["id"].split("-")[0]
        families[family] = families.get(family, 0) + 1

    assert families == {
        "MEN": 13, "EPI": 9, "MON": 2, "INC": 2, "CODOM": 1, "MULT": 2, "LET": 3, "POOL": 3,
        "EXA": 6, "GTS": 3, "BF": 1, "CI": 6,
    }  # fmt: skip


@pytest.mark.parametrize("case", [pytest.param(case, id=case["id"]) for case in CASES])
def test_worked_case__gives_the_expected_numbers(case: Case) -> None:
    computed = flat(COMPUTE[case["calc"]](case["inputs"]))
    expected = promised(case, "expected")

    assert expected
    for path, value in expected.items():
        wanted = pytest.approx(float(value), abs=case["tolerance"], rel=1e-6 if value > 1e3 else 0)
        assert float(computed[path]) == wanted, path


@pytest.mark.parametrize(
    "case",
    [
        pytest.param(case, id=case["id"])
        for case in CASES
        if case["calc"] in {"cross", "progeny_misclass"}
    ],
)
def test_worked_case__gives_the_exact_fractions_and_no_other_class(case: Case) -> None:
    computed = COMPUTE[case["calc"]](case["inputs"])
    exact = case["expected_exact"]

    for path, value in flat(exact).items():
        assert flat(computed)[path] == Fraction(value), path
    for group in set(exact) & {"phenotypes", "genotypes"}:
        assert set(computed[group]) == set(exact[group])


@pytest.mark.parametrize(
    "case", [pytest.param(case, id=case["id"]) for case in CASES if "published" in case]
)
def test_worked_case__gives_the_printed_numbers(case: Case) -> None:
    computed = flat(COMPUTE[case["calc"]](case["inputs"]))
    printed = {p: v for p, v in case["published"].items() if p.split(".")[0] not in NOT_COMPUTED}

    assert printed
    for path, number in printed.items():
        half_a_digit = number.get("tol", 0.5 * 10.0 ** -number.get("places", 0))
        assert float(computed[path]) == pytest.approx(number["value"], abs=half_a_digit), path
