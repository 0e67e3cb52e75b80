"""Linkage, sex chromosomes, penetrance, mortality and maternal effect, by hand."""

from fractions import Fraction
from time import perf_counter

import pytest

from filialog.domain_error import DomainError
from filialog.genetics import (
    ContradictionError,
    Genotype,
    GenotypeLaw,
    Locus,
    LookRule,
    Parent,
    Sex,
    ShownBy,
    TraitModel,
    Viability,
    all_genotypes,
    as_parent,
    brood_components,
    certain,
    condition_on_look,
    condition_on_sex,
    cross,
    format_genotype,
    gametes,
    law_of,
    living_genotypes,
    look_shares,
    mating_shares,
    mixture,
    parse_genotype,
    pool_law,
    sex_of,
)
from tools.inheritance_models import COUPLED, HAS, HOM, SEX_LOCUS, SEXED, XY, linked, locus, when

HALF = Fraction(1, 2)


def two(dam: str, sire: str | None = None) -> TraitModel:
    return TraitModel(
        name="two",
        loci=(locus("a"), locus("b")),
        looks=(LookRule(look="any"),),
        linkage=(linked("a b", dam, sire if sire is not None else dam),),
    )


def one(text: str, model: TraitModel) -> GenotypeLaw:
    (genotype,) = parse_genotype(text, model)
    return certain(genotype)


def test_recombination__of_one_half_is_no_linkage() -> None:
    tied, free = two("1/2"), TraitModel(name="free", loci=(locus("a"), locus("b")), looks=())
    young = cross(one("A B/a b", tied), one("A b/a B", tied), tied).young
    unlinked = cross(one("A/a B/b", free), one("A/a B/b", free), free).young
    merged: dict[Genotype, Fraction] = {}
    for genotype, share in young.probabilities:
        apart = tuple((min(pair), max(pair)) for pair in genotype)
        merged[apart] = merged.get(apart, Fraction(0)) + share

    assert law_of(merged) == unlinked


def test_recombination__of_zero_keeps_the_parents_chromosomes() -> None:
    tied = two("0")
    young = cross(one("A B/a b", tied), one("A B/a b", tied), tied).young

    assert [(format_genotype(g, tied), str(p)) for g, p in young.probabilities] == [
        ("A/A B/B", "1/4"),
        ("A B/a b", "1/2"),
        ("a/a b/b", "1/4"),
    ]


def test_recombination__may_differ_by_sex() -> None:
    model = two("1/10", "0")
    hybrid = one("A B/a b", model)

    assert len(gametes(hybrid, model, Parent.DAM)) == 4
    assert len(gametes(hybrid, model, Parent.SIRE)) == 2


def test_phase__is_kept_through_generations() -> None:
    model = two("1/10")
    coupling = cross(one("A/A B/B", model), one("a/a b/b", model), model).young
    repulsion = cross(one("A/A b/b", model), one("a/a B/B", model), model).young

    assert [format_genotype(g, model) for g in coupling.genotypes()] == ["A B/a b"]
    assert [format_genotype(g, model) for g in repulsion.genotypes()] == ["A b/a B"]


def test_phase__not_written_is_both_and_from_a_pool_half_and_half() -> None:
    model = two("1/10")
    both = parse_genotype("A/a B/b", model)
    law = pool_law(model, {"a": {"A": Fraction(1, 5), "a": Fraction(4, 5)}})

    assert [format_genotype(g, model) for g in both] == ["A B/a b", "A b/a B"]
    assert law.probability(both[0]) == law.probability(both[1])
    assert law.probability(both[0]) == 2 * Fraction(1, 5) * Fraction(4, 5) * Fraction(1, 4)


def test_pool__with_linked_loci_stays_as_it_is_under_random_mating() -> None:
    model = two("1/10", "3/10")
    law = pool_law(model, {"a": {"A": Fraction(1, 3), "a": Fraction(2, 3)}})

    assert cross(law, law, model).young == law


def test_pool__of_sex_linked_loci_stays_as_it_is_under_random_mating() -> None:
    model = TraitModel(
        name="x",
        loci=(SEX_LOCUS, locus("w", absent_from=("Y",))),
        looks=(LookRule(look="any"),),
        linkage=(linked("sex w", "0", "0"),),
        sex=XY,
    )
    law = pool_law(model, {"w": {"W": Fraction(3, 4), "w": Fraction(1, 4)}})
    dams, sires = (condition_on_sex(law, model, sex) for sex in (Sex.FEMALE, Sex.MALE))

    # Hardy-Weinberg for X: q² of the females and q of the males show the recessive.
    assert dams.probability((("X", "X"), ("w", "w"))) == Fraction(1, 16)
    assert sires.probability((("X", "Y"), ("w", "Y"))) == Fraction(1, 4)
    assert cross(dams, sires, model).young == law
    assert as_parent(law, model, Sex.FEMALE) == dams


