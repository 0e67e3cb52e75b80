"""A line over its generations: goal, grades, survival, response to choosing, specialist figures."""

from dataclasses import replace

import pytest
from scipy import stats

from filialog.analysis import JournalResults
from filialog.analysis.line_bands import MOST_BANDS, bands_of
from filialog.analysis.line_rows import (
    BandKind,
    FigureName,
    GoalState,
    LineFigure,
    LineRow,
    ResponseRow,
    WhyNot,
)
from filialog.analysis.lines import _end
from filialog.analysis.lines import _expected_together as _together
from filialog.lineage import Generation, GenerationKind
from filialog.statistics import wilson_interval
from tools.diaries import results_of

_LINE = (
    "goal: glowing\nfounders: [dusk]\ntraits: glow\nscales: {band: {order: [narrow, middle, wide]}}"
)
_BRED = """
    2026-01-01 fen | bought: {group: dusk, count: 6, look: glowing, genotype: g/g}
    2026-03-01 fen | hatched: {brood: first, dams: dusk, sires: dusk, count: 20, mating: one}
    2026-04-20 fen | counted: {brood: first, how: emptied, looks: {glowing: 16}}
    2026-06-01 fen | graded: {group: first, scale: band, values: {narrow: 8, middle: 6, wide: 2}}
    2026-06-02 fen | chosen: {from: first, into: best, count: 2, out-of: 16, for: {band: wide}}
    2026-09-01 fen | hatched: {brood: second, dams: best, sires: best, count: 10+, mating: one}
    2026-10-20 fen | counted: {brood: second, how: emptied, looks: {glowing: 8}}
    2026-12-01 fen | graded: {group: second, scale: band, values: {narrow: 1, middle: 4, wide: 3}}
"""
"""Means 1.625 and 2.25; the chosen are wide: differential 1.375, response 0.625."""


def _results(diary: str = _BRED, line: str = _LINE, **pages: object) -> JournalResults:
    return results_of(diary, lines={"glows": line}, **pages)  # type: ignore[arg-type]


def _line(diary: str = _BRED, line: str = _LINE) -> LineRow:
    return _results(diary, line).line("glows")


def _responses(row: LineRow) -> dict[str, ResponseRow]:
    return {one.group: one for band in row.bands for one in band.responses}


def _figure(row: LineRow, name: FigureName, *, band: int = -1) -> LineFigure:
    return next(one for one in row.bands[band].figures if one.name is name)


# --- the goal -------------------------------------------------------------------------------


def _goal(wanted: str, *, more: str = "") -> LineRow:
    return _line(_BRED + more, _LINE.replace("goal: glowing", f"goal: {wanted}"))


@pytest.mark.parametrize(
    ("wanted", "state"),
    [
        ("{look: glowing, number: 30}", GoalState.REACHED),
        ("{look: glowing, number: 31}", GoalState.NOT_YET),
        ("{look: glowing, number: 31, by: 2027-01}", GoalState.NOT_YET),
        ("{look: glowing, number: 31, by: 2026-11}", GoalState.MISSED),
        ("{look: glowing, number: 30, by: 2026-11}", GoalState.REACHED),
        ("glowing", GoalState.ALL),
        ("{look: glowing}", GoalState.ALL),
        ("dull", GoalState.NONE),
    ],
)
def test_goal__is_reached_where_so_many_are_on_the_book(wanted: str, state: GoalState) -> None:
    """On the last day: six bought, sixteen of the first brood, eight of the second."""
    row = _goal(wanted)

    assert (row.goal_state, row.goal_brood) == (state, "second")
    if state is not GoalState.NONE:
        assert row.alive is not None
        assert (row.alive.low, row.alive.high) == (30, 30)


def test_goal__cannot_be_told_where_the_book_is_open() -> None:
    more = "2026-12-20 fen | hatched: {brood: third, dams: best, sires: best, count: 5+}\n"

    assert _goal("{look: glowing, number: 36}", more=more).goal_state is GoalState.CANNOT_TELL
    bounded = more.replace("5+", "5-6")
    assert _goal("{look: glowing, number: 36}", more=bounded).goal_state is GoalState.CANNOT_TELL
    assert _goal("{look: glowing, number: 37}", more=bounded).goal_state is GoalState.NOT_YET
    assert _goal("{look: glowing, number: 35}", more=more).goal_state is GoalState.REACHED


