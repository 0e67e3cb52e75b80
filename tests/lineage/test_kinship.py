"""Inbreeding and kinship against published numbers, by hand, and computed a second way."""

import itertools
import json
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings

from filialog.domain_error import DomainError
from filialog.lineage import (
    Blend,
    Brood,
    KinshipRange,
    KinshipTable,
    Mating,
    Origin,
    Part,
    Pedigree,
    Pool,
    Share,
    equal_shares,
    kinship_table,
)
from tools.pedigrees import (
    Rows,
    animal_rows,
    animals,
    brood,
    enumerable_pedigrees,
    expected_kinship,
    pedigree,
    pedigrees,
    tabular_kinship,
)

_MATRICES: list[dict[str, Any]] = json.loads(
    (Path(__file__).parent / "relationship_matrices.json").read_text(encoding="utf-8")
)

# Wright S (1921) Systems of mating, Genetics 6:111-178; tabulated in Falconer & Mackay
# (1996) Table 5.1. Printed with three places; quoted from memory.
_FULL_SIB = [0.25, 0.375, 0.5, 0.594, 0.672, 0.734, 0.785, 0.826, 0.859, 0.886]
_HALF_SIB = [0.125, 0.219, 0.305, 0.381, 0.449, 0.509, 0.563, 0.611, 0.654, 0.691]
_BACKCROSS = [0.25, 0.375, 0.438, 0.469]
_SELFING = {1: 0.5, 2: 0.75, 7: 0.992}
_HALF_DIGIT = 0.0005 + 1e-12  # of the last printed place; 0.4375 is printed as 0.438


def _kinship(lines: Pedigree, a: str, b: str) -> float:
    return _exact(kinship_table(lines).between(a, b))


def _inbreeding(lines: Pedigree, name: str) -> float:
    return _exact(kinship_table(lines).inbreeding(name))


def _exact(found: KinshipRange) -> float:
    assert found.low == found.high
    return found.high


def _line(generations: int, size: int | None = None) -> Pedigree:
    """Mate brood mates with each other; g0 are the founders."""
    origins: dict[str, Origin | str] = {"g0": "blue"}
    for number in range(1, generations + 1):
        origins[f"g{number}"] = brood(f"g{number - 1}", f"g{number - 1}")
    return pedigree(origins, {} if size is None else dict.fromkeys(origins, size))


@pytest.mark.parametrize(("generation", "published"), list(enumerate(_FULL_SIB, start=1)))
def test_inbreeding__full_sib_mating_matches_published_table(
    generation: int, published: float
) -> None:
    # The first brood has unrelated parents, so the table begins with the second.
    f = _inbreeding(_line(11), f"g{generation + 1}")

    assert f == pytest.approx(published, abs=_HALF_DIGIT)


def test_inbreeding__founders_and_their_young_have_none() -> None:
    assert [_inbreeding(_line(1), name) for name in ("g0", "g1")] == [0.0, 0.0]


@pytest.mark.parametrize(("generation", "published"), list(enumerate(_HALF_SIB, start=1)))
def test_inbreeding__half_sib_mating_matches_published_table(
    generation: int, published: float
) -> None:
    # One male to females who are half-sisters of him and of each other: every generation
    # needs one brood more than the next.
    origins: dict[str, Origin | str] = {f"0.{number}": f"s{number}" for number in range(14)}
    for step in range(1, 12):
        for number in range(13 - step):
            origins[f"{step}.{number}"] = brood(f"{step - 1}.{number + 1}", f"{step - 1}.0")
    lines = pedigree(origins, {name: 1 for name in origins if name.endswith(".0")})

    assert _inbreeding(lines, f"{generation + 1}.1") == pytest.approx(published, abs=_HALF_DIGIT)


@pytest.mark.parametrize(("generation", "published"), list(enumerate(_BACKCROSS, start=1)))
def test_inbreeding__backcross_to_one_animal_matches_published_table(
    generation: int, published: float
) -> None:
    origins: dict[str, Origin | str] = {"parent": "blue", "g0": "wild"}
    for number in range(1, 6):
        origins[f"g{number}"] = brood(f"g{number - 1}", "parent")
    f = _inbreeding(pedigree(origins, {"parent": 1}), f"g{generation + 1}")

    assert f == pytest.approx(published, abs=_HALF_DIGIT)


