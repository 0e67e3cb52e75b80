"""Trait models with linkage, sex chromosomes, mortality and penetrance, all made up."""

from fractions import Fraction

import pytest

from filialog.genetics import (
    Condition,
    ConditionKind,
    LinkageGroup,
    Locus,
    LookRule,
    TraitModel,
    Viability,
    sex_system,
)

__all__ = [
    "APART",
    "COUPLED",
    "HAS",
    "HOM",
    "LACKS",
    "MODELS",
    "SEXED",
    "SEX_LOCUS",
    "XY",
    "linked",
    "locus",
    "when",
]

HAS, HOM, LACKS, SEX = (
    ConditionKind.HAS,
    ConditionKind.HOM,
    ConditionKind.LACKS,
    ConditionKind.SEX,
)
HALF = Fraction(1, 2)


def when(locus: str, kind: ConditionKind, *alleles: str) -> Condition:
    return Condition(locus=locus, kind=kind, alleles=alleles)


def linked(loci: str, dam: str, sire: str) -> LinkageGroup:
    return LinkageGroup(
        loci=tuple(loci.split()),
        dam_recombination=tuple(map(Fraction, dam.split())),
        sire_recombination=tuple(map(Fraction, sire.split())),
    )


def locus(name: str, *, absent_from: tuple[str, ...] = ()) -> Locus:
    return Locus(name=name, alleles=(name.upper(), name), absent_from=absent_from)


SEX_LOCUS, XY = sex_system("XY")
COUPLED = TraitModel(
    name="three linked, one apart, some die",
    loci=(locus("a"), locus("d"), locus("b"), locus("c")),
    looks=(
        LookRule(
            look="pale",
            conditions=(when("a", HOM, "a"),),
            others=(("dark", Fraction(1, 4)), ("dull", Fraction(1, 8))),
        ),
        LookRule(look="dull", conditions=(when("b", HOM, "b"), when("d", HAS, "D"))),
        LookRule(look="dark"),
    ),
    linkage=(linked("c a b", "1/10 1/2", "0 1/5"),),
    lethal=((when("d", HOM, "d"), when("c", HOM, "c")),),
    viability=(
        Viability(conditions=(when("b", HOM, "b"),), share=Fraction(2, 3)),
        Viability(conditions=(when("a", HOM, "a"),), share=HALF),
    ),
)
SEXED = TraitModel(
    name="X-linked, shared and autosomal",
    loci=(locus("p"), SEX_LOCUS, locus("w", absent_from=("Y",)), locus("m", absent_from=("Y",)),
          locus("t")),
    looks=(
        LookRule(look="male white", conditions=(when("sex", SEX, "male"), when("w", LACKS, "W"))),
        LookRule(look="male", conditions=(when("sex", SEX, "male"),)),
        LookRule(look="tailed", conditions=(when("t", HOM, "t"), when("m", HAS, "M"))),
        LookRule(look="female"),
    ),
    linkage=(linked("p sex w m", "1/10 1/5 1/3", "1/20 2/5 1/2"),),
    sex=XY,
    lethal=((when("m", LACKS, "M"), when("t", HOM, "t")),),
)  # fmt: skip
APART = TraitModel(
    name="two linked, one apart, nothing couples them",
    loci=(locus("a"), locus("b"), locus("c")),
    looks=(LookRule(look="pale", conditions=(when("a", HOM, "a"), when("c", HOM, "c"))),
           LookRule(look="dark")),
    linkage=(linked("a b", "1/10", "1/5"),),
    viability=(Viability(conditions=(when("b", HOM, "b"),), share=Fraction(1, 3)),),
    lethal=((when("c", HOM, "C"),),),
)  # fmt: skip
MODELS = [
    pytest.param(COUPLED, id="coupled"),
    pytest.param(SEXED, id="sexed"),
    pytest.param(APART, id="apart"),
]
