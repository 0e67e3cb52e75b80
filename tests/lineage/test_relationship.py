"""How two groups are related: kinds, the nearest pools in common, and lists of relatives."""

import itertools

import pytest
from hypothesis import given

from filialog.domain_error import DomainError
from filialog.lineage import (
    Blend,
    Mating,
    Origin,
    Part,
    Pedigree,
    Relationship,
    RelationshipKind,
    equal_shares,
    kinship_table,
    relationship,
    relatives,
)
from tools.pedigrees import brood, pedigree, pedigrees

_ORIGINS: dict[str, Origin | str] = {
    **dict.fromkeys(("a", "b", "c", "old"), "blue"),
    "ab": brood("a", "b"),
    "ab-again": brood("b", "a"),
    "cb": brood("c", "b"),
    "cb-again": brood("c", "b"),
    "pale": Part(of="ab"),
    "dark": Part(of="ab"),
    "paler": Part(of="pale"),
    "pale-young": brood("pale", "c"),
    "dark-young": brood("dark", "old"),
    "pale-grandyoung": brood("pale-young", "old"),
    "set": brood("a c", "old"),
    "fatherless": brood("old", None),
    "later": brood("fatherless", "old"),
    "stranger": brood("x", "x"),
    "x": "wild",
    "mixed": Blend(parts=equal_shares("ab", "cb")),
    "kept": Part(of="mixed"),
    "sold": Part(of="mixed"),
    "moved-a": Part(of="a"),
    "left": Part(of="old"),
    "right": Part(of="old"),
}
_SINGLE = dict.fromkeys(("a", "b", "c"), 1)
_KIND = RelationshipKind


def _lines() -> Pedigree:
    return pedigree(_ORIGINS, _SINGLE)


_Steps = tuple[int | None, int | None, bool]


def _surely(a: int | None, b: int | None) -> _Steps:
    return a, b, False


def _possibly(a: int | None, b: int | None) -> _Steps:
    return a, b, True