@pytest.mark.parametrize(("generation", "published"), sorted(_SELFING.items()))
def test_inbreeding__selfing_of_one_animal_matches_published_table(
    generation: int, published: float
) -> None:
    assert _inbreeding(_line(8, size=1), f"g{generation}") == pytest.approx(
        published, abs=_HALF_DIGIT
    )


def test_inbreeding__roan_gauntlet() -> None:
    # Wright S (1922) Coefficients of inbreeding and relationship, Am Nat 56:330-338, as
    # worked in Lynch & Walsh (1998) pp. 155-156.
    lines = animals(
        [
            ("Lord-Raglan", None, None),
            ("male", "Lord-Raglan", None),
            ("Champion", "male", None),
            ("Grand-Duke", "Champion", None),
            ("Mimulus", "Champion", None),
            ("Carmine", "Lord-Raglan", None),
            ("Royal-Duke", "Grand-Duke", "Mimulus"),
            ("Princess-Royal", "Champion", "Carmine"),
            ("Roan-Gauntlet", "Royal-Duke", "Princess-Royal"),
        ]
    )

    assert _inbreeding(lines, "Roan-Gauntlet") == pytest.approx(0.141, abs=_HALF_DIGIT)
    assert _kinship(lines, "Grand-Duke", "Champion") == 0.25
    assert _kinship(lines, "Mimulus", "Carmine") == 0.03125


@pytest.mark.parametrize("case", _MATRICES, ids=[case["title"] for case in _MATRICES])
def test_kinship__matches_relationship_matrix(case: dict[str, Any]) -> None:
    # The matrix holds twice the kinship, and 1 + F for an animal with itself.
    rows: Rows = [
        (name, *(None if parent == "0" else parent for parent in parents))
        for name, *parents in case["rows"]
    ]
    lines = animals(rows)
    for a, row in zip(case["ids"], case["relationship"], strict=True):
        for b, relationship in zip(case["ids"], row, strict=True):
            assert 2 * _kinship(lines, a, b) == pytest.approx(relationship, abs=1e-9)
            if a == b:
                assert _inbreeding(lines, a) == pytest.approx(relationship - 1, abs=1e-9)


def test_kinship__candidate_sires_of_two_animals_count_by_their_weights() -> None:
    # Henderson CR (1988) J Anim Sci 66:1614-1621; rule in Lynch & Walsh (1998) p. 775:
    # each of k candidate sires gets 1/(2k), here 1/6 of a relationship of 1.
    lines = pedigree(
        {
            **{name: name for name in ("s1", "s2", "s3", "d")},
            "o1": brood("d", "s1 s2 s3"),
            "o2": brood("d", "s1 s2 s3"),
            "g": brood("o1", "o2"),
        },
        dict.fromkeys(("s1", "s2", "s3", "d", "o1", "o2", "g"), 1),
    )

    assert 2 * _kinship(lines, "o1", "s1") == pytest.approx(1 / 6)
    assert 2 * _kinship(lines, "o1", "d") == 0.5
    # Computed from the rule: 1/2 (1/2 + 1/6), between half sibs (1/4) and full sibs (1/2).
    assert 2 * _kinship(lines, "o1", "o2") == pytest.approx(1 / 3)
    assert _inbreeding(lines, "g") == pytest.approx(1 / 6)


def test_kinship__unequal_weights_and_a_mating_back_to_a_candidate_sire() -> None:
    sires = (Share(pool="s1", weight=Fraction(3, 4)), Share(pool="s2", weight=Fraction(1, 4)))
    lines = pedigree(
        {
            "s1": "A",
            "s2": "A",
            "d": "A",
            "o1": Brood(dams=equal_shares("d"), sires=sires),
            "o2": brood("d", "s1 s2"),
            "p": brood("o1", "s1"),
        },
        dict.fromkeys(("s1", "s2", "d", "o1", "o2", "p"), 1),
    )

    assert _inbreeding(lines, "p") == 3 / 16  # 3/4 of the 1/4 of a parent-offspring mating
    assert 2 * _kinship(lines, "o2", "p") == 5 / 16


def test_kinship__mates_of_one_brood_share_a_sire_that_is_not_known() -> None:
    lines = pedigree({"d": "A", "s": "A", "set": brood("d", "s"), "none": brood("d", None)})

    assert _kinship(lines, "set", "set") == 0.25
    assert _kinship(lines, "none", "none") == 0.25


