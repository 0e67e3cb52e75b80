"""Volumes, stocking and masses by a second way, and refused where nothing is left."""

import math
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.husbandry.volumes import (
    SHELF_LOAD_CAUTION,
    SOIL_POROSITY,
    displaced_litres,
    filled_mass_kg,
    floor_load_kn_per_m2,
    glass_volume_l,
    litres_evaporated,
    net_litres,
    soil_displaced_litres,
    stocking_per_dm2,
    stocking_per_l,
)

SIDE = st.floats(10.0, 200.0)
CUBE: dict[str, float] = {"length_cm": 30, "width_cm": 30, "height_cm": 30, "glass_mm": 5}
FLOOR: dict[str, float] = {"length_cm": 29, "width_cm": 29}


@given(SIDE, SIDE, SIDE, st.floats(0.0, 20.0))
def test_mass__of_glass_is_that_of_its_five_panes(
    length: float, width: float, height: float, glass: float
) -> None:
    thick = glass / 10
    panes = (
        length * width * thick
        + 2 * length * (height - thick) * thick
        + 2 * (width - 2 * thick) * (height - thick) * thick
    )

    found = filled_mass_kg(
        length_cm=length, width_cm=width, height_cm=height, glass_mm=glass, water_l=0.0
    )

    assert found == pytest.approx(panes * 2.5 / 1000, abs=1e-6)


@given(SIDE, SIDE, SIDE, st.floats(0.0, 15.0), st.floats(0.0, 7.0))
def test_glass__holds_less_than_outside_and_loses_the_gap(
    length: float, width: float, height: float, glass: float, gap: float
) -> None:
    def water(gap_cm: float) -> float:
        return glass_volume_l(
            length_cm=length, width_cm=width, height_cm=height, glass_mm=glass, gap_cm=gap_cm
        )

    inside = {"length_cm": length - glass / 5, "width_cm": width - glass / 5}

    assert water(0.0) <= length * width * height / 1000
    assert water(0.0) - water(gap) == pytest.approx(
        displaced_litres(**inside, rise_cm=gap), abs=1e-9
    )


@given(SIDE, SIDE, st.floats(0.0, 10.0), st.floats(0.0, 1.0))
def test_soil__grains_and_pores_make_up_the_whole(
    length: float, width: float, depth: float, porosity: float
) -> None:
    solid = soil_displaced_litres(
        length_cm=length, width_cm=width, depth_cm=depth, porosity=porosity
    )
    pores = soil_displaced_litres(
        length_cm=length, width_cm=width, depth_cm=depth, porosity=1 - porosity
    )

    assert solid + pores == pytest.approx(length * width * depth / 1000)


def test_net__by_hand() -> None:
    assert net_litres(glass_l=23.13, soil_l=1.68, hardscape_l=0.67) == pytest.approx(20.78)
    assert litres_evaporated(**FLOOR, drop_cm=2) == pytest.approx(1.682)


def test_stocking__by_hand() -> None:
    assert stocking_per_l(animals=10, net_l=20.0) == 0.5
    assert stocking_per_dm2(animals=9, length_cm=30, width_cm=30) == pytest.approx(1.0)
    assert stocking_per_l(animals=0, net_l=20.0) == 0.0


def test_mass__full_cube_by_hand() -> None:
    # 27 L outside less 24.8095 L inside are 2.1905 L of glass at 2.5 kg.
    found = filled_mass_kg(**CUBE, water_l=20.8, furnishing_kg=3.0)

    assert found == pytest.approx(20.8 + 3.0 + 2.1905 * 2.5)
    assert SHELF_LOAD_CAUTION == "caution.shelf-load"
    assert str(SOIL_POROSITY.sources[0]).endswith("[from memory]")


REFUSED: list[tuple[Callable[..., float], dict[str, Any]]] = [
    *((glass_volume_l, {**CUBE, "gap_cm": 2, name: 0}) for name in CUBE if name != "glass_mm"),
    *((glass_volume_l, {**CUBE, "gap_cm": 2, name: math.nan}) for name in CUBE),
    (glass_volume_l, {**CUBE, "gap_cm": math.nan}),
    (glass_volume_l, {**CUBE, "gap_cm": -1}),
    (glass_volume_l, {**CUBE, "gap_cm": 29.5}),
    (glass_volume_l, {**CUBE, "gap_cm": 2, "glass_mm": -1}),
    (glass_volume_l, {**CUBE, "gap_cm": 2, "glass_mm": 150}),
    (soil_displaced_litres, {**FLOOR, "depth_cm": -1}),
    (soil_displaced_litres, {**FLOOR, "depth_cm": 4, "porosity": 1.1}),
    (soil_displaced_litres, {**FLOOR, "depth_cm": 4, "porosity": -0.1}),
    (soil_displaced_litres, {**FLOOR, "depth_cm": 4, "porosity": math.nan}),
    (soil_displaced_litres, {**FLOOR, "depth_cm": 4, "length_cm": 0}),
    (soil_displaced_litres, {**FLOOR, "depth_cm": 4, "width_cm": -2}),
    (displaced_litres, {**FLOOR, "rise_cm": math.inf}),
    (litres_evaporated, {**FLOOR, "drop_cm": -0.1}),
    (net_litres, {"glass_l": 0.0}),
    (net_litres, {"glass_l": 5.0, "soil_l": 5.0}),
    (net_litres, {"glass_l": 5.0, "soil_l": -1.0}),
    (net_litres, {"glass_l": 5.0, "hardscape_l": math.nan}),
    (stocking_per_l, {"animals": -1, "net_l": 5.0}),
    (stocking_per_l, {"animals": 1, "net_l": 0.0}),
    (stocking_per_dm2, {"animals": -1, **FLOOR}),
    (stocking_per_dm2, {"animals": 1, **FLOOR, "length_cm": 0}),
    (stocking_per_dm2, {"animals": 1, **FLOOR, "width_cm": math.nan}),
    (filled_mass_kg, {**CUBE, "water_l": -1.0}),
    (filled_mass_kg, {**CUBE, "water_l": 1.0, "furnishing_kg": math.nan}),
    (filled_mass_kg, {**CUBE, "water_l": 1.0, "height_cm": 0}),
    (floor_load_kn_per_m2, {"mass_kg": -1, **FLOOR}),
    (floor_load_kn_per_m2, {"mass_kg": 1, **FLOOR, "length_cm": 0}),
    (floor_load_kn_per_m2, {"mass_kg": 1, **FLOOR, "width_cm": math.inf}),
]


@pytest.mark.parametrize(("function", "arguments"), REFUSED)
def test_volumes__refuse_what_no_tank_has(
    function: Callable[..., float], arguments: dict[str, Any]
) -> None:
    with pytest.raises(DomainError):
        function(**arguments)
