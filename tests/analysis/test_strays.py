"""Strays: which groups they touch, and until when."""

from filialog.analysis import JournalResults
from tools.diaries import results_of

_DIARY = """
    2026-01-01 fen | bought: {group: dusk, count: 5}
    2026-01-01 tarn | bought: {group: dawn, count: 5}
    2026-01-01 weir | bought: {group: noon, count: 5}
    2026-02-01 fen | sold: {group: dusk, count: 2}
    2026-03-01 | strayed: {from: tarn, to: fen, note: wet net}
"""


def _touched(results: JournalResults) -> dict[str, list[tuple[str, bool, str | None, bool]]]:
    return {
        group: [(row.tank, row.into, row.other_tank, row.cleared is None) for row in found]
        for group in results.groups()
        if (found := results.strays(group))
    }


def test_stray__touches_who_was_in_either_tank() -> None:
    assert _touched(results_of(_DIARY)) == {
        "dusk": [("fen", True, "tarn", True)],
        "dawn": [("tarn", False, "fen", True)],
    }


def test_stray__does_not_touch_who_had_left_or_came_after_it_was_settled() -> None:
    results = results_of(
        _DIARY.replace("2026-02-01 fen | sold: {group: dusk, count: 2}",
                       "2026-02-01 fen | sold: {group: dusk, count: 5}")
        + """
        2026-03-20 | strayed: {from: tarn, to: fen, cleared: true}
        2026-03-21 fen | bought: {group: late, count: 5}
        2026-03-10 fen | bought: {group: within, count: 5}
        """
    )  # fmt: skip

    assert _touched(results) == {
        "dawn": [("tarn", False, "fen", False)],
        "within": [("fen", True, "tarn", False)],
    }
    (row,) = results.strays("within")
    assert row.cleared_by is not None
    assert row.cleared is not None
    assert row.cleared.exact is not None


def test_stray__of_other_tanks_is_not_settled_by_it() -> None:
    results = results_of(_DIARY + "2026-03-20 | strayed: {from: weir, to: tarn, cleared: true}")

    assert _touched(results)["dusk"] == [("fen", True, "tarn", True)]
    assert "noon" not in _touched(results)


def test_stray__settled_from_the_start_is_none() -> None:
    diary = _DIARY.replace("note: wet net", "cleared: true")

    assert _touched(results_of(diary)) == {}


def test_stray__in_the_tank_of_the_entry_needs_no_name() -> None:
    results = results_of(_DIARY + "2026-04-01 weir | strayed: {note: one too many}")

    assert _touched(results)["noon"] == [("weir", True, None, True)]


def test_stray__private_touches_nobody_in_the_public_edition() -> None:
    diary = _DIARY.replace("note: wet net", "private: true")

    assert _touched(results_of(diary)) != {}
    assert _touched(results_of(diary, public=True)) == {}


def test_stray__of_a_cross_is_told_once_for_its_broods() -> None:
    results = results_of(
        _DIARY
        + """
        2026-05-01 fen | hatched: {brood: one, dams: dusk, sires: dusk, cross: pair}
        2026-06-01 fen | hatched: {brood: two, cross: pair, dams: dusk, sires: dusk}
        """
    )
    (cross,) = results.crosses()

    assert [row.tank for row in results.strays_of_cross(cross)] == ["fen"]
