"""When eggs hatch, and broods that nobody saw."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.husbandry.broods import broods_missed, hatching_dates
from filialog.husbandry.incubation import incubation_range

DAY = date(2031, 3, 1)


@given(st.floats(20.0, 32.0), st.integers(1, 30))
def test_hatching__window_is_that_of_laying_and_of_incubation(warmth: float, gap: int) -> None:
    temperatures = [warmth] * 60
    days = incubation_range(temperatures)
    seen = DAY + timedelta(days=gap)

    found = hatching_dates(last_seen_without=DAY, first_seen_with=seen, temperatures_c=temperatures)

    assert found.earliest == max(DAY + timedelta(days=days.low_days), seen)
    assert found.latest == seen + timedelta(days=days.high_days)
    assert found.earliest <= found.latest


def test_hatching__female_never_seen_without_eggs_may_hatch_today() -> None:
    found = hatching_dates(last_seen_without=None, first_seen_with=DAY, temperatures_c=[24.0] * 60)

    assert found.earliest == DAY
    assert found.latest == DAY + timedelta(days=incubation_range([24.0] * 60).high_days)


@pytest.mark.parametrize("late", [DAY, DAY + timedelta(days=1)])
def test_hatching__refuses_days_out_of_order(late: date) -> None:
    with pytest.raises(DomainError, match="last seen without eggs"):
        hatching_dates(last_seen_without=late, first_seen_with=DAY, temperatures_c=[24.0] * 60)


@pytest.mark.parametrize(
    "temperatures", [[], [24.0] * 5, [19.0] * 60, [float("nan")] * 60], ids=str
)
def test_hatching__refuses_temperatures_as_incubation_does(temperatures: list[float]) -> None:
    with pytest.raises(DomainError):
        hatching_dates(last_seen_without=None, first_seen_with=DAY, temperatures_c=temperatures)


@pytest.mark.parametrize(
    ("gaps", "missed"),
    [
        pytest.param([], 0, id="one brood"),
        pytest.param([28], 0, id="one cycle"),
        pytest.param([55], 0, id="a day short of two"),
        pytest.param([56], 1, id="two cycles"),
        pytest.param([28, 84], 2, id="three cycles"),
        pytest.param([10], 0, id="eggs dropped"),
    ],
)
def test_missed__counts_whole_cycles_between(gaps: list[int], missed: int) -> None:
    seen = [DAY]
    for gap in gaps:
        seen.append(seen[-1] + timedelta(days=gap))

    assert broods_missed(seen, incubation_days=21) == missed


def test_missed__of_no_brood_is_none() -> None:
    assert broods_missed([], incubation_days=21) == 0


@given(st.lists(st.integers(1, 400), max_size=6), st.integers(10, 40), st.integers(0, 10))
def test_missed__never_more_than_fit_in_the_whole_time(
    gaps: list[int], incubation: int, pause: int
) -> None:
    seen = [DAY]
    for gap in gaps:
        seen.append(seen[-1] + timedelta(days=gap))

    found = broods_missed(seen, incubation_days=incubation, pause_days=pause)

    assert 0 <= found <= sum(gaps) // (incubation + pause)


def test_missed__refuses_bad_numbers() -> None:
    with pytest.raises(DomainError, match="first seen with eggs"):
        broods_missed([DAY, DAY], incubation_days=21)
    with pytest.raises(DomainError, match="days of carrying"):
        broods_missed([DAY], incubation_days=0)
    with pytest.raises(DomainError, match="between hatching and eggs"):
        broods_missed([DAY], incubation_days=21, pause_days=-1)
