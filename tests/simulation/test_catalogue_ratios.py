"""Each shipped trait model gives its textbook ratio when the square is drawn cell by cell."""

from collections import Counter
from itertools import product
from pathlib import Path
from typing import Any

import pytest
import yaml

CATALOGUE = Path(__file__).parents[2] / "content"

RATIOS = {
    # Second-generation ratios of genetics textbooks, from memory; each is drawn anew here.
    "one-locus-recessive": {"plain": 3, "fancy": 1},
    "incomplete-dominance": {"deep": 1, "middling": 2, "faint": 1},
    "two-loci-9-7": {"coloured": 9, "colourless": 7},
    "two-loci-9-3-4": {"dark": 9, "brown": 3, "pale": 4},
    "two-loci-12-3-1": {"covered": 12, "bright": 3, "dull": 1},
    "two-loci-13-3": {"coloured": 3, "colourless": 13},
    "two-loci-15-1": {"plain": 15, "fancy": 1},
    "two-loci-9-6-1": {"whole": 9, "half": 6, "none": 1},
    # Goodrich et al. 1944 (citation from memory).
    "guppy-blond-gold": {"grey": 9, "blond": 3, "gold": 3, "cream": 1},
    # Chen 1934 (citation from memory): 4325 to 1383, near 3 to 1.
    "goldfish-blue": {"not-blue": 3, "blue": 1},
}

PROVENANCES = (
    "abstract read",
    "secondary",
    "computed",
    "common practice, no source",
    "from memory",
)


def read(path: Path) -> dict[str, Any]:
    # The product's own reader is under test elsewhere; a second reader keeps this check apart.
    text = path.read_text(encoding="utf-8")
    model = yaml.load(text, Loader=yaml.CSafeLoader)  # noqa: TID251 - see the line above
    assert isinstance(model, dict)
    return model


def fits(pair: tuple[str, str], condition: str) -> bool:
    word, allele = condition.split()
    if word == "is":
        return sorted(pair) == sorted(allele.split("/"))
    return (allele in pair) if word == "has" else pair == (allele, allele)


def look_of(model: dict[str, Any], genotype: dict[str, tuple[str, str]]) -> str:
    for rule in model["looks"]:
        if all(fits(genotype[locus], wanted) for locus, wanted in rule.get("when", {}).items()):
            return str(rule["look"])
    raise AssertionError(genotype)


def intercross(model: dict[str, Any]) -> Counter[str]:
    """Cross two animals that are heterozygous everywhere, with unlinked loci."""
    alleles = {locus: said["alleles"] for locus, said in model["loci"].items()}
    gametes = list(product(*((pair[0], pair[-1]) for pair in alleles.values())))
    return Counter(
        look_of(model, dict(zip(alleles, zip(egg, sperm, strict=True), strict=True)))
        for egg, sperm in product(gametes, repeat=2)
    )


@pytest.mark.parametrize("name", sorted(RATIOS))
def test_model__gives_its_ratio(name: str) -> None:
    assert intercross(read(CATALOGUE / "traits" / f"{name}.yaml")) == RATIOS[name]


@pytest.mark.parametrize(
    ("name", "order"),
    [
        ("three-alleles", ["full", "mask", "bare"]),
        # Aida 1921, restated in Yamamoto 1955: B over B' over b.
        ("medaka-b", ["wild", "variegated", "pale"]),
    ],
)
def test_series__shows_the_highest_allele(name: str, order: list[str]) -> None:
    model = read(CATALOGUE / "traits" / f"{name}.yaml")
    ((locus, said),) = model["loci"].items()

    for high, low in ((0, 0), (0, 1), (0, 2), (1, 1), (1, 2), (2, 2)):
        pair = (said["alleles"][low], said["alleles"][high])
        assert look_of(model, {locus: pair}) == order[high]


def test_models__say_what_they_rest_on() -> None:
    paths = sorted((CATALOGUE / "traits").glob("*.yaml"))

    assert {path.stem for path in paths} == {*RATIOS, "three-alleles", "medaka-b", "medaka-r"}
    for path in paths:
        model = read(path)
        assert model["name"] == path.stem
        inheritance = {"sex", "linkage"} if path.stem == "medaka-r" else set()
        assert inheritance <= set(model)
        assert [key for key in model if key not in inheritance] == [
            "name", "says", "loci", "looks", "lethal", "coarse", "source",
        ]  # fmt: skip
        assert all(rule["says"] for rule in model["looks"])
        assert len(model["source"]) > 20


@pytest.mark.parametrize("name", ["caridina-mariae", "neocaridina-davidi"])
def test_species__every_value_says_where_it_comes_from(name: str) -> None:
    species = read(CATALOGUE / "species" / f"{name}.yaml")
    targets = species.pop("targets")
    values = {key: said for key, said in species.items() if isinstance(said, dict)}

    assert {"earliest-maturity", "adult", "incubation", "brood-size"} <= values.keys()
    for key, said in {**values, **targets}.items():
        assert {"unit", "source", "provenance"} <= said.keys(), key
        assert said["provenance"].startswith(PROVENANCES), key
        if "low" in said:
            assert 0 < said["low"] < said["high"], key
        else:
            assert said.get("value", said.get("high")) > 0, key


def test_davidi__incubation_agrees_with_its_temperature_sum() -> None:
    species = read(CATALOGUE / "species" / "neocaridina-davidi.yaml")
    base, total = (
        species[key]["value"] for key in ("incubation-base-temperature", "incubation-sum")
    )

    # Published points: 24 °C 21 d and 32 °C 12 d (secondary), 27 °C 15 d (Nur & Christianus 2013).
    for temperature_c, days in ((24, 21), (27, 15), (32, 12)):
        assert total / (temperature_c - base) == pytest.approx(days, abs=1.0)
    assert round(total / (20 - base)) == species["incubation"]["high"]
