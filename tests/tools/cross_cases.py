"""Crosses as the worked cases write them: gametes of both parents by linkage group."""

from collections import Counter
from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from filialog.genetics import (
    Condition,
    ConditionKind,
    Genotype,
    GenotypeLaw,
    LinkageGroup,
    Locus,
    LookRule,
    SexSystem,
    TraitModel,
    certain,
    cross,
    look_shares,
    mixture,
    model_problems,
    parse_genotype,
    sex_system,
)

__all__ = ["cross_of_parents"]

Case = dict[str, Any]
ABSENT = "-"


class _Names:
    """Alleles by names that tell the locus, since a case may use one name at two loci."""

    def __init__(self, inputs: Case) -> None:
        found: dict[str, dict[str, None]] = {}
        for group in inputs["groups"]:
            for place, locus in enumerate(group["loci"]):
                found[locus] = {}
                for rule in inputs["phenotypes"]:
                    for wanted in rule.get("if", {}).get(locus, {}).values():
                        alleles = wanted if isinstance(wanted, list) else [wanted]
                        found[locus] |= dict.fromkeys(alleles)
                for gamete in (*_gametes(group, "mother"), *_gametes(group, "father")):
                    found[locus][gamete[place]] = None
                found[locus].pop(ABSENT, None)
        self.alleles = found
        self._loci_of = Counter(allele for alleles in found.values() for allele in alleles)

    def ours(self, locus: str, allele: str) -> str:
        return allele if self._loci_of[allele] == 1 else f"{locus}.{allele}"


def _gametes(group: Case, parent: str) -> list[list[str]]:
    return [
        gamete
        for entry in group[parent]
        for gamete in (entry["hap"] if isinstance(entry, dict) else [entry])
    ]


def _conditions(written: Mapping[str, Mapping[str, Any]], names: _Names) -> tuple[Condition, ...]:
    return tuple(
        Condition(
            locus=locus,
            kind=ConditionKind(kind),
            alleles=tuple(
                names.ours(locus, allele)
                for allele in (wanted if isinstance(wanted, list) else [wanted])
            ),
        )
        for locus, demand in written.items()
        for kind, wanted in demand.items()
    )


def _sex_locus(inputs: Case) -> str | None:
    """Return the locus of sex chromosomes of a case that has a locus some of them lack."""
    for group in inputs["groups"]:
        rows = [*_gametes(group, "mother"), *_gametes(group, "father")]
        if any(ABSENT in row for row in rows):
            return str(group["loci"][0])
    return None


def _locus(name: str, group: Case, names: _Names, sex_locus: str | None) -> Locus:
    alleles = tuple(names.ours(name, allele) for allele in names.alleles[name])
    if sex_locus is None or name == sex_locus or sex_locus not in group["loci"]:
        return Locus(name=name, alleles=alleles)
    place, sex_place = group["loci"].index(name), group["loci"].index(sex_locus)
    rows = [*_gametes(group, "mother"), *_gametes(group, "father")]
    lacking = dict.fromkeys(
        names.ours(sex_locus, row[sex_place]) for row in rows if row[place] == ABSENT
    )
    return Locus(name=name, alleles=alleles, absent_from=tuple(lacking))


def _system(names: _Names, sex_locus: str | None) -> SexSystem | None:
    if sex_locus is None:
        return None
    chromosomes = set(names.alleles[sex_locus])
    kind = "XY" if chromosomes <= {"X", "Y"} else "ZW" if chromosomes <= {"Z", "W"} else "WXY"
    system = sex_system(kind, locus=sex_locus)[1]
    female, usual = (
        tuple((names.ours(sex_locus, a), names.ours(sex_locus, b)) for a, b in pairs)
        for pairs in (system.female, system.usual)
    )
    return SexSystem(locus=sex_locus, female=female, usual=usual)


def _model(inputs: Case, names: _Names) -> TraitModel:
    sex_locus = _sex_locus(inputs)
    return TraitModel(
        name="case",
        loci=tuple(
            _locus(name, group, names, sex_locus)
            for group in inputs["groups"]
            for name in group["loci"]
        ),
        looks=tuple(
            LookRule(look=rule["name"], conditions=_conditions(rule.get("if", {}), names))
            for rule in inputs["phenotypes"]
        ),
        lethal=tuple(_conditions(written, names) for written in inputs.get("lethal", [])),
        linkage=tuple(
            LinkageGroup(
                loci=tuple(group["loci"]),
                dam_recombination=tuple(Fraction(r) for r in group["r_mother"]),
                sire_recombination=tuple(Fraction(r) for r in group["r_father"]),
            )
            for group in inputs["groups"]
            if len(group["loci"]) > 1
        ),
        sex=_system(names, sex_locus),
    )


def _written(group: Case, pair: list[list[str]], names: _Names, sex_locus: str | None) -> str:
    """Write two gametes as two whole chromosomes: `A b/a B`."""
    sides = []
    for gamete in pair:
        alleles = []
        for name, allele in zip(group["loci"], gamete, strict=True):
            if allele == ABSENT:
                assert sex_locus is not None
                sex = gamete[group["loci"].index(sex_locus)]
                alleles.append(names.ours(sex_locus, sex))
            else:
                alleles.append(names.ours(name, allele))
        sides.append(" ".join(alleles))
    return "/".join(sides)


def _parent_law(inputs: Case, parent: str, names: _Names, model: TraitModel) -> GenotypeLaw:
    written = [(Fraction(1), "")]
    for group in inputs["groups"]:
        entries = group[parent]
        if not isinstance(entries[0], dict):
            entries = [{"p": "1", "hap": entries}]
        written = [
            (
                weight * Fraction(entry["p"]),
                f"{text} {_written(group, entry['hap'], names, _sex_locus(inputs))}",
            )
            for weight, text in written
            for entry in entries
        ]
    parts = []
    for weight, text in written:
        (genotype,) = parse_genotype(text, model)
        parts.append((weight, certain(genotype)))
    return mixture(parts)


def _as_the_cases_write(genotype: Genotype, model: TraitModel) -> str:
    """Write a genotype by locus, alleles in alphabetical order, `-` for a missing copy."""
    loci = {locus.name: locus for locus in model.loci}
    written = []
    for name, pair in zip((one.name for one in model.loci), genotype, strict=True):
        seen = [
            ABSENT if allele in loci[name].absent_from else allele.removeprefix(f"{name}.")
            for allele in pair
        ]
        written.append("/".join(sorted(seen, key=lambda a: (a == ABSENT, a.lower(), a))))
    return " ".join(written)


def cross_of_parents(inputs: Case) -> Case:
    """Return the shares of looks and genotypes among the young, and how many die."""
    names = _Names(inputs)
    model = _model(inputs, names)
    # Where a case lists a look that its model cannot show, that is not our concern here.
    assert not [p for p in model_problems(model) if p.kind.value != "look not shown"]
    dam, sire = (_parent_law(inputs, one, names, model) for one in ("mother", "father"))
    result = cross(dam, sire, model)
    genotypes: dict[str, Fraction] = {}
    for genotype, probability in result.young.probabilities:
        text = _as_the_cases_write(genotype, model)
        genotypes[text] = genotypes.get(text, Fraction(0)) + probability
    return {
        "phenotypes": {
            look: share for look, share in look_shares(result.young, model) if share > 0
        },
        "genotypes": genotypes,
        "lethal_fraction_of_zygotes": result.dead_share,
    }
