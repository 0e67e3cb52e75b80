"""The creep of pH by hand, by a second way, and where nothing can be said."""

import math
import statistics
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.husbandry.soil_ph import FEWEST_READINGS, SoilState, ph_trend, soil_state

READINGS = st.lists(st.floats(4.5, 8.5), min_size=3, max_size=24).map(
    lambda found: [(7 * week, round(ph, 2)) for week, ph in enumerate(found)]
)


def line(weeks: int, *, rise: float, start: float = 5.6) -> list[tuple[int, float]]:
    return [(7 * week, start + rise * week) for week in range(weeks)]


@given(READINGS)
@settings(deadline=None)
def test_trend__slope_is_the_median_of_all_pairs(readings: list[tuple[int, float]]) -> None:
    slopes = [(b[1] - a[1]) / (b[0] - a[0]) for a, b in combinations(readings, 2)]

    trend = ph_trend(readings, highest_ph=7.0)

    assert trend.slope_per_week == pytest.approx(7 * statistics.median(slopes), abs=1e-9)
    assert trend.slope_low_per_week <= trend.slope_per_week <= trend.slope_high_per_week


@given(READINGS)
@settings(deadline=None)
def test_trend__level_is_the_median_of_means_of_pairs(readings: list[tuple[int, float]]) -> None:
    trend = ph_trend(readings, highest_ph=7.0)
    rise = trend.slope_per_week / 7
    moved = [ph + rise * (readings[-1][0] - day) for day, ph in readings]
    means = [(a + b) / 2 for i, a in enumerate(moved) for b in moved[i:]]

    assert trend.ph_at_last_day == pytest.approx(statistics.median(means), abs=1e-9)


@given(READINGS, st.floats(-0.4, 0.4))
@settings(deadline=None)
def test_trend__moves_with_a_pen_that_reads_wrong_by_a_constant(
    readings: list[tuple[int, float]], off: float
) -> None:
    here = ph_trend(readings, highest_ph=7.0)
    there = ph_trend([(day, ph + off) for day, ph in readings], highest_ph=7.0 + off)

    assert there.slope_per_week == pytest.approx(here.slope_per_week, abs=1e-9)
    assert there.ph_at_last_day == pytest.approx(here.ph_at_last_day + off, abs=1e-9)


@given(READINGS, st.floats(4.0, 9.0))
@settings(deadline=None)
def test_trend__interval_of_the_end_holds_the_end(
    readings: list[tuple[int, float]], highest: float
) -> None:
    trend = ph_trend(readings, highest_ph=highest)

    if trend.end_day is not None:
        assert trend.end_low_day is not None
        assert trend.end_low_day >= trend.first_day
        assert trend.end_low_day <= trend.end_day
        assert trend.end_high_day is None or trend.end_day <= trend.end_high_day


def test_trend__end_of_a_straight_line_by_hand() -> None:
    # 0.8 of pH at 0.05 a week are 16 weeks.
    trend = ph_trend(line(10, rise=0.05), highest_ph=6.4)

    assert (trend.end_low_day, trend.end_day, trend.end_high_day) == (112, 112, 112)


def test_trend__falling_or_even_water_has_no_end() -> None:
    for rise in (0.0, -0.05):
        trend = ph_trend(line(10, rise=rise), highest_ph=6.4)

        assert trend.end_day is None
        assert trend.end_high_day is None


def test_trend__readings_of_one_day_are_averaged() -> None:
    twice = [(day, ph + off) for day, ph in line(10, rise=0.05) for off in (-0.1, 0.1)]

    found = ph_trend(twice, highest_ph=6.4)

    assert found.readings == 10
    assert found.slope_per_week == pytest.approx(0.05)
    assert found.end_day == 112


def test_trend__many_readings_of_the_same_value_on_few_days() -> None:
    found = ph_trend([(0, 6.0)] * 9 + [(3, 6.0)] * 9 + [(5, 6.0)] * 9, highest_ph=6.4)

    assert found.slope_low_per_week == found.slope_high_per_week == 0.0
    assert found.end_day is None


def test_trend__does_not_turn_for_two_wild_readings() -> None:
    readings = line(12, rise=0.03)
    readings[3] = (21, 9.0)
    readings[10] = (70, 3.0)

    assert ph_trend(readings, highest_ph=6.4).slope_per_week == pytest.approx(0.03, abs=1e-9)


def test_trend__leaves_a_flat_beginning_behind() -> None:
    even = [(7 * week, 5.6) for week in range(30)]
    rising = [(7 * (30 + week), 5.6 + 0.05 * week) for week in range(24)]

    trend = ph_trend([*even, *rising], highest_ph=7.0)

    assert trend.readings == 24
    assert trend.first_day == 210
    assert trend.slope_per_week == pytest.approx(0.05)


