"""Who can have been dam and sire by place, age, sex and number."""

from datetime import date

import pytest

from filialog.journal.ledger.book import Cell
from filialog.journal.parentage import (
    Claim,
    GroundKind,
    Parentage,
)
from filialog.journal.parentage.occupancy import Occupancy, Span
from tools.diaries import checked, diary_files
from tools.parentage import PAIR, SPECIES, ground, parents_of


@pytest.mark.parametrize(
    ("left", "dams"),
    [
        pytest.param("2026-02-25", ("dew",), id="before the hatching"),
        pytest.param("2026-02-26", ("dew", "dusk"), id="when the young can have hatched unseen"),
    ],
)
def test_dams__were_in_the_tank_when_the_young_hatched(left: str, dams: tuple[str, ...]) -> None:
    found = parents_of(
        f"""
        2026-01-01 fen | bought: {{group: dusk, females: 1}}
        2026-01-01 fen | bought: {{group: dew, females: 1}}
        {left} fen | moved: {{group: dusk, to: tarn}}
        2026-03-01 fen | hatched: {{brood: young}}
        """
    ).dams

    assert found.groups == dams


def test_dams__a_female_that_came_back_in_time_is_one() -> None:
    found = parents_of(
        """
        2026-01-01 fen | bought: {group: dusk, females: 1}
        2026-01-20 fen | moved: {group: dusk, to: tarn}
        2026-02-27 tarn | moved: {group: dusk, to: fen, berried: true}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).dams

    assert (found.groups, found.claim, found.most) == (("dusk",), Claim.FIRM, 1)


def test_dams__of_unknown_place_are_not_excluded() -> None:
    dams = parents_of(
        PAIR
        + """
        2026-01-01 | present: {group: drift, females: 2}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).dams

    assert dams.groups == ("drift", "dusk")
    assert ground(dams, GroundKind.PLACE_UNKNOWN).groups == ("drift",)


def test_dams__a_brood_without_a_tank_has_none() -> None:
    parents = parents_of(PAIR + "2026-03-01 | hatched: {brood: young}")

    assert (parents.dams.claim, parents.sires.claim) == (Claim.UNKNOWN, Claim.UNKNOWN)
    assert (parents.dams.groups, parents.sires.groups) == ((), ())


def test_dams__a_brood_in_an_empty_tank_has_none() -> None:
    parents = parents_of(PAIR + "2026-03-01 tarn | hatched: {brood: young}")

    assert (parents.dams.groups, parents.sires.groups) == ((), ())


def test_sires__a_named_death_before_the_window_excludes() -> None:
    sires = parents_of(
        PAIR
        + """
        2026-01-01 fen | bought: {group: noon, males: 1}
        2026-01-20 fen | died: {group: dawn, count: 1}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert (sires.groups, sires.claim, sires.most) == (("noon",), Claim.FIRM, 1)


def test_sires__an_unnamed_death_excludes_nobody() -> None:
    sires = parents_of(
        PAIR
        + """
        2026-01-01 fen | bought: {group: noon, males: 1}
        2026-01-20 fen | died: {count: 1}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert (sires.groups, sires.most) == (("dawn", "noon"), 2)


def test_sires__an_unknown_count_excludes_nobody() -> None:
    sires = parents_of(
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
    sires = parents_of(
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
    sires = parents_of(
        """
        2026-01-01 fen | bought: {group: dusk, females: 1}
        2026-01-01 fen | bought: {group: dawn, count: 3}
        2026-01-26 fen | died: {group: dawn, count: 2}
        2026-03-01 fen | hatched: {brood: young, dams: dusk}
        """
    ).sires

    assert (sires.most, sires.claim) == (3, Claim.LIKELY)


def test_sires__the_last_male_of_a_mixed_group_can_be_dead() -> None:
    sires = parents_of(
        """
        2026-01-01 fen | bought: {group: dusk, count: 4, females: 3, males: 1}
        2026-01-01 fen | bought: {group: dawn, males: 1}
        2026-01-20 fen | died: {group: dusk, males: 1}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert sires.groups == ("dawn",)


def test_sires__a_group_sexed_in_part_can_hold_males() -> None:
    sires = parents_of(
        """
        2026-01-01 fen | bought: {group: dusk, count: 5}
        2026-01-10 fen | sexed: {group: dusk, females: 3}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert (sires.groups, sires.most) == (("dusk",), 2)


def test_sires__taken_before_a_sexing_they_can_be_of_the_other_sex() -> None:
    sires = parents_of(
        """
        2026-01-01 fen | bought: {group: dusk, count: 5}
        2026-01-05 fen | moved: {from: dusk, to: fen, as: dawn, count: 2}
        2026-01-10 fen | sexed: {group: dusk, females: 3}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert sires.groups == ("dawn",)


def test_sires__part_of_an_all_female_group_is_female() -> None:
    sires = parents_of(
        """
        2026-01-01 fen | bought: {group: dusk, females: 5}
        2026-01-01 fen | bought: {group: dawn, males: 1}
        2026-01-05 fen | moved: {from: dusk, to: fen, as: dew, count: 2}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert sires.groups == ("dawn",)


def test_sires__a_later_sexing_puts_an_earlier_one_right() -> None:
    sires = parents_of(
        """
        2026-01-01 fen | bought: {group: dusk, females: 1}
        2026-01-01 fen | bought: {group: dawn, females: 1}
        2026-03-01 fen | hatched: {brood: young}
        2026-04-01 fen | sexed: {group: dawn, males: 1}
        """
    ).sires

    assert sires.groups == ("dawn",)


def test_dams__what_joined_an_all_male_group_can_be_female() -> None:
    dams = parents_of(
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
    sires = parents_of(
        """
        2025-11-01 fen | bought: {group: dusk, females: 1}
        2025-11-10 fen | hatched: {brood: first}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert sires.groups == ("first",)


def test_sires__of_unknown_place_are_not_excluded() -> None:
    sires = parents_of(
        PAIR
        + """
        2026-01-01 | present: {group: drift, males: 2}
        2026-03-01 fen | hatched: {brood: young}
        """
    ).sires

    assert (sires.groups, sires.claim) == (("dawn", "drift"), Claim.SET)
    assert ground(sires, GroundKind.PLACE_UNKNOWN).groups == ("drift",)


def test_sires__who_was_there_only_before_her_are_none() -> None:
    sires = parents_of(
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
    parents = parents_of(
        f"""
        2026-01-01 fen | bought: {{group: dusk, females: 1}}
        2026-01-01 fen | bought: {{group: dawn, males: 3}}
        2026-03-01 fen | hatched: {hatched}
        """
    )

    assert parents.mating == mating


@pytest.mark.parametrize("named", ["", ", dams: dusk, sires: dawn"])
def test_mating__is_open_where_a_stray_can_have_been(named: str) -> None:
    parents = parents_of(
        PAIR
        + f"""
        2026-02-01 fen | strayed: {{to: fen}}
        2026-03-01 fen | hatched: {{brood: young{named}}}
        """
    )

    assert parents.mating == "unknown"


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
        found = checked(diary_files("\n".join(diary), settings=SPECIES))
        parentage = Parentage(found.journal, found.names, found.parents, found.descent, found.book)
        before = looks
        parents = parentage.of(f"b{broods - 1}")
        assert parents is not None
        assert len(parents.sires.groups) > broods // 2
        return looks - before

    monkeypatch.setattr(Occupancy, "stay", counted)

    assert looks_for(80) < 2.5 * looks_for(40)
