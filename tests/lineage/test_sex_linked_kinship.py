"""Kinship on the X or Z, by hand, by drawing alleles, and what is refused."""

from typing import Any, Literal

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.lineage import AnimalPedigree, sex_linked_kinship_matrix

Sex = Literal["female", "male"]

# mother, father, two daughters, two sons, then young of a daughter and a son of theirs
FAMILY = AnimalPedigree(dams=(None, None, 0, 0, 0, 0, 2, 2), sires=(None, None, 1, 1, 1, 1, 4, 4))
SEXES: tuple[Sex, ...] = ("female", "male", "female", "female", "male", "male", "female", "male")
MOTHER, FATHER, DAUGHTER, SISTER, SON, BROTHER, GRANDDAUGHTER, GRANDSON = range(8)


def x_linked(sexes: tuple[Sex | None, ...] = SEXES) -> Any:  # noqa: ANN401 - a matrix
    return sex_linked_kinship_matrix(FAMILY, sexes=sexes, system="XY")


def test_x_linked__a_father_gives_his_x_to_daughters_and_none_to_sons() -> None:
    relationship = 2 * x_linked()

    assert relationship[FATHER, DAUGHTER] == 1.0
    assert relationship[FATHER, SON] == 0.0
    assert relationship[MOTHER, DAUGHTER] == 0.5
    assert relationship[MOTHER, SON] == 1.0


def test_x_linked__sibs() -> None:
    kinship = x_linked()

    # Sisters share the father's X (1/4 of the draws) and half of the mother's (1/8).
    assert kinship[DAUGHTER, SISTER] == 0.375
    assert kinship[SON, BROTHER] == 0.5
    assert kinship[DAUGHTER, SON] == 0.25


def test_x_linked__with_itself() -> None:
    kinship = x_linked()

    assert kinship.diagonal()[[FATHER, SON, GRANDSON]].tolist() == [1.0, 1.0, 1.0]
    assert kinship[DAUGHTER, DAUGHTER] == 0.5
    # Her parents are daughter and son: F is their kinship, 1/4.
    assert kinship[GRANDDAUGHTER, GRANDDAUGHTER] == 0.625


def test_z_linked__is_x_linked_with_the_sexes_changed() -> None:
    changed: tuple[Sex, ...] = tuple("male" if sex == "female" else "female" for sex in SEXES)
    mirrored = AnimalPedigree(dams=FAMILY.sires, sires=FAMILY.dams)
    z_linked = sex_linked_kinship_matrix(mirrored, sexes=changed, system="ZW")

    assert (z_linked == x_linked()).all()


def test_unknown_sex__is_that_of_the_role_or_both_halves() -> None:
    as_parents = x_linked((None, None, None, "female", None, "male", "female", "male"))
    open_sex = x_linked((*SEXES[:-1], None))
    as_female = x_linked((*SEXES[:-1], "female"))

    assert (as_parents == x_linked()).all()
    assert open_sex == pytest.approx((x_linked() + as_female) / 2, abs=1e-15)


def test_unknown_parents__are_unrelated() -> None:
    pedigree = AnimalPedigree(dams=(None, None, 0), sires=(None, 0, None))
    sons: tuple[Sex, ...] = ("male", "male", "male")

    # The first animal cannot be sire and dam.
    with pytest.raises(DomainError, match="a dam is 'male'"):
        sex_linked_kinship_matrix(pedigree, sexes=sons, system="XY")
    fatherless = AnimalPedigree(dams=(None, 0, None), sires=(None, None, 1))
    kinship = sex_linked_kinship_matrix(fatherless, sexes=("female", "male", "female"), system="XY")
    assert kinship.tolist() == [[0.5, 0.5, 0.25], [0.5, 1.0, 0.5], [0.25, 0.5, 0.5]]


@st.composite
def sexed(draw: st.DrawFn) -> tuple[AnimalPedigree, tuple[Sex, ...]]:
    sexes: list[Sex] = []
    parents: tuple[list[int | None], list[int | None]] = ([], [])
    for _ in range(draw(st.integers(1, 6))):
        for side, wanted in zip(parents, ("female", "male"), strict=True):
            of_sex = [place for place, sex in enumerate(sexes) if sex == wanted]
            side.append(draw(st.sampled_from([None, *of_sex])))
        sexes.append(draw(st.sampled_from(["female", "male"])))
    return AnimalPedigree(dams=tuple(parents[0]), sires=tuple(parents[1])), tuple(sexes)


@given(sexed())
def test_x_linked__equals_what_all_ways_of_inheritance_give(
    family: tuple[AnimalPedigree, tuple[Sex, ...]],
) -> None:
    """Follow every way in which the alleles of two-allele parents can fall, alleles by name."""
    pedigree, sexes = family
    worlds: list[list[tuple[str, ...]]] = [[]]
    for place, sex in enumerate(sexes):
        dam, sire = pedigree.dams[place], pedigree.sires[place]
        grown = []
        for world in worlds:
            from_dam = (f"d{place}",) * 2 if dam is None else world[dam]
            from_sire = () if sex == "male" else (f"s{place}",) if sire is None else world[sire]
            grown += [[*world, (allele, *from_sire)] for allele in from_dam]
        worlds = grown
    expected = np.zeros((len(sexes), len(sexes)))
    for world in worlds:
        for i, first in enumerate(world):
            for j, second in enumerate(world):
                same = sum(a == b for a in first for b in second)
                expected[i, j] += same / len(first) / len(second) / len(worlds)

    found = sex_linked_kinship_matrix(pedigree, sexes=sexes, system="XY")

    assert found == pytest.approx(expected, abs=1e-12)


@pytest.mark.parametrize(
    ("sexes", "system"),
    [
        pytest.param(SEXES[:-1], "XY", id="a sex missing"),
        pytest.param(("male", *SEXES[1:]), "XY", id="a male dam"),
        pytest.param((SEXES[0], "female", *SEXES[2:]), "XY", id="a female sire"),
        pytest.param((*SEXES[:-1], "both"), "XY", id="another sex"),
        pytest.param(SEXES, "X0", id="another system"),
    ],
)
def test_sex_linked__refuses(sexes: tuple[Sex, ...], system: Literal["XY", "ZW"]) -> None:
    with pytest.raises(DomainError):
        sex_linked_kinship_matrix(FAMILY, sexes=sexes, system=system)


def test_sex_linked__an_animal_cannot_be_dam_and_sire() -> None:
    selfed = AnimalPedigree(dams=(None, 0), sires=(None, 0))

    with pytest.raises(DomainError, match="both"):
        sex_linked_kinship_matrix(selfed, sexes=(None, None), system="XY")


def test_sex_linked__of_no_animals() -> None:
    empty = AnimalPedigree(dams=(), sires=())

    assert sex_linked_kinship_matrix(empty, sexes=(), system="ZW").shape == (0, 0)