def test_state__follows_the_life_of_a_soil() -> None:
    readings = line(24, rise=0.05)

    states = [soil_state(readings[:count], highest_ph=6.4) for count in range(25)]

    assert states[:FEWEST_READINGS] == [SoilState.TOO_FEW] * FEWEST_READINGS
    # Six weeks before week 16 is week 10, the eleventh reading.
    assert states[8:11] == [SoilState.RISING] * 3
    assert states[11:17] == [SoilState.ENDING] * 6
    assert states[18:] == [SoilState.ENDED] * 7
    assert [one.is_alert for one in SoilState] == [False, False, False, True, True]


def test_state__even_water_with_scatter_is_steady() -> None:
    scatter = [5.9, 6.1, 6.0, 5.8, 6.2, 6.0, 6.1, 5.9, 6.0, 6.0]

    assert (
        soil_state([(7 * i, ph) for i, ph in enumerate(scatter)], highest_ph=6.4)
        is SoilState.STEADY
    )


def test_trend__water_above_its_range_from_the_first_day_has_left_it_then() -> None:
    trend = ph_trend(line(10, rise=0.05), highest_ph=5.0)

    assert (trend.end_low_day, trend.end_day, trend.end_high_day) == (0, 0, 0)


def test_state__a_rise_within_the_scatter_is_steady_even_close_to_the_top() -> None:
    scatter = [6.2, 6.35, 6.1, 6.3, 6.25, 6.15, 6.4, 6.2, 6.3, 6.3]
    readings = [(7 * week, ph) for week, ph in enumerate(scatter)]
    trend = ph_trend(readings, highest_ph=6.32)

    assert trend.end_day is not None
    assert 0 <= trend.end_day - trend.last_day <= 42
    assert soil_state(readings, highest_ph=6.32) is SoilState.STEADY


@pytest.mark.parametrize("wild", [3.0, 9.0])
def test_state__one_wild_reading_raises_no_alert(wild: float) -> None:
    readings = [*[(7 * week, 5.9 + 0.02 * (week % 3)) for week in range(12)], (84, wild)]

    assert not soil_state(readings, highest_ph=6.4).is_alert


def test_state__readings_of_one_day_are_too_few() -> None:
    assert soil_state([(5, 6.0)] * 9, highest_ph=6.4) is SoilState.TOO_FEW
    assert soil_state([], highest_ph=6.4) is SoilState.TOO_FEW
    assert soil_state([(5, 6.0)], highest_ph=6.4) is SoilState.TOO_FEW


@pytest.mark.parametrize(
    ("readings", "quantity"),
    [
        pytest.param([], "number of days with a pH reading", id="empty"),
        pytest.param([(1, 6.0)], "number of days with a pH reading", id="one"),
        pytest.param([(1, 6.0)] * 3, "number of days with a pH reading", id="one day"),
        pytest.param([(1, 6.0), (9, 6.0), (5, 6.0)], "day of a pH reading", id="out of order"),
        pytest.param([(-1, 6.0), (9, 6.0), (15, 6.0)], "day of a pH reading", id="before soil"),
        pytest.param([(1, 61.0), (9, 6.0), (15, 6.0)], "pH", id="pH 61"),
        pytest.param([(1, -0.1), (9, 6.0), (15, 6.0)], "pH", id="negative"),
        pytest.param([(1, math.nan), (9, 6.0), (15, 6.0)], "pH", id="not a number"),
    ],
)
def test_trend__refuses_readings(readings: list[tuple[int, float]], quantity: str) -> None:
    with pytest.raises(DomainError) as refusal:
        ph_trend(readings, highest_ph=6.4)

    assert refusal.value.quantity == quantity


@pytest.mark.parametrize("highest", [math.nan, -1.0, 14.5])
def test_trend__refuses_a_range_that_is_none(highest: float) -> None:
    with pytest.raises(DomainError, match="top of the range"):
        ph_trend(line(5, rise=0.1), highest_ph=highest)


@pytest.mark.parametrize("confidence", [0.0, 1.0, math.nan])
def test_trend__refuses_a_confidence(confidence: float) -> None:
    with pytest.raises(DomainError, match="confidence"):
        ph_trend(line(5, rise=0.1), highest_ph=6.4, confidence=confidence)


def test_state__refuses_bad_readings_even_where_they_are_few() -> None:
    with pytest.raises(DomainError, match="pH"):
        soil_state([(1, math.inf)], highest_ph=6.4)
    with pytest.raises(DomainError, match="days of warning"):
        soil_state([], highest_ph=6.4, ahead_days=-1)
