"""Who can have been the sire of a female that was moved, with eggs and without."""

import pytest

from filialog.journal.parentage import (
    Claim,
    GroundKind,
)
from tools.parentage import ground, parents_of

_TWO_TANKS = """
    2025-11-01 fen | bought: {group: dusk, females: 1}
    2025-11-01 fen | bought: {group: dawn, males: 1}
    2025-11-01 tarn | bought: {group: noon, males: 1}
"""


def test_moves__a_berried_female_carries_the_sires_of_the_tank_she_left() -> None:
    sires = parents_of(
        _TWO_TANKS
        + """
        2026-02-05 fen | moved: {group: dusk, to: tarn, count: 1, berried: true}
        2026-03-01 tarn | hatched: {brood: young}
        """
    ).sires

    assert (sires.groups, sires.claim) == (("dawn",), Claim.FIRM)
    assert [event.entry for event in ground(sires, GroundKind.MOVED_BERRIED).events] == ["004"]


def test_moves__after_her_brood_a_female_moved_with_eggs_meets_the_new_tank() -> None:
    sires = parents_of(
        _TWO_TANKS
        + """
        2026-02-01 fen | moved: {group: dusk, to: tarn, count: 1, berried: true}
        2026-02-10 tarn | hatched: {brood: first}
        2026-03-08 tarn | hatched: {brood: young}
        """
    ).sires

    # The window begins on 3 February: no eggs of fen are that late.
    assert sires.groups == ("noon",)


def test_moves__of_one_berried_female_among_several_both_tanks_count() -> None:
    sires = parents_of(
        """
        2025-11-01 fen | bought: {group: dusk, females: 3}
        2025-11-01 fen | bought: {group: dawn, males: 1}
        2025-11-01 tarn | bought: {group: noon, males: 1}
        2026-02-05 fen | moved: {group: dusk, to: tarn, count: 3, berried: true}
        2026-03-01 tarn | hatched: {brood: young}
        """
    ).sires

    assert sires.groups == ("dawn", "noon")


def test_moves__without_eggs_the_males_she_left_are_not_excluded() -> None:
    sires = parents_of(
        _TWO_TANKS
        + """
        2026-01-10 fen | moved: {group: dusk, to: tarn}
        2026-03-01 tarn | hatched: {brood: young}
        """
    ).sires

    assert (sires.groups, sires.not_excluded) == (("dawn", "noon"), ("dawn",))
    assert ground(sires, GroundKind.MOVED_UNBERRIED).groups == ("dawn",)


@pytest.mark.parametrize(
    "what",
    [
        pytest.param("2025-12-20 fen | moved: {group: dusk, to: tarn}", id="long ago"),
        pytest.param(
            "2026-01-10 fen | moved: {group: dusk, to: tarn}\n"
            "2026-01-15 tarn | seen: {group: dusk, what: moult}",
            id="a moult since",
        ),
        pytest.param(
            "2026-01-10 fen | moved: {group: dusk, to: tarn}\n"
            "2026-01-12 tarn | berried: {group: dusk}\n"
            "2026-01-20 tarn | hatched: {brood: first}",
            id="her first brood since",
        ),
    ],
)
def test_moves__without_eggs_the_males_she_left_are_out_after_a_moult(what: str) -> None:
    sires = parents_of(_TWO_TANKS + f"{what}\n2026-03-01 tarn | hatched: {{brood: young}}").sires

    assert sires.groups == ("noon",)


def test_moves__eggs_of_a_later_move_can_be_of_the_sperm_she_took_along() -> None:
    sires = parents_of(
        _TWO_TANKS
        + """
        2025-11-01 mire | bought: {group: notch, males: 1}
        2026-01-25 fen | moved: {group: dusk, to: tarn}
        2026-01-28 tarn | seen: {group: dusk, what: not-berried}
        2026-02-12 tarn | moved: {group: dusk, to: mire, count: 1, berried: true}
        2026-03-01 mire | hatched: {brood: young}
        """
    ).sires

    assert (sires.groups, sires.not_excluded) == (("dawn", "noon"), ("dawn",))


