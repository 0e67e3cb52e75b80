"""Trait files: inheritance as a keeper writes it, and models that shipped files give."""

from fractions import Fraction

import pytest

from filialog.build import RealFiles
from filialog.build.shipped import read_shipped
from filialog.genetics import (
    Condition,
    ConditionKind,
    LinkageGroup,
    Sex,
    ShownBy,
    TraitModel,
    certain,
    condition_on_sex,
    cross,
    look_shares,
    parse_genotype,
    sex_of,
)
from filialog.reading import read_journal, trait_files
from filialog.reading.trait_files import TRAIT_KEYS

WHOLE = """\
name: own
says: all that can be written
source: made up
sex: ZW
loci:
  w: {alleles: [Q, q], chromosome: Z}
  a: {alleles: [A, a]}
  b: {alleles: [B, b]}
  c: {alleles: [C, c]}
linkage:
  - {loci: [a, b, c], recombination: {dam: [10 %, 1/6], sire: [0, 0.25]}}
looks:
  - {look: pale, when: {sex: female, w: lacks Q}, share: 3/4, otherwise: {dull: 15 %, dark: 0.1}}
  - {look: dull, when: {a: hom a, b: is B/b}}
  - {look: dark}
by: own
lethal: [{b: hom b, c: hom c}]
viability: [{when: {a: hom a}, share: 62.5 %}]
coarse: {plain: [dull, dark]}
"""


def model_of(path: str, text: str, name: str = "own") -> TraitModel:
    read = read_journal(
        {"journal.yaml": b"title: x\n", path: text.encode()},
        pictures=(),
        catalogue=read_shipped(RealFiles()).catalogue,
    )
    assert read.findings == ()
    assert read.journal is not None
    return read.journal.traits[name].model


def test_trait_file__with_every_key_is_read_exactly() -> None:
    model = model_of("traits/own.yaml", WHOLE)

    assert [locus.name for locus in model.loci] == ["sex", "w", "a", "b", "c"]
    assert model.loci[1].absent_from == ("W",)
    assert model.linkage == (
        LinkageGroup(
            loci=("a", "b", "c"),
            dam_recombination=(Fraction(1, 10), Fraction(1, 6)),
            sire_recombination=(Fraction(0), Fraction(1, 4)),
        ),
        LinkageGroup(
            loci=("sex", "w"),
            dam_recombination=(Fraction(0),),
            sire_recombination=(Fraction(0),),
        ),
    )
    assert model.looks[0].conditions == (
        Condition(locus="sex", kind=ConditionKind.SEX, alleles=("female",)),
        Condition(locus="w", kind=ConditionKind.LACKS, alleles=("Q",)),
    )
    assert model.looks[0].others == (("dull", Fraction(3, 20)), ("dark", Fraction(1, 10)))
    assert model.viability[0].share == Fraction(5, 8)
    assert model.shown_by is ShownBy.OWN
    (hen,) = parse_genotype("q/W A/A B/B C/C", model)
    assert sex_of(hen, model) is Sex.FEMALE


def test_trait_file__every_key_is_told_of_in_the_words_of_its_reader() -> None:
    for key in TRAIT_KEYS:
        assert f"`{key}" in (trait_files.__doc__ or ""), key


def test_trait_file__the_rest_of_a_share_shows_the_other_look() -> None:
    model = model_of(
        "traits/own.yaml",
        "loci: {g: {alleles: [G, g]}}\n"
        "looks:\n"
        "  - {look: pale, when: {g: hom g}, share: 80 %, otherwise: dark}\n"
        "  - {look: dark}\n"
        "by: dam\n",
    )

    assert model.looks[0].others == (("dark", Fraction(1, 5)),)
    assert model.shown_by is ShownBy.DAM


@pytest.mark.parametrize(
    ("dam", "sire", "daughters", "sons"),
    [
        # SEX-11 and SEX-12 of the worked cases: Aida (1921, 1936).
        pytest.param("X/X r/r", "X R/Y r", "orange-red", "white", id="R on the X"),
        pytest.param("X/X r/r", "X r/Y R", "white", "orange-red", id="R on the Y"),
    ],
)
def test_shipped_medaka_r__gives_the_criss_cross_of_its_source(
    dam: str, sire: str, daughters: str, sons: str
) -> None:
    model = model_of("lines/a.md", "---\ntraits: medaka-r\n---\n", "medaka-r")
    mother, father = (certain(parse_genotype(text, model)[0]) for text in (dam, sire))
    young = cross(mother, father, model).young

    for sex, look in ((Sex.FEMALE, daughters), (Sex.MALE, sons)):
        of_sex = condition_on_sex(young, model, sex)
        assert dict(look_shares(of_sex, model))[look] == 1
