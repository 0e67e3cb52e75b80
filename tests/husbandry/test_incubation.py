"""How long eggs are carried, against the points that were printed elsewhere."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.husbandry import (
    NEOCARIDINA_DAVIDI,
    DayRange,
    daily_temperatures,
    days_to_hatching,
    incubation_range,
)


@pytest.mark.parametrize(
    ("temperature", "days"),
    [
        # Nur & Christianus 2013, Asian J. Anim. Vet. Adv. 8:108-115 (abstract read).
        pytest.param(27.0, 15, id="27 °C, Nur & Christianus 2013"),
        # Read on secondary pages only.
        pytest.param(24.0, 21, id="24 °C, secondary"),
        pytest.param(32.0, 12, id="32 °C, secondary"),
    ],
)
def test_days_to_hatching__is_within_a_day_of_the_published_points(
    temperature: float, days: int
) -> None:
    assert days_to_hatching([temperature] * 60) == pytest.approx(days, abs=1.05)


@pytest.mark.parametrize(
    ("temperature", "days"), [(20, 31), (22, 24), (23, 22), (24, 20), (26, 17), (28, 15)]
)
def test_days_to_hatching__gives_the_printed_table(temperature: int, days: int) -> None:
    """The table of the line itself, printed in whole days."""
    assert days_to_hatching([float(temperature)] * 60) == pytest.approx(days, abs=0.5)


@given(st.lists(st.floats(min_value=20.0, max_value=32.0), min_size=40, max_size=40))
def test_days_to_hatching__lies_between_the_coldest_and_the_warmest_day(
    temperatures: list[float],
) -> None:
    days = days_to_hatching(temperatures)

    assert 230 / (max(temperatures) - 12.5) - 1e-9 <= days
    assert days <= 230 / (min(temperatures) - 12.5) + 1e-9


def test_days_to_hatching__sums_up_by_hand() -> None:
    # 10 days at 20 °C give 75; 155 are left, at 13.5 a day 11.48 more days.
    assert days_to_hatching([20.0] * 10 + [26.0] * 30) == pytest.approx(10 + 155 / 13.5)


def test_days_to_hatching__does_not_look_beyond_the_hatching() -> None:
    assert days_to_hatching([25.0] * 19 + [99.0]) == pytest.approx(230 / 12.5)


@pytest.mark.parametrize(
    "temperature",
    [
        pytest.param(19.9, id="too cold"),
        pytest.param(32.1, id="too warm"),
        pytest.param(math.nan, id="no number"),
        pytest.param(12.5, id="at the base"),
    ],
)
def test_days_to_hatching__refuses_temperatures_out_of_range(temperature: float) -> None:
    with pytest.raises(DomainError, match="water temperature"):
        days_to_hatching([24.0, temperature, *([24.0] * 40)])


@pytest.mark.parametrize("days", [0, 10])
def test_days_to_hatching__refuses_too_few_days(days: int) -> None:
    with pytest.raises(DomainError, match="sum of daily"):
        days_to_hatching([24.0] * days)


def test_incubation_range__without_margins_holds_the_one_number() -> None:
    # 230 / 10 = 23 days.
    found = incubation_range([22.5] * 40, margin_c=0.0, margin_days=0)

    assert found == DayRange(low_days=23, high_days=23)


def test_incubation_range__widens_by_both_margins() -> None:
    # 230 / 11 = 20.9 and 230 / 9 = 25.6 days, and two more on either side.
    assert incubation_range([22.5] * 24) == DayRange(low_days=18, high_days=28)


@pytest.mark.parametrize(("margin_c", "margin_days"), [(-0.1, 0), (math.nan, 0), (0.0, -1)])
def test_incubation_range__refuses_margins_below_zero(margin_c: float, margin_days: int) -> None:
    with pytest.raises(DomainError, match="margin"):
        incubation_range([22.5] * 40, margin_c=margin_c, margin_days=margin_days)


def test_incubation_range__refuses_a_margin_down_to_the_base() -> None:
    with pytest.raises(DomainError, match="margin of temperature"):
        incubation_range([22.5] * 40, margin_c=10.0)


def test_daily_temperatures__averages_readings_of_one_day() -> None:
    assert daily_temperatures([(3, 21.0), (3, 23.0)], days=[3, 4]) == (22.0, 22.0)


def test_daily_temperatures__lies_on_a_line_between_readings() -> None:
    assert daily_temperatures([(0, 20.0), (10, 25.0)], days=[4, 10]) == (22.0, 25.0)


def test_daily_temperatures__of_no_days_is_nothing() -> None:
    assert daily_temperatures([(0, 20.0)], days=[]) == ()


@pytest.mark.parametrize(
    ("readings", "day"), [([], 5), ([(0, 20.0)], 15), ([(0, 20.0), (40, 20.0)], 20)]
)
def test_daily_temperatures__refuses_days_far_from_every_reading(
    readings: list[tuple[int, float]], day: int
) -> None:
    with pytest.raises(DomainError, match="nearest temperature"):
        daily_temperatures(readings, days=[day])


def test_daily_temperatures__refuses_what_is_no_number() -> None:
    with pytest.raises(DomainError, match="water temperature"):
        daily_temperatures([(0, math.nan)], days=[0])


def test_law__names_its_points_and_what_was_read_of_them() -> None:
    assert "Nur & Christianus 2013" in NEOCARIDINA_DAVIDI.source
    assert "secondary" in NEOCARIDINA_DAVIDI.source
