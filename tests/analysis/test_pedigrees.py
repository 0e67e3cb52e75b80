"""Generations, founders, inbreeding and ancestors of groups, and lines over generations."""

import pytest

from filialog.analysis import JournalResults
from filialog.lineage import KinshipRange
from tools.diaries import GLOW, results_of

_LINES = {
    "glows": "goal: glowing\nfounders: [dusk]\ntraits: glow",
    "dulls": "goal: dull\nfounders: [dawn]\ntraits: glow",
}
_CROSS = """
    2026-01-01 fen | bought: {group: dusk, count: 5, look: glowing, genotype: g/g, label: "F4", source: a club}
    2026-01-01 fen | bought: {group: dawn, count: 5, look: dull, genotype: G/G}
    2026-03-01 tarn | hatched: {brood: first, dams: dusk, sires: dawn, count: 20}
    2026-06-01 tarn | hatched: {brood: second, dams: first, sires: first, count: 20}
    2026-06-01 tarn | hatched: {brood: back, dams: first, sires: dusk, count: 20}
    2026-07-01 tarn | counted: {brood: back, looks: {dull: 11, glowing: 9}}
    2026-07-02 tarn | sorted: {from: back, into: {shine: {count: 9, look: glowing}}}
    2026-07-02 tarn | moved: {group: second, count: 4, as: half, to: fen}
    2026-07-03 fen | joined: {parts: {shine: 3, half: 2}, into: mix}
"""  # noqa: E501 - a line is an event


def _results() -> JournalResults:
    return results_of(_CROSS, lines=_LINES)


def test_generation__of_broods_parts_and_blends() -> None:
    results = _results()

    codes = {group: results.group(group).generation.code for group in results.groups()}
    assert codes == {
        "dusk": "P",
        "dawn": "P",
        "first": "F1",
        "second": "F2",
        "back": "BC1",
        "shine": "BC1",
        "half": "F2",
        "mix": "F2|BC1",
    }


def test_strain__of_founders_is_their_line_so_the_backcross_has_a_name() -> None:
    results = _results()

    assert results.group("back").generation.recurrent == "glows"
    assert results.group("first").generation.strains == ("dulls", "glows")


def test_strain__of_a_founder_of_two_lines_is_that_of_its_look() -> None:
    lines = {**_LINES, "dulls": "goal: dull\nfounders: [dusk, dawn]\ntraits: glow"}

    assert results_of(_CROSS, lines=lines).group("dusk").generation.strains == ("glows",)


def test_strain__of_its_page_comes_before_its_line() -> None:
    results = results_of(_CROSS, lines=_LINES, groups={"dusk": "strain: old glow"})

    assert results.group("dusk").generation.strains == ("old glow",)


def test_seller__label_and_source_are_kept_in_his_words() -> None:
    row = _results().group("dusk")

    assert (row.seller_label, row.source, row.generation.code) == ("F4", "a club", "P")


def test_founder_shares__halve_with_every_cross() -> None:
    results = _results()

    shares = {row.founder: row.share for row in results.group("back").founder_shares}
    assert shares == {"dawn": 0.25, "dusk": 0.75}
    # Three of five BC1 and two of five F2.
    mixed = {row.founder: row.share for row in results.group("mix").founder_shares}
    assert mixed == pytest.approx({"dawn": 0.35, "dusk": 0.65})


def test_founder_shares__of_an_unknown_parent_have_no_name() -> None:
    results = results_of(
        """
        2026-01-01 fen | bought: {group: dusk, count: 5}
        2026-03-01 | hatched: {brood: young, dams: dusk}
        """
    )

    young = results.group("young")
    assert [(row.founder, row.share) for row in young.founder_shares] == [
        ("dusk", 0.5),
        (None, 0.5),
    ]
    assert young.inbreeding is None
    assert young.generation.code == "P × ?"


