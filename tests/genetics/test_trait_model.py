"""Looks, rule order, coarse classes, and the problems a model can have."""

from fractions import Fraction

import pytest

from filialog.domain_error import DomainError
from filialog.genetics import (
    MOST_GENOTYPES,
    CoarseLook,
    Condition,
    ConditionKind,
    LinkageGroup,
    Locus,
    LookRule,
    ProblemKind,
    TraitModel,
    Viability,
    all_genotypes,
    is_lethal,
    living_genotypes,
    look_chances,
    looks_in_class,
    looks_of_model,
    model_problems,
    sex_system,
    sure_look,
    survival,
)

EYE = Locus(name="eye", alleles=("A", "a"))
BODY = Locus(name="body", alleles=("B", "b"))
HAS, HOM, IS = ConditionKind.HAS, ConditionKind.HOM, ConditionKind.IS


def when(locus: str, kind: ConditionKind, *alleles: str) -> Condition:
    return Condition(locus=locus, kind=kind, alleles=alleles)


EPISTASIS = TraitModel(
    name="recessive epistasis",
    loci=(EYE, BODY),
    looks=(
        LookRule(look="pale", conditions=(when("eye", HOM, "a"),)),
        LookRule(look="brown", conditions=(when("body", HOM, "b"),)),
        LookRule(look="dark"),
    ),
    coarse=(CoarseLook(name="coloured", looks=("dark", "brown")),),
)


def kinds(model: TraitModel) -> list[ProblemKind]:
    return [problem.kind for problem in model_problems(model)]


def one_locus(*rules: LookRule, lethal: tuple[tuple[Condition, ...], ...] = ()) -> TraitModel:
    return TraitModel(name="one", loci=(EYE,), looks=rules, lethal=lethal)


def test_all_genotypes__come_in_declared_order() -> None:
    locus = Locus(name="scale", alleles=("z", "M", "a"))
    model = TraitModel(name="one", loci=(locus,), looks=())

    assert [pair for (pair,) in all_genotypes(model)] == [
        ("z", "z"), ("z", "M"), ("z", "a"), ("M", "M"), ("M", "a"), ("a", "a"),
    ]  # fmt: skip
    assert len(all_genotypes(EPISTASIS)) == 9


@pytest.mark.parametrize(
    ("condition", "fits"),
    [
        pytest.param(when("eye", HAS, "A"), [True, True, False], id="has"),
        pytest.param(when("eye", HOM, "A"), [True, False, False], id="hom"),
        pytest.param(when("eye", IS, "A", "a"), [False, True, False], id="is"),
        pytest.param(when("eye", IS, "a", "A"), [False, True, False], id="is, other order"),
        pytest.param(when("eye", IS, "a", "a"), [False, False, True], id="is, twice the same"),
    ],
)
def test_condition__fits_the_genotypes_it_names(condition: Condition, fits: list[bool]) -> None:
    model = one_locus(LookRule(look="yes", conditions=(condition,)), LookRule(look="no"))

    assert [sure_look(genotype, model) == "yes" for genotype in all_genotypes(model)] == fits


def test_look_chances__takes_the_first_rule_that_fits() -> None:
    both_recessive = (("a", "a"), ("b", "b"))

    assert sure_look(both_recessive, EPISTASIS) == "pale"
    assert sure_look((("A", "a"), ("b", "b")), EPISTASIS) == "brown"
    assert sure_look((("A", "a"), ("B", "b")), EPISTASIS) == "dark"


def test_look_chances__needs_all_conditions_of_a_rule() -> None:
    both = LookRule(look="both", conditions=(when("eye", HOM, "a"), when("body", HOM, "b")))
    model = TraitModel(name="two", loci=(EYE, BODY), looks=(both, LookRule(look="rest")))

    assert sure_look((("a", "a"), ("b", "b")), model) == "both"
    assert sure_look((("a", "a"), ("B", "b")), model) == "rest"


