"""Looks: genotypes that show them, who shows them, how often they were seen, the unexplained."""

import pytest
from scipy.stats import binomtest

from filialog.journal.events import LookSeen
from tools.diaries import GLOW, results_of

_DIARY = """
    2026-01-01 fen | bought: {group: dusk, count: 5, genotype: G/g}
    2026-01-01 fen | bought: {group: dawn, count: 5, look: glowing}
    2026-03-01 tarn | hatched: {brood: first, dams: dusk, sires: dawn, count: 20}
    2026-04-01 tarn | counted: {brood: first, how: emptied, looks: {dull: 11, glowing: 8},
        other: [{count: 1, note: striped}]}
    2026-04-02 tarn | sorted: {from: first, into: {shine: {count: 8, look: glowing}}}
    2026-05-01 fen | moved: {group: first, count: 1, as: half, to: fen,
        look: {left: dull, right: glowing}}
"""


def _one_line(diary: str) -> str:
    return diary.replace(",\n        ", ", ")


def test_look__genotypes_are_those_that_show_it() -> None:
    results = results_of(_one_line(_DIARY))

    assert results.looks() == ("dull", "glowing")
    assert results.look("dull").genotypes == (("glow", "G/G"), ("glow", "G/g"))
    assert results.look("glowing").genotypes == (("glow", "g/g"),)


def test_look__groups_are_recorded_or_follow_from_their_parents() -> None:
    glowing = results_of(_one_line(_DIARY)).look("glowing")
    dull = results_of(_one_line(_DIARY)).look("dull")

    assert glowing.shown_by == ("dawn", "shine")
    assert glowing.must_show == ()
    assert dull.shown_by == ()
    assert dull.must_show == ("dusk",)


def test_look__is_seen_n_of_m_with_wilsons_interval() -> None:
    """The interval is that of `scipy.stats.binomtest`."""
    (seen,) = results_of(_one_line(_DIARY)).look("glowing").seen_in
    interval = binomtest(8, 19).proportion_ci(0.95, method="wilson")

    assert (seen.seen, seen.counted, seen.broods) == (8, 19, ("first",))
    assert seen.interval_low == pytest.approx(interval.low)
    assert seen.interval_high == pytest.approx(interval.high)
    assert seen.expected == 0.5


def test_look__tally_that_is_kept_out_does_not_count() -> None:
    diary = _one_line(_DIARY).replace("how: emptied, looks", "use: false, looks")
    # The sorting left animals over, so it is no count either.
    assert results_of(diary).look("glowing").seen_in == ()


def test_look__coarser_class_does_not_say_how_many_showed_it() -> None:
    coarse = GLOW.replace("source:", "coarse: {any: [dull, glowing]}\nsource:")
    diary = """
        2026-01-01 fen | bought: {group: dusk, count: 5, genotype: G/g}
        2026-03-01 fen | hatched: {brood: first, dams: dusk, sires: dusk, count: 20}
        2026-04-01 fen | counted: {brood: first, how: emptied, looks: {any: 20}}
    """

    assert results_of(diary, traits={"glow": coarse}).look("dull").seen_in == ()


def test_looks__of_shipped_models_nobody_uses_have_no_page() -> None:
    results = results_of("2026-01-01 fen | bought: {group: dusk, count: 5}", traits={})

    assert results.looks() == ()
    assert results.unexplained() == ()


def test_unexplained__lists_notes_and_half_sided_animals_by_day() -> None:
    rows = results_of(_one_line(_DIARY)).unexplained()

    assert [(row.note, row.look, row.groups, row.count.exact) for row in rows] == [
        ("striped", None, ("first",), 1),
        ("", LookSeen(left="dull", right="glowing"), ("half",), 1),
    ]


def test_unexplained__private_is_left_out_of_the_public_edition() -> None:
    diary = _one_line(_DIARY).replace("how: emptied, looks", "private: true, looks")

    assert len(results_of(diary).unexplained()) == 2
    assert [row.note for row in results_of(diary, public=True).unexplained()] == [""]


def test_unexplained__claim_that_rests_on_a_private_count_is_left_out() -> None:
    diary = _one_line(_DIARY).replace("how: emptied, looks", "private: true, looks")
    results = results_of(diary, settings="public: [counted]\n", public=True)

    assert any(event.withheld and event.others() for event in results.journal.events())
    assert [row.note for row in results.unexplained()] == [""]
    assert [row.look is None for row in results.unexplained()] == [False]
