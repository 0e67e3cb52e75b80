"""Named parents that the book rules out, and all that must not rule anybody out."""

from collections.abc import Mapping, Sequence

import pytest

from filialog.build import RealFiles
from filialog.build.shipped import read_shipped
from filialog.journal import check_journal
from filialog.journal.parentage import Claim, GroundKind
from filialog.reading import read_journal
from tools.diaries import checked, diary_files

_SPECIES = "species: neocaridina-davidi\n"

_RACK = """
    2025-11-01 fen | bought: {group: dusk, females: 3}
    2025-11-01 fen | bought: {group: dawn, males: 3}
    2025-11-01 tarn | bought: {group: noon, males: 3}
"""


def _codes(
    diary: str,
    *,
    tanks: Sequence[str] = (),
    groups: Mapping[str, str] | None = None,
) -> list[str]:
    found = checked(diary_files(diary, settings=_SPECIES, tanks=tanks, groups=groups))
    return [one.code for one in found.findings if one.code in ("P103", "P104", "P105")]


# --- P104: ruled out ------------------------------------------------------------------------


@pytest.mark.parametrize(
    "diary",
    [
        pytest.param("2026-03-01 fen | hatched: {brood: b, dams: dusk, sires: noon}", id="sire"),
        pytest.param("2026-03-01 tarn | hatched: {brood: b, dams: dusk}", id="dam in another tank"),
        pytest.param(
            "2025-12-01 fen | died: {group: dawn, count: 3}\n"
            "2026-03-01 fen | hatched: {brood: b, dams: dusk, sires: dawn}",
            id="sires all dead",
        ),
        pytest.param(
            "2025-12-01 fen | sold: {group: dawn, count: 3}\n"
            "2026-03-01 fen | hatched: {brood: b, sires: dawn}",
            id="sires sold, dams not named",
        ),
        pytest.param(
            "2026-01-10 fen | died: {group: dusk, count: 3}\n"
            "2026-03-01 fen | hatched: {brood: b, dams: dusk}",
            id="dams all dead",
        ),
        pytest.param(
            "2026-03-10 fen | bought: {group: late, females: 1}\n"
            "2026-03-01 fen | hatched: {brood: b, dams: late}",
            id="dam that came after the hatching",
        ),
        pytest.param(
            "2025-12-01 tarn | moved: {group: noon, to: mire}\n"
            "2026-03-01 fen | hatched: {brood: b, dams: dusk, sires: [noon]}",
            id="moved about, never there",
        ),
        pytest.param(
            "2025-12-01 fen | closed: {note: leak}\n"
            "2026-03-01 | hatched: {brood: b, dams: dusk, tank: mire}",
            id="of a tank that was taken down",
        ),
    ],
)
def test_named_parents__that_cannot_have_been_there_are_told_of(diary: str) -> None:
    assert _codes(_RACK + diary) == ["P104"]


def test_named_parents__ruled_out_are_computed_with_all_the_same() -> None:
    found = checked(
        diary_files(
            _RACK + "2026-03-01 fen | hatched: {brood: b, dams: dusk, sires: noon}",
            settings=_SPECIES,
        )
    ).parentage.of("b")

    assert found is not None
    assert (found.sires.groups, found.sires.named) == (("noon",), True)
    assert found.sires.claim is Claim.LIKELY
    against = next(one for one in found.sires.grounds if one.kind is GroundKind.AGAINST_BOOK)
    assert [event.entry for event in against.events] == ["003"]
    assert found.dams.claim is Claim.FIRM


# --- P104: not ruled out --------------------------------------------------------------------


