"""Relatives of a group: how related, through whom, and who is not."""

import pytest

from filialog.analysis.relation_rows import RelationRow
from filialog.lineage import RelationshipKind
from tools.diaries import results_of

_CROSS = """
    2026-01-01 fen | bought: {group: dusk, count: 1, females: 1, look: glowing}
    2026-01-01 fen | bought: {group: dawn, count: 1, males: 1, look: dull}
    2026-01-01 mere | bought: {group: apart, count: 5, look: dull}
    2026-03-01 fen | hatched: {brood: first, dams: dusk, sires: dawn, count: 20}
    2026-03-20 fen | hatched: {brood: again, dams: dusk, sires: dawn, count: 20}
    2026-06-01 fen | hatched: {brood: half, dams: dusk, sires: apart, count: 20}
    2026-06-01 fen | hatched: {brood: second, dams: first, sires: first, mating: one, count: 20}
    2026-07-01 fen | moved: {group: second, count: 4, as: taken, to: mere}
"""


def _relatives(group: str) -> dict[str, RelationRow]:
    row = results_of(_CROSS).relatives(group)
    return {one.other: one for one in row.relatives}


@pytest.mark.parametrize(
    ("group", "other", "kind", "through", "kinship"),
    [
        # Malécot's coefficients, by hand: founders unrelated and not inbred.
        ("first", "dusk", RelationshipKind.PARENT_YOUNG, (), 1 / 4),
        ("first", "again", RelationshipKind.FULL_SIBS, ("dusk", "dawn"), 1 / 4),
        ("first", "half", RelationshipKind.HALF_SIBS, ("dusk",), 1 / 8),
        ("second", "taken", RelationshipKind.SAME_BROOD, (), 3 / 8),
        ("second", "dusk", RelationshipKind.ANCESTOR, (), 1 / 4),
        ("second", "half", RelationshipKind.COLLATERAL, ("dusk",), 1 / 8),
    ],
)
def test_relatives__are_named_with_their_kinship_and_the_way(
    group: str, other: str, kind: RelationshipKind, through: tuple[str, ...], kinship: float
) -> None:
    found = _relatives(group)[other]

    assert found.kind is kind
    assert set(found.through) == set(through)
    assert found.kinship_low == pytest.approx(kinship)
    assert found.kinship_high == pytest.approx(kinship)


def test_relatives__stand_most_related_first() -> None:
    rows = results_of(_CROSS).relatives("second").relatives

    assert [one.kinship_high for one in rows] == sorted(
        (one.kinship_high for one in rows), reverse=True
    )
    assert rows[0].other == "taken"


def test_relatives__say_who_is_a_parent_and_who_the_young() -> None:
    of_first, of_dusk = _relatives("first")["dusk"], _relatives("dusk")["first"]

    assert (of_first.generations_here, of_first.generations_there) == (1, 0)
    assert (of_dusk.generations_here, of_dusk.generations_there) == (0, 1)


def test_relatives__founders_of_other_stock_are_unrelated() -> None:
    row = results_of(_CROSS).relatives("first")

    assert row.unrelated == ("apart",)
    assert row.unknown == ()


def test_relatives__without_a_known_parent_are_not_called_unrelated() -> None:
    journal = """
        2026-01-01 fen | bought: {group: dusk, count: 1, females: 1}
        2026-03-01 mere | hatched: {brood: orphans, count: 5}
    """

    row = results_of(journal).relatives("orphans")

    assert row.relatives == ()
    assert (row.unrelated, row.unknown) == ((), ("dusk",))


def test_relatives__of_a_lone_group_are_none() -> None:
    row = results_of("2026-01-01 fen | bought: {group: dusk, count: 3}").relatives("dusk")

    assert (row.relatives, row.further, row.unrelated, row.unknown) == ((), (), (), ())


def test_relatives__two_of_a_group_and_one_with_itself_are_not_the_same() -> None:
    results = results_of(_CROSS)
    brood, single = results.relatives("second"), results.relatives("dusk")

    assert [brood.mates_low, brood.mates_high] == pytest.approx([3 / 8, 3 / 8])
    assert (single.mates_low, single.mates_high) == (None, None)
