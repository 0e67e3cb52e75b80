"""Deadlines for siblings and the days they grow up."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.husbandry.maturity import (
    BEE_SHRIMP_MATURITY,
    NEOCARIDINA_DAVIDI_MATURITY,
    DateRange,
    MaturityAges,
    adult_dates,
    separation_deadline,
)

DAY = date(2031, 3, 1)
DAYS = st.dates(date(2000, 1, 1), date(2100, 1, 1))


@pytest.mark.parametrize(
    ("ages", "days"), [(NEOCARIDINA_DAVIDI_MATURITY, 60), (BEE_SHRIMP_MATURITY, 100)]
)
@given(hatched=DAYS)
def test_deadline__is_before_any_of_them_is_adult(
    hatched: date, ages: MaturityAges, days: int
) -> None:
    deadline = separation_deadline(hatched, ages=ages)
    adult = adult_dates(DateRange(earliest=hatched, latest=hatched), ages=ages)

    assert deadline.value == hatched + timedelta(days=days)
    assert deadline.value < adult.value.earliest <= adult.value.latest
    assert deadline.sources == adult.sources == ages.sources


@given(DAYS, st.integers(0, 60))
def test_adult__window_grows_with_that_of_hatching(first: date, wide: int) -> None:
    ages = NEOCARIDINA_DAVIDI_MATURITY
    found = adult_dates(
        DateRange(earliest=first, latest=first + timedelta(days=wide)), ages=ages
    ).value

    assert (found.latest - found.earliest).days == wide + 213 - 75


def test_adult__refuses_days_out_of_order() -> None:
    with pytest.raises(DomainError, match="latest day of hatching"):
        adult_dates(
            DateRange(earliest=DAY, latest=DAY - timedelta(days=1)),
            ages=NEOCARIDINA_DAVIDI_MATURITY,
        )


@pytest.mark.parametrize(
    "change", [{"part_days": 0}, {"part_days": 76}, {"adult_low_days": 214}, {"part_days": -5}]
)
def test_ages__out_of_order_are_refused(change: dict[str, int]) -> None:
    ages = replace(NEOCARIDINA_DAVIDI_MATURITY, **change)  # type: ignore[arg-type]

    with pytest.raises(DomainError, match="ages of maturity"):
        separation_deadline(DAY, ages=ages)
    with pytest.raises(DomainError, match="ages of maturity"):
        adult_dates(DateRange(earliest=DAY, latest=DAY), ages=ages)
