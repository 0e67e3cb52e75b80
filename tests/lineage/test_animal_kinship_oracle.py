"""Single animals against sgkit, a compiled library, on pedigrees drawn at random.

sgkit 0.10.0, `pedigree_kinship` and `pedigree_inbreeding` by the method "diploid" with half
founders allowed.
"""

from typing import Any

import numpy as np
import pytest

from filialog.lineage import (
    AnimalPedigree,
    animal_inbreeding,
    animal_kinship_matrix,
    animal_matings,
)
from tools.oracles import ask_oracle

_SEED = 20_261_125
_PEDIGREES = 300
_TOLERANCE = 1e-12


def random_pedigree(draws: np.random.Generator) -> AnimalPedigree:
    """Draw 2 to 80 animals; parents come from a window of earlier animals, so lines overlap."""
    count, window = int(draws.integers(2, 81)), int(draws.integers(1, 30))
    unknown, selfing = draws.choice([0.0, 0.05, 0.3]), draws.choice([0.0, 0.1, 0.4])
    parents: list[list[int | None]] = [[], []]
    for place in range(count):
        pair: list[int | None] = [None, None]
        for side in (0, 1):
            if place >= 2 and draws.random() >= unknown:
                pair[side] = int(draws.integers(max(0, place - window), place))
        if pair[0] is not None and draws.random() < selfing:
            pair[1] = pair[0]
        parents[0].append(pair[0])
        parents[1].append(pair[1])
    return AnimalPedigree(dams=tuple(parents[0]), sires=tuple(parents[1]))


@pytest.fixture(scope="module")
def pedigrees() -> list[AnimalPedigree]:
    draws = np.random.default_rng(_SEED)
    return [random_pedigree(draws) for _ in range(_PEDIGREES)]


@pytest.fixture(scope="module")
def answers(pedigrees: list[AnimalPedigree]) -> list[dict[str, Any]]:
    asked = [{"dams": one.dams, "sires": one.sires} for one in pedigrees]
    found: list[dict[str, Any]] = ask_oracle("sgkit_kinship.py", {"pedigrees": asked})
    return found


def test_random_pedigrees__are_of_every_kind(pedigrees: list[AnimalPedigree]) -> None:
    pairs = [pair for one in pedigrees for pair in zip(one.dams, one.sires, strict=True)]

    assert len(pedigrees) == _PEDIGREES
    assert sum(dam == sire and dam is not None for dam, sire in pairs) > 500
    assert sum((dam is None) != (sire is None) for dam, sire in pairs) > 500
    assert sum(max(animal_inbreeding(one)) > 0.25 for one in pedigrees) > 100


def test_kinship_matrix__agrees_with_sgkit(
    pedigrees: list[AnimalPedigree], answers: list[dict[str, Any]]
) -> None:
    worst = [
        np.abs(animal_kinship_matrix(one) - np.array(answer["kinship"])).max()
        for one, answer in zip(pedigrees, answers, strict=True)
    ]

    assert len(worst) == _PEDIGREES
    assert max(worst) <= _TOLERANCE


@pytest.mark.parametrize("most", [6000, 0], ids=["by table", "by sweeps"])
def test_inbreeding__agrees_with_sgkit(
    pedigrees: list[AnimalPedigree],
    answers: list[dict[str, Any]],
    most: int,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(animal_matings, "MOST_BREEDERS_IN_TABLE", most)
    worst: list[float] = []
    answered = 0
    for one, answer in zip(pedigrees, answers, strict=True):
        expected = answer["inbreeding"]
        if expected is None:  # sgkit gave up; its kinship of an animal with itself says it too
            expected = 2 * np.diag(np.array(answer["kinship"])) - 1
        else:
            answered += 1
        worst.append(float(np.abs(np.array(animal_inbreeding(one)) - expected).max()))

    assert answered >= 290
    assert len(worst) == _PEDIGREES
    assert max(worst) <= _TOLERANCE
