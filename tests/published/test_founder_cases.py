"""The worked cases of founders and effective sizes, computed through the public functions."""

import math
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from filialog.lineage import (
    AnimalPedigree,
    Brood,
    Founder,
    Pedigree,
    Pool,
    effective_ancestors,
    effective_founders,
    effective_size_by_family_size,
    effective_size_by_inbreeding_rate,
    effective_size_by_sex,
    effective_size_needed,
    effective_size_over_generations,
    effective_size_with_selfing,
    equal_shares,
    founder_contributions,
    founder_genome_equivalents,
    founder_genome_equivalents_by_kinship,
    founding_heterozygosity,
    gene_diversity,
    heterozygosity_kept,
    inbreeding_rate,
    mean_kinship_of,
    pedigree_of_animals,
    strain_shares,
)
from tools.worked_cases import Case, exact_numbers, expected_numbers, flat, read_cases

CASES = read_cases(Path(__file__).parent / "lineage" / "founders.yaml")


def backcross_share(inputs: Case) -> Case:
    pools = [Pool(name=name, origin=Founder(strain=name)) for name in ("recurrent", "donor")]
    before = "donor"
    for generation in range(1, inputs["generations"] + 1):
        brood = Brood(dams=equal_shares(before), sires=equal_shares("recurrent"))
        before = f"generation {generation}"
        pools.append(Pool(name=before, origin=brood))
    pedigree = Pedigree(pools=tuple(pools))
    shares = [dict(strain_shares(pedigree, pool.name)) for pool in pools[2:]]
    return {name: [share[name] for share in shares] for name in ("recurrent", "donor")}


def cross_shares(inputs: Case) -> Case:
    pools: dict[str, Pool] = {}

    def pool_of(crossed: str | list[Any]) -> str:
        if isinstance(crossed, str):
            pools[crossed] = Pool(name=crossed, origin=Founder(strain=crossed))
            return crossed
        dam, sire = (pool_of(part) for part in crossed)
        name = f"({dam} x {sire})"
        brood = Brood(dams=equal_shares(dam), sires=equal_shares(sire))
        pools[name] = Pool(name=name, origin=brood)
        return name

    names = [pool_of(crossed) for crossed in inputs["crosses"]]
    pedigree = Pedigree(pools=tuple(pools.values()))
    return {"shares": [dict(strain_shares(pedigree, name)) for name in names]}


def animals(inputs: Case) -> tuple[AnimalPedigree, list[int]]:
    """Read rows of animal, sire, dam; "0" is unknown."""
    pedigree = pedigree_of_animals(
        {
            name: (None if dam == "0" else dam, None if sire == "0" else sire)
            for name, sire, dam in inputs["pedigree"]
        }
    )
    return pedigree, [pedigree.names.index(name) for name in inputs["reference"]]


def founders(inputs: Case) -> Case:
    pedigree, living = animals(inputs)
    contributions = founder_contributions(pedigree, living)
    genomes = founder_genome_equivalents(pedigree, living)
    assert genomes.drops == 0
    mean_kinship = mean_kinship_of(pedigree, weights=dict.fromkeys(living, 1.0))
    names = pedigree.names
    return {
        "contributions": {names[one.animal]: one.share for one in contributions},
        "retention": {names[one.founder.animal]: one.retention for one in genomes.founders},
        "founder_equivalents": effective_founders([one.share for one in contributions]),
        "founder_genome_equivalents": genomes.number,
        "mean_kinship": mean_kinship,
        "fg_from_kinship": founder_genome_equivalents_by_kinship(mean_kinship),
        "gene_diversity": gene_diversity(mean_kinship),
    }


def ancestors(inputs: Case) -> Case:
    pedigree, living = animals(inputs)
    shares = [one.share for one in founder_contributions(pedigree, living)]
    found = effective_ancestors(
        pedigree, living, living_are_ancestors=not inputs["candidates_exclude_reference"]
    )
    return {
        "fe": effective_founders(shares),
        "fa": found.number,
        "marginal_contributions": [one.share for one in found.contributions],
    }


def sizes_by_sex(inputs: Case) -> list[float]:
    return [effective_size_by_sex(males=m, females=f) for m, f in inputs["pairs"]]


def sizes_by_inbreeding(inputs: Case) -> Case:
    rates = [
        inbreeding_rate(before=before, after=after, generations=generations)
        for before, after, generations in inputs["steps"]
    ]
    return {"dF": rates, "Ne": [effective_size_by_inbreeding_rate(rate) for rate in rates]}


def sizes_needed(inputs: Case) -> Case:
    kept = float(Fraction(inputs["retain"]))
    sizes = [effective_size_needed(kept=kept, generations=t) for t in inputs["t"]]
    return {"Ne": sizes, "Ne_ceil": [math.ceil(size) for size in sizes]}


def sizes_with_selfing(inputs: Case) -> Case:
    shares = [float(Fraction(selfed)) for selfed in inputs["s"]]
    return {"Ne": [effective_size_with_selfing(animals=inputs["N"], selfed=s) for s in shares]}


COMPUTE: dict[str, Callable[[Case], Case]] = {
    "backcross_share": backcross_share,
    "cross_shares": cross_shares,
    "founders": founders,
    "effective_ancestors": ancestors,
    "ne_sex": lambda inputs: {"Ne": sizes_by_sex(inputs)},
    "ne_sex_harmonic": lambda inputs: {"Ne": effective_size_over_generations(sizes_by_sex(inputs))},
    "ne_harmonic": lambda inputs: {
        "Ne": effective_size_over_generations(inputs["N"]),
        "arithmetic": sum(inputs["N"]) / len(inputs["N"]),
    },
    "ne_variance": lambda inputs: {
        "Ne": [
            effective_size_by_family_size(breeders=inputs["N"], variance=variance)
            for variance in inputs["Vk"]
        ]
    },
    "ne_from_F": sizes_by_inbreeding,
    "ne_needed": sizes_needed,
    "het_product": lambda inputs: {"Ht": heterozygosity_kept(inputs["Ne"])},
    "founder_het": lambda inputs: {"H": [founding_heterozygosity(n) for n in inputs["n"]]},
    "ne_selfing": sizes_with_selfing,
}


def test_founder_cases__are_all_there() -> None:
    families = [case["id"].split("-")[0] for case in CASES]

    assert {family: families.count(family) for family in families} == {"FND": 5, "NE": 11}


@pytest.mark.parametrize("case", [pytest.param(case, id=case["id"]) for case in CASES])
def test_founder_case__gives_the_expected_numbers(case: Case) -> None:
    computed = flat(COMPUTE[case["calc"]](case["inputs"]))

    for path, value in expected_numbers(case).items():
        assert float(computed[path]) == pytest.approx(value, abs=case["tolerance"], rel=0), path
    for path, value in exact_numbers(case).items():
        assert float(computed[path]) == pytest.approx(value, abs=1e-12, rel=0), path


@pytest.mark.parametrize(
    "case", [pytest.param(case, id=case["id"]) for case in CASES if "published" in case]
)
def test_founder_case__gives_the_printed_numbers(case: Case) -> None:
    computed = flat(COMPUTE[case["calc"]](case["inputs"]))

    for path, number in case["published"].items():
        half_a_digit = number.get("tol", 0.5 * 10.0 ** -number.get("places", 0))
        assert float(computed[path]) == pytest.approx(number["value"], abs=half_a_digit), path