def test_pool__refuses_frequencies_of_sex_chromosomes() -> None:
    with pytest.raises(DomainError, match="locus is 'sex'"):
        pool_law(SEXED, {"sex": {"X": Fraction(1)}})


def test_sex_reversed_parent__stays_what_it_is() -> None:
    model = TraitModel(name="sex", loci=(SEX_LOCUS,), looks=(), sex=XY)
    male = one("X/Y", model)
    reversed_dam = as_parent(male, model, Sex.FEMALE)
    young = cross(reversed_dam, male, model).young

    assert reversed_dam == male
    assert young.probability((("Y", "Y"),)) == Fraction(1, 4)
    assert sex_of((("Y", "Y"),), model) is Sex.MALE
    assert (("Y", "Y"),) not in living_genotypes(model)
    with pytest.raises(ContradictionError, match="sex"):
        condition_on_sex(male, model, Sex.FEMALE)


def test_sex_chromosomes__exchange_only_what_both_carry() -> None:
    # p is shared by X and Y, w and m are on X only: a sire passes X w m whole.
    sire = one("P w m/p Y Y t/t", SEXED)

    found = {" ".join(gamete): str(share) for gamete, share in gametes(sire, SEXED, Parent.SIRE)}
    assert found == {
        "P X w m t": "19/40", "p Y Y Y t": "19/40", "p X w m t": "1/40", "P Y Y Y t": "1/40",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("text", "written"),
    [
        pytest.param("w/Y", ["P/P w/Y M/Y t/t", "P/P w/Y m/Y t/t"], id="one copy"),
        pytest.param("W m/w M", ["P/P W m/w M t/t"], id="whole chromosomes of a female"),
    ],
)
def test_parse__of_sex_linked_loci(text: str, written: list[str]) -> None:
    found = [format_genotype(g, SEXED) for g in parse_genotype(f"{text} P/P t/t", SEXED)]

    if "Y" in text:
        assert found == written
    else:
        assert found == ["P W m/P w M t/t"]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        pytest.param("A/a B", "a pair of alleles", id="loose allele"),
        pytest.param("A B/a", "as many alleles", id="chromosomes of different length"),
        pytest.param("A D/a d", "one linkage group", id="not linked"),
        pytest.param("A B/a b B/b", "named once only", id="locus twice"),
        pytest.param("A B/a b c", "a pair of alleles", id="allele left over"),
    ],
)
def test_parse__refuses_chromosomes(text: str, message: str) -> None:
    with pytest.raises(DomainError, match=message):
        parse_genotype(text, COUPLED)


def test_parse__refuses_what_sex_chromosomes_do_not_allow() -> None:
    with pytest.raises(DomainError, match="sex chromosomes allow"):
        parse_genotype("X/X w/Y", SEXED)


def test_penetrance__conditions_by_likelihood() -> None:
    # A plain animal is a/a with 1/4 · 1/5 against 3/4: Bayes by hand.
    model = TraitModel(
        name="one",
        loci=(locus("a"),),
        looks=(
            LookRule(look="fancy", conditions=(when("a", HOM, "a"),),
                     others=(("plain", Fraction(1, 5)),)),
            LookRule(look="plain"),
        ),
    )  # fmt: skip
    f2 = cross(one("A/a", model), one("A/a", model), model).young

    assert look_shares(f2, model) == (("fancy", Fraction(1, 5)), ("plain", Fraction(4, 5)))
    plain = condition_on_look(f2, model, ["plain"])
    assert plain.probability((("a", "a"),)) == Fraction(1, 20) / Fraction(4, 5)


def test_viability__reweights_the_young_before_any_look() -> None:
    weak = Viability(conditions=(when("a", HOM, "a"),), share=HALF)
    model = TraitModel(
        name="weak",
        loci=(locus("a"),),
        looks=(LookRule(look="fancy", conditions=(when("a", HOM, "a"),)), LookRule(look="plain")),
        viability=(weak,),
    )
    result = cross(one("A/a", model), one("A/a", model), model)

    # 3 : 1/2 of four eggs, one half of an egg dead.
    assert dict(look_shares(result.young, model))["fancy"] == Fraction(1, 7)
    assert result.dead_share == Fraction(1, 8)