def test_kinship__unknown_parents_of_two_broods_are_different_animals() -> None:
    lines = pedigree({"d": "A", "one": brood("d", None), "two": brood("d", None)}, {"d": 1})

    assert _kinship(lines, "one", "two") == 0.125
    nothing_known = pedigree({"one": brood(None, None), "two": brood(None, None)})
    assert _kinship(nothing_known, "one", "two") == 0.0
    assert _inbreeding(nothing_known, "one") == 0.0


def test_kinship__a_known_number_of_parents_matches_wright() -> None:
    # Wright S (1931) Evolution in Mendelian populations, Genetics 16:97-159 (from memory):
    # 1/(8 Nm) + 1/(8 Nf) for the young of 3 males and 5 females mated at random.
    lines = pedigree(
        {"m": "A", "f": "A", "one": brood("f", "m"), "two": brood("f", "m")}, {"m": 3, "f": 5}
    )

    assert _kinship(lines, "one", "two") == pytest.approx(1 / 15)


def test_kinship__parents_from_a_pool_of_unknown_size_are_different_animals() -> None:
    lines = pedigree({"old": "A", "one": brood("old", "old"), "two": brood("old", "old")})

    assert _kinship(lines, "one", "two") == 0.0


def test_kinship__parent_and_young() -> None:
    lines = pedigree({"d": "A", "s": "A", "y": brood("d", "s")}, {"d": 1, "s": 4})

    assert _kinship(lines, "d", "y") == 0.25
    assert _kinship(lines, "y", "s") == 0.0625  # one of four is the sire
    assert _kinship(lines, "d", "s") == 0.0


def test_kinship__of_one_animal_with_itself() -> None:
    lines = pedigree({"a": "A", "y": brood("a", "a")}, {"a": 1, "y": 1})

    assert _kinship(lines, "a", "a") == 0.5
    assert _kinship(lines, "y", "y") == 0.75


def test_kinship__parts_of_a_brood_are_brood_mates() -> None:
    origins: dict[str, Origin | str] = {
        "d": "A",
        "s": "A",
        "y": brood("d", "s"),
        "pale": Part(of="y"),
        "dark": Part(of="y"),
        "next": brood("pale", "dark"),
    }
    for sizes in ({}, {"y": 2, "pale": 1, "dark": 1}):
        lines = pedigree(origins, sizes)
        assert _kinship(lines, "pale", "dark") == 0.25
        assert _inbreeding(lines, "next") == 0.25


def test_kinship__parts_have_no_animal_in_common_even_inside_blends() -> None:
    origins: dict[str, Origin | str] = {
        "old": "A",
        "left": Part(of="old"),
        "right": Part(of="old"),
        "joined": Blend(parts=equal_shares("left")),
        "one": brood("joined", None),
        "two": brood("right", None),
        "three": brood("old", None),
    }
    lines = pedigree(origins, {"old": 4})

    assert _kinship(lines, "one", "two") == 0.0
    # The third dam is any of the four, so she is the first brood's with probability 1/4.
    assert _kinship(lines, "one", "three") == pytest.approx(0.125 / 4)


def test_kinship__parts_in_a_blend_are_weighed_as_different_animals() -> None:
    lines = pedigree(
        {
            "d": "A",
            "y": brood("d", "d"),
            "left": Part(of="y"),
            "right": Part(of="y"),
            "b": Blend(parts=equal_shares("left", "d")),
        },
        {"y": 2},
    )

    # No animal of the blend is in the right part, so half of the draws are brood mates.
    assert _kinship(lines, "b", "right") == 0.125
    # One of two left animals is the other draw itself: of different ones 1/4 are mates to 1/2.
    assert _kinship(lines, "b", "left") == pytest.approx(0.25 * 0.25 / (0.25 + 0.5))


def test_kinship__two_parts_of_one_animal_are_one_animal_inside_a_blend() -> None:
    lines = pedigree(
        {
            "a": "A",
            "z": "A",
            "one": Part(of="a"),
            "two": Part(of="one"),
            "three": Part(of="one"),
            "b": Blend(parts=equal_shares("two", "z")),
        },
        {"a": 1},
    )

    assert _kinship(lines, "two", "three") == 0.5
    assert _kinship(lines, "b", "three") == 0.0  # so the one from the blend is z


