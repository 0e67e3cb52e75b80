"""The alert for worn-out soil comes in time, and does not cry wolf."""

import pytest

from simulation.soil_figures import FRESH, PLATEAU, SHORT, STILL, SoilWorld, figures


@pytest.mark.long
def test_soil__five_hundred_tank_years_are_flagged_three_to_eight_weeks_before() -> None:
    found = figures(FRESH, tank_years=500, seed=1968)

    print(found)
    assert found.soils > 500
    assert found.first_in_time / found.soils >= 0.90
    assert found.in_time / found.soils >= 0.95
    assert found.false_alarms / found.tank_years <= 1.0
    assert found.held / found.intervals >= 0.95


@pytest.mark.long
@pytest.mark.parametrize(
    ("world", "standing"),
    [
        pytest.param(SHORT, 0.90, id="little room"),
        # A bend shows only after a while: this is what the method cannot do better.
        pytest.param(PLATEAU, 0.80, id="even for months"),
    ],
)
def test_soil__harder_worlds_are_flagged_with_fewer_false_alarms_than_allowed(
    world: SoilWorld, standing: float
) -> None:
    found = figures(world, tank_years=500, seed=1968)

    print(found)
    assert found.in_time / found.soils >= standing
    assert found.false_alarms / found.tank_years <= 1.0


def test_soil__still_water_raises_hardly_any_alarm() -> None:
    found = figures(STILL, tank_years=40, seed=7)

    print(found)
    assert found.soils == 0
    assert found.false_alarms / found.tank_years <= 0.1


def test_soil__a_few_tank_years_are_flagged_in_time() -> None:
    found = figures(FRESH, tank_years=40, seed=7)

    print(found)
    assert found.soils >= 40
    assert found.first_in_time / found.soils >= 0.85
    assert found.false_alarms / found.tank_years <= 0.5
    assert found.held / found.intervals >= 0.95