@pytest.mark.parametrize(
    ("a", "b", "kind", "steps", "through"),
    [
        ("a", "moved-a", _KIND.SAME_ANIMAL, _surely(0, 0), "a"),
        ("a", "a", _KIND.SAME_ANIMAL, _surely(0, 0), "a"),
        ("old", "old", _KIND.SAME_POOL, _surely(0, 0), "old"),
        ("left", "right", _KIND.SAME_POOL, _surely(0, 0), "old"),
        ("kept", "sold", _KIND.SAME_POOL, _surely(0, 0), "mixed"),
        ("ab", "ab", _KIND.SAME_BROOD, _surely(0, 0), "ab"),
        ("dark", "pale", _KIND.SAME_BROOD, _surely(0, 0), "ab"),
        ("dark", "paler", _KIND.SAME_BROOD, _surely(0, 0), "ab"),
        ("ab", "paler", _KIND.SAME_BROOD, _surely(0, 0), "ab"),
        ("mixed", "pale", _KIND.SAME_BROOD, _possibly(0, 0), "ab b"),
        ("ab", "a", _KIND.PARENT_YOUNG, _surely(1, 0), "a"),
        ("moved-a", "ab", _KIND.PARENT_YOUNG, _surely(0, 1), "a"),
        ("pale", "b", _KIND.PARENT_YOUNG, _surely(1, 0), "b"),
        ("pale-young", "pale", _KIND.PARENT_YOUNG, _possibly(1, 0), "pale"),
        ("pale-young", "ab", _KIND.PARENT_YOUNG, _possibly(1, 0), "ab"),
        ("set", "a", _KIND.PARENT_YOUNG, _possibly(1, 0), "a"),
        ("fatherless", "left", _KIND.PARENT_YOUNG, _possibly(1, 0), "old"),
        ("ab", "ab-again", _KIND.FULL_SIBS, _surely(1, 1), "a b"),
        ("pale", "ab-again", _KIND.FULL_SIBS, _surely(1, 1), "a b"),
        ("mixed", "cb-again", _KIND.FULL_SIBS, _possibly(1, 1), "b c"),
        ("ab", "cb", _KIND.HALF_SIBS, _surely(1, 1), "b"),
        ("cb", "pale-young", _KIND.HALF_SIBS, _surely(1, 1), "c b"),
        ("ab", "set", _KIND.HALF_SIBS, _possibly(1, 1), "a"),
        ("set", "fatherless", _KIND.HALF_SIBS, _possibly(1, 1), "old"),
        ("pale-young", "a", _KIND.ANCESTOR, _surely(2, 0), "a"),
        ("b", "pale-grandyoung", _KIND.ANCESTOR, _surely(0, 3), "b"),
        ("pale-grandyoung", "ab", _KIND.ANCESTOR, _possibly(2, 0), "ab"),
        # The dam was a brood mate of the dark ones: an aunt is no ancestor.
        ("pale-young", "dark", _KIND.COLLATERAL, _surely(1, 0), "ab"),
        ("pale-young", "dark-young", _KIND.COLLATERAL, _surely(1, 1), "ab"),
        ("ab-again", "dark-young", _KIND.COLLATERAL, _surely(1, 2), "a b"),
        ("a", "b", _KIND.UNRELATED_BY_RECORD, _surely(None, None), ""),
        ("ab", "stranger", _KIND.UNRELATED_BY_RECORD, _surely(None, None), ""),
        ("fatherless", "stranger", _KIND.UNKNOWN, _surely(None, None), ""),
        ("stranger", "later", _KIND.UNKNOWN, _surely(None, None), ""),
        ("a", "fatherless", _KIND.UNKNOWN, _surely(None, None), ""),
    ],
)
def test_relationship__kinds(
    a: str, b: str, kind: RelationshipKind, steps: _Steps, through: str
) -> None:
    found = relationship(_lines(), a, b)

    assert found.kind is kind
    assert (found.generations_a, found.generations_b, found.possible) == steps
    assert " ".join(one.name for one in found.through) == through
    assert found.kinship == kinship_table(_lines()).between(a, b)


def test_relationship__one_certain_way_is_enough() -> None:
    lines = pedigree({"a": "A", "c": "A", "y": brood("a", "a c")}, {"a": 1, "c": 1})

    assert not relationship(lines, "y", "a").possible
    assert relationship(lines, "y", "c").possible


def test_relationship__of_young_of_one_group_is_of_its_animals_only_possibly() -> None:
    lines = pedigree({"old": "A", "one": brood("old", "old"), "two": brood("old", "old")})
    found = relationship(lines, "one", "two")

    assert (found.kind, found.possible) == (_KIND.FULL_SIBS, True)
    sizes = {"old": 1}
    selfed = pedigree({"old": "A", "one": brood("old", "old"), "two": brood("old", "old")}, sizes)
    assert not relationship(selfed, "one", "two").possible


def test_relationship__through_a_cloud_of_several_couples_is_only_possibly() -> None:
    def cousins(mating: Mating, cloud: Mating) -> bool:
        made = brood("d", "s")
        lines = pedigree(
            {
                **dict.fromkeys(("d", "s", "x", "z"), "A"),
                "y": type(made)(dams=made.dams, sires=made.sires, mating=mating, cloud=cloud),
                "left": Part(of="y"),
                "right": Part(of="y"),
                "one": brood("left", "x"),
                "two": brood("right", "z"),
            }
        )
        found = relationship(lines, "one", "two")
        assert found.kind is _KIND.COLLATERAL
        return found.possible

    assert not cousins(Mating.ONE, Mating.ONE)
    assert not cousins(Mating.UNKNOWN, Mating.ONE)  # one dam
    assert cousins(Mating.UNKNOWN, Mating.SEVERAL)


