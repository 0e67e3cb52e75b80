"""Crosses against enumeration by hand, textbook ratios, and their properties."""

import math
from collections.abc import Sequence
from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from filialog.genetics import (
    Condition,
    ConditionKind,
    ContradictionError,
    Genotype,
    GenotypeLaw,
    Locus,
    LookRule,
    Parent,
    TraitModel,
    brood_components,
    certain,
    condition_on_look,
    cross,
    format_genotype,
    gametes,
    is_lethal,
    law_of,
    living_genotypes,
    look_shares,
    looks_of_model,
    mating_shares,
    mixture,
    parse_genotype,
    pool_law,
    sure_look,
)
from filialog.statistics import exact_test

HAS, HOM = ConditionKind.HAS, ConditionKind.HOM


def when(locus: str, kind: ConditionKind, *alleles: str) -> Condition:
    return Condition(locus=locus, kind=kind, alleles=alleles)


GENE = Locus(name="gene", alleles=("A", "a"))
ONE = TraitModel(
    name="one",
    loci=(GENE,),
    looks=(LookRule(look="fancy", conditions=(when("gene", HOM, "a"),)), LookRule(look="plain")),
)
TWO = TraitModel(
    name="lethal and epistatic",
    loci=(Locus(name="yellow", alleles=("Y", "y")), Locus(name="coat", alleles=("C", "d", "c"))),
    looks=(
        LookRule(look="pale", conditions=(when("coat", HOM, "c"),)),
        LookRule(look="yellow", conditions=(when("yellow", HAS, "Y"),)),
        LookRule(look="dilute", conditions=(when("coat", HOM, "d"),)),
        LookRule(look="dark"),
    ),
    lethal=((when("yellow", HOM, "Y"),),),
)
LETHAL_HYBRID = TraitModel(
    name="hybrid dies",
    loci=(GENE,),
    looks=(LookRule(look="any"),),
    lethal=((Condition(locus="gene", kind=ConditionKind.IS, alleles=("A", "a")),),),
)


def genotype(text: str, model: TraitModel) -> Genotype:
    (found,) = parse_genotype(text, model)
    return found


def law(text: str, model: TraitModel = ONE) -> GenotypeLaw:
    return certain(genotype(text, model))


def laws_of(model: TraitModel) -> st.SearchStrategy[GenotypeLaw]:
    living = living_genotypes(model)
    weights = st.lists(st.integers(1, 5), min_size=1, max_size=4)
    chosen = st.lists(st.sampled_from(living), min_size=4, max_size=4, unique=True)
    return st.tuples(chosen, weights).map(
        lambda drawn: law_of(
            {g: Fraction(w, sum(drawn[1])) for g, w in zip(drawn[0], drawn[1], strict=False)}
        )
    )


def young_by_hand(dam: Genotype, sire: Genotype, model: TraitModel) -> dict[Genotype, Fraction]:
    """Second way: each of the 4 to the k equally likely eggs, one by one."""
    found: dict[Genotype, Fraction] = {}
    egg = Fraction(1, 4 ** len(dam))
    for which in product((0, 1), repeat=2 * len(dam)):
        young = []
        for place, locus in enumerate(model.loci):
            pair = (dam[place][which[2 * place]], sire[place][which[2 * place + 1]])
            first, second = sorted(pair, key=locus.alleles.index)
            young.append((first, second))
        found[tuple(young)] = found.get(tuple(young), Fraction(0)) + egg
    return found


@given(laws_of(TWO), laws_of(TWO))
@settings(max_examples=40)
def test_cross__equals_counting_egg_by_egg(dams: GenotypeLaw, sires: GenotypeLaw) -> None:
    expected: dict[Genotype, Fraction] = {}
    dead, fertile = Fraction(0), Fraction(0)
    for (dam, dam_p), (sire, sire_p) in product(dams.probabilities, sires.probabilities):
        eggs = young_by_hand(dam, sire, TWO)
        living = {g: p for g, p in eggs.items() if not is_lethal(g, TWO)}
        survive = sum(living.values(), Fraction(0))
        dead += dam_p * sire_p * (1 - survive)
        fertile += dam_p * sire_p
        for g, p in living.items():
            expected[g] = expected.get(g, Fraction(0)) + dam_p * sire_p * p / survive

    result = cross(dams, sires, TWO)
    assert fertile == 1
    assert dict(result.young.probabilities) == expected
    assert result.dead_share == dead