def test_look_chances__refuses_a_genotype_without_rule() -> None:
    model = one_locus(LookRule(look="pale", conditions=(when("eye", HOM, "a"),)))

    with pytest.raises(DomainError, match="'A/a'"):
        look_chances((("A", "a"),), model)


def test_looks_of_model__names_a_look_of_two_rules_once() -> None:
    model = one_locus(
        LookRule(look="pale", conditions=(when("eye", HOM, "a"),)),
        LookRule(look="dark", conditions=(when("eye", HOM, "A"),)),
        LookRule(look="pale"),
    )

    assert looks_of_model(model) == ("pale", "dark")
    assert model_problems(model) == ()


def test_looks_in_class__expands_coarse_classes() -> None:
    assert looks_in_class("coloured", EPISTASIS) == ("dark", "brown")
    assert looks_in_class("pale", EPISTASIS) == ("pale",)
    with pytest.raises(DomainError, match="one of pale, brown, dark, coloured"):
        looks_in_class("plain", EPISTASIS)


def test_lethal__needs_all_conditions_of_one_entry() -> None:
    lethal = ((when("eye", HOM, "A"), when("body", HOM, "B")), (when("body", HOM, "b"),))
    model = TraitModel(name="two", loci=(EYE, BODY), looks=(LookRule(look="any"),), lethal=lethal)

    assert is_lethal((("A", "A"), ("B", "B")), model)
    assert is_lethal((("a", "a"), ("b", "b")), model)
    assert not is_lethal((("A", "A"), ("B", "b")), model)
    assert len(living_genotypes(model)) == 9 - 3 - 1


def test_problems__none_in_a_sound_model() -> None:
    assert model_problems(EPISTASIS) == ()


def test_problems__look_that_nothing_shows() -> None:
    model = one_locus(LookRule(look="dark"), LookRule(look="pale"))
    (problem,) = model_problems(model)

    assert (problem.kind, problem.subject) == (ProblemKind.LOOK_NOT_SHOWN, "pale")
    assert problem.detail == "no living genotype shows `pale`"


def test_problems__look_of_lethal_genotypes_only() -> None:
    model = one_locus(
        LookRule(look="pale", conditions=(when("eye", HOM, "a"),)),
        LookRule(look="dark"),
        lethal=((when("eye", HOM, "a"),),),
    )

    assert kinds(model) == [ProblemKind.LOOK_NOT_SHOWN]


def test_problems__lethal_genotype_needs_no_look() -> None:
    model = one_locus(
        LookRule(look="dark", conditions=(when("eye", HAS, "A"),)),
        lethal=((when("eye", HOM, "a"),),),
    )

    assert model_problems(model) == ()


def test_problems__genotype_that_no_rule_fits() -> None:
    model = one_locus(LookRule(look="pale", conditions=(when("eye", HOM, "a"),)))

    assert [(p.kind, p.subject) for p in model_problems(model)] == [
        (ProblemKind.GENOTYPE_WITHOUT_LOOK, "A/A"),
        (ProblemKind.GENOTYPE_WITHOUT_LOOK, "A/a"),
    ]


def test_problems__everything_lethal() -> None:
    model = one_locus(LookRule(look="dark"), lethal=((),))

    assert kinds(model) == [ProblemKind.ALL_LETHAL]


def test_problems__unknown_names_in_rules_and_lethal() -> None:
    model = one_locus(
        LookRule(look="pale", conditions=(when("tail", HOM, "a"), when("eye", HAS, "X"))),
        LookRule(look="dark"),
        lethal=((when("fin", HOM, "f"),),),
    )

    assert [(p.kind, p.subject) for p in model_problems(model)] == [
        (ProblemKind.UNKNOWN_LOCUS, "tail"),
        (ProblemKind.UNKNOWN_ALLELE, "X"),
        (ProblemKind.UNKNOWN_LOCUS, "fin"),
    ]


@pytest.mark.parametrize(
    "condition", [when("eye", IS, "A"), when("eye", HOM, "A", "a"), when("eye", HAS)]
)
def test_problems__wrong_number_of_alleles(condition: Condition) -> None:
    model = one_locus(LookRule(look="pale", conditions=(condition,)), LookRule(look="dark"))

    assert kinds(model) == [ProblemKind.WRONG_ALLELE_COUNT]