def test_relationship__steps_of_each_side_stand_with_the_ancestor() -> None:
    found = relationship(_lines(), "pale-grandyoung", "set")

    # The two broods have the old group in common as parents; further back a and c.
    steps = [(one.name, one.generations_a, one.generations_b) for one in found.through]
    assert steps == [("old", 1, 1), ("c", 2, 1), ("a", 3, 1)]
    assert [one.possible for one in found.through] == [False, True, True]


def test_relationship__a_path_that_is_longer_does_not_hide_the_nearest() -> None:
    lines = pedigree(
        {"a": "A", "b": "A", "y": brood("a", "b"), "z": brood("y", "a"), "w": brood("z", "a")},
        {"a": 1},
    )
    found = relationship(lines, "w", "a")

    assert (found.kind, found.generations_a) == (_KIND.PARENT_YOUNG, 1)
    assert [(one.name, one.generations_a) for one in found.through] == [("a", 1)]


def test_relationship__of_long_lines_does_not_exhaust_the_stack() -> None:
    origins: dict[str, Origin | str] = {"g0": "A"}
    for number in range(1, 1001):
        origins[f"g{number}"] = brood(f"g{number - 1}", f"g{number - 1}")
    found = relationship(pedigree(origins), "g0", "g1000")

    assert (found.kind, found.generations_b) == (_KIND.ANCESTOR, 1000)


def test_relationship__unknown_name_is_refused() -> None:
    for names in (("gone", "a"), ("a", "gone")):
        with pytest.raises(DomainError, match="gone"):
            relationship(_lines(), *names)
    with pytest.raises(DomainError, match="gone"):
        relatives(_lines(), "gone")


def _turned(found: Relationship) -> tuple[object, ...]:
    return (
        found.kind,
        found.possible,
        found.generations_b,
        found.generations_a,
        [(one.name, one.generations_b, one.generations_a, one.possible) for one in found.through],
    )


@given(pedigrees())
def test_relationship__names_what_the_kinship_rests_on(lines: Pedigree) -> None:
    names = [pool.name for pool in lines.pools]
    for a, b in itertools.combinations_with_replacement(names, 2):
        found, back = relationship(lines, a, b), relationship(lines, b, a)
        assert _turned(back) == (
            found.kind,
            found.possible,
            found.generations_a,
            found.generations_b,
            [(o.name, o.generations_a, o.generations_b, o.possible) for o in found.through],
        )
        apart = found.kind in (_KIND.UNRELATED_BY_RECORD, _KIND.UNKNOWN)
        assert apart == (not found.through)
        if found.kinship.high > 0:
            assert found.through
        if found.kind is _KIND.PARENT_YOUNG and not found.possible:
            assert found.kinship.low >= 0.25 - 1e-12
        if found.kind is _KIND.FULL_SIBS and not found.possible:
            assert found.kinship.low >= 0.25 - 1e-12
        if found.kind is _KIND.HALF_SIBS and not found.possible:
            assert found.kinship.low >= 0.125 - 1e-12
        if found.kind is _KIND.COLLATERAL and not found.possible:
            assert found.kinship.low > 0.0


@given(pedigrees())
def test_relatives__are_all_that_have_an_ancestor_in_common(lines: Pedigree) -> None:
    names = [pool.name for pool in lines.pools]
    for a in names:
        found = relatives(lines, a)
        listed = {one.name for one in found}
        assert listed == {b for b in names if b != a and relationship(lines, a, b).through}
        assert [one.kinship.high for one in found] == sorted(
            (one.kinship.high for one in found), reverse=True
        )
        assert all(one.kinship == kinship_table(lines).between(a, one.name) for one in found)


def test_relatives__equally_related_ones_stand_by_name() -> None:
    found = relatives(_lines(), "stranger")
    assert [one.name for one in found] == ["x"]

    names = [one.name for one in relatives(_lines(), "a")]
    assert names[:6] == ["moved-a", "ab", "ab-again", "dark", "pale", "paler"]
    assert names[6:12] == ["dark-young", "kept", "mixed", "pale-young", "set", "sold"]  # 1/8
    assert names[12:] == ["pale-grandyoung"]
