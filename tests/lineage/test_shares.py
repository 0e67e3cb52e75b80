"""Founder and strain shares: published fractions, hand-sized cases, properties."""

from fractions import Fraction

import pytest
from hypothesis import given

from filialog.domain_error import DomainError
from filialog.lineage import (
    Blend,
    Brood,
    Founder,
    Origin,
    Part,
    Pedigree,
    Pool,
    Share,
    founder_shares,
    strain_shares,
)
from tools.pedigrees import Rows, animal_rows, animals, brood, pedigree, pedigrees


@pytest.mark.parametrize(
    ("generation", "donor"),
    list(enumerate(["1/2", "1/4", "1/8", "1/16", "1/32"])),
)
def test_founder_shares__halve_with_every_backcross(generation: int, donor: str) -> None:
    # Common practice, no source: "75/25", "87.5/12.5" … after BC1, BC2 …
    origins: dict[str, Origin | str] = {"a": "A", "b": "B", "g0": brood("b", "a")}
    for number in range(1, 5):
        origins[f"g{number}"] = brood(f"g{number - 1}", "a")
    share = Fraction(donor)

    found = founder_shares(pedigree(origins), f"g{generation}")

    assert found == (("a", 1 - share), ("b", share))


@pytest.mark.parametrize(
    ("pool", "expected"),
    [
        ("3-way", {"A": "1/4", "B": "1/4", "C": "1/2"}),
        ("4-way", {"A": "1/4", "B": "1/4", "C": "1/4", "D": "1/4"}),
        ("back", {"A": "1/8", "B": "1/8", "C": "3/4"}),
    ],
)
def test_founder_shares__of_three_and_four_strains(pool: str, expected: dict[str, str]) -> None:
    lines = pedigree(
        {
            **{name: name for name in "DCBA"},
            "ab": brood("A", "B"),
            "cd": brood("C", "D"),
            "3-way": brood("ab", "C"),
            "4-way": brood("ab", "cd"),
            "back": brood("3-way", "C"),
        }
    )

    found = founder_shares(lines, pool)

    assert found == tuple((name, Fraction(share)) for name, share in expected.items())


def test_founder_shares__unknown_parents_stand_last_under_no_name() -> None:
    lines = pedigree({"z": "Z", "one": brood("z", None), "two": brood("one", "z")})

    assert founder_shares(lines, "one") == (("z", Fraction(1, 2)), (None, Fraction(1, 2)))
    assert founder_shares(lines, "two") == (("z", Fraction(3, 4)), (None, Fraction(1, 4)))
    assert founder_shares(pedigree({"y": brood(None, None)}), "y") == ((None, Fraction(1)),)


def test_founder_shares__sets_parts_and_blends_count_by_weight() -> None:
    thirds = (Share(pool="a", weight=Fraction(1, 3)), Share(pool="b", weight=Fraction(2, 3)))
    lines = pedigree(
        {
            "a": "A",
            "b": "B",
            "y": Brood(dams=thirds, sires=(Share(pool="a", weight=Fraction(1)),)),
            "part": Part(of="y"),
            "both": Blend(parts=thirds),
        }
    )

    assert founder_shares(lines, "part") == (("a", Fraction(2, 3)), ("b", Fraction(1, 3)))
    assert founder_shares(lines, "both") == (("a", Fraction(1, 3)), ("b", Fraction(2, 3)))


def test_founder_shares__of_a_founder_is_itself() -> None:
    assert founder_shares(pedigree({"a": "A"}), "a") == (("a", Fraction(1)),)


def test_strain_shares__add_the_founders_of_a_strain() -> None:
    lines = pedigree({"a1": "A", "a2": "A", "b": "B", "x": brood("a1", "b"), "y": brood("x", "a2")})

    assert strain_shares(lines, "y") == (("A", Fraction(3, 4)), ("B", Fraction(1, 4)))


@pytest.mark.parametrize("shares", [founder_shares, strain_shares])
def test_shares__refuse_an_unknown_name(shares: object) -> None:
    assert callable(shares)
    with pytest.raises(DomainError, match="gone"):
        shares(pedigree({"a": "A"}), "gone")


@given(pedigrees())
def test_shares__are_positive_and_sum_to_one(lines: Pedigree) -> None:
    for pool in lines.pools:
        for shares in (founder_shares(lines, pool.name), strain_shares(lines, pool.name)):
            assert sum(share for _, share in shares) == 1
            assert all(share > 0 for _, share in shares)


@given(animal_rows())
def test_founder_shares__equal_the_weighted_number_of_paths(rows: Rows) -> None:
    parents = {name: pair for name, *pair in rows}

    def paths(name: str, founder: str) -> Fraction:
        if name == founder:
            return Fraction(1)
        known = [parent for parent in parents[name] if parent is not None]
        return sum((paths(parent, founder) for parent in known), Fraction(0)) / 2

    lines = animals(rows)
    for name in parents:
        for founder, share in founder_shares(lines, name):
            if founder is not None:
                assert share == paths(name, founder)


@given(pedigrees())
def test_strain_shares__follow_a_change_of_names(lines: Pedigree) -> None:
    renamed = {"A": "B", "B": "C", "C": "A"}
    other = Pedigree(
        pools=tuple(
            Pool(name=pool.name, origin=Founder(strain=renamed[pool.origin.strain]))
            if isinstance(pool.origin, Founder)
            else pool
            for pool in lines.pools
        )
    )
    for pool in lines.pools:
        expected = {
            None if strain is None else renamed[strain]: share
            for strain, share in strain_shares(lines, pool.name)
        }
        assert dict(strain_shares(other, pool.name)) == expected
