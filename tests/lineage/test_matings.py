"""Kinship where a brood has one sire or several, by sexes, and after splits and joins."""

import itertools
from fractions import Fraction

import pytest

from filialog.lineage import (
    Blend,
    Brood,
    Founder,
    KinshipRange,
    KinshipTable,
    Mating,
    Origin,
    Part,
    Pedigree,
    Pool,
    equal_shares,
    kinship_table,
)
from tools.pedigrees import brood, pedigree


def _kinship(lines: Pedigree, a: str, b: str) -> float:
    return _exact(kinship_table(lines).between(a, b))


def _inbreeding(lines: Pedigree, name: str) -> float:
    return _exact(kinship_table(lines).inbreeding(name))


def _exact(found: KinshipRange) -> float:
    assert found.low == found.high
    return found.high


# --- one sire, several, or not known ----------------------------------------------------------


def _young(
    mating: Mating, *, cloud: Mating = Mating.ONE, sires: int | None = 2, dams: int | None = 1
) -> KinshipTable:
    """Give the kinships of a brood whose candidates are unrelated animals."""
    made = Brood(dams=equal_shares("d"), sires=equal_shares("s"), mating=mating, cloud=cloud)
    sizes = {name: size for name, size in (("d", dams), ("s", sires)) if size is not None}
    return kinship_table(pedigree({"d": "A", "s": "A", "y": made}, sizes))


def _mates(table: KinshipTable, name: str = "y") -> KinshipRange:
    found = table.mates(name)
    assert found is not None
    return found


def test_mates__of_one_unknown_sire_are_related_by_a_half_and_not_by_the_mean_over_sires() -> None:
    # Averaging the two sires for each young apart gives 0.375: the rule for animals of
    # different broods (Henderson 1988) is not for the young of one.
    lines = pedigree({"d": "A", "s": "A", "t": "A", "y": brood("d", "s t")}, {"d": 1, "s": 1})

    assert 2 * _kinship(lines, "y", "y") == 0.5
    for sires in (1, 2, 5, None):
        assert 2 * _exact(_mates(_young(Mating.ONE, sires=sires))) == 0.5


@pytest.mark.parametrize(
    ("candidates", "same_sire"), [(1, 1), (2, Fraction(2, 3)), (3, Fraction(1, 2)), (None, 0)]
)
def test_mates__of_several_sires_divided_in_any_way(
    candidates: int | None, same_sire: Fraction
) -> None:
    # Shares uniform over the simplex: of n candidates two draws are one with E sum p^2 =
    # 2/(n + 1), the mean of a Dirichlet with all parameters 1.
    expected = (1 + float(same_sire)) / 8

    assert _exact(_mates(_young(Mating.SEVERAL, sires=candidates))) == pytest.approx(expected)


def test_mates__of_unknown_mating_are_a_range_from_several_to_one() -> None:
    found = _mates(_young(Mating.UNKNOWN))
    assert found.low == pytest.approx(5 / 24)
    assert found.high == 0.25
    assert _exact(_mates(_young(Mating.UNKNOWN, sires=1))) == 0.25  # one male is one sire


@pytest.mark.parametrize(
    ("mating", "dams", "sires", "expected"),
    [
        pytest.param(Mating.ONE, 2, 1, (1 + Fraction(2, 3)) / 8, id="one sire, two dams"),
        # Four couples: one for both with 2/5; one with the other's dam or sire with 1/5 each.
        pytest.param(Mating.SEVERAL, 2, 2, Fraction(3, 5) * 2 / 8, id="two by two"),
        pytest.param(Mating.SEVERAL, None, None, Fraction(0), id="uncounted"),
        pytest.param(Mating.ONE, None, None, Fraction(1, 8), id="one sire, uncounted dams"),
    ],
)
def test_mates__of_a_cloud_can_have_different_dams(
    mating: Mating, dams: int | None, sires: int | None, expected: Fraction
) -> None:
    table = _young(mating, cloud=Mating.SEVERAL, dams=dams, sires=sires)

    assert _exact(_mates(table)) == pytest.approx(float(expected))


def test_mates__of_several_unknown_sires_have_the_dam_in_common() -> None:
    made = Brood(dams=equal_shares("d"), mating=Mating.SEVERAL)
    assert _exact(_mates(kinship_table(pedigree({"d": "A", "y": made})))) == 0.125


def test_inbreeding__after_an_unknown_mating_is_a_range() -> None:
    made = Brood(dams=equal_shares("d"), sires=equal_shares("s"), mating=Mating.UNKNOWN)
    lines = pedigree(
        {"d": "A", "s": "A", "y": made, "z": brood("y", "y"), "w": brood("z", "d")},
        {"d": 1, "s": 2},
    )
    table = kinship_table(lines)

    assert _exact(table.inbreeding("y")) == 0.0
    assert table.inbreeding("z") == _mates(table)
    assert table.itself("z").low == pytest.approx((1 + 5 / 24) / 2)
    assert _exact(table.inbreeding("w")) == 0.25  # by the dam alone, whoever the sires were


