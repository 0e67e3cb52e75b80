"""Survival between counts, and deaths beyond the tank's own history."""

import math
import random
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import binomtest

from filialog.domain_error import DomainError
from filialog.husbandry.losses import loss_alarm, survival_between

QUIET: dict[str, Any] = {
    "deaths_before": 3,
    "animal_days_before": 900.0,
    "deaths_now": 4,
    "animal_days_now": 70.0,
}


@given(
    st.integers(0, 40),
    st.integers(0, 15),
    st.integers(1, 5000),
    st.integers(1, 500),
)
def test_alarm__is_the_exact_binomial_test(
    before: int, now: int, days_before: int, days_now: int
) -> None:
    found = loss_alarm(
        deaths_before=before,
        animal_days_before=days_before,
        deaths_now=now,
        animal_days_now=days_now,
    )
    share = Fraction(days_now, days_before + days_now)
    by_hand = sum(
        math.comb(before + now, k) * share**k * (1 - share) ** (before + now - k)
        for k in range(now, before + now + 1)
    )

    assert found.p_value == pytest.approx(float(by_hand), rel=1e-9)
    if before + now:
        oracle = binomtest(now, before + now, float(share), alternative="greater").pvalue
        assert found.p_value == pytest.approx(oracle, rel=1e-9)


def test_alarm__holds_its_rate_of_false_alarms() -> None:
    draw = random.Random(1940)

    def deaths(days: int) -> int:
        return sum(draw.random() < 0.03 for _ in range(days))

    looks = 4000
    alarms = sum(
        loss_alarm(
            deaths_before=deaths(90),
            animal_days_before=90.0 * 30,
            deaths_now=deaths(7),
            animal_days_now=7.0 * 30,
            false_alarm_rate=0.05,
        ).alarm
        for _ in range(looks)
    )

    # A chance of 0.05 gives 55 more than 200 in one of ten thousand such runs.
    assert 0 < alarms <= 200 + 55


def test_alarm__a_row_of_deaths_in_a_quiet_tank_is_one() -> None:
    found = loss_alarm(**QUIET)

    assert found.alarm
    assert found.expected == pytest.approx(3 * 70 / 900)
    assert found.false_alarm_rate == 0.01


def test_alarm__the_same_deaths_in_a_tank_that_always_loses_are_none() -> None:
    assert not loss_alarm(**{**QUIET, "deaths_before": 51}).alarm


@pytest.mark.parametrize("before", [0, 50])
def test_alarm__no_death_is_never_one(before: int) -> None:
    found = loss_alarm(**{**QUIET, "deaths_before": before, "deaths_now": 0})

    assert not found.alarm
    assert found.p_value == 1.0


@pytest.mark.parametrize(
    "change",
    [
        {"deaths_before": -1},
        {"deaths_now": -1},
        {"animal_days_before": 0.0},
        {"animal_days_before": math.nan},
        {"animal_days_now": -3.0},
        {"animal_days_now": math.inf},
        {"false_alarm_rate": 0.0},
        {"false_alarm_rate": 1.0},
        {"false_alarm_rate": math.nan},
    ],
    ids=str,
)
def test_alarm__refuses_bad_numbers(change: dict[str, Any]) -> None:
    with pytest.raises(DomainError):
        loss_alarm(**{**QUIET, **change})


@given(st.integers(1, 60), st.integers(1, 200), st.data())
def test_survival__of_months_multiplies_back_to_the_whole(
    before: int, days: int, data: st.DataObject
) -> None:
    after = data.draw(st.integers(0, before))

    found = survival_between(counted_before=before, counted_after=after, days=days)

    assert found.share_of_month ** (days / 30) == pytest.approx(after / before)
    # The ends are computed: at none or all alive they may miss 0 or 1 by a rounding.
    assert found.interval.low - 1e-12 <= found.share <= found.interval.high + 1e-12


def test_survival__of_seven_in_thirty_has_the_printed_interval() -> None:
    # Wilson E.B. (1927) JASA 22:209-212 (method); limits computed, printed to four places.
    found = survival_between(counted_before=30, counted_after=7, days=30)

    assert found.interval.low == pytest.approx(0.1179, abs=0.00005)
    assert found.interval.high == pytest.approx(0.4093, abs=0.00005)


@pytest.mark.parametrize(
    ("before", "after", "days"), [(0, 0, 30), (-1, 0, 30), (10, 11, 30), (10, -1, 30), (10, 9, 0)]
)
def test_survival__refuses_bad_counts(before: int, after: int, days: int) -> None:
    with pytest.raises(DomainError):
        survival_between(counted_before=before, counted_after=after, days=days)
