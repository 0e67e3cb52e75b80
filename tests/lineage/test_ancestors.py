"""The list of ancestors: order, distance, repeats, and where it stops."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.lineage import (
    Ancestor,
    Blend,
    Brood,
    Origin,
    Part,
    Pedigree,
    SourceRole,
    ancestors,
    equal_shares,
)
from tools.pedigrees import brood, pedigree, pedigrees

_LINES = pedigree(
    {
        "a": "A",
        "b": "B",
        "f1": brood("b", "a"),
        "plain": Part(of="f1"),
        "tank": Blend(parts=equal_shares("plain", "b")),
        "young": brood("tank", "a f1"),
        "last": brood("young", None),
    }
)


def _rows(pool: str, depth: int) -> list[tuple[int, int, str, str | None, bool]]:
    return [
        (link.level, link.distance, link.role.value, link.name, link.listed_elsewhere)
        for link in ancestors(_LINES, pool, depth)
    ]


def test_ancestors__are_nested_dams_first_with_generations_counted() -> None:
    assert _rows("last", 9) == [
        (1, 1, "dam", "young", False),
        (2, 2, "dam", "tank", False),
        (3, 2, "component", "plain", False),
        (4, 2, "whole", "f1", False),
        (5, 3, "dam", "b", True),
        (5, 3, "sire", "a", True),
        (3, 2, "component", "b", False),
        (2, 2, "sire", "a", False),
        (2, 2, "sire", "f1", True),
        (1, 1, "sire", None, False),
    ]


def test_ancestors__stop_at_the_depth() -> None:
    assert _rows("last", 1) == [(1, 1, "dam", "young", False), (1, 1, "sire", None, False)]
    assert _rows("last", 0) == []


def test_ancestors__of_a_part_include_its_whole_at_no_distance() -> None:
    assert _rows("plain", 0) == [(1, 0, "whole", "f1", False)]


def test_ancestors__of_a_founder_are_none() -> None:
    assert ancestors(_LINES, "a", 5) == ()


def test_ancestors__carry_the_weight_and_the_pool_that_came_from_them() -> None:
    sire = ancestors(_LINES, "young", 1)[-1]

    assert sire == Ancestor(
        name="f1",
        source_of="young",
        role=SourceRole.SIRE,
        weight=Fraction(1, 2),
        level=1,
        distance=1,
        listed_elsewhere=True,
    )


def test_ancestors__of_a_long_line_are_linear_in_number() -> None:
    origins: dict[str, Origin | str] = {"g0": "A"}
    for number in range(1, 2001):
        origins[f"g{number}"] = brood(f"g{number - 1}", f"g{number - 1}")

    found = ancestors(pedigree(origins), "g2000", 2000)

    assert len(found) == 4000
    assert max(link.distance for link in found) == 2000


def test_ancestors__refuse_a_depth_below_none_and_an_unknown_name() -> None:
    with pytest.raises(DomainError, match="generations to go back is -1"):
        ancestors(_LINES, "last", -1)
    with pytest.raises(DomainError, match="gone"):
        ancestors(_LINES, "gone", 1)


def _within(lines: Pedigree, name: str, depth: int) -> set[str]:
    """Walk every path without any memory."""
    match lines.pool(name).origin:
        case Brood(dams=dams, sires=sires):
            if depth == 0:
                return set()
            sources, left = [share.pool for share in (*dams, *sires)], depth - 1
        case Blend(parts=parts):
            sources, left = [share.pool for share in parts], depth
        case Part(of=of):
            sources, left = [of], depth
        case _:
            return set()
    return set(sources).union(*(_within(lines, source, left) for source in sources))


@given(pedigrees(), st.integers(0, 5))
def test_ancestors__are_all_that_any_path_reaches(lines: Pedigree, depth: int) -> None:
    for pool in lines.pools:
        found = ancestors(lines, pool.name, depth)
        assert {link.name for link in found} - {None} == _within(lines, pool.name, depth)
        opened = [link.name for link in found if link.name and not link.listed_elsewhere]
        assert len(opened) == len(set(opened))