def test_problems__duplicate_names() -> None:
    model = TraitModel(
        name="two",
        loci=(
            Locus(name="eye", alleles=("A", "a", "a")),
            Locus(name="eye", alleles=("B", "A")),
        ),
        looks=(LookRule(look="dark"),),
        coarse=(CoarseLook(name="dark", looks=("dark",)),),
    )

    assert [(p.kind, p.subject) for p in model_problems(model)] == [
        (ProblemKind.DUPLICATE_NAME, "eye"),
        (ProblemKind.DUPLICATE_NAME, "A"),
        (ProblemKind.DUPLICATE_NAME, "a"),
        (ProblemKind.DUPLICATE_NAME, "dark"),
    ]


@pytest.mark.parametrize("allele", ["", "-", "A/a", "A a", " A"])
def test_problems__allele_that_cannot_be_written(allele: str) -> None:
    model = TraitModel(
        name="one",
        loci=(Locus(name="eye", alleles=("B", allele)),),
        looks=(LookRule(look="dark"),),
    )

    assert kinds(model) == [ProblemKind.BAD_NAME]


def test_problems__no_locus_and_no_allele() -> None:
    nothing = TraitModel(name="none", loci=(), looks=(LookRule(look="dark"),))
    empty = TraitModel(
        name="none", loci=(Locus(name="eye", alleles=()),), looks=(LookRule(look="dark"),)
    )

    assert kinds(nothing) == [ProblemKind.NO_LOCUS]
    assert kinds(empty) == [ProblemKind.NO_ALLELE]


def test_problems__coarse_class_of_an_unknown_look() -> None:
    model = TraitModel(
        name="one",
        loci=(EYE,),
        looks=(LookRule(look="dark"),),
        coarse=(CoarseLook(name="plain", looks=("dark", "brown")),),
    )

    assert [(p.kind, p.subject) for p in model_problems(model)] == [
        (ProblemKind.UNKNOWN_LOOK, "brown")
    ]


# --- linkage, sex chromosomes, shares -------------------------------------------------------

SEX, XY = sex_system("XY")
TENTH = (Fraction(1, 10),)


def of_two(**more: object) -> TraitModel:
    given = {"name": "two", "loci": (EYE, BODY), "looks": (LookRule(look="any"),), **more}
    return TraitModel(**given)  # type: ignore[arg-type]


def group(*loci: str, dam: tuple[Fraction, ...] = TENTH) -> LinkageGroup:
    return LinkageGroup(loci=loci, dam_recombination=dam, sire_recombination=TENTH)


