"""The worked cases of sex chromosomes, linkage, viability and samples, by public functions."""

import math
from collections import Counter
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from random import Random
from statistics import NormalDist

import pytest

from filialog.genetics import (
    Condition,
    ConditionKind,
    Locus,
    LookRule,
    ShownBy,
    TraitModel,
    brood_components,
    certain,
    check_deaths_by_eggs,
    cross,
    haldane_recombination,
    hardy_weinberg_test,
    kosambi_recombination,
    look_shares,
    order_of_three,
    recombination_from_f2,
    recombination_from_test_cross,
    relative_viability,
    share_without_singles,
    truncated_share,
    viability_of_linked,
)
from filialog.statistics import (
    brood_heterogeneity,
    chi_square_test,
    wilson_interval,
)
from tools.cross_cases import cross_of_parents
from tools.fit_cases import exact_binomial, goodness_of_fit
from tools.worked_cases import Case, expected_numbers, flat, read_cases

CASES = [
    case
    for path in sorted((Path(__file__).parent / "genetics").glob("*.yaml"))
    for case in read_cases(path)
]

HALF = (Fraction(1, 2), Fraction(1, 2))


def maternal_effect(inputs: Case) -> Case:
    """Snails coil as the genotype of their dam says: D dextral over d."""
    dextral = Condition(locus="coil", kind=ConditionKind.HAS, alleles=("D",))
    model = TraitModel(
        name="coiling",
        loci=(Locus(name="coil", alleles=("D", "d")),),
        looks=(LookRule(look="dextral", conditions=(dextral,)), LookRule(look="sinistral")),
        shown_by=ShownBy.DAM,
    )
    dam, sire = (certain((tuple(inputs[one]),)) for one in ("mother", "father"))
    first = cross(dam, sire, model).young
    second = cross(first, first, model).young

    def dextral_of_brood(mother: str) -> Fraction:
        ((weight, shares),) = brood_components(
            {"P": dam, "F1": first}[mother], {"P": sire, "F1": first}[mother], model
        )
        assert weight == 1
        return shares[0]

    return {
        "F1_dextral": dextral_of_brood("P"),
        "F2_dextral": dextral_of_brood("F1"),
        "F3_broods_dextral": dict(look_shares(second, model))["dextral"],
    }


def two_points(inputs: Case) -> Case:
    parental = sum(inputs["classes"][place] for place in inputs["parental_classes"])
    result = recombination_from_test_cross(
        parental=parental, recombinant=sum(inputs["classes"]) - parental
    )
    return {
        "n": result.counted,
        "r": result.recombination,
        "se": result.standard_error,
        "lod": result.lod,
        "chi2_independence": result.chi_square,
    }


def linkage_in_f2(inputs: Case) -> Case:
    result = recombination_from_f2(inputs["classes"])
    return {
        "n": result.counted,
        "theta": result.theta,
        "se_theta": result.standard_error,
        "r_coupling": result.coupling,
        "r_repulsion": result.repulsion,
        "chi2_linkage": result.chi_square,
    }


def three_points(inputs: Case) -> Case:
    result = order_of_three(
        inputs["loci_given"], {tuple(shown): count for shown, count in inputs["rows"]}
    )
    return {
        "order": result.order,
        "n": result.counted,
        "r12": result.first_stretch,
        "r23": result.second_stretch,
        "r13": result.ends,
        "double": result.double,
        "coincidence": result.coincidence,
        "interference": result.interference,
    }


def map_functions(inputs: Case) -> Case:
    return {
        "haldane": [haldane_recombination(distance_cm=d) for d in inputs["cM"]],
        "kosambi": [kosambi_recombination(distance_cm=d) for d in inputs["cM"]],
    }


def viability_ratio(inputs: Case) -> Case:
    result = relative_viability(**inputs)
    return {
        "v": result.estimate,
        "haldane": result.unbiased,
        "se": result.standard_error,
        "log_ci": [result.low, result.high],
        "chi2": result.chi_square,
        "p_chi2": result.p_value,
    }


