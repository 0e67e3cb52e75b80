"""Who can have been dam and sire: a small journal for each thing that excludes, or does not."""

from collections.abc import Sequence
from datetime import date

import pytest

from filialog.journal import check_journal, public_view
from filialog.journal.ledger.book import Cell
from filialog.journal.parentage import (
    BroodParents,
    Claim,
    Ground,
    GroundKind,
    Parentage,
    ParentSet,
)
from filialog.journal.parentage.occupancy import Occupancy, Span
from tools.diaries import checked, diary_files

_SPECIES = "species: neocaridina-davidi\n"
# 60 days to maturity, 15 to 31 days to hatching. Young seen on 1 March hatched from 26 February
# on; their eggs were fertilised from 26 January to 14 February.


def _parents(
    diary: str, brood: str = "young", *, settings: str = _SPECIES, tanks: Sequence[str] = ()
) -> BroodParents:
    found = checked(diary_files(diary, settings=settings, tanks=tanks)).parentage.of(brood)
    assert found is not None
    return found


def _ground(parents: ParentSet, kind: GroundKind) -> Ground:
    return next(one for one in parents.grounds if one.kind is kind)


def _kinds(parents: ParentSet) -> set[GroundKind]:
    return {one.kind for one in parents.grounds}


_PAIR = """
    2026-01-01 fen | bought: {group: dusk, females: 1}
    2026-01-01 fen | bought: {group: dawn, males: 1}
"""


# --- windows --------------------------------------------------------------------------------


def test_window__is_the_hatching_less_the_days_of_the_species() -> None:
    sires = _parents(_PAIR + "2026-03-01 fen | hatched: {brood: young}").sires

    there = _ground(sires, GroundKind.IN_TANK)
    assert (str(there.first), str(there.last)) == ("2026-01-26", "2026-02-14")
    assert _ground(sires, GroundKind.BY_SPECIES).days == (15, 31)
    assert there.tanks == ("fen",)