@pytest.mark.parametrize(
    "diary",
    [
        pytest.param("2026-03-01 fen | hatched: {brood: b, dams: dusk, sires: dawn}", id="there"),
        pytest.param(
            "2026-03-01 fen | hatched: {brood: b, dams: dusk, sires: [noon, dawn]}",
            id="one of several was there",
        ),
        pytest.param(
            "2026-01-20 fen | moved: {group: dusk, to: mire}\n"
            "2026-02-20 mire | moved: {group: dusk, to: fen}\n"
            "2026-03-01 fen | hatched: {brood: b, dams: dusk, sires: dawn}",
            id="moved out and in",
        ),
        pytest.param(
            "2026-02-20 fen | moved: {group: dusk, to: tarn}\n"
            "2026-03-01 tarn | hatched: {brood: b, dams: dusk, sires: dawn}",
            id="sires of the tank she left",
        ),
        pytest.param(
            "2026-01-20 fen | moved: {group: dusk, to: tarn}\n"
            "2026-03-01 tarn | hatched: {brood: b, dams: dusk, sires: dawn}",
            id="sperm from before a move",
        ),
        pytest.param(
            "2026-02-14 tarn | moved: {group: noon, to: fen}\n"
            "2026-03-01 fen | hatched: {brood: b, dams: dusk, sires: noon}",
            id="came on the last day",
        ),
        pytest.param(
            "2025-12-01 fen | died: {count: 3}\n"
            "2026-03-01 fen | hatched: {brood: b, dams: dusk, sires: dawn}",
            id="unnamed deaths",
        ),
        pytest.param(
            "2025-12-01 fen | died: {group: dawn, count: some}\n"
            "2026-03-01 fen | hatched: {brood: b, dams: dusk, sires: dawn}",
            id="deaths of unknown number",
        ),
        pytest.param(
            "2026-01-01 | bought: {group: drift, males: 1}\n"
            "2026-03-01 fen | hatched: {brood: b, dams: dusk, sires: drift}",
            id="unknown place",
        ),
        pytest.param(
            "2026-02-01 fen | moved: {from: dusk, to: fen, as: queen, count: 1}\n"
            "2026-02-01 fen | moved: {group: dusk, to: mire}\n"
            "2026-03-01 fen | hatched: {brood: b, dams: dusk, sires: dawn}",
            id="named as the group she was taken from",
        ),
        pytest.param(
            "2026-03-01 fen | hatched: {brood: b, dams: queen, sires: dawn}\n"
            "2026-03-05 fen | chosen: {from: dusk, into: queen, count: 1}",
            id="named as what she was called later",
        ),
        pytest.param(
            "2026-02-01 fen | strayed: {from: tarn, to: fen}\n"
            "2026-03-01 fen | hatched: {brood: b, dams: dusk, sires: noon}",
            id="strayed",
        ),
        pytest.param(
            "2026-02-01 fen | strayed: {from: tarn, to: fen}\n"
            "2026-02-20 fen | strayed: {from: tarn, to: fen, cleared: true}\n"
            "2026-03-01 fen | hatched: {brood: b, dams: dusk, sires: noon}",
            id="strayed, settled later",
        ),
        pytest.param(
            "2026-02-20 fen | bought: {group: dew, females: 1, males: 1}\n"
            "2026-03-01 fen | hatched: {brood: b, dams: dew, sires: dew}",
            id="came with eggs",
        ),
        pytest.param("2026-03-01 | hatched: {brood: b, dams: dusk, sires: noon}", id="no tank"),
        pytest.param("2026-03-01 fen | hatched: {brood: b}", id="nobody named"),
        pytest.param(
            "2026-02-20 fen | died: {group: dusk, count: 3}\n"
            "2026-03-01 fen | hatched: {brood: b, dams: dusk, sires: dawn}",
            id="dam that died while the young may have been there unseen",
        ),
    ],
)
def test_named_parents__that_can_have_been_there_are_left_alone(diary: str) -> None:
    assert _codes(_RACK + diary) == []


def test_named_parents__netted_without_a_name_can_be_anybody() -> None:
    diary = """
        2026-02-01 fen | moved: {from: fen, to: tarn, as: mixed, count: 2}
        2026-02-05 fen | moved: {group: dusk, to: mire}
        2026-03-01 tarn | hatched: {brood: b, dams: dusk}
    """

    assert _codes(_RACK + diary, tanks=("fen", "tarn", "mire")) == []


# --- P105 -----------------------------------------------------------------------------------

_BOTH = """
    2026-01-01 fen | bought: {group: nick, count: 1}
    2026-01-01 fen | bought: {group: dusk, count: 3}
    2026-03-01 fen | hatched: {brood: one, dams: nick, sires: dusk}
    2026-05-01 fen | hatched: {brood: two, dams: dusk, sires: nick}
"""


def test_sex__one_animal_as_dam_and_sire_is_told_of() -> None:
    assert _codes(_BOTH) == ["P105"]


def test_sex__several_animals_as_dams_and_sires_are_left_alone() -> None:
    assert _codes(_BOTH.replace("nick, count: 1", "nick, count: 2")) == []


def test_sex__of_an_animal_of_both_sexes_is_left_alone() -> None:
    assert _codes(_BOTH, groups={"nick": "sex: both"}) == []