def viability_in_f2(inputs: Case) -> Case:
    computed: Case = {}
    mixed = inputs["observed"][1]
    for name, count in zip(("AA", "aa"), inputs["observed"][::2], strict=True):
        result = relative_viability(first=mixed, second=count, expected_ratio=0.5)
        computed[f"v_{name}"] = result.estimate
        computed[f"se_{name}"] = result.standard_error
        computed[f"haldane_{name}"] = result.unbiased
    return computed


def viability_and_linkage(inputs: Case) -> Case:
    result = viability_of_linked(inputs["classes"], coupling="repulsion" not in inputs["order"])
    return {
        "r_product": result.recombination,
        "r_naive": result.naive_recombination,
        "v_a": result.first,
        "v_b": result.second,
    }


def distortion(inputs: Case) -> Case:
    first, second = inputs["cross1"], inputs["cross2"]
    fit = chi_square_test(first, HALF)
    between = brood_heterogeneity([first, second], HALF).contingency_chi_square
    interval = wilson_interval(seen=first[0], counted=sum(first))
    assert between is not None
    return {
        "k": first[0] / sum(first),
        "wilson": [interval.low, interval.high],
        "chi2": fit.statistic,
        "p_chi2": fit.p_value,
        "het_chi2": between.statistic,
        "p_het": between.p_value,
    }


def deaths_by_eggs(inputs: Case) -> Case:
    first, second = inputs["hatched"]
    result = check_deaths_by_eggs(eggs=inputs["eggs"], first=first, second=second)
    return {
        "dead_share": result.dead_share,
        "v_if_all_death": result.viability,
        "dead_share_predicted_by_v": result.predicted_dead_share,
        "chi2_dead": result.chi_square,
    }


def truncated(inputs: Case) -> Case:
    share = Fraction(inputs["p"])
    return {"share": [truncated_share(share, size) for size in inputs["sizes"]]}


def without_singles(inputs: Case) -> Case:
    families = [(size, seen) for size, seen in inputs["families"]]
    seen, young = sum(seen for _, seen in families), sum(size for size, _ in families)
    return {"li_mantel": share_without_singles(families), "naive": Fraction(seen, young)}


def hardy_weinberg(inputs: Case) -> Case:
    result = hardy_weinberg_test(inputs["observed"])
    return {
        "p": result.frequency,
        "expected": result.expected_counts,
        "chi2": result.chi_square,
        "df": result.df,
        "p_chi2": result.p_value,
        "F": result.missing_share,
    }


COMPUTE: dict[str, Callable[[Case], Case]] = {
    "cross": cross_of_parents,
    "gof": goodness_of_fit,
    "maternal_effect": maternal_effect,
    "testcross": two_points,
    "f2_linkage": linkage_in_f2,
    "threepoint": three_points,
    "map_function": map_functions,
    "viability_ratio": viability_ratio,
    "viability_f2": viability_in_f2,
    "viability_linkage": viability_and_linkage,
    "distortion": distortion,
    "viability_eggs": deaths_by_eggs,
    "truncated_share": truncated,
    "li_mantel": without_singles,
    "hwe": hardy_weinberg,
    "binom_exact": exact_binomial,
}


def test_cases__are_all_there() -> None:
    families: dict[str, int] = {}
    for case in CASES:
        family = case["id"].split("-")[0]
        families[family] = families.get(family, 0) + 1

    assert families == {"LNK": 15, "ASC": 2, "HWE": 1, "SXR": 1, "SEX": 14, "MAT": 2, "VIA": 7}


@pytest.mark.parametrize("case", [pytest.param(case, id=case["id"]) for case in CASES])
def test_worked_case__gives_the_expected_numbers(case: Case) -> None:
    computed = COMPUTE[case["calc"]](case["inputs"])
    numbers = dict(case["expected"])
    if "order" in numbers:
        assert list(computed["order"]) == numbers.pop("order")

    for path, value in expected_numbers({"expected": numbers}).items():
        wanted = pytest.approx(value, abs=case["tolerance"], rel=1e-6 if value > 1e3 else 0)
        assert float(flat(computed)[path]) == wanted, path