def test_window__is_that_of_the_temperatures_measured() -> None:
    """At 22.5 °C eggs take 230 / 10 = 23 days; 18 to 28 with the margins."""
    sires = _parents(
        _PAIR
        + """
        2026-02-01 fen | measured: {temperature: 22.5 °C}
        2026-02-20 fen | measured: {temperature: 22.5 °C}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert _ground(sires, GroundKind.BY_TEMPERATURE).days == (18, 28)
    there = _ground(sires, GroundKind.IN_TANK)
    assert (str(there.first), str(there.last)) == ("2026-01-29", "2026-02-11")
    assert [event.entry for event in _ground(sires, GroundKind.BY_TEMPERATURE).events] == [
        "003",
        "004",
    ]


@pytest.mark.parametrize(
    "measured",
    [
        pytest.param("2026-02-15 tarn | measured: {temperature: 22.5 °C}", id="another tank"),
        pytest.param("2025-11-15 fen | measured: {temperature: 22.5 °C}", id="long ago"),
        pytest.param("2026-02-15 fen | measured: {temperature: 18 °C}", id="too cold to compute"),
        pytest.param("2026-02-15 fen | measured: {ph: 7}", id="something else"),
        pytest.param("2026-02-15 fen | changed: {litres: 3, temperature: 22.5 °C}", id="new water"),
    ],
)
def test_window__is_that_of_the_species_without_temperatures_of_use(measured: str) -> None:
    sires = _parents(_PAIR + f"{measured}\n2026-03-01 fen | hatched: {{brood: young}}").sires

    assert _ground(sires, GroundKind.BY_SPECIES).days == (15, 31)


def test_window__holds_that_of_every_tank_she_can_have_been_in() -> None:
    """In fen at 22.5 °C 18 to 28 days, in tarn at 27.5 °C 230 / 15 = 15.3: 12 to 19 days."""
    sires = _parents(
        """
        2026-01-01 fen | bought: {group: dusk, females: 1}
        2026-01-01 fen | bought: {group: dawn, males: 1}
        2026-02-01 fen | measured: {temperature: 22.5 °C}
        2026-02-01 tarn | measured: {temperature: 27.5 °C}
        2026-02-20 fen | measured: {temperature: 22.5 °C}
        2026-02-20 tarn | measured: {temperature: 27.5 °C}
        2026-02-14 fen | moved: {group: dusk, to: tarn}
        2026-03-01 tarn | hatched: {brood: young}
        """
    ).sires

    assert _ground(sires, GroundKind.BY_TEMPERATURE).days == (12, 28)


def test_window__without_a_species_is_wide() -> None:
    sires = _parents(_PAIR + "2026-03-01 fen | hatched: {brood: young}", settings="").sires

    assert _ground(sires, GroundKind.BY_SPECIES).days == (14, 42)


def test_window__begins_when_she_was_last_seen_without_eggs() -> None:
    sires = _parents(
        _PAIR
        + """
        2026-02-05 fen | seen: {group: dusk, what: not-berried}
        2026-02-04 fen | moved: {group: dawn, to: tarn}
        2026-02-06 fen | bought: {group: noon, males: 1}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert sires.groups == ("noon",)
    assert str(_ground(sires, GroundKind.NOT_YET_BERRIED).first) == "2026-02-05"


def test_window__begins_when_the_whole_tank_was_seen_without_eggs() -> None:
    sires = _parents(
        _PAIR
        + """
        2026-02-04 fen | moved: {group: dawn, to: tarn}
        2026-02-05 fen | seen: not-berried
        2026-02-06 fen | bought: {group: noon, males: 1}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert sires.groups == ("noon",)


@pytest.mark.parametrize(
    ("seen", "sires"),
    [
        pytest.param("{group: dusk, count: 2, what: not-berried}", ("dawn", "noon"), id="two of 3"),
        pytest.param("{group: dusk, count: 3, what: not-berried}", ("noon",), id="all three"),
        pytest.param("{of: [dusk, noon], what: not-berried}", ("dawn", "noon"), id="one or other"),
        pytest.param("{group: dusk, what: saddled}", ("dawn", "noon"), id="saddled says nothing"),
    ],
)
def test_window__is_narrowed_by_what_holds_for_all_of_a_group(
    seen: str, sires: tuple[str, ...]
) -> None:
    found = _parents(
        f"""
        2026-01-01 fen | bought: {{group: dusk, females: 3}}
        2026-01-01 fen | bought: {{group: dawn, males: 1}}
        2026-02-04 fen | moved: {{group: dawn, to: tarn}}
        2026-02-05 fen | seen: {seen}
        2026-02-06 fen | bought: {{group: noon, males: 1}}
        2026-03-01 fen | hatched: {{brood: young}}
        """
    ).sires

    assert found.groups == sires


def test_window__ends_when_she_was_first_seen_with_eggs() -> None:
    sires = _parents(
        _PAIR
        + """
        2026-02-03 fen | berried: {group: dusk}
        2026-02-04 fen | bought: {group: noon, males: 1}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert sires.groups == ("dawn",)
    assert str(_ground(sires, GroundKind.BERRIED).first) == "2026-02-03"


@pytest.mark.parametrize(
    "between",
    [
        pytest.param("2026-02-04 fen | hatched: {brood: other, dams: dusk}", id="they hatched"),
        pytest.param("2026-02-04 fen | seen: {group: dusk, what: eggs-dropped}", id="lost"),
    ],
)
def test_window__does_not_end_with_eggs_that_can_have_been_others(between: str) -> None:
    sires = _parents(
        _PAIR
        + f"""
        2026-02-03 fen | berried: {{group: dusk}}
        {between}
        2026-02-05 fen | bought: {{group: noon, males: 1}}
        2026-03-01 fen | hatched: {{brood: young}}
        """
    ).sires

    assert "noon" in sires.groups


def test_window__does_not_end_with_the_eggs_of_one_of_several_females() -> None:
    sires = _parents(
        """
        2026-01-01 fen | bought: {group: dusk, females: 2}
        2026-01-01 fen | bought: {group: dawn, males: 1}
        2026-02-03 fen | berried: {group: dusk, count: 1}
        2026-02-04 fen | bought: {group: noon, males: 1}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert sires.groups == ("dawn", "noon")


def test_window__begins_with_a_mating_seen() -> None:
    sires = _parents(
        _PAIR
        + """
        2026-02-04 fen | moved: {group: dawn, to: tarn}
        2026-02-05 fen | bought: {group: noon, males: 1}
        2026-02-05 fen | seen: {group: dusk, what: [moult, mating]}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert sires.groups == ("noon",)
    assert GroundKind.MOULTED in _kinds(sires)


def test_window__remarks_that_leave_nobody_are_not_used() -> None:
    parents = _parents(
        _PAIR
        + """
        2026-02-20 fen | seen: {group: dusk, what: not-berried}
        2026-03-01 fen | hatched: {brood: young}
        """
    )

    assert (parents.dams.groups, parents.sires.groups) == (("dusk",), ("dawn",))


def test_window__a_remark_leaves_out_a_dam_without_eggs_too_near_the_hatching() -> None:
    dams = _parents(
        _PAIR
        + """
        2026-01-01 fen | bought: {group: dew, females: 1}
        2026-02-20 fen | seen: {group: dusk, what: not-berried}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).dams

    assert dams.groups == ("dew",)


def test_window__a_hatching_some_day_within_reaches_from_its_first_to_its_last() -> None:
    sires = _parents(
        _PAIR + "2026-03-20 fen | hatched: {brood: young, when: 2026-03-01/2026-03-09}"
    ).sires

    there = _ground(sires, GroundKind.IN_TANK)
    assert (str(there.first), str(there.last)) == ("2026-01-26", "2026-02-22")


# --- dams -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("left", "dams"),
    [
        pytest.param("2026-02-25", ("dew",), id="before the hatching"),
        pytest.param("2026-02-26", ("dew", "dusk"), id="when the young can have hatched unseen"),
    ],
)
def test_dams__were_in_the_tank_when_the_young_hatched(left: str, dams: tuple[str, ...]) -> None:
    found = _parents(
        f"""
        2026-01-01 fen | bought: {{group: dusk, females: 1}}
        2026-01-01 fen | bought: {{group: dew, females: 1}}
        {left} fen | moved: {{group: dusk, to: tarn}}
        2026-03-01 fen | hatched: {{brood: young}}
        """
    ).dams

    assert found.groups == dams


def test_dams__a_female_that_came_back_in_time_is_one() -> None:
    found = _parents(
        """
        2026-01-01 fen | bought: {group: dusk, females: 1}
        2026-01-20 fen | moved: {group: dusk, to: tarn}
        2026-02-27 tarn | moved: {group: dusk, to: fen, berried: true}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).dams

    assert (found.groups, found.claim, found.most) == (("dusk",), Claim.FIRM, 1)


def test_dams__of_unknown_place_are_not_excluded() -> None:
    dams = _parents(
        _PAIR
        + """
        2026-01-01 | present: {group: drift, females: 2}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).dams

    assert dams.groups == ("drift", "dusk")
    assert _ground(dams, GroundKind.PLACE_UNKNOWN).groups == ("drift",)


def test_dams__a_brood_without_a_tank_has_none() -> None:
    parents = _parents(_PAIR + "2026-03-01 | hatched: {brood: young}")

    assert (parents.dams.claim, parents.sires.claim) == (Claim.UNKNOWN, Claim.UNKNOWN)
    assert (parents.dams.groups, parents.sires.groups) == ((), ())


def test_dams__a_brood_in_an_empty_tank_has_none() -> None:
    parents = _parents(_PAIR + "2026-03-01 tarn | hatched: {brood: young}")

    assert (parents.dams.groups, parents.sires.groups) == ((), ())


# --- sires ----------------------------------------------------------------------------------


def test_sires__a_named_death_before_the_window_excludes() -> None:
    sires = _parents(
        _PAIR
        + """
        2026-01-01 fen | bought: {group: noon, males: 1}
        2026-01-20 fen | died: {group: dawn, count: 1}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert (sires.groups, sires.claim, sires.most) == (("noon",), Claim.FIRM, 1)


def test_sires__an_unnamed_death_excludes_nobody() -> None:
    sires = _parents(
        _PAIR
        + """
        2026-01-01 fen | bought: {group: noon, males: 1}
        2026-01-20 fen | died: {count: 1}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert (sires.groups, sires.most) == (("dawn", "noon"), 2)


def test_sires__an_unknown_count_excludes_nobody() -> None:
    sires = _parents(
        """
        2026-01-01 fen | bought: {group: dusk, females: 1}
        2026-01-01 fen | bought: {group: dawn, count: some}
        2026-01-20 fen | died: {group: dawn, count: 1}
        2026-03-01 fen | hatched: {brood: young}
        """
    )

    assert sires.sires.groups == ("dawn",)
    assert (sires.sires.claim, sires.sires.most) == (Claim.LIKELY, None)


def test_sires__that_came_within_the_window_count_among_the_most() -> None:
    sires = _parents(
        """
        2026-01-01 fen | bought: {group: dusk, females: 1}
        2026-01-01 tarn | bought: {group: dawn, count: 3}
        2026-01-20 tarn | moved: {group: dawn, count: 1, to: fen}
        2026-02-05 tarn | moved: {group: dawn, count: 2, to: fen}
        2026-03-01 fen | hatched: {brood: young, dams: dusk}
        """
    ).sires

    assert (sires.groups, sires.most) == (("dawn",), 3)


def test_sires__that_died_on_the_first_day_count_among_the_most() -> None:
    sires = _parents(
        """
        2026-01-01 fen | bought: {group: dusk, females: 1}
        2026-01-01 fen | bought: {group: dawn, count: 3}
        2026-01-26 fen | died: {group: dawn, count: 2}
        2026-03-01 fen | hatched: {brood: young, dams: dusk}
        """
    ).sires

    assert (sires.most, sires.claim) == (3, Claim.LIKELY)


def test_sires__the_last_male_of_a_mixed_group_can_be_dead() -> None:
    sires = _parents(
        """
        2026-01-01 fen | bought: {group: dusk, count: 4, females: 3, males: 1}
        2026-01-01 fen | bought: {group: dawn, males: 1}
        2026-01-20 fen | died: {group: dusk, males: 1}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert sires.groups == ("dawn",)


def test_sires__a_group_sexed_in_part_can_hold_males() -> None:
    sires = _parents(
        """
        2026-01-01 fen | bought: {group: dusk, count: 5}
        2026-01-10 fen | sexed: {group: dusk, females: 3}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert (sires.groups, sires.most) == (("dusk",), 2)


def test_sires__taken_before_a_sexing_they_can_be_of_the_other_sex() -> None:
    sires = _parents(
        """
        2026-01-01 fen | bought: {group: dusk, count: 5}
        2026-01-05 fen | moved: {from: dusk, to: fen, as: dawn, count: 2}
        2026-01-10 fen | sexed: {group: dusk, females: 3}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert sires.groups == ("dawn",)


def test_sires__part_of_an_all_female_group_is_female() -> None:
    sires = _parents(
        """
        2026-01-01 fen | bought: {group: dusk, females: 5}
        2026-01-01 fen | bought: {group: dawn, males: 1}
        2026-01-05 fen | moved: {from: dusk, to: fen, as: dew, count: 2}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert sires.groups == ("dawn",)


def test_sires__a_later_sexing_puts_an_earlier_one_right() -> None:
    sires = _parents(
        """
        2026-01-01 fen | bought: {group: dusk, females: 1}
        2026-01-01 fen | bought: {group: dawn, females: 1}
        2026-03-01 fen | hatched: {brood: young}
        2026-04-01 fen | sexed: {group: dawn, males: 1}
        """
    ).sires

    assert sires.groups == ("dawn",)


def test_dams__what_joined_an_all_male_group_can_be_female() -> None:
    dams = _parents(
        """
        2025-11-01 fen | bought: {group: dawn, males: 2}
        2025-11-01 fen | bought: {group: dew, count: 2}
        2025-11-05 fen | joined: {parts: {dew: 1}, into: dawn}
        2025-11-06 fen | moved: {group: dew, to: tarn}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).dams

    assert dams.groups == ("dawn",)


def test_sires__young_that_grew_up_in_the_tank_are_candidates() -> None:
    """Seen on 10 November, they were of age on 6 January, well before 14 February."""
    sires = _parents(
        """
        2025-11-01 fen | bought: {group: dusk, females: 1}
        2025-11-10 fen | hatched: {brood: first}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert sires.groups == ("first",)


def test_sires__of_unknown_place_are_not_excluded() -> None:
    sires = _parents(
        _PAIR
        + """
        2026-01-01 | present: {group: drift, males: 2}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert (sires.groups, sires.claim) == (("dawn", "drift"), Claim.SET)
    assert _ground(sires, GroundKind.PLACE_UNKNOWN).groups == ("drift",)


def test_sires__who_was_there_only_before_her_are_none() -> None:
    sires = _parents(
        """
        2026-01-01 tarn | bought: {group: dusk, females: 1}
        2026-01-01 fen | bought: {group: early, males: 1}
        2026-01-01 fen | bought: {group: dawn, males: 1}
        2026-02-03 fen | moved: {group: early, to: mire}
        2026-02-05 tarn | moved: {group: dusk, to: fen}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert sires.groups == ("dawn",)


# --- moves ----------------------------------------------------------------------------------

_TWO_TANKS = """
    2025-11-01 fen | bought: {group: dusk, females: 1}
    2025-11-01 fen | bought: {group: dawn, males: 1}
    2025-11-01 tarn | bought: {group: noon, males: 1}
"""


def test_moves__a_berried_female_carries_the_sires_of_the_tank_she_left() -> None:
    sires = _parents(
        _TWO_TANKS
        + """
        2026-02-05 fen | moved: {group: dusk, to: tarn, count: 1, berried: true}
        2026-03-01 tarn | hatched: {brood: young}
        """
    ).sires

    assert (sires.groups, sires.claim) == (("dawn",), Claim.FIRM)
    assert [event.entry for event in _ground(sires, GroundKind.MOVED_BERRIED).events] == ["004"]


def test_moves__after_her_brood_a_female_moved_with_eggs_meets_the_new_tank() -> None:
    sires = _parents(
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
    sires = _parents(
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
    sires = _parents(
        _TWO_TANKS
        + """
        2026-01-10 fen | moved: {group: dusk, to: tarn}
        2026-03-01 tarn | hatched: {brood: young}
        """
    ).sires

    assert (sires.groups, sires.not_excluded) == (("dawn", "noon"), ("dawn",))
    assert _ground(sires, GroundKind.MOVED_UNBERRIED).groups == ("dawn",)


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
    sires = _parents(_TWO_TANKS + f"{what}\n2026-03-01 tarn | hatched: {{brood: young}}").sires

    assert sires.groups == ("noon",)


def test_moves__eggs_of_a_later_move_can_be_of_the_sperm_she_took_along() -> None:
    sires = _parents(
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
    sires = _parents(
        _TWO_TANKS
        + """
        2026-01-01 fen | moved: {group: dusk, to: mire}
        2026-01-10 mire | moved: {group: dusk, to: tarn, count: 1, berried: true}
        2026-03-01 tarn | hatched: {brood: young}
        """
    ).sires

    assert sires.groups == ("noon",)


def test_moves__who_was_young_at_the_move_took_no_sperm_along() -> None:
    sires = _parents(
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
    sires = _parents(
        _TWO_TANKS
        + """
        2026-02-25 fen | moved: {group: dusk, to: tarn}
        2026-03-01 tarn | hatched: {brood: young}
        """
    ).sires

    assert (sires.groups, sires.not_excluded) == (("dawn",), ())


def test_moves__are_followed_through_names_and_tanks() -> None:
    sires = _parents(
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
    parents = _parents(
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
    parents = _parents(
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
    sires = _parents(
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


# --- put together ---------------------------------------------------------------------------


def test_pairing__leaves_out_nobody_else_in_the_tank() -> None:
    parents = _parents(
        """
        2025-11-01 fen | bought: {group: dusk, count: 3}
        2025-11-01 fen | bought: {group: dawn, count: 3}
        2025-11-01 fen | bought: {group: noon, count: 3}
        2026-01-20 fen | paired: {dams: dusk, sires: dawn}
        2026-03-01 fen | hatched: {brood: young}
        """
    )

    # What was put there as dams is no sire, and the other way round.
    assert parents.dams.groups == ("dusk", "noon")
    assert parents.sires.groups == ("dawn", "noon")
    assert GroundKind.PUT_TOGETHER not in _kinds(parents.dams) | _kinds(parents.sires)


def test_pairing__is_told_of_where_only_those_put_together_were_there() -> None:
    parents = _parents(
        """
        2025-11-01 fen | bought: {group: dusk, count: 3}
        2025-11-01 fen | bought: {group: dawn, count: 3}
        2026-01-20 fen | paired: {dams: dusk, sires: dawn}
        2026-03-01 fen | hatched: {brood: young}
        """
    )

    assert (parents.dams.groups, parents.sires.groups) == (("dusk",), ("dawn",))
    assert GroundKind.PUT_TOGETHER in _kinds(parents.dams) & _kinds(parents.sires)


def test_pairing__does_not_leave_out_recorded_males_of_the_tank() -> None:
    """Two males were in fen all the time; `gorse` is the one that was put to the females."""
    sires = _parents(
        """
        2026-01-01 tarn | bought: {group: cedar, count: 6-7}
        2026-01-01 weir | bought: {group: gorse, count: 1, females: 0, males: 1}
        2026-01-22 tarn | moved: {group: cedar, to: fen}
        2026-02-02 fen | sorted: {into: {cedar-f: {females: 4}, cedar-m: {males: 2}}, from: cedar}
        2026-02-21 fen | moved: {group: cedar-f, to: tarn}
        2026-03-15 tarn | moved: {group: cedar-f, to: fen}
        2026-03-15 weir | moved: {group: gorse, to: fen}
        2026-03-15 fen | paired: {dams: cedar-f, sires: gorse}
        2026-04-20 fen | hatched: {brood: young}
        """,
        tanks=("tarn", "weir", "fen"),
    ).sires

    assert {"cedar-m", "gorse"} <= set(sires.groups)
    assert sires.claim is Claim.SET


def test_pairing__of_a_part_in_one_tank_says_nothing_of_the_rest_in_another() -> None:
    """The part of `mix` in tarn was put there as dams; `one` came from the rest in mere."""
    parents = _parents(
        """
        2026-01-01 mere | bought: {group: alder, count: 5-6}
        2026-01-01 mere | bought: {group: birch, count: 6, females: 6, males: 0}
        2026-01-01 fen | bought: {group: cedar, count: 3, females: 0, males: 3}
        2026-01-01 weir | bought: {group: dogwood, count: 4-5}
        2026-01-13 mere | joined: {parts: [alder, birch], into: mix}
        2026-02-09 mere | moved: {group: mix, count: 1, females: 1, to: weir, berried: true}
        2026-02-15 weir | moved: {group: mix, to: tarn}
        2026-02-15 fen | moved: {group: cedar, to: tarn}
        2026-02-15 tarn | paired: {dams: mix, sires: cedar}
        2026-02-24 weir | moved: {group: dogwood, count: 3, to: fen}
        2026-03-02 fen | moved: {group: dogwood, count: 2, to: mere, as: dogwood-3}
        2026-03-15 mere | hatched: {brood: first, count: 4-6}
        2026-04-30 mere | moved: {of: [first, dogwood-3], count: 1, to: tarn, as: one}
        2026-05-18 tarn | hatched: {brood: young}
        """,
        tanks=("mere", "fen", "weir", "tarn"),
    )

    assert {"cedar", "dogwood-3", "mix"} <= set(parents.sires.groups)


_PUT_THERE_IN_PART = """
    2026-01-01 tarn | bought: {group: alder, count: 6%s}
    2026-01-01 weir | bought: {group: birch, count: 2, females: 0, males: 2}
    2026-01-18 tarn | moved: {group: alder, to: weir}
    2026-02-10 weir | moved: {group: alder, count: 3, to: mere}
    2026-02-10 weir | moved: {group: birch, to: mere}
    2026-02-10 mere | paired: {dams: alder, sires: birch}
    2026-03-22 weir | moved: {group: alder, to: mere}
    2026-05-14 mere | hatched: {brood: young, count: 2}
"""


@pytest.mark.parametrize("sexes", [", females: 4, males: 2", ""])
def test_pairing__does_not_sex_those_of_the_name_that_came_later(sexes: str) -> None:
    parents = _parents(_PUT_THERE_IN_PART % sexes, tanks=("tarn", "weir", "mere"))

    assert parents.sires.groups == ("alder", "birch")
    assert parents.dams.groups == ("alder",)


def test_pairing__does_not_sex_recorded_males_of_a_mixed_group() -> None:
    sires = _parents(
        """
        2026-01-01 fen | bought: {group: alder, count: 6, females: 4, males: 2}
        2026-01-01 fen | bought: {group: birch, count: 2, males: 2}
        2026-01-01 fen | joined: {parts: [alder], into: mix}
        2026-01-10 fen | paired: {dams: mix, sires: birch}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert sires.groups == ("birch", "mix")


@pytest.mark.parametrize("dams", ["{of: dusk, count: 1}", "[dusk, dawn]"])
def test_pairing__of_some_or_of_a_group_on_both_sides_sexes_nobody(dams: str) -> None:
    sires = _parents(
        f"""
        2025-11-01 fen | bought: {{group: dusk, count: 3}}
        2025-11-01 fen | bought: {{group: dawn, count: 3}}
        2026-01-20 fen | paired: {{dams: {dams}, sires: [dawn, dusk]}}
        2026-03-01 fen | hatched: {{brood: young}}
        """
        if dams.startswith("[")
        else f"""
        2025-11-01 fen | bought: {{group: dusk, count: 3}}
        2025-11-01 fen | bought: {{group: dawn, count: 3}}
        2026-01-20 fen | paired: {{dams: {dams}, sires: dawn}}
        2026-03-01 fen | hatched: {{brood: young}}
        """
    ).sires

    assert sires.groups == ("dawn", "dusk")


def test_pairing__of_animals_that_left_says_nothing() -> None:
    parents = _parents(
        """
        2025-11-01 fen | bought: {group: dusk, count: 3}
        2025-11-01 fen | bought: {group: dawn, count: 3}
        2025-11-01 fen | bought: {group: noon, count: 3}
        2025-11-20 fen | paired: {dams: dusk, sires: dawn}
        2025-12-01 fen | moved: {group: dusk, to: tarn}
        2025-12-01 fen | moved: {group: dawn, to: tarn}
        2026-03-01 fen | hatched: {brood: young}
        """
    )

    assert (parents.dams.groups, parents.sires.groups) == (("noon",), ("noon",))


def test_pairing__says_nothing_of_who_came_later() -> None:
    sires = _parents(
        """
        2025-11-01 fen | bought: {group: dusk, count: 3}
        2025-11-01 fen | bought: {group: dawn, count: 3}
        2026-01-20 fen | paired: {dams: dusk, sires: dawn}
        2026-02-01 fen | bought: {group: noon, males: 1}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert sires.groups == ("dawn", "noon")


def test_pairing__holds_under_the_name_animals_have_now() -> None:
    dams = _parents(
        """
        2025-11-01 fen | bought: {group: dusk, count: 3}
        2025-11-01 fen | bought: {group: dawn, count: 3}
        2026-01-20 fen | paired: {dams: dusk, sires: dawn}
        2026-02-01 fen | chosen: {from: dusk, into: queen, count: 1}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).dams

    assert dams.groups == ("dusk", "queen")


# --- levels ---------------------------------------------------------------------------------


def test_claim__one_pair_alone_is_firm() -> None:
    parents = _parents(_PAIR + "2026-03-01 fen | hatched: {brood: young}")

    assert (parents.dams.claim, parents.sires.claim) == (Claim.FIRM, Claim.FIRM)
    assert (parents.dams.most, parents.sires.most, parents.mating) == (1, 1, "one")


def test_claim__one_group_of_several_is_likely() -> None:
    parents = _parents(
        """
        2026-01-01 fen | bought: {group: dusk, females: 1}
        2026-01-01 fen | bought: {group: dawn, males: 3}
        2026-03-01 fen | hatched: {brood: young}
        """
    )

    assert (parents.sires.claim, parents.sires.most) == (Claim.LIKELY, 3)
    assert parents.mating == "unknown"


def test_claim__several_groups_are_a_set() -> None:
    sires = _parents(
        _PAIR
        + """
        2026-01-01 fen | bought: {group: noon, males: 2}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert (sires.claim, sires.most) == (Claim.SET, 3)


@pytest.mark.parametrize("strayed", ["{from: tarn, to: fen}", "{from: fen, to: tarn}", "{to: fen}"])
def test_claim__is_lowered_by_an_open_stray_and_names_it(strayed: str) -> None:
    parents = _parents(
        _PAIR
        + f"""
        2026-02-01 fen | strayed: {strayed}
        2026-03-01 fen | hatched: {{brood: young}}
        """
    )

    assert (parents.sires.groups, parents.sires.claim) == (("dawn",), Claim.LIKELY)
    assert parents.dams.claim is Claim.LIKELY
    stray = _ground(parents.sires, GroundKind.STRAYED)
    assert [event.entry for event in stray.events] == ["003"]
    assert "003" in [event.entry for event in parents.sires.events]


@pytest.mark.parametrize(
    "what",
    [
        pytest.param(
            "2026-02-01 fen | strayed: {from: tarn, to: fen}\n"
            "2026-02-20 fen | strayed: {from: tarn, to: fen, cleared: true}",
            id="settled",
        ),
        pytest.param("2026-02-20 fen | strayed: {from: tarn, to: fen, cleared: true}", id="none"),
        pytest.param("2026-02-01 mire | strayed: {from: tarn, to: mire}", id="other tanks"),
        pytest.param("2026-03-20 fen | strayed: {from: tarn, to: fen}", id="later"),
    ],
)
def test_claim__is_not_lowered_by_a_stray_that_cannot_matter(what: str) -> None:
    sires = _parents(_PAIR + f"{what}\n2026-03-01 fen | hatched: {{brood: young}}").sires

    assert sires.claim is Claim.FIRM


def test_claim__what_the_keeper_named_is_lowered_by_a_stray_too() -> None:
    sires = _parents(
        _PAIR
        + """
        2026-02-01 fen | strayed: {from: tarn, to: fen}
        2026-03-01 fen | hatched: {brood: young, dams: dusk, sires: dawn}
        """
    ).sires

    assert (sires.groups, sires.claim, sires.named) == (("dawn",), Claim.LIKELY, True)


@pytest.mark.parametrize(
    "strayed",
    [
        pytest.param("2026-03-01 | strayed: {from: tarn, to: beck}", id="where it hatched"),
        pytest.param("2026-03-12 | strayed: {from: tarn, to: beck}", id="after she came"),
        pytest.param("2026-02-20 | strayed: {from: tarn, to: weir}", id="where the eggs were laid"),
    ],
)
@pytest.mark.parametrize("named", ["", ", dams: cedar, sires: alder"])
def test_claim__a_stray_that_can_touch_a_brood_lowers_both_sides(strayed: str, named: str) -> None:
    """A stranger with eggs, or her young, is a parent on both sides at once."""
    parents = _parents(
        f"""
        2026-01-01 weir | bought: {{group: alder, count: 1, males: 1}}
        2026-01-01 weir | bought: {{group: cedar, count: 1, females: 1}}
        2026-01-01 tarn | bought: {{group: dogwood, count: 6, females: 6}}
        2026-01-01 tarn | bought: {{group: fir, count: 1, males: 1}}
        {strayed}
        2026-03-10 weir | moved: {{group: cedar, to: beck}}
        2026-03-15 beck | hatched: {{brood: young{named}}}
        """,
        tanks=("weir", "tarn", "beck"),
    )

    for side, group in ((parents.dams, "cedar"), (parents.sires, "alder")):
        assert (side.groups, side.claim) == ((group,), Claim.LIKELY)
        assert GroundKind.STRAYED in _kinds(side)


@pytest.mark.parametrize(
    "strayed",
    [
        pytest.param("2026-03-16 | strayed: {from: tarn, to: beck}", id="after the hatching"),
        pytest.param("2026-03-12 | strayed: {from: tarn, to: weir}", id="after she had left"),
    ],
)
def test_claim__a_stray_that_cannot_touch_a_brood_lowers_neither_side(strayed: str) -> None:
    parents = _parents(
        f"""
        2026-01-01 weir | bought: {{group: alder, count: 1, males: 1}}
        2026-01-01 weir | bought: {{group: cedar, count: 1, females: 1}}
        {strayed}
        2026-03-10 weir | moved: {{group: cedar, to: beck}}
        2026-03-15 beck | hatched: {{brood: young}}
        """,
        tanks=("weir", "tarn", "beck"),
    )

    assert (parents.dams.claim, parents.sires.claim) == (Claim.FIRM, Claim.FIRM)


@pytest.mark.parametrize(
    ("fitted", "claim"),
    [
        # What came as an egg or young has to grow up: 60 days.
        pytest.param("2025-12-01", Claim.LIKELY, id="long enough to grow up"),
        pytest.param("2026-01-15", Claim.FIRM, id="too late to matter"),
    ],
)
def test_claim__moved_equipment_brings_young_that_have_to_grow_up(
    fitted: str, claim: Claim
) -> None:
    sires = _parents(
        f"""
        2025-11-01 tarn | fitted: {{item: sponge, what: filter}}
        2025-11-01 fen | bought: {{group: dusk, females: 1}}
        2025-11-01 fen | bought: {{group: dawn, males: 1}}
        {fitted} fen | fitted: {{item: sponge}}
        2026-03-01 fen | hatched: {{brood: young}}
        """
    ).sires

    assert sires.claim is claim


def test_claim__a_dam_that_came_with_eggs_can_have_an_outside_sire() -> None:
    sires = _parents(
        """
        2026-01-01 fen | bought: {group: dawn, males: 1}
        2026-02-10 fen | bought: {group: dusk, females: 1}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert (sires.groups, sires.claim) == (("dawn",), Claim.LIKELY)
    assert _ground(sires, GroundKind.CAME_WITH_EGGS).groups == ("dusk",)


def test_claim__a_dam_bought_after_the_window_has_no_sire_here() -> None:
    sires = _parents(
        """
        2026-01-01 fen | bought: {group: dawn, males: 1}
        2026-02-20 fen | bought: {group: dusk, females: 1}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert (sires.groups, sires.claim) == ((), Claim.UNKNOWN)
    assert GroundKind.CAME_WITH_EGGS in _kinds(sires)


# --- mating ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("hatched", "mating"),
    [
        pytest.param("{brood: young, sires: dawn}", "unknown", id="a group of three"),
        pytest.param("{brood: young, sires: {of: dawn, count: 1}}", "one", id="one of three"),
        pytest.param("{brood: young, sires: {of: dawn, count: 2}}", "unknown", id="two of three"),
        pytest.param("{brood: young, sires: dawn, mating: several}", "several", id="said so"),
    ],
)
def test_mating__goes_by_animals(hatched: str, mating: str) -> None:
    parents = _parents(
        f"""
        2026-01-01 fen | bought: {{group: dusk, females: 1}}
        2026-01-01 fen | bought: {{group: dawn, males: 3}}
        2026-03-01 fen | hatched: {hatched}
        """
    )

    assert parents.mating == mating


@pytest.mark.parametrize("named", ["", ", dams: dusk, sires: dawn"])
def test_mating__is_open_where_a_stray_can_have_been(named: str) -> None:
    parents = _parents(
        _PAIR
        + f"""
        2026-02-01 fen | strayed: {{to: fen}}
        2026-03-01 fen | hatched: {{brood: young{named}}}
        """
    )

    assert parents.mating == "unknown"


# --- publication ----------------------------------------------------------------------------


def test_public__grounds_rest_on_no_private_entry() -> None:
    found = checked(
        diary_files(
            _PAIR
            + """
            2026-02-01 fen | strayed: {from: tarn, to: fen, private: true}
            2026-02-05 fen | seen: {group: dusk, what: not-berried, private: true}
            2026-02-06 fen | measured: {temperature: 24 °C, private: true}
            2026-03-01 fen | hatched: {brood: young}
            """,
            settings=_SPECIES + "public: [strayed, seen, measured]\n",
        )
    )
    whole = found.parentage.of("young")
    public = check_journal(public_view(found.journal)).parentage.of("young")

    assert whole is not None
    assert public is not None
    assert _kinds(whole.sires) >= {GroundKind.STRAYED, GroundKind.NOT_YET_BERRIED}
    assert [event.entry for event in public.sires.events] == ["006"]
    assert _kinds(public.sires) == {GroundKind.IN_TANK, GroundKind.BY_SPECIES}


# --- size -----------------------------------------------------------------------------------


def test_parentage__of_many_groups_in_a_tank_looks_at_each_a_few_times(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Every brood that may still be there is a possible dam, and sire to each of them."""
    looks = 0
    stay = Occupancy.stay

    def counted(self: Occupancy, cell: Cell, first: date, last: date) -> Span | None:
        nonlocal looks
        looks += 1
        return stay(self, cell, first, last)

    def looks_for(broods: int) -> int:
        diary = ["2020-01-01 fen | bought: {group: dusk, females: 9}"]
        diary += ["2020-01-01 fen | bought: {group: dawn, males: 9}"]
        for number in range(broods):
            day = f"{2021 + number // 12}-{number % 12 + 1:02}"
            diary.append(f"{day}-01 fen | hatched: {{brood: b{number}}}")
            diary.append(f"{day}-02 fen | given: {{group: b{number}, count: some}}")
        found = checked(diary_files("\n".join(diary), settings=_SPECIES))
        parentage = Parentage(found.journal, found.names, found.parents, found.descent, found.book)
        before = looks
        parents = parentage.of(f"b{broods - 1}")
        assert parents is not None
        assert len(parents.sires.groups) > broods // 2
        return looks - before

    monkeypatch.setattr(Occupancy, "stay", counted)

    assert looks_for(80) < 2.5 * looks_for(40)