@pytest.mark.parametrize("origin", [Part(of="old"), Blend(parts=equal_shares("old"))])
def test_kinship__a_group_of_no_known_size_is_drawn_from_like_its_source(
    origin: Part | Blend,
) -> None:
    lines = pedigree(
        {"old": "A", "some": origin, "one": brood("some", None), "two": brood("some", None)},
        {"old": 4},
    )

    assert _kinship(lines, "one", "two") == 0.03125


def test_kinship__a_part_of_one_animal_is_that_animal() -> None:
    lines = pedigree(
        {"a": "A", "moved": Part(of="a"), "y": brood(None, "a"), "back": brood("y", "moved")},
        {"a": 1},
    )

    assert _kinship(lines, "a", "moved") == 0.5
    assert _inbreeding(lines, "back") == 0.25


def test_kinship__a_part_of_known_size_is_drawn_from_by_its_own_size() -> None:
    lines = pedigree(
        {"old": "A", "few": Part(of="old"), "one": brood("few", None), "two": brood("few", None)},
        {"old": 50, "few": 2},
    )

    assert _kinship(lines, "one", "two") == 0.0625


def test_kinship__a_blend_is_the_mean_of_its_parts() -> None:
    parts = (Share(pool="y", weight=Fraction(3, 4)), Share(pool="z", weight=Fraction(1, 4)))
    lines = pedigree(
        {
            **dict.fromkeys(("d", "s", "e", "t"), "A"),
            "y": brood("d", "s"),
            "z": brood("e", "t"),
            "b": Blend(parts=parts),
        }
    )

    assert _kinship(lines, "b", "y") == 0.1875
    assert _kinship(lines, "b", "b") == 0.25 * (9 / 16 + 1 / 16)


def test_kinship__two_animals_of_a_blend_of_two_animals_are_those_two() -> None:
    lines = pedigree(
        {
            "d": "A",
            "y": brood("d", "d"),
            "z": brood("d", "d"),
            "b": Blend(parts=equal_shares("d", "y")),
            "next": brood("b", "b"),
            "other": brood("b", "d"),
        },
        {"d": 1, "y": 1},
    )

    assert _kinship(lines, "b", "b") == _kinship(lines, "d", "y") == 0.5
    assert _inbreeding(lines, "next") == 0.5
    assert _inbreeding(lines, "other") == 0.5  # the sire is in the blend, so the dam is y


@pytest.mark.parametrize("sizes", [{"a": 1}, {"a": 1, "b": 1}, {"a": 1, "b": 3}])
def test_kinship__a_blend_of_one_animal_is_that_animal(sizes: dict[str, int]) -> None:
    lines = pedigree({"a": "A", "b": Blend(parts=equal_shares("a"))}, sizes)

    assert _kinship(lines, "a", "b") == 0.5
    assert _kinship(lines, "b", "b") == 0.5


def test_kinship__unknown_name_is_refused() -> None:
    lines = _line(1)
    for a, b in (("gone", "g0"), ("g0", "gone")):
        with pytest.raises(DomainError, match="gone"):
            _kinship(lines, a, b)
    with pytest.raises(DomainError, match="gone"):
        _inbreeding(lines, "gone")


def test_inbreeding__a_line_of_two_thousand_generations_does_not_exhaust_the_stack() -> None:
    assert _inbreeding(_line(2000), "g2000") == pytest.approx(1.0)


def test_inbreeding__two_thousand_splits_do_not_exhaust_the_stack() -> None:
    origins: dict[str, Origin | str] = {"d": "A", "p0": brood("d", "d"), "q": Part(of="p0")}
    for number in range(1, 2001):
        origins[f"p{number}"] = Part(of=f"p{number - 1}")
    origins["b"] = Blend(parts=equal_shares("p2000", "q"))
    lines = pedigree(origins, {"p0": 4})

    assert _kinship(lines, "b", "p2000") == pytest.approx(0.25)


@given(animal_rows())
def test_kinship__equals_the_tabular_method_on_single_animals(rows: Rows) -> None:
    lines = animals(rows)
    for (a, b), expected in tabular_kinship(rows).items():
        assert _kinship(lines, a, b) == float(expected)


