"""The worked cases of tests/published/*.yaml, computed through the public functions."""

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest

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
    chi_square_test,
    shares_of_ratio,
)
from tools.cross_cases import cross_of_parents
from tools.fit_cases import goodness_of_fit, heterogeneity
from tools.worked_cases import Case, flat, read_cases

CASES = [case for path in sorted(Path(__file__).parent.glob("*.yaml")) for case in read_cases(path)]


def goodness_of_fit_of_two(inputs: Case) -> Case:
    first = chi_square_test(inputs["observed"], shares_of_ratio(inputs["ratio1"]))
    second = chi_square_test(inputs["observed"], shares_of_ratio(inputs["ratio2"]))
    return {
        "chi2_1": first.statistic,
        "p_1": first.p_value,
        "chi2_2": second.statistic,
        "p_2": second.p_value,
    }


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


COMPUTE: dict[str, Callable[[Case], Case]] = {
    "gof": goodness_of_fit,
    "gof_two": goodness_of_fit_of_two,
    "heterogeneity": heterogeneity,
    "partition_dihybrid": dihybrid_partition,
    "progeny_misclass": progeny_misclassification,
    "cross": cross_of_parents,
}


def test_cases__are_all_there() -> None:
    families: dict[str, int] = {}
    for case in CASES:
        family = case["id"].split("-")[0]
        families[family] = families.get(family, 0) + 1

    assert families == {
        "MEN": 13, "EPI": 9, "MON": 2, "INC": 2, "CODOM": 1, "MULT": 2, "LET": 3, "POOL": 3,
    }  # fmt: skip


@pytest.mark.parametrize("case", [pytest.param(case, id=case["id"]) for case in CASES])
def test_worked_case__gives_the_expected_numbers(case: Case) -> None:
    computed = flat(COMPUTE[case["calc"]](case["inputs"]))
    expected = flat(case["expected"])

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

    for path, number in case["published"].items():
        half_a_digit = number.get("tol", 0.5 * 10.0 ** -number.get("places", 0))
        assert float(computed[path]) == pytest.approx(number["value"], abs=half_a_digit), path
