"""The worked cases of tests/published/lineage/inbreeding.yaml, by the public functions."""

from collections.abc import Callable, Iterable, Sequence
from fractions import Fraction
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
import yaml

from filialog.lineage import (
    AnimalPedigree,
    Candidate,
    CandidateParents,
    animal_inbreeding,
    animal_kinship_matrix,
    expected_kinship_matrix,
    fraternity,
    pedigree_of_animals,
    relationship_inverse,
    sex_linked_kinship_matrix,
)

Case = dict[str, Any]


def read_cases() -> list[Case]:
    text = (Path(__file__).parent / "lineage" / "inbreeding.yaml").read_text(encoding="utf-8")
    data = yaml.load(text, Loader=yaml.CSafeLoader)  # noqa: TID251 - test data, not a journal
    cases: list[Case] = data["cases"]
    return cases


CASES = read_cases()


class Line:
    """Animals added one after the other, known by their places."""

    def __init__(self) -> None:
        self._parents: list[tuple[int | None, int | None]] = []

    def add(self, dam: int | None = None, sire: int | None = None) -> int:
        self._parents.append((dam, sire))
        return len(self._parents) - 1

    def inbreeding(self, animals: Iterable[int]) -> list[float]:
        dams, sires = zip(*self._parents, strict=True)
        found = animal_inbreeding(AnimalPedigree(dams=dams, sires=sires))
        return [found[animal] for animal in animals]


def full_sibs(generations: int) -> list[float]:
    line = Line()
    pair = line.add(), line.add()
    inbred = []
    for _ in range(generations + 1):
        pair = line.add(*pair), line.add(*pair)
        inbred.append(pair[0])
    return line.inbreeding(inbred[1:])


def half_sibs(generations: int) -> list[float]:
    line = Line()
    return line.inbreeding(one[1] for one in _half_sib_line(line, generations + 1)[1:])


def _half_sib_line(line: Line, generations: int) -> list[list[int]]:
    """Mate one male to his half-sisters; each generation needs one female more than the next."""
    animals = [line.add() for _ in range(generations + 3)]
    bred = []
    for _ in range(generations):
        male, *females = animals
        animals = [line.add(female, male) for female in females]
        bred.append(animals)
    return bred


def backcross(generations: int, *, selfed: int = 0) -> list[float]:
    """Mate each generation to one animal, which comes from that many generations of selfing."""
    line = Line()
    recurrent = line.add()
    for _ in range(selfed):
        recurrent = line.add(recurrent, recurrent)
    young = line.add(line.add(), recurrent)
    inbred = [young := line.add(young, recurrent) for _ in range(generations)]
    return line.inbreeding(inbred)


def selfing(generations: int) -> list[float]:
    line = Line()
    animal = line.add()
    return line.inbreeding([animal := line.add(animal, animal) for _ in range(generations)])


def cross_of_half_sib_lines(generations: int) -> list[float]:
    line = Line()
    dam, sire = (_half_sib_line(line, 5)[-1][0] for _ in range(2))
    assert min(line.inbreeding([dam, sire])) > 0.3
    assert generations == 1
    return line.inbreeding([line.add(dam, sire)])


def younger_parent(generations: int) -> list[float]:
    line = Line()
    older, younger = line.add(), line.add()
    inbred = []
    for _ in range(generations + 1):
        older, younger = younger, line.add(older, younger)
        inbred.append(younger)
    return line.inbreeding(inbred[1:])


def double_first_cousins(generations: int) -> list[float]:
    line = Line()
    couples = [(line.add(), line.add()), (line.add(), line.add())]
    inbred = []
    for _ in range(generations + 2):
        (first, first_sib), (second, second_sib) = (
            (line.add(*couple), line.add(*couple)) for couple in couples
        )
        couples = [(first, second), (first_sib, second_sib)]
        inbred.append(first)
    return line.inbreeding(inbred[2:])