def test_goal__without_one_nothing_is_said_of_it() -> None:
    row = _line(line="founders: [dusk]\ntraits: glow")

    assert row.goal_state is GoalState.NO_GOAL
    assert row.alive is None
    assert [one.goal_seen for one in row.timeline] == [None, None]
    assert [band.goal_share for band in row.bands] == [None, None]


def test_goal__of_a_line_without_a_count_is_not_told() -> None:
    row = _line("2026-01-01 fen | bought: {group: dusk, count: 6, look: glowing}")

    assert row.goal_state is GoalState.UNCOUNTED
    assert (row.timeline, row.bands, row.grades) == ((), (), ())


# --- grades ---------------------------------------------------------------------------------


def test_grade__is_the_mean_of_the_steps_with_a_t_interval() -> None:
    first, second = _line().timeline
    values = [1.0] * 8 + [2.0] * 6 + [3.0] * 2
    low, high = stats.t.interval(0.95, 15, loc=1.625, scale=stats.sem(values))

    (grade,) = first.grades
    assert (grade.mean, grade.number, grade.broods) == (1.625, 16, ("first",))
    assert (grade.low, grade.high) == pytest.approx((low, high))
    assert second.grades[0].mean == 2.25


def test_grade__of_a_step_not_declared_is_left_out() -> None:
    row = _line(_BRED.replace("wide: 2}}", "huge: 2}}"))

    (grade,) = row.timeline[0].grades
    assert (grade.number, grade.left_out) == (14, 1)
    assert grade.mean == pytest.approx(20 / 14)


def test_grade__of_no_exact_number_is_left_out() -> None:
    (grade,) = _line(_BRED.replace("wide: 2}}", "wide: some}}")).timeline[0].grades

    assert (grade.number, grade.left_out) == (14, 1)


def test_grade__twice_the_one_of_most_animals_counts() -> None:
    more = """
    2026-05-20 fen | graded: {group: first, scale: band, values: {wide: 9}}
    2026-06-20 fen | graded: {group: first, scale: band, values: {wide: 16}}
    """
    (grade,) = _line(_BRED + more).timeline[0].grades

    assert (grade.number, grade.mean) == (16, 1.625), "of equally many the earliest"


def test_grade__of_those_chosen_does_not_speak_for_their_brood() -> None:
    graded = "    2026-06-01 fen | graded: {group: first"
    only_best = _BRED.replace(graded, graded.replace("first", "best")).replace(
        "2026-06-01 fen | graded", "2026-06-03 fen | graded"
    )
    row = _line(only_best.replace("{narrow: 8, middle: 6, wide: 2}", "{wide: 2}"))

    assert row.timeline[0].grades == ()
    assert row.bands[0].grades == ()
    assert [one.group for one in row.grades] == ["best", "second"]


def test_grade__of_a_group_of_two_broods_counts_for_their_generation() -> None:
    diary = """
    2026-01-01 fen | bought: {group: dusk, count: 6, look: glowing}
    2026-03-01 fen | hatched: {brood: one, dams: dusk, sires: dusk, count: 5}
    2026-03-09 fen | hatched: {brood: two, dams: dusk, sires: dusk, count: 5}
    2026-05-01 fen | joined: {parts: {one: 5, two: 5}, into: both}
    2026-05-02 fen | graded: {group: both, scale: band, values: {middle: 10}}
    2026-05-03 fen | moved: {from: both, as: half, to: tarn, count: 5}
    2026-05-04 tarn | graded: {group: half, scale: band, values: {middle: 5}}
    """
    row = _line(diary)

    (band,) = row.bands
    (mean,) = band.grades
    assert (mean.mean, mean.low, mean.high, mean.number) == (2.0, None, None, 10)
    assert mean.groups == ("both",), "the half was graded before, among both"
    assert [one.grades for one in row.timeline] == [(), ()]


def test_grade__on_a_scale_the_line_does_not_declare_is_none() -> None:
    row = _line(line="goal: glowing\nfounders: [dusk]\ntraits: glow")

    assert row.grades == ()
    assert _responses(row) == {}


