"""What wears soil out: its age and the alkalinity brought in."""

import math
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.husbandry.provenance import Basis, Sourced
from filialog.husbandry.soil_load import (
    SOIL_AGE_DAYS,
    alkalinity_load_meq,
    kh_has_appeared,
    soil_age_alert_date,
)

AMOUNT = st.floats(0.0, 100.0)


@given(st.lists(st.tuples(AMOUNT, AMOUNT), max_size=8))
def test_load__adds_up_over_changes(changes: list[tuple[float, float]]) -> None:
    # By molar masses: 10 mg CaO at 56.077 g/mol, two charges each.
    by_hand = sum(litres * kh * 2 * 10 / 56.077 for litres, kh in changes)

    assert alkalinity_load_meq(changes) == pytest.approx(by_hand, rel=1e-4, abs=1e-12)


def test_load__of_no_change_is_zero() -> None:
    assert alkalinity_load_meq([]) == 0.0


@pytest.mark.parametrize("bad", [-1.0, math.nan, math.inf])
def test_load__refuses_impossible_changes(bad: float) -> None:
    with pytest.raises(DomainError):
        alkalinity_load_meq([(1.0, 2.0), (bad, 1.0)])
    with pytest.raises(DomainError):
        alkalinity_load_meq([(1.0, 2.0), (1.0, bad)])


def test_age__tells_day_and_source() -> None:
    found = soil_age_alert_date(date(2031, 1, 1))

    assert (found.value - date(2031, 1, 1)).days == 274
    assert found.sources == SOIL_AGE_DAYS.sources
    assert found.sources[0].basis is Basis.COMMON_PRACTICE


def test_age__refuses_less_than_a_day() -> None:
    with pytest.raises(DomainError, match="age of soil"):
        soil_age_alert_date(
            date(2031, 1, 1), age_days=Sourced(value=0, sources=SOIL_AGE_DAYS.sources)
        )


@pytest.mark.parametrize(
    ("readings", "appeared"),
    [
        pytest.param([], False, id="none"),
        pytest.param([1.0], False, id="one reading"),
        pytest.param([1.0, 0.0], False, id="gone again"),
        pytest.param([0.0, 1.0], False, id="once"),
        pytest.param([0.5, 0.5], True, id="twice"),
        pytest.param([0.4, 0.5], False, id="below the step"),
    ],
)
def test_kh__needs_two_readings_in_a_row(readings: list[float], *, appeared: bool) -> None:
    assert kh_has_appeared(readings, resolution_dkh=0.5) is appeared


@pytest.mark.parametrize("bad", [-0.5, math.nan, math.inf])
def test_kh__refuses_impossible_numbers(bad: float) -> None:
    with pytest.raises(DomainError):
        kh_has_appeared([bad, 1.0, 1.0], resolution_dkh=0.5)
    with pytest.raises(DomainError):
        kh_has_appeared([1.0], resolution_dkh=bad)
    with pytest.raises(DomainError):
        kh_has_appeared([1.0], resolution_dkh=0.0)
