import itertools
import math

import numpy as np
import pytest
from hypothesis import given, settings

from filialog.domain_error import DomainError
from filialog.lineage import (
    AnimalPedigree,
    effective_founders,
    founder_contributions,
    founder_genome_equivalents,
    founder_genome_equivalents_by_kinship,
    mean_kinship_of,
)
from tools.random_animals import Living, animals_with_living

Founder = tuple[int, bool]


def founder_and_young(young: int) -> AnimalPedigree:
    """A pair with so many young."""
    return AnimalPedigree(dams=(None, None, *[0] * young), sires=(None, None, *[1] * young))


def closed_line(generations: int, breeders: int) -> tuple[AnimalPedigree, list[int]]:
    """A line of equal generations, each mated round in a circle."""
    dams: list[int | None] = [None] * breeders
    sires: list[int | None] = [None] * breeders
    for generation in range(1, generations):
        start = (generation - 1) * breeders
        for place in range(breeders):
            dams.append(start + place)
            sires.append(start + (place + generation) % breeders)
    return AnimalPedigree(dams=tuple(dams), sires=tuple(sires)), list(
        range((generations - 1) * breeders, generations * breeders)
    )


def enumerated_retention(pedigree: AnimalPedigree, living: list[int]) -> dict[Founder, float]:
    """Go through every outcome of every transmission."""
    parents = list(zip(pedigree.dams, pedigree.sires, strict=True))
    meioses = sum(parent is not None for pair in parents for parent in pair)
    kept: dict[Founder, int] = {}
    for outcome in itertools.product((0, 1), repeat=meioses):
        sides = iter(outcome)
        genes: list[list[tuple[Founder, int]]] = []
        for animal, pair in enumerate(parents):
            if pair == (None, None):
                genes.append([((animal, True), 0), ((animal, True), 1)])
            else:
                genes.append([
                    ((animal, False), 0) if parent is None else genes[parent][next(sides)]
                    for parent in pair
                ])  # fmt: skip
        for founder, _ in {gene for animal in living for gene in genes[animal]}:
            kept[founder] = kept.get(founder, 0) + 1
    return {founder: count / 2.0 / 2**meioses for founder, count in kept.items()}


@settings(deadline=None, max_examples=60)
@given(animals_with_living(most=7, most_young=4))
def test_retention__equals_the_count_over_every_outcome(drawn: Living) -> None:
    exact = founder_genome_equivalents(*drawn)

    assert exact.drops == 0
    assert {
        (one.founder.animal, one.founder.recorded): one.retention for one in exact.founders
    } == pytest.approx(enumerated_retention(*drawn), abs=1e-12)


@given(animals_with_living())
def test_equivalents__lie_between_those_by_kinship_and_the_effective_founders(
    drawn: Living,
) -> None:
    pedigree, living = drawn
    by_retention = founder_genome_equivalents(pedigree, living).number
    kinship = mean_kinship_of(pedigree, weights=dict.fromkeys(living, 1.0))
    shares = [one.share for one in founder_contributions(pedigree, living)]

    assert founder_genome_equivalents_by_kinship(kinship) <= by_retention + 1e-9
    assert by_retention <= effective_founders(shares) + 1e-9


@pytest.mark.parametrize("young", [1, 2, 3, 10])
def test_retention__of_a_pair_grows_with_its_young(young: int) -> None:
    found = founder_genome_equivalents(founder_and_young(young), list(range(2, 2 + young)))

    assert [one.retention for one in found.founders] == [1.0 - 0.5**young] * 2
    assert found.number == pytest.approx(2.0 * (1.0 - 0.5**young))


def test_retention__of_a_living_founder_is_whole() -> None:
    found = founder_genome_equivalents(founder_and_young(1), [0, 2])

    assert [one.retention for one in found.founders] == [1.0, 0.5]


def test_equivalents__of_one_animal_without_parents_is_one() -> None:
    alone = founder_genome_equivalents(AnimalPedigree(dams=(None,), sires=(None,)), [0])

    assert (alone.number, alone.standard_error, alone.drops) == (1.0, 0.0, 0)


def test_retention__of_an_unrecorded_parent_is_at_most_half() -> None:
    half_known = AnimalPedigree(dams=(None, 0), sires=(None, None))

    found = founder_genome_equivalents(half_known, [1])

    assert [(one.founder.animal, one.founder.recorded) for one in found.founders] == [
        (0, True),
        (1, False),
    ]
    assert [one.retention for one in found.founders] == [0.5, 0.5]


def test_dropped_retention__agrees_with_the_exact_one_within_its_error() -> None:
    pedigree, living = closed_line(generations=4, breeders=4)
    exact = founder_genome_equivalents(pedigree, living)
    assert exact.drops == 0

    misses = []
    for seed in range(20):
        dropped = founder_genome_equivalents(
            pedigree, living, generator=np.random.default_rng(seed), drops=1000, most_steps=0
        )
        assert dropped.drops == 1000
        assert 0.0 < dropped.standard_error < 0.05
        misses.append((dropped.number - exact.number) / dropped.standard_error)

    # The misses are about standard normal: their root mean square is near 1.
    assert 0.6 < math.sqrt(sum(miss * miss for miss in misses) / len(misses)) < 1.4


def test_dropped_retention__is_the_same_for_the_same_seed_only() -> None:
    pedigree, living = closed_line(generations=4, breeders=4)

    def number(seed: int) -> float:
        generator = np.random.default_rng(seed)
        return founder_genome_equivalents(
            pedigree, living, generator=generator, drops=700, most_steps=0
        ).number

    assert number(1) == number(1)
    assert number(1) != number(2)


def test_dropped_retention__of_a_founder_that_was_always_lost_is_held_to_its_bound() -> None:
    long_chain = AnimalPedigree(
        dams=(None, None, *range(1, 21)), sires=(None, 0, *[None] * 20)
    )  # founder 0 is twenty-one transmissions away

    found = founder_genome_equivalents(
        long_chain, [21], generator=np.random.default_rng(5), drops=2, most_steps=0
    )

    assert found.founders[0].retention == found.founders[0].founder.share / 2.0 > 0.0
    assert math.isfinite(found.number)


def test_equivalents__a_large_pedigree_needs_a_generator() -> None:
    pedigree, living = closed_line(generations=30, breeders=12)

    with pytest.raises(DomainError, match="source of random numbers"):
        founder_genome_equivalents(pedigree, living, most_steps=1000)


@pytest.mark.parametrize(
    ("numbers", "words"),
    [({"drops": 1}, "number of drops"), ({"most_steps": -1}, "exact steps")],
)
def test_equivalents__impossible_settings_are_refused(numbers: dict[str, int], words: str) -> None:
    with pytest.raises(DomainError, match=words):
        founder_genome_equivalents(founder_and_young(1), [2], generator=None, **numbers)


def test_equivalents__without_living_animals_are_refused() -> None:
    with pytest.raises(DomainError, match="number of living animals"):
        founder_genome_equivalents(founder_and_young(1), [])