# --- response -------------------------------------------------------------------------------


def test_response__is_that_of_the_young_over_what_their_parents_were_chosen_by() -> None:
    found = _responses(_line())["second"]

    assert found.selection == pytest.approx(1.375)
    assert found.response == pytest.approx(0.625)
    assert found.heritability == pytest.approx(0.625 / 1.375)
    assert (found.why_not, found.several) == (None, False)
    # The standard errors of both means, by SciPy.
    before = stats.sem([1] * 8 + [2] * 6 + [3] * 2)
    young = stats.sem([1] + [2] * 4 + [3] * 3)
    half = stats.norm.ppf(0.975) * (before**2 + young**2) ** 0.5 / 1.375
    assert found.low is not None
    assert found.high is not None
    assert (found.high - found.low) / 2 == pytest.approx(half)


def test_response__to_choosing_one_sex_is_to_half_of_it() -> None:
    diary = _BRED.replace("dams: best, sires: best", "dams: best, sires: first")
    found = _responses(_line(diary))["second"]

    assert found.selection == pytest.approx(1.375 / 2)
    assert found.response == pytest.approx(0.625)


def test_response__of_parents_not_chosen_is_no_heritability() -> None:
    diary = _BRED.replace("dams: best, sires: best", "dams: first, sires: first")
    found = _responses(_line(diary))["second"]

    assert (found.why_not, found.heritability, found.low) == (WhyNot.NOT_CHOSEN, None, None)
    assert found.response == pytest.approx(0.625)


def test_response__of_parents_netted_blind_is_that_of_where_they_were() -> None:
    netted = "2026-07-01 fen | moved: {from: first, as: some, to: tarn, count: 4}\n"
    diary = _BRED.replace("dams: best, sires: best", "dams: some, sires: best") + netted
    found = _responses(_line(diary))["second"]

    assert found.ungraded == ()
    assert found.selection == pytest.approx(1.375 / 2)


def test_response__of_parents_without_grade_names_them() -> None:
    found = _responses(_line())["first"]

    assert found.why_not is WhyNot.PARENTS_NOT_GRADED
    assert found.ungraded == ("dusk",)
    assert (found.selection, found.response) == (None, None)


def test_response__of_an_unknown_parent_is_not_told() -> None:
    diary = """
    2026-01-01 fen | bought: {group: dusk, count: 6, look: glowing}
    2026-03-01 | hatched: {brood: young, dams: dusk, count: 9}
    2026-06-01 | graded: {group: young, scale: band, values: {middle: 9}}
    """
    found = _responses(_line(diary))["young"]

    assert found.why_not is WhyNot.PARENTS_UNKNOWN


# --- survival -------------------------------------------------------------------------------


def test_survival__is_of_the_young_first_counted() -> None:
    first, second = _line().timeline

    assert first.survival is not None
    assert (first.survival.survivors, first.survival.base) == (16, 20)
    assert first.survival.base_total
    interval = wilson_interval(seen=16, counted=20)
    assert (first.survival.low, first.survival.high) == (interval.low, interval.high)
    # Of at least ten: at most 80 %.
    assert second.survival is not None
    assert (second.survival.share, second.survival.base_total) == (0.8, False)


def test_survival__those_that_left_alive_are_alive() -> None:
    more = """
    2026-06-30 fen | sold: {group: first, count: 5}
    2026-07-30 fen | counted: {brood: first, how: emptied, count: 7}
    """
    (first, _) = _line(_BRED + more).timeline

    # Two chosen, five sold, seven left: of sixteen in April two are dead.
    assert first.survival is not None
    assert (first.survival.survivors, first.survival.base) == (14, 20)


def test_survival__moving_the_brood_to_another_tank_takes_none_away() -> None:
    more = """
    2026-06-30 fen | moved: {group: first, to: tarn, count: 14}
    2026-07-30 tarn | counted: {brood: first, how: emptied, count: 13}
    """
    (first, _) = _line(_BRED + more).timeline

    assert first.survival is not None
    assert (first.survival.survivors, first.survival.base) == (15, 20)