@pytest.mark.parametrize(
    ("model", "kind"),
    [
        pytest.param(of_two(linkage=(group("eye", "body"), group("body", "tail"))),
                     ProblemKind.LOCUS_IN_TWO_GROUPS, id="locus in two groups"),
        pytest.param(of_two(linkage=(group("eye", "eye"),)),
                     ProblemKind.LOCUS_IN_TWO_GROUPS, id="locus twice in a group"),
        pytest.param(of_two(linkage=(group("eye", "tail"),)),
                     ProblemKind.UNKNOWN_LOCUS, id="linked to an unknown locus"),
        pytest.param(of_two(linkage=(group("eye", "body", dam=(Fraction(3, 5),)),)),
                     ProblemKind.BAD_RECOMBINATION, id="above one half"),
        pytest.param(of_two(linkage=(group("eye", "body", dam=(Fraction(-1, 5),)),)),
                     ProblemKind.BAD_RECOMBINATION, id="below zero"),
        pytest.param(of_two(linkage=(group("eye", "body", dam=()),)),
                     ProblemKind.BAD_RECOMBINATION, id="none between two loci"),
        pytest.param(of_two(viability=(Viability(conditions=(), share=Fraction(2)),)),
                     ProblemKind.BAD_SHARE, id="more than all live"),
        pytest.param(of_two(looks=(LookRule(look="any", others=(("b", Fraction(2, 3)),
                                                                ("c", Fraction(2, 3)))),)),
                     ProblemKind.BAD_SHARE, id="shares above one"),
        pytest.param(of_two(looks=(LookRule(look="any", others=(("b", Fraction(-1, 3)),)),)),
                     ProblemKind.BAD_SHARE, id="share below zero"),
        pytest.param(of_two(looks=(LookRule(look="any",
                                            conditions=(when("sex", ConditionKind.SEX, "male"),)),
                                   LookRule(look="rest"))),
                     ProblemKind.UNKNOWN_SEX, id="sex asked without sex chromosomes"),
        pytest.param(of_two(loci=(SEX, EYE), sex=XY,
                            looks=(LookRule(look="any",
                                            conditions=(when("sex", ConditionKind.SEX, "both"),)),
                                   LookRule(look="rest"))),
                     ProblemKind.UNKNOWN_SEX, id="no sex of that name"),
        pytest.param(of_two(sex=XY), ProblemKind.UNKNOWN_LOCUS, id="no locus decides the sex"),
        pytest.param(of_two(loci=(EYE, Locus(name="x", alleles=("Q", "q"), absent_from=("Y",)))),
                     ProblemKind.UNKNOWN_CHROMOSOME, id="sex chromosome without system"),
        pytest.param(of_two(loci=(SEX, Locus(name="x", alleles=("Q", "q"), absent_from=("Y",))),
                            sex=XY),
                     ProblemKind.NOT_ON_SEX_CHROMOSOME, id="apart from the sex chromosomes"),
        pytest.param(of_two(loci=(Locus(name="eye", alleles=tuple(map(str, range(141)))),)),
                     ProblemKind.TOO_MANY_GENOTYPES, id="too many genotypes"),
    ],
)  # fmt: skip
def test_problems__of_inheritance(model: TraitModel, kind: ProblemKind) -> None:
    assert kind in kinds(model)


def test_problems__a_model_at_the_limit_is_computed() -> None:
    # 140 alleles give 9,870 genotypes.
    locus = Locus(name="eye", alleles=tuple(map(str, range(140))))

    assert model_problems(of_two(loci=(locus,))) == ()
    assert MOST_GENOTYPES == 10_000


def test_problems__look_of_sex_reversed_animals_only_is_not_shown() -> None:
    # Y/Y comes of a sex-reversed dam only.
    rules = (
        LookRule(look="rare", conditions=(when("sex", HOM, "Y"),)),
        LookRule(look="any"),
    )

    assert kinds(of_two(loci=(SEX,), sex=XY, looks=rules)) == [ProblemKind.LOOK_NOT_SHOWN]


def test_viability__shares_of_several_entries_multiply_and_lethal_is_none() -> None:
    half, third = Fraction(1, 2), Fraction(1, 3)
    model = of_two(
        viability=(
            Viability(conditions=(when("eye", HOM, "a"),), share=half),
            Viability(conditions=(when("body", HOM, "b"),), share=third),
        ),
        lethal=((when("body", HOM, "B"),),),
    )

    assert survival((("a", "a"), ("b", "b")), model) == Fraction(1, 6)
    assert survival((("a", "a"), ("B", "B")), model) == 0
    assert survival((("A", "a"), ("B", "b")), model) == 1


def test_look_chances__of_looks_that_come_together() -> None:
    rule = LookRule(
        look="pale", others=(("dark", Fraction(1, 4)), ("pale", Fraction(1, 4)), ("x", Fraction(0)))
    )
    model = of_two(looks=(rule,))
    genotype = all_genotypes(model)[0]

    assert look_chances(genotype, model) == (("pale", Fraction(3, 4)), ("dark", Fraction(1, 4)))
    assert sure_look(genotype, model) is None
    assert looks_of_model(model) == ("pale", "dark", "x")


def test_sex_system__refuses_an_unknown_one() -> None:
    with pytest.raises(DomainError, match="one of XY, ZW, WXY"):
        sex_system("X0")