def test_moves__eggs_carried_before_used_up_the_sperm_she_took_along() -> None:
    sires = parents_of(
        _TWO_TANKS
        + """
        2026-01-01 fen | moved: {group: dusk, to: mire}
        2026-01-10 mire | moved: {group: dusk, to: tarn, count: 1, berried: true}
        2026-03-01 tarn | hatched: {brood: young}
        """
    ).sires

    assert sires.groups == ("noon",)


def test_moves__who_was_young_at_the_move_took_no_sperm_along() -> None:
    sires = parents_of(
        """
        2025-11-01 fen | bought: {group: dusk, females: 1}
        2025-11-01 fen | bought: {group: dawn, males: 1}
        2025-11-01 tarn | bought: {group: noon, males: 1}
        2025-11-20 fen | hatched: {brood: first}
        2026-01-10 fen | moved: {from: first, to: tarn, as: daughter, females: 1}
        2026-03-01 tarn | hatched: {brood: young}
        """
    ).sires

    assert sires.groups == ("noon",)


def test_moves__the_males_of_the_old_tank_are_all_there_is_after_a_late_move() -> None:
    sires = parents_of(
        _TWO_TANKS
        + """
        2026-02-25 fen | moved: {group: dusk, to: tarn}
        2026-03-01 tarn | hatched: {brood: young}
        """
    ).sires

    assert (sires.groups, sires.not_excluded) == (("dawn",), ())


def test_moves__are_followed_through_names_and_tanks() -> None:
    sires = parents_of(
        """
        2025-11-01 fen | bought: {group: dusk, females: 4}
        2025-11-01 fen | bought: {group: dawn, males: 1}
        2025-11-01 mire | bought: {group: noon, males: 1}
        2026-02-01 fen | sorted: {from: dusk, into: {best: {count: 2}}}
        2026-02-02 fen | chosen: {from: best, into: queen, count: 1}
        2026-02-03 fen | moved: {group: queen, to: tarn, count: 1, berried: true}
        2026-02-20 tarn | moved: {group: queen, to: mire, count: 1, berried: true}
        2026-03-01 mire | hatched: {brood: young}
        """
    )

    assert (sires.dams.groups, sires.sires.groups) == (("queen",), ("dawn",))


def test_moves__a_group_joined_and_split_again_keeps_its_sires() -> None:
    parents = parents_of(
        """
        2025-11-01 fen | bought: {group: dusk, females: 2}
        2025-11-01 fen | bought: {group: dawn, males: 2}
        2025-12-01 fen | joined: {parts: [dusk, dawn], into: all}
        2026-02-20 fen | sorted: {from: all, into: {dusk: {females: 2}, dawn: {males: 2}}}
        2026-03-01 fen | hatched: {brood: young}
        """
    )

    assert parents.dams.groups == ("dusk",)
    assert parents.sires.groups == ("all",)


def test_moves__into_a_group_bring_its_animals_from_where_they_were() -> None:
    parents = parents_of(
        """
        2025-11-01 fen | bought: {group: dusk, females: 1}
        2025-11-01 fen | bought: {group: dawn, males: 1}
        2025-11-01 tarn | bought: {group: dew, females: 2}
        2026-02-25 fen | moved: {group: dusk, to: dew}
        2026-03-01 tarn | hatched: {brood: young}
        """,
        tanks=("fen", "tarn"),
    )

    assert parents.dams.groups == ("dew",)
    assert parents.sires.groups == ("dawn",)


def test_moves__of_a_named_dam_are_followed_under_the_name_she_has() -> None:
    sires = parents_of(
        """
        2025-11-01 fen | bought: {group: dusk, females: 4}
        2025-11-01 fen | bought: {group: dawn, males: 1}
        2025-11-01 tarn | bought: {group: dew, females: 1}
        2025-11-01 tarn | bought: {group: noon, males: 1}
        2026-02-10 fen | moved: {from: dusk, to: mire, as: queen, count: 1, berried: true}
        2026-02-10 tarn | moved: {group: dew, to: mire, count: 1, berried: true}
        2026-03-01 mire | hatched: {brood: young, dams: dusk}
        """
    ).sires

    assert sires.groups == ("dawn",)