def test_inbreeding__of_full_sibs_is_a_quarter_and_less_where_there_can_be_two_sires() -> None:
    """Brother by sister of unrelated parents: Wright 1922, from memory."""
    results = _results()
    # Of five possible sires two young have one with probability 2/6.
    several = pytest.approx(1 / 8 + 1 / 24)

    assert results.group("first").inbreeding == KinshipRange(low=0.0, high=0.0)
    assert _ends(results, "second") == [several, 0.25]
    assert _ends(results, "half") == [several, 0.25]


def _ends(results: JournalResults, group: str) -> list[float]:
    found = results.group(group).inbreeding
    assert found is not None
    return [found.low, found.high]


def test_inbreeding__of_a_brood_said_to_have_one_sire_is_one_number() -> None:
    results = results_of(_CROSS.replace("sires: dawn,", "sires: dawn, mating: one,"), lines=_LINES)

    assert results.group("second").inbreeding == KinshipRange(low=0.25, high=0.25)


def test_inbreeding__of_a_cloud_counts_the_dams_that_the_keeper_wrote() -> None:
    named = "dams: {of: dusk, count: 2}, sires: dawn, mating: one,"
    results = results_of(_CROSS.replace("dams: dusk, sires: dawn,", named), lines=_LINES)

    # One sire, and one dam of five for both with probability 2/6.
    expected = pytest.approx(1 / 8 + 1 / 24)
    assert _ends(results, "second") == [expected, expected]


def test_inbreeding__of_what_may_be_a_cloud_is_a_range() -> None:
    named = "dams: {of: dusk, count: 1-3}, sires: dawn, mating: one,"
    results = results_of(_CROSS.replace("dams: dusk, sires: dawn,", named), lines=_LINES)

    assert _ends(results, "second") == [pytest.approx(1 / 8 + 1 / 24), 0.25]


def test_inbreeding__of_a_group_of_which_the_book_lost_count_draws_by_sexes() -> None:
    results = results_of(
        """
        2026-01-01 fen | bought: {group: dusk, count: 2}
        2026-02-01 | sexed: {group: dusk, females: 4, males: 4}
        2026-03-01 tarn | hatched: {brood: one, dams: dusk, sires: dusk, count: 20}
        2026-03-09 tarn | hatched: {brood: two, dams: dusk, sires: dusk, count: 20}
        2026-06-01 tarn | hatched: {brood: next, dams: one, sires: two, count: 20}
        """
    )

    assert _ends(results, "next") == [pytest.approx(1 / 16), pytest.approx(1 / 16)]


def test_inbreeding__draws_a_sire_from_the_males_and_a_dam_from_the_females() -> None:
    results = results_of(
        """
        2026-01-01 fen | bought: {group: dusk, count: 8, females: 5, males: 3}
        2026-03-01 tarn | hatched: {brood: one, dams: dusk, sires: dusk, count: 20}
        2026-03-09 tarn | hatched: {brood: two, dams: dusk, sires: dusk, count: 20}
        2026-06-01 tarn | hatched: {brood: next, dams: one, sires: two, count: 20}
        """
    )

    # Wright 1931 (from memory): 1/(8 Nm) + 1/(8 Nf) for 3 males and 5 females.
    expected = pytest.approx(1 / 15)
    assert _ends(results, "next") == [expected, expected]


def test_inbreeding__counts_the_animals_where_sexes_are_not_known() -> None:
    results = results_of(
        """
        2026-01-01 fen | bought: {group: dusk, count: 4}
        2026-03-01 tarn | hatched: {brood: one, dams: dusk, sires: dusk, count: 20}
        2026-03-09 tarn | hatched: {brood: two, dams: dusk, sires: dusk, count: 20}
        2026-06-01 tarn | hatched: {brood: next, dams: one, sires: two, count: 20}
        """
    )

    # Any of two parents by any of two is one animal with probability 1/4: 1/2 * 1/4.
    expected = pytest.approx(1 / 8)
    assert _ends(results, "next") == [expected, expected]


def test_lines__of_a_group_are_those_its_ancestors_began() -> None:
    results = _results()

    assert results.group("dusk").lines == ("glows",)
    assert results.group("mix").lines == ("dulls", "glows")
    assert results.line("glows").groups == tuple(
        group for group in results.groups() if group != "dawn"
    )