def test_survival__with_others_put_among_them_is_not_told() -> None:
    more = """
    2026-06-30 fen | joined: {parts: {dusk: 2}, into: first}
    2026-07-30 fen | counted: {brood: first, how: emptied, count: 15}
    """
    (first, _) = _line(_BRED + more).timeline

    assert (first.survival, first.why_no_survival) == (None, WhyNot.NOT_EXACT)


def test_survival__all_dead_is_none_of_them() -> None:
    diary = """
    2026-01-01 fen | bought: {group: dusk, count: 6, look: glowing}
    2026-03-01 fen | hatched: {brood: first, dams: dusk, sires: dusk, count: 12}
    2026-03-09 fen | died: {group: first, count: 12}
    2026-03-10 fen | counted: {brood: first, how: emptied, count: 0}
    """
    (first,) = _line(diary).timeline

    assert first.survival is not None
    assert (first.survival.survivors, first.survival.share, first.survival.low) == (0, 0.0, 0.0)
    assert (first.number, first.goal_share) == (None, None)


@pytest.mark.parametrize(
    ("counted", "why"),
    [
        ("", WhyNot.ONE_COUNT),
        ("2026-04-01 fen | counted: {brood: first, how: netted, count: 6}\n", WhyNot.ONE_COUNT),
        ("2026-04-01 fen | counted: {brood: first, how: emptied, count: 14}\n",
         WhyNot.LATER_HIGHER),
        ("2026-03-20 fen | sold: {group: first, count: 1-2}\n"
         "2026-04-01 fen | counted: {brood: first, how: emptied, count: 6}\n", WhyNot.NOT_EXACT),
        ("2026-03-20 fen | moved: {group: first, to: tarn, count: 4}\n"
         "2026-04-01 fen | counted: {brood: first, how: emptied, count: 6}\n", WhyNot.ONE_COUNT),
    ],
)  # fmt: skip
def test_survival__says_what_is_missing(counted: str, why: WhyNot) -> None:
    diary = """
    2026-01-01 fen | bought: {group: dusk, count: 6, look: glowing}
    2026-03-01 fen | hatched: {brood: first, dams: dusk, sires: dusk, count: 10+}
    """
    (first,) = _line(diary + counted).timeline

    assert (first.survival, first.why_no_survival) == (None, why)


def test_survival__of_none_ever_seen_is_not_told() -> None:
    diary = """
    2026-01-01 fen | bought: {group: dusk, count: 6, look: glowing}
    2026-03-01 fen | hatched: {brood: first, dams: dusk, sires: dusk}
    2026-03-02 fen | counted: {brood: first, how: looked, count: 0}
    2026-03-09 fen | counted: {brood: first, how: emptied, count: 0}
    """

    assert _line(diary).timeline[0].why_no_survival is WhyNot.ONE_COUNT


# --- generations ----------------------------------------------------------------------------


def test_bands__pool_what_their_broods_came_to() -> None:
    first, second = _line().bands

    assert (first.kind, first.broods, second.broods) == (BandKind.LABEL, ("first",), ("second",))
    assert (second.goal_seen, second.number, second.goal_expected) == (8, 8, 1.0)
    # Brother by sister: Wright 1922, from memory.
    assert (first.inbreeding_low, second.inbreeding_low, second.inbreeding_high) == (0, 0.25, 0.25)
    assert [(row.founder, row.share) for row in second.founder_shares] == [("dusk", 1.0)]


def test_bands__say_nothing_of_all_where_one_brood_is_not_known() -> None:
    """Which of two sires a brood has is not known, so its expectation is a range."""
    diary = """
    2026-01-01 fen | bought: {group: dusk, count: 6, look: glowing, genotype: g/g}
    2026-01-01 fen | bought: {group: dawn, count: 6, look: dull, genotype: G/G}
    2026-03-01 fen | hatched: {brood: one, dams: dusk, sires: dawn, count: 5}
    2026-04-01 fen | counted: {brood: one, how: emptied, looks: {dull: 5}}
    2026-06-01 fen | hatched: {brood: two, dams: one, sires: one, count: 4}
    2026-07-01 fen | counted: {brood: two, how: emptied, looks: {dull: 4}}
    2026-08-01 fen | hatched: {brood: three, dams: one, sires: [one, dusk], count: 4}
    2026-09-01 fen | counted: {brood: three, how: emptied, looks: {dull: 2, glowing: 2}}
    """
    row = _line(diary)
    pooled = _together([row.timeline[1], row.timeline[2]])

    assert row.timeline[1].goal_expected == 0.25
    assert row.timeline[2].goal_expected is None
    assert pooled is None
    assert _together([row.timeline[0], row.timeline[1]]) == pytest.approx(1 / 9)
    assert _end([0.1, None], min) is None
    assert _end([0.1, 0.3], max) == 0.3


