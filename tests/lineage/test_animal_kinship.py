"""Single animals by hand, against exact fractions and against the groups' own computation."""

import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.lineage import (
    AnimalPedigree,
    animal_inbreeding,
    animal_kinship_matrix,
    animal_matings,
    fraternity,
    kinship_table,
    mean_kinship_of,
    mean_kinships_with,
    pedigree_of_animals,
    relationship_inverse,
)
from tools.pedigrees import Rows, animal_rows, animals, tabular_kinship

EMPTY = AnimalPedigree(dams=(), sires=())
SIBS = AnimalPedigree(dams=(None, None, 0, 0), sires=(None, None, 1, 1))


def of_rows(rows: Rows) -> AnimalPedigree:
    return pedigree_of_animals({name: (dam, sire) for name, sire, dam in rows})


def random_mating(count: int, *, founders: int, seed: int) -> AnimalPedigree:
    """Draw both parents of each animal from all before it."""
    draws = np.random.default_rng(seed)
    parents: tuple[list[int | None], list[int | None]] = ([None] * founders, [None] * founders)
    for place in range(founders, count):
        for side in parents:
            side.append(int(draws.integers(0, place)))
    return AnimalPedigree(dams=tuple(parents[0]), sires=tuple(parents[1]))


@given(animal_rows())
def test_kinship_matrix__equals_the_exact_table(rows: Rows) -> None:
    exact = tabular_kinship(rows)
    names = [name for name, _, _ in rows]
    expected = [[float(exact[a, b]) for b in names] for a in names]

    assert animal_kinship_matrix(of_rows(rows)) == pytest.approx(np.array(expected), abs=1e-15)


@given(animal_rows())
def test_kinship__of_single_animals_equals_that_of_pools_of_one(rows: Rows) -> None:
    pedigree, table = of_rows(rows), kinship_table(animals(rows))
    matrix, inbred = animal_kinship_matrix(pedigree), animal_inbreeding(pedigree)

    for place, name in enumerate(pedigree.names):
        assert inbred[place] == pytest.approx(table.inbreeding(name).high, abs=1e-12)
        row = [value.high for value in table.row(name).values()]
        assert row == pytest.approx(matrix[place].tolist(), abs=1e-12)


@given(animal_rows())
def test_kinship__does_not_ask_which_parent_is_the_dam(rows: Rows) -> None:
    one = of_rows(rows)
    other = AnimalPedigree(dams=one.sires, sires=one.dams, names=one.names)

    assert (animal_kinship_matrix(one) == animal_kinship_matrix(other)).all()
    assert animal_inbreeding(one) == pytest.approx(animal_inbreeding(other), abs=1e-15)


@pytest.mark.parametrize("count", [1, 63, 64, 65, 200])
def test_kinship_matrix__is_the_rule_applied_row_by_row(count: int) -> None:
    pedigree = random_mating(count, founders=min(count, 5), seed=count)
    expected = np.zeros((count + 1, count + 1))  # the last row stands for unknown
    for place in range(count):
        dam, sire = pedigree.dams[place], pedigree.sires[place]
        d, s = (-1 if parent is None else parent for parent in (dam, sire))
        row = (expected[d, :place] + expected[s, :place]) / 2
        expected[place, :place] = expected[:place, place] = row
        expected[place, place] = (1 + expected[d, s]) / 2

    matrix = animal_kinship_matrix(pedigree)

    assert matrix.shape == (count, count)
    assert (matrix == matrix.T).all()
    assert matrix == pytest.approx(expected[:-1, :-1], abs=1e-14)