SYSTEMS: dict[str, Callable[[int], list[float]]] = {
    "full_sib": full_sibs,
    "half_sib": half_sibs,
    "backcross_noninbred": backcross,
    "backcross_inbred": lambda generations: backcross(generations, selfed=60),
    "selfing": selfing,
    "outcross_reset": cross_of_half_sib_lines,
    "younger_parent": younger_parent,
    "double_first_cousin": double_first_cousins,
}


def regular_system(inputs: Case) -> Case:
    return {"F": SYSTEMS[inputs["system"]](inputs["generations"])}


def pedigree_of(rows: Sequence[tuple[str, str, str]]) -> AnimalPedigree:
    """Read rows of animal, sire, dam, where 0 is unknown."""
    known = {"0": None}
    return pedigree_of_animals(
        {name: (known.get(dam, dam), known.get(sire, sire)) for name, sire, dam in rows}
    )


def relationship_matrix(inputs: Case) -> Case:
    pedigree = pedigree_of(inputs["pedigree"])
    return {
        "ids": list(pedigree.names),
        "F": list(animal_inbreeding(pedigree)),
        "A": (2 * animal_kinship_matrix(pedigree)).tolist(),
        "A_inverse": relationship_inverse(pedigree).tolist(),
    }


def inbreeding_by_name(inputs: Case) -> Case:
    pedigree = pedigree_of(inputs["pedigree"])
    found = zip(pedigree.names, animal_inbreeding(pedigree), strict=True)
    return {f"F_{name}": value for name, value in found}


def autosomal_and_sex_linked(inputs: Case) -> Case:
    pedigree = pedigree_of(inputs["pedigree"])
    kinship = animal_kinship_matrix(pedigree).tolist()
    x_linked = sex_linked_kinship_matrix(
        pedigree,
        sexes=["male" if name in inputs["males"] else "female" for name in pedigree.names],
        system="XY",
    ).tolist()
    first, second = inputs["x_linked_pair"]
    computed = inbreeding_by_name(inputs)
    computed["fraternity"] = fraternity(
        pedigree, animal_a=pedigree.place(first), animal_b=pedigree.place(second)
    )
    for place_a, a in enumerate(pedigree.names):
        for place_b, b in enumerate(pedigree.names):
            computed[f"kin_{a}_{b}"] = kinship[place_a][place_b]
            computed[f"X_kinship_{a}_{b}"] = x_linked[place_a][place_b]
    return computed


def with_uncertain_parents(inputs: Case) -> Case:
    places = {name: place for place, (name, _, _) in enumerate(inputs["pedigree"])}

    def candidates(chances: dict[str, str]) -> tuple[Candidate, ...]:
        return tuple(
            Candidate(animal=places[name], chance=float(Fraction(chance)))
            for name, chance in chances.items()
        )

    matrix = expected_kinship_matrix(
        [
            CandidateParents(sires=candidates(sires), dams=candidates(dams))
            for _, sires, dams in inputs["pedigree"]
        ]
    )
    return {"ids": list(places), "A": (2 * matrix).tolist()}


def tank_of_random_mating(inputs: Case) -> Case:
    males, females = inputs["n_males"], inputs["n_females"]
    sires = [Candidate(animal=place, chance=1 / males) for place in range(males)]
    dams = [Candidate(animal=males + place, chance=1 / females) for place in range(females)]
    young = CandidateParents(dams=tuple(dams), sires=tuple(sires))
    first, second = males + females, males + females + 1
    of_both = CandidateParents(
        dams=(Candidate(animal=first, chance=1.0),), sires=(Candidate(animal=second, chance=1.0),)
    )
    founders = [CandidateParents()] * (males + females)
    matrix = expected_kinship_matrix([*founders, young, young, of_both])
    return {"mean_kinship_gen1": matrix[first, second], "F_gen2": 2 * matrix[-1, -1] - 1}