@pytest.mark.parametrize(
    "case",
    [pytest.param(case, id=case["id"]) for case in CASES if case["calc"] == "cross"],
)
def test_worked_case__gives_the_exact_fractions_and_no_other_class(case: Case) -> None:
    computed = cross_of_parents(case["inputs"])
    exact = case["expected_exact"]

    for path, value in flat(exact).items():
        assert flat(computed)[path] == Fraction(value), path
    for group in set(exact) & {"phenotypes", "genotypes"}:
        assert set(computed[group]) == set(exact[group])


def drop_gamete(group: Case, parent: str, entry: list[list[str]], chance: Random) -> list[str]:
    """Draw one gamete, locus after locus, straight from what the case writes."""
    strand = chance.randrange(2)
    alleles = []
    for place in range(len(group["loci"])):
        if place and chance.random() < Fraction(group[f"r_{parent}"][place - 1]):
            strand = 1 - strand
        alleles.append(entry[strand][place])
    return alleles


def drop_young(inputs: Case, chance: Random) -> dict[str, list[str]]:
    """Draw one egg's two alleles by locus."""
    young: dict[str, list[str]] = {}
    for group in inputs["groups"]:
        gametes = []
        for parent in ("mother", "father"):
            entries = group[parent]
            if isinstance(entries[0], dict):
                weights = [float(Fraction(one["p"])) for one in entries]
                entries = chance.choices(entries, weights)[0]["hap"]
            gametes.append(drop_gamete(group, parent, entries, chance))
        young |= {locus: list(pair) for locus, *pair in zip(group["loci"], *gametes, strict=True)}
    return young


def fits(young: dict[str, list[str]], wanted: Case) -> bool:
    def holds(pair: list[str], kind: str, asked: str | list[str]) -> bool:
        if kind == "is":
            return sorted(pair) == sorted(asked)
        copies = sum(allele == asked for allele in pair)
        return {"has": copies > 0, "lacks": copies == 0, "hom": copies == 2}[kind]

    return all(
        holds(young[locus], kind, asked)
        for locus, demand in wanted.items()
        for kind, asked in demand.items()
    )


DRAWS = 2_000
CROSSES = [
    case
    for path in (
        Path(__file__).parent / "crosses.yaml",
        *sorted((Path(__file__).parent / "genetics").glob("*.yaml")),
    )
    for case in read_cases(path)
    if case["calc"] == "cross"
]


@pytest.mark.parametrize("case", [pytest.param(case, id=case["id"]) for case in CROSSES])
def test_cross__lies_in_the_band_of_a_gene_drop(case: Case) -> None:
    inputs, chance = case["inputs"], Random(case["id"])
    seen: Counter[str] = Counter()
    for _ in range(DRAWS):
        young = drop_young(inputs, chance)
        if not any(fits(young, wanted) for wanted in inputs.get("lethal", [])):
            rules = inputs["phenotypes"]
            seen[next(one["name"] for one in rules if fits(young, one.get("if", {})))] += 1
    forecast = cross_of_parents(inputs)["phenotypes"]

    # 99.9 % for all shares of all cases together (Bonferroni, two sides).
    comparisons = sum(len(one["expected"]["phenotypes"]) for one in CROSSES)
    z = -NormalDist().inv_cdf(0.0005 / comparisons)
    number = sum(seen.values())
    assert set(seen) <= set(forecast)
    for look, share in forecast.items():
        reach = z * math.sqrt(share * (1 - share) / number)
        assert abs(seen[look] / number - share) <= reach, look


@pytest.mark.parametrize(
    "case", [pytest.param(case, id=case["id"]) for case in CASES if "published" in case]
)
def test_worked_case__gives_the_printed_numbers(case: Case) -> None:
    computed = flat(COMPUTE[case["calc"]](case["inputs"]))

    for path, number in case["published"].items():
        half_a_digit = number.get("tol", 0.5 * 10.0 ** -number.get("places", 0))
        assert float(computed[path]) == pytest.approx(number["value"], abs=half_a_digit), path