@pytest.mark.parametrize("most", [6000, 0], ids=["by table", "by sweeps"])
def test_inbreeding__is_that_of_the_kinship_matrix(
    most: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(animal_matings, "MOST_BREEDERS_IN_TABLE", most)
    monkeypatch.setattr(animal_matings, "_NUMBERS_IN_BATCH", 1000)  # several batches each time
    pedigree = random_mating(400, founders=6, seed=5)
    expected = 2 * animal_kinship_matrix(pedigree).diagonal() - 1

    assert expected.max() > 0.2
    assert animal_inbreeding(pedigree) == pytest.approx(expected.tolist(), abs=1e-13)


def test_inbreeding__of_a_founder_whose_young_come_at_different_times() -> None:
    line = pedigree_of_animals(
        {
            "old": (None, None),
            "late": (None, None),
            "a": ("old", None),
            "b": ("a", "old"),
            "c": ("b", "late"),
            "d": ("c", "old"),
            "e": ("d", "late"),
        }
    )
    # b: kinship of a and old, 1/4. d: of c and old, half of that of b and old, 3/8.
    # e: of d and late, 1/2 of that of c and late, which is 1/4.
    assert animal_inbreeding(line) == (0.0, 0.0, 0.0, 0.25, 0.0, 0.1875, 0.125)


@pytest.mark.parametrize("most", [6000, 0], ids=["by table", "by sweeps"])
def test_inbreeding__of_degenerate_pedigrees(most: int, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(animal_matings, "MOST_BREEDERS_IN_TABLE", most)

    assert animal_inbreeding(EMPTY) == ()
    assert animal_inbreeding(AnimalPedigree(dams=(None,), sires=(None,))) == (0.0,)
    assert animal_inbreeding(AnimalPedigree(dams=(None,) * 3, sires=(None,) * 3)) == (0.0,) * 3
    selfed = AnimalPedigree(dams=(None, 0, 1), sires=(None, 0, 1))
    assert animal_inbreeding(selfed) == (0.0, 0.5, 0.75)
    half_known = AnimalPedigree(dams=(None, 0, 1, 2), sires=(None, None, None, 1))
    assert animal_inbreeding(half_known) == (0.0, 0.0, 0.0, 0.25)


def test_inbreeding__of_many_brood_mates_is_one_number() -> None:
    pedigree = AnimalPedigree(
        dams=(None, None, 0, 0, *[2] * 1000), sires=(None, None, 1, 1, *[3] * 1000)
    )

    assert animal_inbreeding(pedigree)[4:] == (0.25,) * 1000


def test_inbreeding__a_line_needs_no_table_of_all_its_breeders(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Each generation mates with a new founder: three animals are in use at the same time."""
    monkeypatch.setattr(animal_matings, "MOST_BREEDERS_IN_TABLE", 3)
    monkeypatch.delattr(animal_matings, "_by_sweeps")
    founders, young = [None] * 101, list(range(101, 200))
    pedigree = AnimalPedigree(dams=(*founders, 0, *young), sires=(*founders, 1, *range(2, 101)))

    assert animal_inbreeding(pedigree) == (0.0,) * 201


def test_results__are_plain_numbers() -> None:
    assert type(animal_inbreeding(SIBS)[3]) is float
    assert type(mean_kinship_of(SIBS)) is float
    assert type(mean_kinships_with(SIBS)[0]) is float
    assert type(fraternity(SIBS, animal_a=2, animal_b=3)) is float


def test_kinship_matrix__of_degenerate_pedigrees() -> None:
    assert animal_kinship_matrix(EMPTY).shape == (0, 0)
    assert animal_kinship_matrix(AnimalPedigree(dams=(None,), sires=(None,))).tolist() == [[0.5]]
    alone = AnimalPedigree(dams=(None,) * 3, sires=(None,) * 3)
    assert (animal_kinship_matrix(alone) == np.eye(3) / 2).all()


# --- means -----------------------------------------------------------------------------------


@given(animal_rows(), st.data())
def test_mean_kinship__is_the_weighted_mean_of_the_matrix(rows: Rows, data: st.DataObject) -> None:
    pedigree = of_rows(rows)
    drawn = data.draw(
        st.lists(st.integers(0, 9), min_size=len(rows), max_size=len(rows)).filter(any)
    )
    shares = np.array(drawn) / sum(drawn)
    rows_of_group = animal_kinship_matrix(pedigree) @ shares
    weights = {place: float(weight) for place, weight in enumerate(drawn)}

    assert mean_kinships_with(pedigree, weights=weights) == pytest.approx(
        rows_of_group.tolist(), abs=1e-13
    )
    assert mean_kinship_of(pedigree, weights=weights) == pytest.approx(
        float(shares @ rows_of_group), abs=1e-13
    )


def test_mean_kinship__of_all_animals_alike_by_default() -> None:
    pedigree = random_mating(150, founders=4, seed=1)
    matrix = animal_kinship_matrix(pedigree)

    assert mean_kinship_of(pedigree) == pytest.approx(float(matrix.mean()), abs=1e-13)
    assert mean_kinships_with(pedigree) == pytest.approx(matrix.mean(axis=0).tolist(), abs=1e-13)


def test_mean_kinship__of_one_animal_is_that_with_itself() -> None:
    selfed = AnimalPedigree(dams=(None, 0, 1), sires=(None, 0, 1))

    assert mean_kinship_of(selfed, weights={2: 7}) == 0.875  # F is 3/4


@pytest.mark.parametrize("ask", [mean_kinship_of, mean_kinships_with])
@pytest.mark.parametrize(
    ("weights", "quantity"),
    [
        pytest.param({}, "sum of the weights", id="no animals"),
        pytest.param({0: 0.0}, "sum of the weights", id="all zero"),
        pytest.param({0: math.nan}, "weight of an animal", id="not a number"),
        pytest.param({0: math.inf}, "weight of an animal", id="infinite"),
        pytest.param({0: 1e308, 1: 1e308}, "sum of the weights", id="infinite sum"),
        pytest.param({0: -1.0, 1: 2.0}, "weight of an animal", id="negative"),
        pytest.param({4: 1.0}, "place of an animal", id="no such place"),
        pytest.param({-1: 1.0}, "place of an animal", id="a place counted from the end"),
        pytest.param({0.0: 1.0}, "place of an animal", id="a place that is no whole number"),
    ],
)
def test_mean_kinship__refuses(
    ask: Callable[..., object], weights: dict[Any, float], quantity: str
) -> None:
    with pytest.raises(DomainError) as error:
        ask(SIBS, weights=weights)
    assert error.value.quantity == quantity


def test_mean_kinship__of_an_empty_pedigree_is_refused() -> None:
    with pytest.raises(DomainError):
        mean_kinship_of(EMPTY)


# --- inverse and fraternity --------------------------------------------------------------------


@given(animal_rows())
def test_relationship_inverse__times_the_relationships_is_one(rows: Rows) -> None:
    pedigree = of_rows(rows)
    product = relationship_inverse(pedigree) @ (2 * animal_kinship_matrix(pedigree))

    assert product == pytest.approx(np.eye(len(pedigree)), abs=1e-9)


def test_relationship_inverse__of_no_animals() -> None:
    assert relationship_inverse(EMPTY).shape == (0, 0)


def test_relationship_inverse__young_of_completely_inbred_animals_have_none() -> None:
    places = (None, *range(59))
    with pytest.raises(DomainError, match="completely inbred"):
        relationship_inverse(AnimalPedigree(dams=places, sires=places))


def test_fraternity__of_textbook_pairs() -> None:
    # Lynch & Walsh (1998) Table 7.1, from memory: full sibs 1/4, half sibs 0, double first
    # cousins 1/16, parent and young 0.
    line = pedigree_of_animals(
        {
            **dict.fromkeys("abcdx", (None, None)),
            "e": ("a", "b"),
            "f": ("a", "b"),
            "g": ("c", "d"),
            "h": ("c", "d"),
            "half": ("a", "x"),
            "k": ("e", "g"),
            "m": ("f", "h"),
            "turned": ("h", "f"),
        }
    )

    def between(one: str, other: str) -> float:
        return fraternity(line, animal_a=line.place(one), animal_b=line.place(other))

    assert between("e", "f") == 0.25
    assert between("e", "half") == 0.0
    assert between("k", "m") == between("m", "k") == 0.0625
    assert between("k", "turned") == 0.0625
    assert between("k", "e") == 0.0


@pytest.mark.parametrize("places", [(2, 4), (-1, 2)])
def test_fraternity__refuses_what_is_no_place(places: tuple[int, int]) -> None:
    with pytest.raises(DomainError):
        fraternity(SIBS, animal_a=places[0], animal_b=places[1])