def test_founder_shares__of_a_group_that_gained_others_count_its_own_animals_once() -> None:
    results = results_of(
        """
        2026-01-01 fen | bought: {group: dusk, count: 6}
        2026-01-01 fen | bought: {group: dawn, count: 5}
        2026-02-01 fen | hatched: {brood: young, dams: dawn, sires: dawn, count: 9}
        2026-03-01 fen | joined: {parts: {dusk: 1}, into: young}
        """
    )

    shares = {row.founder: row.share for row in results.group("young").founder_shares}
    assert shares == pytest.approx({"dawn": 0.9, "dusk": 0.1})


def test_completeness__halves_where_one_parent_is_not_known() -> None:
    results = results_of(
        """
        2026-01-01 fen | bought: {group: dusk, count: 6}
        2026-02-01 | hatched: {brood: half, dams: dusk}
        2026-02-01 | hatched: {brood: whole, dams: dusk, sires: dusk}
        """
    )

    known = {name: results.group(name).completeness for name in ("dusk", "half", "whole")}
    # Maignel et al. 1996: the sum of (1/2) to the generation over all known ancestors.
    assert [known[name].equivalent_generations for name in known] == [0.0, 0.5, 1.0]
    assert [known[name].known[0] for name in known] == [0.0, 0.5, 1.0]


def test_groups__none_is_dropped_by_a_loop_of_moves() -> None:
    results = results_of(
        """
        2026-01-01 fen | bought: {group: dusk, count: 9}
        2026-02-01 fen | moved: {group: dusk, count: 4, as: away, to: tarn}
        2026-03-01 tarn | joined: {parts: {away: 2}, into: dusk}
        2026-04-01 tarn | moved: {from: tarn, count: 1, as: away, to: tarn}
        """
    )

    assert results.groups() == ("dusk", "away")
    assert [results.group(name).generation.code for name in results.groups()] == ["P", "P"]
    assert results.group("away").brood is None


def test_brood_behind__is_that_of_the_parts_of_a_brood() -> None:
    results = _results()

    behind = {name: results.group(name).brood for name in results.groups()}
    assert {name: row.group for name, row in behind.items() if row is not None} == {
        "first": "first",
        "second": "second",
        "back": "back",
        "shine": "back",
        "half": "second",
    }


# --- lines ----------------------------------------------------------------------------------


def test_line__timeline_has_its_broods_by_day_with_the_share_of_the_goal() -> None:
    line = _results().line("glows")

    assert [row.brood for row in line.timeline] == ["first", "second", "back"]
    back = line.timeline[2]
    assert (back.number, back.goal_seen, back.goal_share) == (20, 9, 0.45)
    assert back.goal_expected == 0.5
    assert back.interval_low is not None
    assert back.interval_low < 0.45
    first = line.timeline[0]
    assert (first.number, first.goal_share, first.goal_expected) == (None, None, 0.0)
    assert [event.entry for event in first.events] == ["003"]


def test_line__alive_are_those_that_show_the_goal_for_certain() -> None:
    """Five bought glowing ones and the nine sorted out, six of them left after joining."""
    results = _results()

    alive = results.line("glows").alive
    assert alive is not None
    assert alive.exact == 5 + 9 - 3
    dulls = results.line("dulls").alive
    assert dulls is not None
    assert dulls.exact == 5 + 20


def test_line__without_a_goal_counts_nobody() -> None:
    line = results_of(_CROSS, lines={"all": "founders: [dusk]\ntraits: glow"}).line("all")

    assert line.alive is None
    assert [row.goal_seen for row in line.timeline] == [None, None, None]


def test_line__expected_share_that_is_a_range_is_not_one_number() -> None:
    diary = """
        2026-01-01 fen | bought: {group: dusk, count: 5, look: dull}
        2026-01-01 fen | bought: {group: dawn, count: 5, look: glowing}
        2026-03-01 fen | hatched: {brood: young, dams: dusk, sires: dawn}
    """
    line = results_of(diary, lines={"glows": _LINES["glows"]}, traits={"glow": GLOW}).line("glows")

    assert [row.goal_expected for row in line.timeline] == [None]
