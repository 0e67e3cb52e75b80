"""What a table leaves open: young without a look, and how many more would settle it."""

import pytest
from scipy.stats import binom

from filialog.analysis.doubts import sorted_in
from filialog.analysis.rows import Assumption, SortedIn, Table
from filialog.analysis.tallies import Classified
from filialog.statistics import Verdict, judge
from tools.diaries import results_of

_CARRIERS = """
    2026-01-01 fen | bought: {group: dusk, count: 9, genotype: G/g}
    2026-03-01 tarn | hatched: {brood: young, dams: dusk, sires: dusk, count: 40}
"""
_PURE = """
    2026-01-01 fen | bought: {group: dusk, count: 9, genotype: G/G}
    2026-03-01 tarn | hatched: {brood: young, dams: dusk, sires: dusk, count: 40}
"""
_LOOK_ONLY = """
    2026-01-01 fen | bought: {group: dusk, count: 9, look: dull}
    2026-01-01 fen | bought: {group: dawn, count: 9, look: glowing}
    2026-03-01 tarn | hatched: {brood: young, dams: dusk, sires: dawn, count: 40}
"""


def _table(before: str, counted: str) -> Table:
    line = f"2026-04-01 tarn | counted: {{brood: young, {counted}}}"
    table = results_of(f"{before}\n{line}").table("young").table
    assert table is not None
    return table


def _ends(table: Table) -> tuple[SortedIn, SortedIn]:
    assert table.unsorted_worst is not None
    assert table.unsorted_best is not None
    return table.unsorted_worst, table.unsorted_best


# --- the unsorted ---------------------------------------------------------------------------


@pytest.mark.parametrize(("dull", "glowing", "unsorted"), [(11, 9, 3), (30, 10, 4), (3, 9, 2)])
def test_unsorted__ends_are_those_of_every_way_tried(
    dull: int, glowing: int, unsorted: int
) -> None:
    worst, best = _ends(
        _table(_CARRIERS, f"looks: {{dull: {dull}, glowing: {glowing}}}, unsorted: {unsorted}")
    )

    every = [
        judge([dull + unsorted - more, glowing + more], [(1, (0.75, 0.25))], []).p_value
        for more in range(unsorted + 1)
    ]
    assert worst.p_value == pytest.approx(min(every), rel=1e-9)
    assert best.p_value == pytest.approx(max(every), rel=1e-9)
    assert sum(number for _, number in worst.looks) == unsorted
    assert sum(number for _, number in best.looks) == unsorted


def test_unsorted__worst_says_the_looks_and_their_shares() -> None:
    worst, _ = _ends(_table(_CARRIERS, "looks: {dull: 11, glowing: 9}, unsorted: 4"))

    assert worst.looks == (("glowing", 4),)
    assert worst.shares == (("glowing", 13 / 24),)


def test_unsorted__none_is_put_to_a_look_that_cannot_be() -> None:
    """All young of two G/G are dull; one glowing among the unsorted is no finding."""
    table = _table(_PURE, "looks: {dull: 20}, unsorted: 2")

    assert (table.unsorted_worst, table.unsorted_best) == (None, None)


def test_unsorted__seen_look_that_cannot_be_stays_a_misfit() -> None:
    _, best = _ends(_table(_PURE, "looks: {dull: 20, glowing: 1}, unsorted: 2"))

    assert best.p_value == 0.0


@pytest.mark.parametrize(
    "counted",
    [
        pytest.param("looks: {dull: 11, glowing: 9}", id="nothing unsorted"),
        pytest.param("looks: {dull: 0, glowing: 0}, unsorted: 5", id="nothing sorted"),
    ],
)
def test_unsorted__without_ends(counted: str) -> None:
    table = _table(_CARRIERS, counted)

    assert (table.unsorted_worst, table.unsorted_best) == (None, None)


def test_unsorted__too_many_ways_are_not_tried() -> None:
    seen = Classified(
        classes=(("dull", ("dull",)), ("glowing", ("glowing",))),
        counts=(9, 4),
        unsorted=1_000_000,
        unexplained=(),
        events=(),
    )

    assert sorted_in(seen, {Assumption.ONE_PAIR: [(1.0, (0.75, 0.25))]}) is None


def test_unsorted__uncertain_pairs_take_the_more_lenient_end() -> None:
    """All dull: one pair of G/G explains it, an average of pairs does not."""
    worst, best = _ends(_table(_LOOK_ONLY, "looks: {dull: 20, glowing: 0}, unsorted: 3"))
    ways = [(23 - more, more) for more in range(4)]
    one = [judge(way, [(1 / 3, (1.0, 0.0)), (2 / 3, (0.5, 0.5))], []).p_value for way in ways]
    many = [judge(way, [(1, (2 / 3, 1 / 3))], []).p_value for way in ways]

    assert worst.p_value == pytest.approx(max(min(one), min(many)), rel=1e-9)
    assert best.p_value == pytest.approx(max(*one, *many), rel=1e-9)


# --- how many more --------------------------------------------------------------------------


def test_more__counted_at_once_settles_it_nine_times_in_ten() -> None:
    """The chance is added up here over all counts, with the binomial of SciPy."""
    table = _table(_CARRIERS, "looks: {dull: 10, glowing: 10}")
    more = table.more_at_once

    assert table.judgement.verdict is Verdict.CANNOT_TELL
    assert table.judgement.more_needed is not None
    assert more is not None
    assert more > table.judgement.more_needed

    def chance(number: int) -> float:
        settled = 0.0
        for glowing in range(number + 1):
            own = binom.pmf(10 + glowing, 20 + number, 0.25)
            rival = binom.pmf(10 + glowing, 20 + number, 0.5)
            if own >= 20 * rival * (1 - 1e-9):
                settled += float(binom.pmf(glowing, number, 0.25))
        return settled

    assert chance(more) >= 0.9
    assert chance(more - 1) < 0.9


@pytest.mark.parametrize(
    ("before", "counted"),
    [
        pytest.param(_CARRIERS, "looks: {dull: 15, glowing: 4}", id="settled"),
        pytest.param(_CARRIERS, "looks: {dull: 0, glowing: 12}", id="misfit"),
    ],
)
def test_more__is_not_asked_where_nothing_is_open(before: str, counted: str) -> None:
    assert _table(before, counted).more_at_once is None
