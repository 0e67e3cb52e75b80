"""Crosses against following every strand of every egg, and against a gene drop."""

import math
import random
from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise, product
from statistics import NormalDist

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.genetics import (
    ContradictionError,
    Genotype,
    GenotypeLaw,
    Parent,
    Sex,
    TraitModel,
    all_genotypes,
    brood_components,
    certain,
    cross,
    format_genotype,
    genotype_count,
    genotype_in_group,
    law_of,
    linkage_groups,
    living_genotypes,
    look_chances,
    look_shares,
    looks_of_model,
    parse_genotype,
    survival,
    transmission,
)
from tools.inheritance_models import (
    COUPLED,
    MODELS,
)

HALF = Fraction(1, 2)


# --- a second way: every egg, strand by strand ---------------------------------------------


def strands(
    genotype: Genotype, model: TraitModel, parent: Parent
) -> Iterator[tuple[tuple[str, ...], Fraction]]:
    """Return each way a gamete can follow the two strands of each group, one by one."""
    names = [one.name for one in model.loci]
    by_group = []
    for group in linkage_groups(model):
        places = [names.index(name) for name in group.loci]
        apart = list(group.dam_recombination if parent is Parent.DAM else group.sire_recombination)
        if "sex" in group.loci and len(set(genotype[names.index("sex")])) == 2:
            # X and Y exchange nothing from the sex locus as far as a locus that Y lacks.
            fixed = [
                n for n, place in enumerate(places)
                if names[place] == "sex" or set(genotype[place]) & {"X", "Y"}
            ]  # fmt: skip
            for stretch in range(min(fixed), max(fixed)):
                apart[stretch] = Fraction(0)
        ways = []
        for origin in product((0, 1), repeat=len(places)):
            chance = HALF
            for fraction, (one, other) in zip(apart, pairwise(origin), strict=True):
                chance *= fraction if one != other else 1 - fraction
            ways.append((places, origin, chance))
        by_group.append(ways)
    for drawn in product(*by_group):
        alleles = [""] * len(names)
        chance = Fraction(1)
        for places, origin, part in drawn:
            chance *= part
            for place, strand in zip(places, origin, strict=True):
                alleles[place] = genotype[place][strand]
        if chance:
            yield tuple(alleles), chance


def by_hand(
    dam: Genotype, sire: Genotype, model: TraitModel
) -> dict[tuple[tuple[str, ...], ...], Fraction]:
    """Return living and dead young by what each group's two chromosomes carry."""
    found: dict[tuple[tuple[str, ...], ...], Fraction] = {}
    names = [one.name for one in model.loci]
    for (egg, p), (sperm, q) in product(
        strands(dam, model, Parent.DAM), strands(sire, model, Parent.SIRE)
    ):
        key: list[tuple[str, ...]] = []
        for group in linkage_groups(model):
            places = [names.index(name) for name in group.loci]
            sides = sorted(tuple(gamete[place] for place in places) for gamete in (egg, sperm))
            key.extend(sides)
        found[tuple(key)] = found.get(tuple(key), Fraction(0)) + p * q
    return found


def as_key(genotype: Genotype, model: TraitModel) -> tuple[tuple[str, ...], ...]:
    names = [one.name for one in model.loci]
    key: list[tuple[str, ...]] = []
    for group in linkage_groups(model):
        places = [names.index(name) for name in group.loci]
        key.extend(sorted(tuple(genotype[p][side] for p in places) for side in (0, 1)))
    return tuple(key)


def laws_of(model: TraitModel, sex: Sex) -> st.SearchStrategy[GenotypeLaw]:
    living = living_genotypes(model, sex)
    chosen = st.lists(st.sampled_from(living), min_size=1, max_size=3, unique=True)
    return chosen.flatmap(
        lambda genotypes: st.lists(
            st.integers(1, 5), min_size=len(genotypes), max_size=len(genotypes)
        ).map(
            lambda weights: law_of(
                {g: Fraction(w, sum(weights)) for g, w in zip(genotypes, weights, strict=True)}
            )
        )
    )


@pytest.mark.parametrize("model", MODELS)
@given(data=st.data())
@settings(max_examples=15, deadline=None)
def test_cross__equals_following_every_strand(model: TraitModel, data: st.DataObject) -> None:
    dams = data.draw(laws_of(model, Sex.FEMALE))
    sires = data.draw(laws_of(model, Sex.MALE))
    expected: dict[tuple[tuple[str, ...], ...], Fraction] = {}
    alive = {as_key(g, model): survival(g, model) for g in all_genotypes(model)}
    fertile, dead = Fraction(0), Fraction(0)
    for (dam, p), (sire, q) in product(dams.probabilities, sires.probabilities):
        eggs = by_hand(dam, sire, model)
        living = {key: share * alive[key] for key, share in eggs.items()}
        total = sum(living.values(), Fraction(0))
        dead += p * q * (1 - total)
        if total:
            fertile += p * q
            for key, share in living.items():
                expected[key] = expected.get(key, Fraction(0)) + p * q * share / total
    if not fertile:
        with pytest.raises(ContradictionError):
            cross(dams, sires, model)
        return
    result = cross(dams, sires, model)

    assert {as_key(g, model): p for g, p in result.young.probabilities} == {
        key: share / fertile for key, share in expected.items() if share
    }
    assert result.dead_share == dead