def test_cross__keeps_what_the_law_of_a_parent_says_of_two_loci_together() -> None:
    # All four combinations are possible, and A/A mostly comes with B/B.
    free = TraitModel(name="free", loci=(locus("a"), locus("b")), looks=(LookRule(look="any"),))
    tenths = {"A/A B/B": 4, "A/A b/b": 1, "a/a B/B": 1, "a/a b/b": 4}
    dam = mixture([(Fraction(n, 10), one(text, free)) for text, n in tenths.items()])
    young = cross(dam, one("a/a b/b", free), free).young

    assert {format_genotype(g, free): 10 * share for g, share in young.probabilities} == {
        "A/a B/b": 4, "A/a b/b": 1, "a/a B/b": 1, "a/a b/b": 4,
    }  # fmt: skip


def test_pool__holds_fewer_of_a_genotype_that_lives_badly() -> None:
    weak = Viability(conditions=(when("a", HOM, "a"),), share=HALF)
    model = TraitModel(
        name="weak", loci=(locus("a"),), looks=(LookRule(look="any"),), viability=(weak,)
    )

    # 1 : 2 : 1 less half of the last.
    assert pool_law(model).probability((("a", "a"),)) == Fraction(1, 7)


def test_shown_by_dam__leaves_out_pairs_without_living_young() -> None:
    model = TraitModel(
        name="coiling",
        loci=(locus("d"),),
        looks=(LookRule(look="right", conditions=(when("d", HAS, "D"),)), LookRule(look="left")),
        shown_by=ShownBy.DAM,
        lethal=((when("d", HAS, "D"),),),
    )
    dam = mixture([(HALF, certain((("D", "D"),))), (HALF, certain((("d", "d"),)))])

    assert brood_components(dam, certain((("d", "d"),)), model) == (
        (Fraction(1), (Fraction(0), Fraction(1))),
    )


def test_all_lethal__is_a_contradiction() -> None:
    model = TraitModel(name="none", loci=(locus("a"),), looks=(LookRule(look="any"),), lethal=((),))
    with pytest.raises(ContradictionError):
        pool_law(model)
    with pytest.raises(ContradictionError, match="A/a × A/a"):
        cross(certain((("A", "a"),)), certain((("A", "a"),)), model)


def test_one_allele__gives_one_genotype_and_one_look() -> None:
    model = TraitModel(
        name="one", loci=(Locus(name="a", alleles=("A",)),), looks=(LookRule(look="any"),)
    )
    pool = pool_law(model)

    assert pool == certain((("A", "A"),))
    assert cross(pool, pool, model).young == pool
    assert mating_shares(model)[0].shares == (Fraction(1),)


def test_no_locus__has_one_empty_genotype() -> None:
    model = TraitModel(name="none", loci=(), looks=(LookRule(look="any"),))

    assert all_genotypes(model) == ((),)
    assert cross(certain(()), certain(()), model).young == certain(())


def test_shown_by_dam__all_young_of_a_dam_show_her_look() -> None:
    model = TraitModel(
        name="coiling",
        loci=(locus("d"),),
        looks=(LookRule(look="right", conditions=(when("d", HAS, "D"),)), LookRule(look="left")),
        shown_by=ShownBy.DAM,
    )
    dam = mixture([(HALF, one("D/d", model)), (HALF, one("d/d", model))])

    assert brood_components(dam, one("d/d", model), model) == (
        (HALF, (Fraction(1), Fraction(0))),
        (HALF, (Fraction(0), Fraction(1))),
    )
    assert condition_on_look(dam, model, ["left"]) == one("d/d", model)
    # Whatever the sire: left young have a d/d dam, right young a D/d or D/D one.
    assert {mating.shares for mating in mating_shares(model)} == {
        (Fraction(1), Fraction(0)),
        (Fraction(0), Fraction(1)),
    }


def test_mating_shares__put_females_to_males() -> None:
    pairs = [pair for mating in mating_shares(SEXED) for pair in mating.pairs]

    assert pairs
    assert {sex_of(dam, SEXED) for dam, _ in pairs} == {Sex.FEMALE}
    assert {sex_of(sire, SEXED) for _, sire in pairs} == {Sex.MALE}


# --- speed ----------------------------------------------------------------------------------


def test_cross__of_two_dihybrids_and_of_four_linked_loci_is_quick() -> None:
    free = TraitModel(name="free", loci=(locus("a"), locus("b")), looks=(LookRule(look="any"),))
    four = TraitModel(
        name="four",
        loci=tuple(locus(name) for name in "abcd"),
        looks=(LookRule(look="any"),),
        linkage=(linked("a b c d", "1/10 1/5 1/4", "1/10 1/5 1/4"),),
    )
    hybrid, many = one("A/a B/b", free), one("A b C d/a B c D", four)
    cross(hybrid, hybrid, free)

    started = perf_counter()
    cross(hybrid, hybrid, free)
    assert perf_counter() - started < 0.02
    started = perf_counter()
    assert len(cross(many, many, four).young.probabilities) == 136
    assert perf_counter() - started < 0.5
