"""Portions by warmth and stock."""

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.husbandry.feeding import FEED_Q10, feed_factor, feed_portion
from filialog.husbandry.provenance import Basis, Sourced

DEGREES = st.floats(10.0, 30.0)
USUAL: dict[str, Any] = {
    "usual_amount": 2.0,
    "usual_animals": 40,
    "animals": 40,
    "usual_c": 24.0,
    "temperature_c": 24.0,
}


@given(DEGREES, DEGREES, DEGREES)
def test_factor__in_two_steps_is_the_factor_of_both(low: float, middle: float, high: float) -> None:
    first = feed_factor(temperature_c=middle, usual_c=low).value
    second = feed_factor(temperature_c=high, usual_c=middle).value

    assert first * second == pytest.approx(feed_factor(temperature_c=high, usual_c=low).value)


@given(st.floats(10.0, 20.0))
def test_factor__ten_degrees_are_one_q10(cool: float) -> None:
    assert feed_factor(temperature_c=cool + 10, usual_c=cool).value == pytest.approx(2.1)


def test_factor__tells_its_source() -> None:
    found = feed_factor(temperature_c=20.0, usual_c=24.0)

    assert found.sources == FEED_Q10.sources
    assert found.sources[0].basis is Basis.ABSTRACT_READ


@pytest.mark.parametrize("bad", [9.9, 30.1, -3.0, math.nan, math.inf])
def test_factor__refuses_temperatures(bad: float) -> None:
    with pytest.raises(DomainError, match="water temperature"):
        feed_factor(temperature_c=bad, usual_c=24.0)
    with pytest.raises(DomainError, match="usual temperature"):
        feed_factor(temperature_c=24.0, usual_c=bad)


@pytest.mark.parametrize("bad", [0.0, -1.0, math.nan, math.inf])
def test_factor__refuses_a_q10(bad: float) -> None:
    with pytest.raises(DomainError, match="Q10"):
        feed_factor(
            temperature_c=20.0, usual_c=24.0, q10=Sourced(value=bad, sources=FEED_Q10.sources)
        )


def test_portion__by_hand() -> None:
    # Half the animals at 15 °C: 2 x 1/2 x 0.513.
    found = feed_portion(**{**USUAL, "animals": 20, "temperature_c": 15.0})

    assert found.value == pytest.approx(0.513, abs=0.0005)
    assert feed_portion(**{**USUAL, "animals": 0}).value == 0.0


@pytest.mark.parametrize(
    "change",
    [
        {"usual_amount": 0.0},
        {"usual_amount": math.nan},
        {"usual_animals": 0},
        {"animals": -1},
        {"temperature_c": 5.0},
    ],
    ids=str,
)
def test_portion__refuses_bad_numbers(change: dict[str, Any]) -> None:
    with pytest.raises(DomainError):
        feed_portion(**{**USUAL, **change})