@pytest.mark.parametrize("model", MODELS)
@given(data=st.data())
@settings(max_examples=15, deadline=None)
def test_brood_components__average_to_the_look_shares_of_the_cross(
    model: TraitModel, data: st.DataObject
) -> None:
    dams = data.draw(laws_of(model, Sex.FEMALE))
    sires = data.draw(laws_of(model, Sex.MALE))
    try:
        young = cross(dams, sires, model).young
    except ContradictionError:
        return
    components = brood_components(dams, sires, model)
    average = tuple(
        sum((weight * shares[n] for weight, shares in components), Fraction(0))
        for n in range(len(looks_of_model(model)))
    )

    assert average == tuple(share for _, share in look_shares(young, model))
    assert sum(weight for weight, _ in components) == 1


@pytest.mark.parametrize("model", MODELS)
@given(data=st.data())
@settings(max_examples=40, deadline=None)
def test_genotype__is_read_as_it_is_written(model: TraitModel, data: st.DataObject) -> None:
    genotype = data.draw(st.sampled_from(all_genotypes(model)))

    assert parse_genotype(format_genotype(genotype, model), model) == (genotype,)


@pytest.mark.parametrize("model", MODELS)
def test_genotypes__are_as_many_as_counted_and_all_different(model: TraitModel) -> None:
    found = all_genotypes(model)

    assert len(found) == len(set(found)) == genotype_count(model)
    assert len({as_key(genotype, model) for genotype in found}) == len(found)


# --- a gene drop ----------------------------------------------------------------------------


def drop(genotype: Genotype, model: TraitModel, parent: Parent, chance: random.Random) -> list[str]:
    """Return one gamete, drawn locus after locus."""
    names = [one.name for one in model.loci]
    alleles = [""] * len(names)
    for group in linkage_groups(model):
        places = [names.index(name) for name in group.loci]
        apart = group.dam_recombination if parent is Parent.DAM else group.sire_recombination
        unlike = [
            n for n, place in enumerate(places)
            if "sex" in group.loci and len(set(genotype[names.index("sex")])) == 2
            and (names[place] == "sex" or set(genotype[place]) & {"X", "Y"})
        ]  # fmt: skip
        strand = chance.randrange(2)
        for n, place in enumerate(places):
            if n and not (unlike and min(unlike) < n <= max(unlike)):
                strand ^= chance.random() < apart[n - 1]
            alleles[place] = genotype[place][strand]
    return alleles


@pytest.mark.parametrize("model", MODELS)
def test_cross__lies_in_the_band_of_a_gene_drop(model: TraitModel) -> None:
    chance = random.Random(model.name)
    pairs, draws = 5, 2_000
    dams, sires = living_genotypes(model, Sex.FEMALE), living_genotypes(model, Sex.MALE)
    looks = looks_of_model(model)
    # Bonferroni over every share of every pair: 99.9 % for the whole family of comparisons.
    z = -NormalDist().inv_cdf(0.0005 / (pairs * len(looks)))
    by_key = {as_key(g, model): g for g in all_genotypes(model)}
    for _ in range(pairs):
        dam, sire = chance.choice(dams), chance.choice(sires)
        seen: Counter[str] = Counter()
        for _ in range(draws):
            egg = drop(dam, model, Parent.DAM, chance)
            sperm = drop(sire, model, Parent.SIRE, chance)
            young = by_key[as_key(tuple(zip(egg, sperm, strict=True)), model)]
            if chance.random() < survival(young, model):
                names, weights = zip(*look_chances(young, model), strict=True)
                seen[chance.choices(names, [float(w) for w in weights])[0]] += 1
        ((_, shares),) = brood_components(certain(dam), certain(sire), model)
        number = sum(seen.values())
        for look, share in zip(looks, map(float, shares), strict=True):
            reach = z * math.sqrt(share * (1 - share) / number)
            assert abs(seen[look] / number - share) <= reach, look


# --- tables for whole journals --------------------------------------------------------------


@pytest.mark.parametrize("model", MODELS)
def test_transmission__is_the_cross_of_one_group(model: TraitModel) -> None:
    chance = random.Random(7)
    for number, group in enumerate(linkage_groups(model)):
        table = transmission(model, number)
        assert set(table.loci) == set(group.loci)
        assert all(sum(row) == 1 for row in (*table.eggs, *table.sperms))
        alone = TraitModel(
            name="alone",
            loci=tuple(one for one in model.loci if one.name in group.loci),
            looks=(),
            linkage=tuple(one for one in model.linkage if one == group),
            sex=model.sex if "sex" in group.loci else None,
        )
        for _ in range(20):
            dam, sire = chance.choices(range(len(table.genotypes)), k=2)
            young = cross(certain(table.genotypes[dam]), certain(table.genotypes[sire]), alone)
            found = {table.genotypes[g]: share for g, share in table.young(dam, sire).items()}
            assert found == dict(young.young.probabilities)


def test_transmission__refuses_a_group_that_is_not_there() -> None:
    with pytest.raises(DomainError, match="linkage group"):
        transmission(COUPLED, 2)


def test_genotype_in_group__is_its_part() -> None:
    (genotype,) = parse_genotype("A B C/a b c D/d", two_groups := COUPLED)

    assert genotype_in_group(genotype, two_groups, 0) == (("A", "a"), ("B", "b"), ("C", "c"))
    assert genotype_in_group(genotype, two_groups, 1) == (("D", "d"),)
