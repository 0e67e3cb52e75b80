import itertools
import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.lineage import (
    AnimalPedigree,
    Brood,
    Founder,
    Pedigree,
    Pool,
    effective_ancestors,
    effective_founders,
    equal_shares,
    founder_contributions,
    founder_genome_equivalents_by_kinship,
    founder_shares,
    mean_kinship_of,
)
from filialog.lineage.living_ancestry import living_ancestry
from tools.random_animals import Living, animals_with_living


def made(*parents: tuple[int | None, int | None]) -> AnimalPedigree:
    return AnimalPedigree(dams=tuple(d for d, _ in parents), sires=tuple(s for _, s in parents))


FOUNDER = (None, None)


def shares(pedigree: AnimalPedigree, living: list[int]) -> dict[tuple[int, bool], float]:
    return {
        (one.animal, one.recorded): one.share for one in founder_contributions(pedigree, living)
    }


def test_contributions__of_a_backcross_are_three_quarters() -> None:
    back = made(FOUNDER, FOUNDER, (0, 1), (2, 1))

    assert shares(back, [3]) == {(0, True): 0.25, (1, True): 0.75}


def test_contributions__of_a_founder_that_lives_include_itself() -> None:
    pair = made(FOUNDER, FOUNDER, (0, 1))

    assert shares(pair, [0, 2]) == {(0, True): 0.75, (1, True): 0.25}
    assert shares(pair, [1]) == {(1, True): 1.0}


def test_contributions__selfing_passes_on_all() -> None:
    assert shares(made(FOUNDER, (0, 0), (1, 1)), [2]) == {(0, True): 1.0}


def test_contributions__a_missing_parent_is_a_founder_of_its_own_for_each_young() -> None:
    two = made(FOUNDER, (0, None), (0, None))

    assert shares(two, [1, 2]) == {(0, True): 0.5, (1, False): 0.25, (2, False): 0.25}


def test_contributions__leave_out_founders_without_living_descendants() -> None:
    assert shares(made(FOUNDER, FOUNDER, FOUNDER, (0, 1)), [3]) == {(0, True): 0.5, (1, True): 0.5}


@given(animals_with_living(unknown=False))
def test_contributions__equal_the_shares_of_the_same_animals_as_pools(drawn: Living) -> None:
    pedigree, living = drawn
    pools = []
    for animal, (dam, sire) in enumerate(zip(pedigree.dams, pedigree.sires, strict=True)):
        origin: Founder | Brood = Founder(strain=str(animal))
        if dam is not None and sire is not None:
            origin = Brood(dams=equal_shares(str(dam)), sires=equal_shares(str(sire)))
        pools.append(Pool(name=str(animal), origin=origin, size=1))
    as_pools = Pedigree(pools=tuple(pools))
    expected: dict[tuple[int, bool], Fraction] = {}
    for animal in living:
        for name, share in founder_shares(as_pools, str(animal)):
            assert name is not None
            key = (int(name), True)
            expected[key] = expected.get(key, Fraction(0)) + share / len(living)

    assert shares(pedigree, living) == pytest.approx(
        {key: float(share) for key, share in expected.items()}, abs=1e-12
    )


@given(animals_with_living())
def test_contributions__sum_to_one_and_ignore_which_parent_is_sire(drawn: Living) -> None:
    pedigree, living = drawn
    swapped = AnimalPedigree(dams=pedigree.sires, sires=pedigree.dams)

    found = founder_contributions(pedigree, living)

    assert math.fsum(one.share for one in found) == pytest.approx(1.0, abs=1e-12)
    assert founder_contributions(swapped, living) == found
    assert founder_contributions(pedigree, list(reversed(living))) == found


def test_effective_founders__weighs_by_use() -> None:
    assert effective_founders([Fraction(1, 2), Fraction(1, 6), Fraction(1, 6), Fraction(1, 6)]) == (
        pytest.approx(3.0)
    )
    assert effective_founders([1.0]) == 1.0
    assert effective_founders([0.5, 0.5, 0.0]) == 2.0


@given(st.lists(st.integers(1, 1000), min_size=1, max_size=20))
def test_effective_founders__is_all_of_them_only_where_shares_are_equal(parts: list[int]) -> None:
    number = effective_founders([part / sum(parts) for part in parts])

    assert 1.0 - 1e-9 <= number <= len(parts) + 1e-9
    assert (number == pytest.approx(len(parts), rel=1e-12)) == (len(set(parts)) == 1)


@pytest.mark.parametrize(
    "wrong",
    [
        pytest.param([], id="no founder"),
        pytest.param([0.5, 0.4], id="sum below one"),
        pytest.param([0.5, 0.6], id="sum above one"),
        pytest.param([1.5, -0.5], id="negative"),
        pytest.param([math.nan, 1.0], id="nan"),
    ],
)
def test_effective_founders__shares_that_are_none_are_refused(wrong: list[float]) -> None:
    with pytest.raises(DomainError):
        effective_founders(wrong)


def test_effective_ancestors__one_bottleneck_animal_stands_for_its_parents() -> None:
    bottleneck = made(*[FOUNDER] * 4, (0, 1), (4, 2), (4, 2), (4, 3), (4, 3))  # 4 is the dam of all

    found = effective_ancestors(bottleneck, [5, 6, 7, 8])

    assert [(one.animal, one.share) for one in found.contributions] == [
        (4, 0.5),
        (2, 0.25),
        (3, 0.25),
    ]
    assert found.number == pytest.approx(8 / 3)


