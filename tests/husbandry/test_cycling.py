"""A new tank is ready when nothing is missing, and says what is."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.husbandry.cycling import (
    NitrogenTest,
    StillMissing,
    TankStart,
    tank_readiness,
)

SOIL = TankStart.ACTIVE_SOIL


def reading(
    day: int, tan: float = 0.1, nitrite: float = 0.01, nitrate: float | None = None
) -> NitrogenTest:
    return NitrogenTest(
        day=day, tan_mg_per_l=tan, nitrite_n_mg_per_l=nitrite, nitrate_n_mg_per_l=nitrate
    )


GOOD = [reading(20, nitrate=1.0), reading(22), reading(24, nitrate=3.0)]


def test_ready__three_good_tests_and_nitrate_rising() -> None:
    found = tank_readiness(GOOD, today=24)

    assert found.is_ready
    assert found.good_tests == 3
    assert all(one.source for one in found.sources)


@pytest.mark.parametrize(
    ("tests", "today", "missing"),
    [
        pytest.param(
            [], 24, (StillMissing.TESTS, StillMissing.NITRATE_RISING), id="nothing measured"
        ),
        pytest.param(
            [GOOD[0]], 20, (StillMissing.TESTS, StillMissing.NITRATE_RISING), id="one test"
        ),
        pytest.param([GOOD[0], GOOD[2]], 24, (StillMissing.TESTS,), id="two tests"),
        pytest.param(GOOD, 31, (), id="a week later"),
        pytest.param(GOOD, 32, (StillMissing.FRESH_TEST,), id="too old"),
        pytest.param(
            [*GOOD, reading(26, tan=0.26)], 26, (StillMissing.AMMONIA_LOW,), id="ammonia again"
        ),
        pytest.param(
            [*GOOD, reading(26, nitrite=0.051)], 26, (StillMissing.NITRITE_LOW,), id="nitrite"
        ),
        pytest.param(
            [reading(5, tan=2.0, nitrate=1.0), *GOOD], 24, (), id="bad at first, good since"
        ),
        pytest.param(
            [*GOOD[:2], reading(24, nitrate=1.0)],
            24,
            (StillMissing.NITRATE_RISING,),
            id="nitrate even",
        ),
    ],
)
def test_dosed__says_what_is_missing(
    tests: list[NitrogenTest], today: int, missing: tuple[StillMissing, ...]
) -> None:
    found = tank_readiness(tests, today=today)

    assert found.missing == missing
    assert found.is_ready is (not missing)


@pytest.mark.parametrize(
    ("days", "missing"),
    [
        pytest.param((14, 21, 28), (), id="four weeks, calm for two"),
        pytest.param((13, 20, 27), (StillMissing.DAYS,), id="a day short"),
        pytest.param((15, 20, 28), (StillMissing.CALM_DAYS,), id="calm a day short"),
        pytest.param((14, 28), (StillMissing.TESTS,), id="two tests"),
    ],
)
def test_soil__needs_weeks_not_nitrate(
    days: tuple[int, ...], missing: tuple[StillMissing, ...]
) -> None:
    found = tank_readiness([reading(day) for day in days], today=days[-1], start=SOIL)

    assert found.missing == missing


def test_soil__one_bad_test_starts_the_two_weeks_anew() -> None:
    tests = [reading(10), reading(20), reading(25, tan=1.0), reading(30), reading(35), reading(38)]

    found = tank_readiness(tests, today=38, start=SOIL)

    assert found.missing == (StillMissing.CALM_DAYS,)
    assert found.good_tests == 3


@given(
    st.lists(st.tuples(st.floats(0, 3), st.floats(0, 1)), min_size=3, max_size=8),
    st.sampled_from(TankStart),
)
def test_readiness__a_bad_newest_test_is_never_ready(
    values: list[tuple[float, float]], start: TankStart
) -> None:
    tests = [reading(14 * i, tan, no2) for i, (tan, no2) in enumerate(values)]
    today = tests[-1].day + 1

    found = tank_readiness([*tests, reading(today, tan=0.3)], today=today, start=start)

    assert not found.is_ready
    assert found.good_tests == 0


@pytest.mark.parametrize(
    "tests",
    [
        pytest.param([reading(5), reading(4)], id="out of order"),
        pytest.param([reading(-1)], id="before the beginning"),
        pytest.param([reading(11)], id="after today"),
        pytest.param([reading(5, tan=-0.1)], id="ammonia below zero"),
        pytest.param([reading(5, nitrite=math.nan)], id="nitrite not a number"),
        pytest.param([reading(5, nitrate=math.inf)], id="nitrate without end"),
    ],
)
def test_readiness__refuses_tests(tests: list[NitrogenTest]) -> None:
    with pytest.raises(DomainError):
        tank_readiness(tests, today=10)


def test_readiness__refuses_a_day_before_the_beginning() -> None:
    with pytest.raises(DomainError, match="day of the question"):
        tank_readiness([], today=-1)