@given(laws_of(TWO), laws_of(TWO))
def test_cross__ignores_which_parent_is_the_dam(one: GenotypeLaw, other: GenotypeLaw) -> None:
    assert cross(one, other, TWO) == cross(other, one, TWO)
    assert brood_components(one, other, TWO) == brood_components(other, one, TWO)


@given(laws_of(TWO), laws_of(TWO))
def test_brood_components__average_to_the_look_shares_of_the_cross(
    dams: GenotypeLaw, sires: GenotypeLaw
) -> None:
    components = brood_components(dams, sires, TWO)
    average = tuple(
        sum((weight * shares[i] for weight, shares in components), Fraction(0)) for i in range(4)
    )

    assert average == tuple(share for _, share in look_shares(cross(dams, sires, TWO).young, TWO))
    assert sum(weight for weight, _ in components) == 1
    assert len({shares for _, shares in components}) == len(components)
    assert list(components) == sorted(components, reverse=True)


@given(st.integers(1, 9))
def test_cross__random_mating_keeps_hardy_weinberg(tenths: int) -> None:
    frequencies = {"gene": {"A": Fraction(tenths, 10), "a": Fraction(10 - tenths, 10)}}
    pool = pool_law(ONE, frequencies)

    assert cross(pool, pool, ONE).young == pool


def test_cross__f2_of_three_loci_has_27_genotypes() -> None:
    three = TraitModel(
        name="three",
        loci=(GENE, Locus(name="b", alleles=("B", "b")), Locus(name="c", alleles=("C", "c"))),
        looks=(LookRule(look="any"),),
    )
    hybrid = law("A/a B/b C/c", three)
    young = cross(hybrid, hybrid, three).young

    assert len(young.probabilities) == 27
    assert young.probability(genotype("A/a B/b C/c", three)) == Fraction(1, 8)
    assert young.probability(genotype("a/a b/b c/c", three)) == Fraction(1, 64)


def test_cross__lethal_counts_each_mating_by_its_probability() -> None:
    # Dam Y/y or y/y, sire Y/y: 2/3 yellow in one brood, 1/2 in the other, half each.
    half = Fraction(1, 2)
    dam = mixture([(half, law("Y/y C/C", TWO)), (half, law("y/y C/C", TWO))])
    result = cross(dam, law("Y/y C/C", TWO), TWO)

    yellow = dict(look_shares(result.young, TWO))["yellow"]
    assert yellow == half * Fraction(2, 3) + half * Fraction(1, 2)
    assert result.dead_share == half * Fraction(1, 4)


def test_cross__without_living_young_is_a_contradiction() -> None:
    with pytest.raises(ContradictionError, match="A/A × a/a"):
        cross(law("A/A"), law("a/a"), LETHAL_HYBRID)
    with pytest.raises(ContradictionError, match="A/A × a/a"):
        brood_components(law("A/A"), law("a/a"), LETHAL_HYBRID)


def test_cross__leaves_out_barren_pairs() -> None:
    third = Fraction(1, 3)
    sire = mixture([(third, law("A/A")), (1 - third, law("a/a"))])
    result = cross(law("A/A"), sire, LETHAL_HYBRID)

    assert result.young == law("A/A")
    assert result.dead_share == Fraction(2, 3)
    assert brood_components(law("A/A"), sire, LETHAL_HYBRID) == ((Fraction(1), (Fraction(1),)),)


