"""Single animals in order: what is accepted, what is refused, and how names are sorted."""

import random
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.lineage import AnimalPedigree, pedigree_of_animals
from tools.pedigrees import Rows, animal_rows


def test_pedigree__of_no_animals() -> None:
    assert len(AnimalPedigree(dams=(), sires=())) == 0
    assert pedigree_of_animals({}) == AnimalPedigree(dams=(), sires=())


def test_pedigree__one_known_parent_and_selfing_are_accepted() -> None:
    pedigree = AnimalPedigree(dams=(None, 0, None), sires=(None, 0, 1))

    assert (pedigree.dams, pedigree.sires) == ((None, 0, None), (None, 0, 1))


def test_pedigree__is_a_value() -> None:
    one = AnimalPedigree(dams=(None, 0), sires=(None, None), names=("a", "b"))
    same = AnimalPedigree(dams=(None, 0), sires=(None, None), names=("a", "b"))

    assert one == same
    assert hash(one) == hash(same)
    assert one != AnimalPedigree(dams=(None, None), sires=(None, 0), names=("a", "b"))


def test_pedigree__keeps_lists_as_tuples() -> None:
    given_lists: Any = {"dams": [None, 0], "sires": [None, None], "names": ["a", "b"]}

    assert AnimalPedigree(**given_lists) == AnimalPedigree(
        dams=(None, 0), sires=(None, None), names=("a", "b")
    )


@pytest.mark.parametrize("role", ["dams", "sires"])
@pytest.mark.parametrize(
    ("parents", "wrong"),
    [
        pytest.param((0,), 0, id="its own parent"),
        pytest.param((None, 2, None), 2, id="a later animal"),
        pytest.param((1, 0), 1, id="a loop of two"),
        pytest.param((None, 2), 2, id="no animal"),
        pytest.param((None, -1), -1, id="the number that stands for unknown elsewhere"),
        pytest.param((None, -2), -2, id="below all places"),
        pytest.param((None, 2**70), 2**70, id="larger than any count"),
        pytest.param((None, -(2**70)), -(2**70), id="smaller than any count"),
        pytest.param((None, 0.0), 0.0, id="a decimal number"),
        pytest.param((None, True), True, id="a truth value"),
        pytest.param((None, "0"), "0", id="a text"),
    ],
)
def test_pedigree__refuses_what_is_no_earlier_animal(
    role: str, parents: tuple[Any, ...], wrong: object
) -> None:
    other = "sires" if role == "dams" else "dams"
    fields: dict[str, Any] = {role: parents, other: (None,) * len(parents)}

    with pytest.raises(DomainError, match=role[:-1]) as error:
        AnimalPedigree(**fields)
    assert error.value.value == wrong
    assert type(error.value.value) is type(wrong)


@pytest.mark.parametrize(
    ("sires", "names", "what"),
    [
        pytest.param((None,), (), "number of sires", id="a sire missing"),
        pytest.param((None, None), ("a",), "number of names", id="a name missing"),
        pytest.param((None, None), ("a", "a"), "name of an animal", id="a name twice"),
    ],
)
def test_pedigree__refuses_fields_that_do_not_fit(
    sires: tuple[None, ...], names: tuple[str, ...], what: str
) -> None:
    with pytest.raises(DomainError) as error:
        AnimalPedigree(dams=(None, None), sires=sires, names=names)
    assert error.value.quantity == what


def test_place__finds_a_name_and_refuses_another() -> None:
    pedigree = pedigree_of_animals({"a": (None, None), "b": ("a", None)})

    assert pedigree.place("b") == 1
    with pytest.raises(DomainError):
        pedigree.place("c")


def test_pedigree_of_animals__keeps_an_order_that_fits() -> None:
    parents = {"b": (None, None), "a": (None, None), "y": ("b", "a"), "x": ("a", None)}
    pedigree = pedigree_of_animals(parents)

    assert pedigree.names == tuple(parents)
    assert pedigree.dams == (None, None, 0, 1)
    assert pedigree.sires == (None, None, 1, None)


def test_pedigree_of_animals__follows_a_line_deeper_than_any_stack() -> None:
    count = 5000
    parents = {
        str(number): (str(number + 1) if number + 1 < count else None, None)
        for number in range(count)
    }

    assert pedigree_of_animals(parents).names == tuple(str(n) for n in reversed(range(count)))


def test_pedigree_of_animals__refuses_a_parent_that_is_not_listed() -> None:
    with pytest.raises(DomainError, match="parent of young is 'nobody'"):
        pedigree_of_animals({"young": (None, "nobody")})


@pytest.mark.parametrize(
    ("parents", "loop"),
    [
        ({"a": ("a", None)}, ["a", "a"]),
        ({"a": ("b", None), "b": (None, "a")}, ["a", "b", "a"]),
        ({"y": ("c", "a"), "c": (None, None), "a": ("c", "b"), "b": ("a", "c")}, ["a", "b", "a"]),
    ],
)
def test_pedigree_of_animals__names_a_loop_from_young_to_parent(
    parents: dict[str, tuple[str | None, str | None]], loop: list[str]
) -> None:
    with pytest.raises(DomainError, match="line from young to parent") as error:
        pedigree_of_animals(parents)
    assert error.value.value == loop


@given(animal_rows(), st.randoms(use_true_random=False))
def test_pedigree_of_animals__puts_any_order_right(rows: Rows, shuffle: random.Random) -> None:
    mixed = list(rows)
    shuffle.shuffle(mixed)
    pedigree = pedigree_of_animals({name: (dam, sire) for name, sire, dam in mixed})

    names = [*pedigree.names, None]
    found = {
        name: (name, names[-1 if sire is None else sire], names[-1 if dam is None else dam])
        for name, dam, sire in zip(pedigree.names, pedigree.dams, pedigree.sires, strict=True)
    }
    assert found == {row[0]: tuple(row) for row in rows}