def test_sex__of_a_half_sided_animal_is_left_alone() -> None:
    look = "nick, count: 1, look: {left: dull, right: glowing}"

    assert _codes(_BOTH.replace("nick, count: 1", look)) == []


def test_sex__as_dam_and_sire_of_one_brood_is_told_of() -> None:
    diary = """
        2026-01-01 fen | bought: {group: nick, count: 1}
        2026-03-01 fen | hatched: {brood: one, dams: nick, sires: nick}
    """

    assert _codes(diary) == ["P105"]


@pytest.mark.parametrize(
    ("later", "codes"),
    [
        pytest.param("moved: {group: nick, to: tarn, males: 1}", ["P105"], id="moved as a male"),
        pytest.param("died: {group: nick, males: 1}", ["P105"], id="died as a male"),
        pytest.param("sexed: {group: nick, males: 1}", [], id="put right"),
        pytest.param("moved: {group: nick, to: tarn, females: 1}", [], id="the same"),
        pytest.param("moved: {group: nick, to: tarn, females: 1, males: 0}", [], id="no male"),
        pytest.param("moved: {group: nick, to: tarn, count: 1}", [], id="not said"),
    ],
)
def test_sex__two_records_of_one_animal(later: str, codes: list[str]) -> None:
    diary = f"""
        2026-01-01 fen | bought: {{group: nick, females: 1}}
        2026-03-01 fen | {later}
    """

    assert _codes(diary) == codes


def test_sex__what_was_put_right_counts_from_then_on() -> None:
    diary = """
        2026-01-01 fen | bought: {group: nick, females: 1}
        2026-02-01 fen | sexed: {group: nick, males: 1}
        2026-03-01 fen | moved: {group: nick, to: tarn, males: 1}
    """

    assert _codes(diary) == []


def test_sex__of_a_group_of_several_can_differ_from_day_to_day() -> None:
    diary = """
        2026-01-01 fen | bought: {group: dusk, count: 3}
        2026-02-01 fen | died: {group: dusk, females: 1}
        2026-03-01 fen | died: {group: dusk, males: 1}
    """

    assert _codes(diary) == []


# --- P103: of the wrong sex -----------------------------------------------------------------


@pytest.mark.parametrize(
    ("told", "codes"),
    [
        pytest.param("sexed: {group: stock, females: 3}", [], id="three of eight"),
        pytest.param("sexed: {group: stock, females: 8}", ["P103"], id="all eight"),
        pytest.param("sexed: {group: stock, females: 8, males: 0}", ["P103"], id="and no males"),
        pytest.param("sexed: {group: stock, females: 6, males: 2}", [], id="both"),
        pytest.param("paired: {dams: stock, sires: dawn}", [], id="put to males once"),
    ],
)
def test_sex__of_some_of_a_group_does_not_rule_the_rest_out(told: str, codes: list[str]) -> None:
    diary = f"""
        2025-11-01 fen | bought: {{group: stock, count: 8}}
        2025-11-01 fen | bought: {{group: dusk, females: 3}}
        2025-11-01 fen | bought: {{group: dawn, males: 3}}
        2025-12-01 fen | {told}
        2026-03-01 fen | hatched: {{brood: b, dams: dusk, sires: stock}}
    """

    assert [code for code, _ in _told(diary)] == codes


def test_sex__of_part_of_a_group_is_that_of_the_group() -> None:
    diary = (
        _RACK
        + """
        2026-01-02 fen | chosen: {from: dusk, into: queen, count: 1}
        2026-03-01 fen | hatched: {brood: b, dams: dusk, sires: queen}
    """
    )

    assert [code for code, _ in _told(diary)] == ["P103"]


def test_stray__with_eggs_can_have_brought_the_sires_of_another_tank() -> None:
    late = "2026-02-25 | strayed: {from: tarn, to: fen}\n"
    hatched = "2026-03-01 fen | hatched: {brood: b, dams: dusk, sires: noon}"

    assert _codes(_RACK + hatched) == ["P104"]
    assert _codes(_RACK + late + hatched) == []


def _told(diary: str) -> list[tuple[str, str]]:
    """Return the findings on parents; one of them is an error."""
    read = read_journal(
        diary_files(diary, settings=_SPECIES),
        pictures=(),
        catalogue=read_shipped(RealFiles()).catalogue,
    )
    assert read.journal is not None
    found = check_journal(read.journal).findings
    return [(one.code, one.message) for one in found if one.code in ("P103", "P104", "P105")]