def test_effective_ancestors__a_living_parent_counts_only_when_asked() -> None:
    chain = made(FOUNDER, FOUNDER, (0, 1), (2, 2))

    without = effective_ancestors(chain, [2, 3])
    among = effective_ancestors(chain, [2, 3], living_are_ancestors=True)

    assert [(one.animal, one.share) for one in without.contributions] == [(0, 0.5), (1, 0.5)]
    assert [(one.animal, one.share) for one in among.contributions] == [(2, 1.0)]


def test_effective_ancestors__a_living_founder_explains_itself() -> None:
    alone = effective_ancestors(made(FOUNDER), [0])

    assert alone.number == 1.0
    assert alone.contributions[0].animal == 0


def test_effective_ancestors__what_is_explained_already_is_taken_off_a_descendant() -> None:
    # 5 is a quarter of 0, which gave most; the rest of 5 is more than 1 or 2 alone.
    line = made(FOUNDER, FOUNDER, FOUNDER, FOUNDER, (0, 1), (4, 2), (0, 0), (0, 0), (5, 5))

    found = effective_ancestors(line, [6, 7, 8])

    assert [(one.animal, one.share) for one in found.contributions] == [(0, 0.75), (5, 0.25)]


def test_effective_ancestors__of_equal_ones_takes_the_first() -> None:
    selfed_twice = made(FOUNDER, (0, 0), (1, 1))

    assert effective_ancestors(selfed_twice, [2]).contributions[0].animal == 0


def test_effective_ancestors__an_unrecorded_parent_is_named_by_its_young() -> None:
    found = effective_ancestors(made(FOUNDER, (0, None), (1, 1)), [2])

    assert [(one.animal, one.recorded) for one in found.contributions] == [(1, True)]
    found = effective_ancestors(made(FOUNDER, (0, None)), [1])
    assert [(one.animal, one.recorded) for one in found.contributions] == [(0, True), (1, False)]


def explained(pedigree: AnimalPedigree, living: list[int], chosen: set[int]) -> Fraction:
    """Share of the living animals' genes that passed through the chosen, from above."""
    through: list[Fraction] = []
    for animal, above in enumerate(zip(pedigree.dams, pedigree.sires, strict=True)):
        halves = (Fraction(0) if parent is None else through[parent] / 2 for parent in above)
        through.append(Fraction(1) if animal in chosen else sum(halves, Fraction(0)))
    return sum((through[animal] for animal in living), Fraction(0)) / len(living)


@given(animals_with_living(unknown=False))
def test_effective_ancestors__each_adds_the_most_that_any_ancestor_could(drawn: Living) -> None:
    pedigree, living = drawn
    candidates = [a for a in range(len(pedigree)) if a not in living or pedigree.dams[a] is None]
    before: set[int] = set()

    for one in effective_ancestors(pedigree, living).contributions:
        now = explained(pedigree, living, before)
        gains = {a: explained(pedigree, living, before | {a}) - now for a in candidates}
        assert one.share == pytest.approx(float(max(gains.values())), abs=1e-12)
        assert one.share == pytest.approx(float(gains[one.animal]), abs=1e-12)
        before.add(one.animal)

    assert explained(pedigree, living, before) == 1


@given(animals_with_living())
def test_effective_ancestors__explain_everything(drawn: Living) -> None:
    found = effective_ancestors(*drawn)

    parts = [one.share for one in found.contributions]
    assert math.fsum(parts) == pytest.approx(1.0, abs=1e-9)
    assert all(first >= second - 1e-12 for first, second in itertools.pairwise(parts))
    assert found.number == pytest.approx(effective_founders(parts))


def test_genome_equivalents_by_kinship__of_unrelated_founders_are_their_number() -> None:
    founders = made(*[FOUNDER] * 5)

    assert founder_genome_equivalents_by_kinship(mean_kinship_of(founders)) == pytest.approx(5.0)
    assert founder_genome_equivalents_by_kinship(1.0) == 0.5


@pytest.mark.parametrize("wrong", [0.0, -0.1, 1.1, math.nan])
def test_genome_equivalents_by_kinship__impossible_kinship_is_refused(wrong: float) -> None:
    with pytest.raises(DomainError, match="mean kinship"):
        founder_genome_equivalents_by_kinship(wrong)


@pytest.mark.parametrize(
    ("living", "words"),
    [
        pytest.param([], "number of living animals", id="nobody lives"),
        pytest.param([0, 0], "each animal once", id="named twice"),
        pytest.param([2], "place of one of 2", id="behind the last"),
        pytest.param([-1], "place of one of 2", id="negative"),
    ],
)
def test_living_ancestry__wrong_living_animals_are_refused(living: list[int], words: str) -> None:
    with pytest.raises(DomainError, match=words):
        living_ancestry(made(FOUNDER, FOUNDER), living)


@given(animals_with_living())
def test_living_ancestry__puts_both_parents_before_their_young(drawn: Living) -> None:
    ancestry = living_ancestry(*drawn)
    step = {place: number for number, place in enumerate(ancestry.order)}

    assert set(ancestry.living) <= set(step)
    for place in ancestry.order:
        assert all(step[parent] < step[place] for parent in ancestry.parents[place] or ())
