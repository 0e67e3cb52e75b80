"""Candidates with chances: against every assignment of parents, one after the other."""

import itertools
import math
from collections.abc import Iterator

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.lineage import (
    AnimalPedigree,
    Candidate,
    CandidateParents,
    animal_kinship_matrix,
    expected_kinship_matrix,
)

FOUNDER = CandidateParents()


def one_of(**chances: float) -> tuple[Candidate, ...]:
    """Make candidates; `a3=0.5` is the animal at place 3 with the chance 1/2."""
    return tuple(Candidate(animal=int(a[1:]), chance=chance) for a, chance in chances.items())


def relationship(animals: list[CandidateParents], first: int, second: int) -> float:
    return 2 * float(expected_kinship_matrix(animals)[first, second])


def two_young(brood: str | None, other_brood: str | None) -> list[CandidateParents]:
    dam, sires = one_of(a0=1.0), one_of(a1=0.5, a2=0.5)
    return [
        *[FOUNDER] * 3,
        CandidateParents(dams=dam, sires=sires, brood=brood),
        CandidateParents(dams=dam, sires=sires, brood=other_brood),
    ]


def test_two_candidates__brood_mates_are_full_sibs_and_others_are_between() -> None:
    assert relationship(two_young("first", "first"), 3, 4) == 0.5
    assert relationship(two_young(None, None), 3, 4) == 0.375
    assert relationship(two_young("first", "second"), 3, 4) == 0.375
    assert relationship(two_young("first", "first"), 3, 1) == 0.25


def test_an_unknown_sire_of_one_brood__is_one_animal() -> None:
    dam = one_of(a0=1.0)
    mates = [FOUNDER, *[CandidateParents(dams=dam, brood="first")] * 2]
    apart = [FOUNDER, *[CandidateParents(dams=dam)] * 2]

    assert relationship(mates, 1, 2) == 0.5
    assert relationship(apart, 1, 2) == 0.25


def test_an_inbred_candidate__counts_with_its_kinship_to_itself() -> None:
    selfed = CandidateParents(dams=one_of(a0=1.0), sires=one_of(a0=1.0))
    brood = CandidateParents(sires=one_of(a1=1.0), brood="first")

    # Half sibs by a sire with F = 1/2 have kinship (1 + F)/8; they share the dam too: + 1/8.
    assert relationship([FOUNDER, selfed, brood, brood], 2, 3) == pytest.approx(0.625)


def test_no_animals() -> None:
    assert expected_kinship_matrix([]).shape == (0, 0)


@st.composite
def uncertain(draw: st.DrawFn) -> list[CandidateParents]:
    """Draw founders and young with up to two candidates a side, some of them brood mates."""
    animals = [FOUNDER] * draw(st.integers(1, 3))
    for _ in range(draw(st.integers(1, 4))):
        if draw(st.booleans()) and animals[-1].brood is not None:
            animals.append(animals[-1])
            continue
        sides = []
        for _ in range(2):
            places = draw(st.lists(st.integers(0, len(animals) - 1), unique=True, max_size=2))
            sides.append(
                tuple(Candidate(animal=place, chance=draw(st.sampled_from([0.25, 0.5])))
                for place in places)
            )  # fmt: skip
        brood = draw(st.sampled_from([None, f"brood {len(animals)}"]))
        animals.append(CandidateParents(dams=sides[0], sires=sides[1], brood=brood))
    return animals


def _assignments(
    animals: list[CandidateParents],
) -> Iterator[tuple[float, list[tuple[int | str, int | str]]]]:
    """List every way in which the draws can fall; an outsider is a name of its own."""
    draws = list(dict.fromkeys(a.brood or place for place, a in enumerate(animals)))
    parents = {a.brood or place: a for place, a in enumerate(animals)}
    options = []
    for number, key in enumerate(draws):
        sides = []
        for role, side in (("dam", parents[key].dams), ("sire", parents[key].sires)):
            some: list[tuple[float, int | str]] = [(c.chance, c.animal) for c in side]
            outside = 1.0 - sum(chance for chance, _ in some)
            sides.append([*some, (outside, f"{role} {number}")] if outside else some)
        options.append([(v * w, (d, s)) for v, d in sides[0] for w, s in sides[1]])
    assume(math.prod(map(len, options)) <= 3000)
    for chosen in itertools.product(*options):
        pairs = dict(zip(draws, (pair for _, pair in chosen), strict=True))
        chance = math.prod(chance for chance, _ in chosen)
        yield chance, [pairs[a.brood or place] for place, a in enumerate(animals)]


def _kinship(pairs: list[tuple[int | str, int | str]]) -> np.ndarray:
    outsiders = sorted({p for pair in pairs for p in pair if isinstance(p, str)})
    number = {name: place for place, name in enumerate(outsiders)}
    shift = len(outsiders)
    places = [tuple(number[p] if isinstance(p, str) else p + shift for p in pair) for pair in pairs]
    matrix = animal_kinship_matrix(
        AnimalPedigree(
            dams=(*[None] * shift, *[pair[0] for pair in places]),
            sires=(*[None] * shift, *[pair[1] for pair in places]),
        )
    )
    return matrix[shift:, shift:]


@given(uncertain())
def test_expected_kinship__is_the_mean_over_all_assignments(
    animals: list[CandidateParents],
) -> None:
    mean = np.zeros((len(animals), len(animals)))
    for chance, pairs in _assignments(animals):
        mean += chance * _kinship(pairs)

    assert expected_kinship_matrix(animals) == pytest.approx(mean, abs=1e-12)


@pytest.mark.parametrize(
    "wrong",
    [
        pytest.param(CandidateParents(dams=one_of(a1=1.0)), id="itself"),
        pytest.param(CandidateParents(sires=one_of(a2=1.0)), id="a later animal"),
        pytest.param(
            CandidateParents(sires=(Candidate(animal=-1, chance=1.0),)), id="from the end"
        ),
        pytest.param(CandidateParents(dams=one_of(a0=math.nan)), id="not a number"),
        pytest.param(CandidateParents(dams=one_of(a0=-0.1)), id="a negative chance"),
        pytest.param(CandidateParents(dams=one_of(a0=1.1)), id="more than certain"),
        pytest.param(CandidateParents(dams=(*one_of(a0=0.3), *one_of(a0=0.3))), id="twice"),
    ],
)
def test_candidates__refused(wrong: CandidateParents) -> None:
    with pytest.raises(DomainError):
        expected_kinship_matrix([FOUNDER, wrong, FOUNDER])


def test_candidates__chances_above_one_together_are_refused() -> None:
    wrong = CandidateParents(sires=one_of(a0=0.6, a1=0.6))

    with pytest.raises(DomainError, match="sum of chances"):
        expected_kinship_matrix([FOUNDER, FOUNDER, wrong])


def test_brood_mates__of_different_candidates_are_refused() -> None:
    one = CandidateParents(dams=one_of(a0=1.0), brood="first")
    other = CandidateParents(dams=one_of(a0=0.5), brood="first")

    with pytest.raises(DomainError, match="parents of animal 2"):
        expected_kinship_matrix([FOUNDER, one, other])
