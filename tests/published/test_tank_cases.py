"""Tanks, soil and animals against numbers that stand elsewhere."""

from collections.abc import Callable
from pathlib import Path

import pytest

from filialog.husbandry.feeding import feed_factor
from filialog.husbandry.losses import loss_alarm
from filialog.husbandry.maturity import BEE_SHRIMP_MATURITY, NEOCARIDINA_DAVIDI_MATURITY
from filialog.husbandry.soil_load import alkalinity_load_meq
from filialog.husbandry.volumes import (
    displaced_litres,
    floor_load_kn_per_m2,
    glass_volume_l,
    soil_displaced_litres,
)
from filialog.husbandry.warm_broods import expected_female_share
from tools.worked_cases import Case, expected_numbers, read_cases

CASES = read_cases(Path(__file__).parent / "husbandry" / "tanks_and_animals.yaml")
AGES = {"neocaridina-davidi": NEOCARIDINA_DAVIDI_MATURITY, "bee": BEE_SHRIMP_MATURITY}


def ages(species: str) -> dict[str, float]:
    found = AGES[species]
    return {
        "part_days": found.part_days,
        "adult_low_days": found.adult_low_days,
        "adult_high_days": found.adult_high_days,
    }


def losses(
    *, deaths_before: int, animal_days_before: float, deaths_now: int, animal_days_now: float
) -> dict[str, float]:
    found = loss_alarm(
        deaths_before=deaths_before,
        animal_days_before=animal_days_before,
        deaths_now=deaths_now,
        animal_days_now=animal_days_now,
    )
    return {"expected": found.expected, "p_value": found.p_value}


CALCULATIONS: dict[str, Callable[..., dict[str, float]]] = {
    "glass_volume": lambda **i: {"litres": glass_volume_l(**i)},
    "displaced": lambda **i: {"litres": displaced_litres(**i)},
    "soil_displaced": lambda **i: {"litres": soil_displaced_litres(**i)},
    "floor_load": lambda **i: {"kn_per_m2": floor_load_kn_per_m2(**i)},
    "alkalinity_load": lambda changes: {"meq": alkalinity_load_meq(changes)},
    "feed_factor": lambda **i: {"factor": feed_factor(**i).value},
    "ages": ages,
    "female_share": lambda temperature_c: {"share": expected_female_share(temperature_c).value},
    "losses": losses,
}


@pytest.mark.parametrize("case", [pytest.param(case, id=case["id"]) for case in CASES])
def test_tank_case__gives_the_printed_numbers(case: Case) -> None:
    found = CALCULATIONS[case["calc"]](**case["inputs"])

    for name, number in expected_numbers(case).items():
        assert found[name] == pytest.approx(number, abs=case["tolerance"] + 1e-12), name


def test_tank_cases__all_name_their_source() -> None:
    assert len(CASES) == len({case["id"] for case in CASES})
    assert all(case["source"] and case["provenance"] for case in CASES)