_F = Generation(kind=GenerationKind.FILIAL, strains=("a", "b"), n=1, fewest=1, most=1)


def _filial(n: int) -> Generation:
    return replace(_F, n=n, fewest=n, most=n)


def test_bands__are_the_labels_where_they_are_few() -> None:
    found = bands_of([("b0", _filial(1)), ("b1", _filial(2)), ("b2", _filial(2))])

    assert [(band.kind, band.broods) for band in found] == [
        (BandKind.LABEL, ("b0",)),
        (BandKind.LABEL, ("b1", "b2")),
    ]


def test_bands__are_generations_where_labels_are_many() -> None:
    backcrosses = [
        Generation(kind=GenerationKind.BACKCROSS, strains=_F.strains, n=1, then_filial=n,
                   recurrent="a", fewest=2, most=2)
        for n in range(1, 7)
    ]  # fmt: skip
    unknown = Generation(kind=GenerationKind.UNKNOWN, strains=(), fewest=None, most=None)
    labels = [unknown, _F, *backcrosses]
    found = bands_of([(f"b{at}", label) for at, label in enumerate(labels)])

    assert [(band.kind, band.low, band.high) for band in found] == [
        (BandKind.GENERATION, 1, 1),
        (BandKind.GENERATION, 2, 2),
        (BandKind.UNKNOWN, None, None),
    ]
    assert [len(band.labels) for band in found] == [1, 6, 1]


@pytest.mark.parametrize("number", [7, 40, 400])
def test_bands__of_many_generations_are_never_more_than_six(number: int) -> None:
    found = bands_of([(f"b{n}", _filial(n)) for n in range(1, number + 1)])

    assert 2 <= len(found) <= MOST_BANDS
    assert [brood for band in found for brood in band.broods] == [
        f"b{n}" for n in range(1, number + 1)
    ]
    for band in found:
        assert band.low is not None
        assert band.high is not None
        for label in band.labels:
            assert label.most is not None
            assert band.low <= label.most <= band.high


# --- specialist figures ---------------------------------------------------------------------


def test_figures__of_one_pair_and_its_brood_are_those_of_hand() -> None:
    """A pair is left out by its death, so the line is four full sibs of unrelated parents.

    Mean kinship (4 · 1/2 + 12 · 1/4) / 16 = 5/16; by definition, with kinship from Malécot.
    """
    row = _line(
        """
        2026-01-01 fen | bought: {group: dam, count: 1, look: glowing}
        2026-01-01 fen | bought: {group: sire, count: 1, look: glowing}
        2026-02-20 fen | died: {group: dam, count: 1}
        2026-02-20 fen | died: {group: sire, count: 1}
        2026-03-01 fen | hatched: {brood: sibs, dams: dam, sires: sire, count: 4, mating: one}
        """,
        _LINE.replace("[dusk]", "[dam, sire]"),
    )

    def ends(name: FigureName) -> tuple[float | None, float | None]:
        found = _figure(row, name)
        return found.low, found.high

    assert ends(FigureName.MEAN_KINSHIP) == (5 / 16, 5 / 16)
    assert ends(FigureName.GENE_DIVERSITY) == (11 / 16, 11 / 16)
    assert ends(FigureName.GENOME_EQUIVALENTS) == (1.6, 1.6)
    assert ends(FigureName.EFFECTIVE_FOUNDERS) == (2.0, 2.0)
    assert ends(FigureName.SIZE_BY_SEX) == (2.0, 2.0)
    assert ends(FigureName.FORECAST_5) == pytest.approx((11 / 16 * 0.75**5,) * 2)
    assert ends(FigureName.FORECAST_10) == pytest.approx((11 / 16 * 0.75**10,) * 2)
    assert _figure(row, FigureName.SIZE_BY_RATE).why_not is WhyNot.NO_RISE


