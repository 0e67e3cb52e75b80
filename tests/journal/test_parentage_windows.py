"""When the eggs of a brood can have been fertilised: what is seen, and how warm it was."""

import pytest

from filialog.journal.parentage import (
    GroundKind,
)
from tools.parentage import PAIR, ground, kinds, parents_of


def test_window__is_the_hatching_less_the_days_of_the_species() -> None:
    sires = parents_of(PAIR + "2026-03-01 fen | hatched: {brood: young}").sires

    there = ground(sires, GroundKind.IN_TANK)
    assert (str(there.first), str(there.last)) == ("2026-01-26", "2026-02-14")
    assert ground(sires, GroundKind.BY_SPECIES).days == (15, 31)
    assert there.tanks == ("fen",)


def test_window__is_that_of_the_temperatures_measured() -> None:
    """At 22.5 °C eggs take 230 / 10 = 23 days; 18 to 28 with the margins."""
    sires = parents_of(
        PAIR
        + """
        2026-02-01 fen | measured: {temperature: 22.5 °C}
        2026-02-20 fen | measured: {temperature: 22.5 °C}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert ground(sires, GroundKind.BY_TEMPERATURE).days == (18, 28)
    there = ground(sires, GroundKind.IN_TANK)
    assert (str(there.first), str(there.last)) == ("2026-01-29", "2026-02-11")
    assert [event.entry for event in ground(sires, GroundKind.BY_TEMPERATURE).events] == [
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
    sires = parents_of(PAIR + f"{measured}\n2026-03-01 fen | hatched: {{brood: young}}").sires

    assert ground(sires, GroundKind.BY_SPECIES).days == (15, 31)


def test_window__holds_that_of_every_tank_she_can_have_been_in() -> None:
    """In fen at 22.5 °C 18 to 28 days, in tarn at 27.5 °C 230 / 15 = 15.3: 12 to 19 days."""
    sires = parents_of(
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

    assert ground(sires, GroundKind.BY_TEMPERATURE).days == (12, 28)


def test_window__without_a_species_is_wide() -> None:
    sires = parents_of(PAIR + "2026-03-01 fen | hatched: {brood: young}", settings="").sires

    assert ground(sires, GroundKind.BY_SPECIES).days == (14, 42)


def test_window__begins_when_she_was_last_seen_without_eggs() -> None:
    sires = parents_of(
        PAIR
        + """
        2026-02-05 fen | seen: {group: dusk, what: not-berried}
        2026-02-04 fen | moved: {group: dawn, to: tarn}
        2026-02-06 fen | bought: {group: noon, males: 1}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert sires.groups == ("noon",)
    assert str(ground(sires, GroundKind.NOT_YET_BERRIED).first) == "2026-02-05"


def test_window__begins_when_the_whole_tank_was_seen_without_eggs() -> None:
    sires = parents_of(
        PAIR
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
    found = parents_of(
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
    sires = parents_of(
        PAIR
        + """
        2026-02-03 fen | berried: {group: dusk}
        2026-02-04 fen | bought: {group: noon, males: 1}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert sires.groups == ("dawn",)
    assert str(ground(sires, GroundKind.BERRIED).first) == "2026-02-03"


@pytest.mark.parametrize(
    "between",
    [
        pytest.param("2026-02-04 fen | hatched: {brood: other, dams: dusk}", id="they hatched"),
        pytest.param("2026-02-04 fen | seen: {group: dusk, what: eggs-dropped}", id="lost"),
    ],
)
def test_window__does_not_end_with_eggs_that_can_have_been_others(between: str) -> None:
    sires = parents_of(
        PAIR
        + f"""
        2026-02-03 fen | berried: {{group: dusk}}
        {between}
        2026-02-05 fen | bought: {{group: noon, males: 1}}
        2026-03-01 fen | hatched: {{brood: young}}
        """
    ).sires

    assert "noon" in sires.groups


def test_window__does_not_end_with_the_eggs_of_one_of_several_females() -> None:
    sires = parents_of(
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
    sires = parents_of(
        PAIR
        + """
        2026-02-04 fen | moved: {group: dawn, to: tarn}
        2026-02-05 fen | bought: {group: noon, males: 1}
        2026-02-05 fen | seen: {group: dusk, what: [moult, mating]}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert sires.groups == ("noon",)
    assert GroundKind.MOULTED in kinds(sires)


def test_window__remarks_that_leave_nobody_are_not_used() -> None:
    parents = parents_of(
        PAIR
        + """
        2026-02-20 fen | seen: {group: dusk, what: not-berried}
        2026-03-01 fen | hatched: {brood: young}
        """
    )

    assert (parents.dams.groups, parents.sires.groups) == (("dusk",), ("dawn",))


def test_window__a_remark_leaves_out_a_dam_without_eggs_too_near_the_hatching() -> None:
    dams = parents_of(
        PAIR
        + """
        2026-01-01 fen | bought: {group: dew, females: 1}
        2026-02-20 fen | seen: {group: dusk, what: not-berried}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).dams

    assert dams.groups == ("dew",)


def test_window__a_hatching_some_day_within_reaches_from_its_first_to_its_last() -> None:
    sires = parents_of(
        PAIR + "2026-03-20 fen | hatched: {brood: young, when: 2026-03-01/2026-03-09}"
    ).sires

    there = ground(sires, GroundKind.IN_TANK)
    assert (str(there.first), str(there.last)) == ("2026-01-26", "2026-02-22")