def test_kinship__within_a_group_and_of_a_member_with_itself_are_different() -> None:
    table = kinship_table(pedigree({"a": "A", "y": brood("a", "a")}, {"a": 1, "y": 4}))

    assert _exact(_mates(table)) == 0.5
    assert _exact(table.itself("y")) == 0.75
    assert _exact(table.drawn("y", "y")) == 0.75 / 4 + 0.5 * 3 / 4
    assert table.mates("a") is None


# --- females and males ------------------------------------------------------------------------


def _sexed(**numbers: int | None) -> Pedigree:
    old = Pool(name="old", origin=Founder(strain="A"), **numbers)
    both = equal_shares("old")
    young = [Pool(name=name, origin=Brood(dams=both, sires=both)) for name in ("one", "two")]
    return Pedigree(pools=(old, *young, Pool(name="some", origin=Part(of="old"))))


def test_kinship__dams_are_drawn_from_the_females_and_sires_from_the_males() -> None:
    # Wright S (1931), from memory: 1/(8 Nm) + 1/(8 Nf).
    for size in (8, None):
        lines = _sexed(size=size, females=5, males=3)
        assert _kinship(lines, "one", "two") == pytest.approx(1 / 15)
    assert _kinship(_sexed(females=5), "one", "two") == pytest.approx(1 / 40)
    assert _kinship(_sexed(males=1), "one", "two") == 0.125


def test_kinship__the_only_female_can_be_in_what_was_split_off() -> None:
    lines = _sexed(size=4, females=1, males=3)

    # Any of the four is the dam with probability 1/4, and the sire with 3/4 of 1/3.
    assert _kinship(lines, "one", "some") == pytest.approx(0.25 * (1 / 4 + 1 / 4))
    assert _kinship(lines, "one", "old") == pytest.approx(0.25 * (1 / 4 + 1 / 4))


def test_inbreeding__dam_and_sire_of_a_sexed_group_are_different_animals() -> None:
    lines = Pedigree(
        pools=(
            Pool(name="d", origin=Founder(strain="A")),
            Pool(name="y", origin=brood("d", "d"), size=2, females=1, males=1),
            Pool(name="z", origin=brood("y", "y")),
        )
    )

    assert _inbreeding(lines, "z") == 0.25


# --- groups split, sorted, joined and split again -----------------------------------------------


def test_kinship__of_a_brood_split_sorted_joined_and_split_again_is_that_of_mates() -> None:
    lines = pedigree(
        {
            **dict.fromkeys(("d", "s"), "A"),
            "y": brood("d", "s"),
            "left": Part(of="y"),
            "right": Part(of="y"),
            "pale": Part(of="left"),
            "dark": Part(of="left"),
            "joined": Blend(parts=equal_shares("pale", "right")),
            "first": Part(of="joined"),
            "rest": Part(of="joined"),
            "next": brood("first", "rest"),
            "cross": brood("dark", "joined"),
        }
    )
    names = ["y", "left", "right", "pale", "dark", "joined", "first", "rest"]
    for a, b in itertools.product(names, names):
        assert _kinship(lines, a, b) == 0.25
    assert _inbreeding(lines, "next") == _inbreeding(lines, "cross") == 0.25


def test_kinship__of_two_broods_joined_and_split_keeps_the_mixture() -> None:
    lines = pedigree(
        {
            **dict.fromkeys(("d", "s", "e", "t"), "A"),
            "y": brood("d", "s"),
            "z": brood("e", "t"),
            "joined": Blend(parts=equal_shares("y", "z")),
            "first": Part(of="joined"),
            "rest": Part(of="joined"),
        }
    )

    assert _kinship(lines, "first", "rest") == 0.125  # two of one brood in half of all draws
    assert _kinship(lines, "first", "y") == 0.125
    assert _exact(_mates(kinship_table(lines), "rest")) == 0.125


def test_kinship_table__a_line_of_four_hundred_generations_with_splits() -> None:
    origins: dict[str, Origin | str] = {"g0": "A"}
    for number in range(1, 401):
        origins[f"g{number}"] = brood(f"k{number - 1}" if number > 1 else "g0", f"g{number - 1}")
        origins[f"k{number}"] = Part(of=f"g{number}")
    lines = pedigree(origins)

    # Wright's recurrence for full sib mating: F'' = (1 + 2 F' + F) / 4.
    f, before = 0.0, 0.0
    for _ in range(399):
        f, before = (1 + 2 * f + before) / 4, f
    assert _inbreeding(lines, "g400") == pytest.approx(f, abs=1e-12)
