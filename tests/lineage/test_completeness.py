"""Equivalent complete generations and the shares of ancestors that are known."""

import pytest
from hypothesis import given

from filialog.domain_error import DomainError
from filialog.lineage import (
    Blend,
    Completeness,
    Origin,
    Part,
    Pedigree,
    Share,
    completeness,
    equal_shares,
    generation_label,
)
from tools.pedigrees import brood, pedigree, pedigrees


def _line(generations: int) -> Pedigree:
    origins: dict[str, Origin | str] = {"g0": "blue"}
    for number in range(1, generations + 1):
        origins[f"g{number}"] = brood(f"g{number - 1}", f"g{number - 1}")
    return pedigree(origins)


@pytest.mark.parametrize("generations", [0, 1, 3, 5, 7, 400])
def test_completeness__of_a_complete_pedigree_is_its_number_of_generations(
    generations: int,
) -> None:
    found = completeness(_line(generations), f"g{generations}")

    assert found.equivalent_generations == generations
    assert found.known == tuple(1.0 if n < generations else 0.0 for n in range(5))
    assert found.index == pytest.approx(min(generations, 5) / 5)


def test_completeness__with_a_parent_missing_further_back() -> None:
    lines = pedigree(
        {
            "a": "A",
            "b": "A",
            "half": brood("a", None),
            "full": brood("a", "b"),
            "y": brood("half", "full"),
        }
    )
    found = completeness(lines, "y")

    # Both parents 2/2; of four grandparents three: (1/4) each.
    assert found.equivalent_generations == 1.75
    assert found.known == (1.0, 0.75, 0.0, 0.0, 0.0)
    # Dam's side (1/2 + 1/4)/5, sire's (1/2 + 1/2)/5: twice their harmonic mean.
    dam, sire = 0.75 / 5, 1.0 / 5
    assert found.index == pytest.approx(4 * dam * sire / (dam + sire))


def test_completeness__one_side_unknown_has_index_zero() -> None:
    found = completeness(pedigree({"a": "A", "y": brood("a", None)}), "y")

    assert found == Completeness(
        equivalent_generations=0.5, known=(0.5, 0.0, 0.0, 0.0, 0.0), index=0.0
    )


def test_completeness__sets_parts_and_blends_are_means_by_weight() -> None:
    from_three = (Share(pool="y", weight=equal_shares("p", "q", "r", "s")[0].weight * 3),)
    blend = Blend(parts=(*from_three, Share(pool="a", weight=1 - from_three[0].weight)))
    lines = pedigree(
        {
            "a": "A",
            "y": brood("a", "a"),
            "z": brood("a y", "a"),
            "part": Part(of="z"),
            "joined": blend,
        }
    )

    assert completeness(lines, "z").known[:3] == (1.0, 0.25, 0.0)
    assert completeness(lines, "part") == completeness(lines, "z")
    assert completeness(lines, "joined").equivalent_generations == 0.75


def test_completeness__unknown_name_is_refused() -> None:
    with pytest.raises(DomainError, match="gone"):
        completeness(_line(1), "gone")


@given(pedigrees())
def test_completeness__lies_within_what_the_pedigree_holds(lines: Pedigree) -> None:
    for pool in lines.pools:
        found = completeness(lines, pool.name)
        shares = (1.0, *found.known)
        assert all(
            0.0 <= later <= earlier + 1e-12
            for earlier, later in zip(shares, found.known, strict=False)
        )
        assert sum(found.known) <= found.equivalent_generations + 1e-12
        assert 0.0 <= found.index <= sum(found.known) / 5 + 1e-12
        label = generation_label(lines, pool.name)
        if label.fewest is not None and label.most is not None:
            assert label.fewest - 1e-12 <= found.equivalent_generations <= label.most + 1e-12