def partial_selfing(inputs: Case) -> Case:
    """Let each animal be selfed with a chance, or else mate with one from outside, for long."""
    found = []
    for share in inputs["s"]:
        animals = [CandidateParents()]
        for place in range(400):
            dam = Candidate(animal=place, chance=1.0)
            selfed = Candidate(animal=place, chance=float(Fraction(share)))
            animals.append(CandidateParents(dams=(dam,), sires=(selfed,)))
        found.append(2 * float(expected_kinship_matrix(animals)[-1, -1]) - 1)
    return {"F": found}


COMPUTE: dict[str, Callable[[Case], Case]] = {
    "regular_system": regular_system,
    "roan_gauntlet": autosomal_and_sex_linked,
    "pedigree_A": relationship_matrix,
    "selfing_equilibrium": partial_selfing,
    "inbred_ancestor": inbreeding_by_name,
    "average_A": with_uncertain_parents,
    "pool_kinship": tank_of_random_mating,
}


def flat(value: Any, path: str = "") -> dict[str, Any]:  # noqa: ANN401 - a tree of any shape
    """List the leaves of nested mappings and lists by dotted path."""
    if isinstance(value, dict):
        items = value.items()
    elif isinstance(value, list):
        items = dict(enumerate(value)).items()
    else:
        return {path: value}
    return {
        key: leaf
        for name, part in items
        for key, leaf in flat(part, f"{path}.{name}" if path else str(name)).items()
    }


@pytest.mark.parametrize("case", [pytest.param(case, id=case["id"]) for case in CASES])
def test_inbreeding_case__gives_every_expected_number(case: Case) -> None:
    computed = flat(COMPUTE[case["calc"]](case["inputs"]))
    expected = flat(case["expected"])

    assert expected
    for path, value in expected.items():
        if path.startswith("ids"):
            assert computed[path] == value
        else:
            assert computed[path] == pytest.approx(value, rel=0, abs=case["tolerance"]), path
    for path, value in flat(case.get("expected_exact", {})).items():
        exact = float(Fraction(value))
        assert computed[path] == pytest.approx(exact, rel=0, abs=case["tolerance"]), path


@pytest.mark.parametrize(
    "case", [pytest.param(case, id=case["id"]) for case in CASES if "published" in case]
)
def test_inbreeding_case__gives_the_printed_numbers(case: Case) -> None:
    computed = flat(COMPUTE[case["calc"]](case["inputs"]))

    for path, number in case["published"].items():
        # A value that ends in a 5 after the last printed digit may be printed either way.
        half_a_digit = number.get("tol", 0.5 * 10.0 ** -number.get("places", 0) + 1e-12)
        assert computed[path] == pytest.approx(number["value"], rel=0, abs=half_a_digit), path


def test_systems__mating_to_the_younger_parent_is_like_full_sib_mating() -> None:
    # Falconer & Mackay (1996) Table 5.1 gives one column for both (from memory).
    assert younger_parent(10) == full_sibs(10)


def test_systems__backcross_to_an_inbred_animal_halves_the_rest() -> None:
    # Wright (1921), Falconer & Mackay (1996) Table 5.1 (from memory): 1 - F halves each time.
    expected = [1 - 0.5**generation for generation in range(1, 9)]

    assert backcross(8, selfed=60) == pytest.approx(expected, abs=1e-12)


def test_systems__double_first_cousins_follow_wrights_recurrence() -> None:
    # Wright (1921), from memory: P' = P/2 + P"/4 + P"'/8, with P the share not yet inbred.
    left = [1 - f for f in double_first_cousins(10)]

    assert left[0] == 0.875
    for older, old, last, now in zip([1.0, 1.0, *left], [1.0, *left], left, left[1:], strict=False):
        assert now == pytest.approx(last / 2 + old / 4 + older / 8, abs=1e-12)
    assert all(b < a for a, b in pairwise(left))
