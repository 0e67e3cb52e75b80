"""The graph that pedigrees are drawn from."""

import pytest

from filialog.analysis import JournalResults
from tools.diaries import results_of

_START = """
    2026-01-01 fen | bought: {group: dusk, count: 5, source: a club}
    2026-01-01 fen | bought: {group: dawn, count: 5, source: a club}
    2026-01-01 fen | bought: {group: lone, count: 1, source: a club}
    2026-03-01 tarn | hatched: {brood: first, dams: dusk, sires: dawn, count: 20}
    2026-04-01 tarn | moved: {group: first, count: 4, as: few, to: fen}
"""


def _results(more: str) -> JournalResults:
    return results_of(_START + more)


def test_kin__of_a_founder_is_nobody() -> None:
    row = _results("").kin("dusk")

    assert (row.behind, row.hatched, row.kin_parents) == ((), False, False)


def test_kin__of_broods_parts_and_joined_groups() -> None:
    results = _results(
        """
    2026-06-01 tarn | hatched: {brood: second, dams: first, sires: [few, dawn], count: 20}
    2026-07-01 fen | joined: {parts: {few: 3, dawn: 2}, into: mix}
    """
    )
    second = results.kin("second")

    assert results.kin("few").sources == ("first",)
    assert (second.dams, second.sires, second.hatched) == (("first",), ("few", "dawn"), True)
    assert second.behind == ("first", "few", "dawn")
    assert results.kin("mix").sources == ("few", "dawn")
    assert not results.kin("mix").hatched


def test_kin__brood_of_unknown_parents_has_hatched() -> None:
    row = _results("2026-06-01 tarn | hatched: {brood: found, count: 3}\n").kin("found")

    assert row.hatched


@pytest.mark.parametrize(
    ("dams", "sires", "kin"),
    [
        pytest.param("dusk", "dawn", False, id="two_founder_groups"),
        pytest.param("dusk", "dusk", False, id="one_founder_group_of_many"),
        pytest.param("first", "first", True, id="brood_among_itself"),
        pytest.param("first", "few", True, id="brood_with_a_part_of_it"),
        pytest.param("few", "dawn", False, id="young_with_the_group_of_its_sire"),
        pytest.param("dusk", "[few, dawn]", False, id="set_of_strangers"),
        pytest.param("few", "[dusk, first]", True, id="one_of_a_set"),
    ],
)
def test_kin_parents__share_a_brood(dams: str, sires: str, *, kin: bool) -> None:
    results = _results(
        f"2026-08-01 tarn | hatched: {{brood: young, dams: {dams}, sires: {sires}, count: 20}}\n"
    )

    assert results.kin("young").kin_parents is kin


def test_kin_parents__share_a_founder_that_is_one_animal() -> None:
    results = _results(
        """
    2026-05-01 tarn | hatched: {brood: half, dams: dusk, sires: lone, count: 20}
    2026-05-01 fen | hatched: {brood: other, dams: dawn, sires: lone, count: 20}
    2026-08-01 tarn | hatched: {brood: young, dams: half, sires: other, count: 20}
    """
    )

    assert not results.kin("half").kin_parents
    assert results.kin("young").kin_parents