def test_figures__founders_of_a_group_count_as_one_or_as_all() -> None:
    found = _figure(_line(), FigureName.EFFECTIVE_FOUNDERS)

    assert (found.low, found.high) == pytest.approx((1.0, 6.0))


@pytest.mark.parametrize(
    ("bought", "mating", "high"),
    [
        ("count: 6", "one", 2.0),
        ("count: 6", "unknown", 4 * 1 * 6 / 7),
        ("count: 6, females: 4, males: 2", "unknown", 4 * 1 * 2 / 3),
    ],
)
def test_figures__size_by_sex_lies_between_the_fewest_and_the_most_that_can_have_bred(
    bought: str, mating: str, high: float
) -> None:
    row = _line(
        f"""
        2026-01-01 fen | bought: {{group: dusk, {bought}, look: glowing}}
        2026-03-01 fen | hatched: {{brood: one, dams: dusk, sires: dusk, count: 4,
            mating: {mating}}}
        """.replace(",\n            ", ", ")
    )
    found = _figure(row, FigureName.SIZE_BY_SEX)
    kinship, ahead = (_figure(row, n) for n in (FigureName.MEAN_KINSHIP, FigureName.FORECAST_5))

    assert (found.low, found.high) == pytest.approx((2.0, high))
    assert kinship.low is not None
    assert kinship.high is not None
    assert ahead.low == pytest.approx((1 - kinship.high) * 0.75**5)
    assert ahead.high == pytest.approx((1 - kinship.low) * (1 - 1 / (2 * high)) ** 5)


def test_figures__size_by_rate_is_that_of_the_steady_rise() -> None:
    """F is 1/4 after two generations: 1 - (1 - dF)^2 = 1/4, Ne = 1 / (2 dF)."""
    found = _figure(_line(), FigureName.SIZE_BY_RATE)

    rate = 1 - 0.75**0.5
    assert found.low == pytest.approx(1 / (2 * rate))


def test_figures__are_withheld_with_the_reason() -> None:
    row = _line(
        """
        2026-01-01 fen | bought: {group: dusk, count: 6, look: glowing}
        2026-03-01 | hatched: {brood: young, dams: dusk, count: 4}
        """
    )
    why = {one.name: one.why_not for one in row.bands[0].figures}

    assert why[FigureName.EFFECTIVE_FOUNDERS] is WhyNot.PARENTS_UNKNOWN
    assert why[FigureName.SIZE_BY_SEX] is WhyNot.NUMBER_UNKNOWN
    assert why[FigureName.SIZE_BY_RATE] is WhyNot.PARENTS_UNKNOWN
    assert why[FigureName.FORECAST_5] is WhyNot.NUMBER_UNKNOWN


def test_figures__of_a_line_that_died_out_say_so() -> None:
    row = _line(
        """
        2026-01-01 fen | bought: {group: dusk, count: 6, look: glowing}
        2026-03-01 fen | hatched: {brood: young, dams: dusk, sires: dusk, count: 4}
        2026-03-01 fen | died: {group: young, count: 4}
        2026-03-01 fen | died: {group: dusk, count: 6}
        """
    )

    assert _figure(row, FigureName.MEAN_KINSHIP).why_not is WhyNot.NOBODY_THERE
    assert _figure(row, FigureName.GENOME_EQUIVALENTS).why_not is WhyNot.NOBODY_THERE


# --- privacy --------------------------------------------------------------------------------


@pytest.mark.parametrize("kind", ["graded", "chosen"])
def test_public__claims_of_private_gradings_and_choices_enter_no_mean(kind: str) -> None:
    diary = "\n".join(
        line.replace("}", ", private: true}") if f"| {kind}: {{" in line and "}}" not in line
        else line.replace("}}", "}, private: true}") if f"| {kind}: {{" in line
        else line
        for line in _BRED.splitlines()
    )  # fmt: skip
    settings = f"public: [{kind}]\n"
    keeper = _results(diary, settings=settings).line("glows")
    public = _results(diary, settings=settings, public=True).line("glows")

    assert _responses(keeper)["second"].heritability is not None
    assert all(one.heritability is None for one in _responses(public).values())
    if kind == "graded":
        assert public.grades == ()