@settings(max_examples=150, deadline=None)
@given(enumerable_pedigrees())
def test_kinship__equals_the_mean_over_every_outcome_of_the_draws(lines: Pedigree) -> None:
    names = [pool.name for pool in lines.pools]
    table = kinship_table(lines)
    for a, b in itertools.combinations_with_replacement(names, 2):
        low = float(expected_kinship(lines, a, b, unknown=Mating.SEVERAL))
        high = float(expected_kinship(lines, a, b, unknown=Mating.ONE))
        assert table.between(a, b).low == pytest.approx(low, abs=1e-12)
        assert table.between(a, b).high == pytest.approx(high, abs=1e-12)


@given(pedigrees())
def test_kinship__is_a_probability_and_symmetric(lines: Pedigree) -> None:
    names = [pool.name for pool in lines.pools]
    table = kinship_table(lines)
    for a, b in itertools.product(names, names):
        found = table.between(a, b)
        assert 0.0 <= found.low <= found.high <= 1.0 + 1e-12
        assert found == table.between(b, a)
        assert found == table.row(a)[b]
        drawn = table.drawn(a, b)
        assert 0.0 <= drawn.low <= drawn.high <= 1.0 + 1e-12
        assert drawn == table.drawn(b, a)
    for name in names:
        f = table.inbreeding(name)
        assert 0.0 <= f.low <= f.high <= 1.0 + 1e-12
        assert table.itself(name).high == (1.0 + f.high) / 2


@given(pedigrees())
def test_kinship__is_that_of_one_reading_at_each_end(lines: Pedigree) -> None:
    names = [pool.name for pool in lines.pools]
    table = kinship_table(lines)
    several, one = (
        kinship_table(_read_as(lines, mating)) for mating in (Mating.SEVERAL, Mating.ONE)
    )
    for a, b in itertools.product(names, names):
        assert table.between(a, b).low == pytest.approx(several.between(a, b).high, abs=1e-12)
        assert table.between(a, b).high == one.between(a, b).low


def _read_as(lines: Pedigree, mating: Mating) -> Pedigree:
    def read(origin: Origin) -> Origin:
        if not isinstance(origin, Brood):
            return origin
        return replace(
            origin,
            mating=mating if origin.mating is Mating.UNKNOWN else origin.mating,
            cloud=mating if origin.cloud is Mating.UNKNOWN else origin.cloud,
        )

    return Pedigree(pools=tuple(replace(p, origin=read(p.origin)) for p in lines.pools))


@given(pedigrees())
def test_inbreeding__ignores_which_parent_is_sire(lines: Pedigree) -> None:
    swapped = Pedigree(
        pools=tuple(
            Pool(
                name=pool.name,
                origin=Brood(
                    dams=pool.origin.sires,
                    sires=pool.origin.dams,
                    mating=pool.origin.cloud,
                    cloud=pool.origin.mating,
                )
                if isinstance(pool.origin, Brood)
                else pool.origin,
                size=pool.size,
            )
            for pool in lines.pools
        )
    )
    for pool in lines.pools:
        _assert_same_inbreeding(
            kinship_table(swapped).inbreeding(pool.name), kinship_table(lines), pool.name
        )


def _assert_same_inbreeding(found: KinshipRange, table: KinshipTable, name: str) -> None:
    expected = table.inbreeding(name)
    assert found.low == pytest.approx(expected.low, abs=1e-12)
    assert found.high == pytest.approx(expected.high, abs=1e-12)


@given(pedigrees())
def test_inbreeding__does_not_depend_on_the_order_of_pools(lines: Pedigree) -> None:
    backwards = kinship_table(Pedigree(pools=lines.pools[::-1]))
    for pool in lines.pools:
        _assert_same_inbreeding(backwards.inbreeding(pool.name), kinship_table(lines), pool.name)


@given(pedigrees())
def test_inbreeding__of_young_is_the_kinship_of_their_parents(lines: Pedigree) -> None:
    names = [pool.name for pool in lines.pools]
    dam, sire = names[0], names[-1]
    planned = Pedigree(pools=(*lines.pools, Pool(name="planned", origin=brood(dam, sire))))
    table = kinship_table(planned)

    assert table.inbreeding("planned") == table.between(dam, sire)