def test_gametes__of_certain_and_uncertain_animals() -> None:
    half, quarter = Fraction(1, 2), Fraction(1, 4)

    assert gametes(law("Y/y d/c", TWO), TWO, Parent.DAM) == (
        (("Y", "c"), quarter), (("Y", "d"), quarter), (("y", "c"), quarter), (("y", "d"), quarter),
    )  # fmt: skip
    sire = mixture([(half, law("A/A")), (half, law("A/a"))])
    assert gametes(sire, ONE, Parent.SIRE) == ((("A",), Fraction(3, 4)), (("a",), quarter))


@given(laws_of(TWO))
def test_gametes__are_together_one(of: GenotypeLaw) -> None:
    assert sum(p for _, p in gametes(of, TWO, Parent.DAM)) == 1


def test_brood_components__of_two_sires_is_not_the_average() -> None:
    # Computed: 1/3 + 2/3 (1/2)^8 = 0.336 of such broods of 8 show none, not (2/3)^8 = 0.039.
    sire = mixture([(Fraction(1, 3), law("A/A")), (Fraction(2, 3), law("A/a"))])
    components = brood_components(law("a/a"), sire, ONE)

    half = Fraction(1, 2)
    assert components == (
        (Fraction(2, 3), (half, half)),
        (Fraction(1, 3), (Fraction(0), Fraction(1))),
    )
    fit = exact_test([0, 8], components)
    assert fit.observed_probability == pytest.approx(0.336, abs=0.0005)


def test_brood_components__agree_with_enumerating_every_parent() -> None:
    # Second way: P(3 fancy of 5) by summing over parents and over all 2^5 families.
    pool = condition_on_look(
        pool_law(ONE, {"gene": {"A": Fraction(4, 5), "a": Fraction(1, 5)}}), ONE, ["plain"]
    )
    by_parents = Fraction(0)
    for (dam, dam_p), (sire, sire_p) in product(pool.probabilities, pool.probabilities):
        eggs = young_by_hand(dam, sire, ONE)
        for family in product(eggs, repeat=5):
            if sum(sure_look(g, ONE) == "fancy" for g in family) == 3:
                by_parents += (
                    dam_p * sire_p * math.prod((eggs[g] for g in family), start=Fraction(1))
                )
    fit = exact_test([3, 2], brood_components(pool, pool, ONE))

    assert fit.observed_probability == pytest.approx(float(by_parents), rel=1e-12)


def named(pairs: Sequence[tuple[Genotype, Genotype]], model: TraitModel) -> set[str]:
    return {" × ".join(format_genotype(one, model) for one in pair) for pair in pairs}


def test_mating_shares__of_one_locus_by_hand() -> None:
    found = mating_shares(ONE)

    assert [tuple(map(str, mating.shares)) for mating in found] == [
        ("0", "1"),
        ("1/4", "3/4"),
        ("1/2", "1/2"),
        ("1", "0"),
    ]
    assert named(found[0].pairs, ONE) == {
        "A/A × A/A", "A/A × A/a", "A/A × a/a", "A/a × A/A", "a/a × A/A",
    }  # fmt: skip
    assert named(found[1].pairs, ONE) == {"A/a × A/a"}
    assert named(found[2].pairs, ONE) == {"A/a × a/a", "a/a × A/a"}
    assert named(found[3].pairs, ONE) == {"a/a × a/a"}


def test_mating_shares__lists_every_living_pair_once_with_the_shares_of_its_cross() -> None:
    found = mating_shares(TWO)
    pairs = [pair for mating in found for pair in mating.pairs]

    assert len(pairs) == len(set(pairs)) == len(living_genotypes(TWO)) ** 2
    assert len({mating.shares for mating in found}) == len(found)
    assert looks_of_model(TWO) == ("pale", "yellow", "dilute", "dark")
    for mating in found:
        dam, sire = mating.pairs[-1]
        young = cross(certain(dam), certain(sire), TWO).young
        assert mating.shares == tuple(share for _, share in look_shares(young, TWO))


def test_mating_shares__leaves_out_barren_pairs() -> None:
    (mating,) = mating_shares(LETHAL_HYBRID)

    assert named(mating.pairs, LETHAL_HYBRID) == {"A/A × A/A", "a/a × a/a"}
