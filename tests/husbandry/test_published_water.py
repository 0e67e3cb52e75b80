"""Every formula for water against the check values kept in `published/husbandry/water.yaml`."""

from collections.abc import Callable
from pathlib import Path

import pytest

from filialog.husbandry.acclimation import drip_minutes
from filialog.husbandry.ammonia import ammonia_pka, unionised_fraction
from filialog.husbandry.ammonia_limits import (
    UNIONISED_LIMIT_MG_N_PER_L,
    total_ammonia_acute_mg_n_per_l,
    total_ammonia_chronic_mg_n_per_l,
)
from filialog.husbandry.carbon_dioxide import carbon_dioxide_mg_per_l, carbonic_acid_pk1
from filialog.husbandry.conductivity import conductivity_at_25_c, conductivity_from_ppm
from filialog.husbandry.dosing import mg_caco3_equivalent
from filialog.husbandry.evaporation import after_evaporation, after_topping_up
from filialog.husbandry.hardness import HardnessUnit, convert_hardness
from filialog.husbandry.mixing import (
    after_changes,
    changes_needed,
    fraction_needed,
    share_of_first,
)
from filialog.husbandry.nitrite import NITRITE_LIMIT_MG_N_PER_L
from filialog.husbandry.nitrogen import NitrogenForm, mg_per_l_as
from filialog.husbandry.oxygen import oxygen_saturation_mg_per_l
from tools.worked_cases import Case, read_cases

CASES = read_cases(Path(__file__).parents[1] / "published" / "husbandry" / "water.yaml")
SEEN = {"published", "abstract read", "secondary", "from memory", "arithmetic"}


def _unionised_rule_as_total(*, ph: float, temperature_c: float) -> float:
    return UNIONISED_LIMIT_MG_N_PER_L.amount / unionised_fraction(
        ph=ph, temperature_c=temperature_c
    )


def _co2_for_each_dkh(*, ph: float, temperature_c: float) -> float:
    found = carbon_dioxide_mg_per_l(
        carbonate_hardness_dkh=10.0, ph=ph, temperature_c=temperature_c, other_buffers=()
    )
    return found / 10.0


def _hardness(*, given: str, wanted: str) -> float:
    return convert_hardness(1.0, given=HardnessUnit(given), wanted=HardnessUnit(wanted))


def _ec25(*, conductivity_us_per_cm: float, temperature_c: float) -> float:
    return conductivity_at_25_c(conductivity_us_per_cm, temperature_c=temperature_c)


def _ec_of_ppm(*, ppm: float, factor: float) -> float:
    return conductivity_from_ppm(ppm, factor=factor)


def _share_of_first(*, target: float, first: float, second: float) -> float:
    return share_of_first(target, first=first, second=second)


def _evaporation(*, concentration: float, net_litres: float, lost_litres: float) -> float:
    return after_evaporation(concentration, net_litres=net_litres, lost_litres=lost_litres)


def _topping(
    *, concentration: float, net_litres: float, lost_litres: float, topping: float
) -> float:
    return after_topping_up(
        concentration, net_litres=net_litres, lost_litres=lost_litres, topping=topping
    )


COMPUTE: dict[str, Callable[..., float]] = {
    "acute": total_ammonia_acute_mg_n_per_l,
    "after_changes": after_changes,
    "caco3": mg_caco3_equivalent,
    "changes_needed": changes_needed,
    "chronic": total_ammonia_chronic_mg_n_per_l,
    "co2_for_each_dkh": _co2_for_each_dkh,
    "drip": drip_minutes,
    "ec25": _ec25,
    "ec_of_ppm": _ec_of_ppm,
    "evaporation": _evaporation,
    "fraction": unionised_fraction,
    "fraction_needed": fraction_needed,
    "hardness": _hardness,
    "nitrite_limit_as_no2": lambda: mg_per_l_as(
        NITRITE_LIMIT_MG_N_PER_L.amount, form=NitrogenForm.NO2
    ),
    "oxygen": oxygen_saturation_mg_per_l,
    "per_n": lambda form: mg_per_l_as(1.0, form=NitrogenForm(form)),
    "pk1": carbonic_acid_pk1,
    "pka": ammonia_pka,
    "share_of_first": _share_of_first,
    "topping": _topping,
    "unionised_limit": lambda: UNIONISED_LIMIT_MG_N_PER_L.amount,
    "unionised_rule_as_total": _unionised_rule_as_total,
}


@pytest.mark.parametrize("case", [pytest.param(case, id=case["id"]) for case in CASES])
def test_water__matches_the_check_value(case: Case) -> None:
    found = COMPUTE[case["calc"]](**case["inputs"])

    assert found == pytest.approx(case["expected"], abs=case["tolerance"], rel=0)


def test_cases__name_source_and_how_it_was_seen() -> None:
    assert all(case["source"] and case["provenance"] in SEEN for case in CASES)


def test_cases__use_every_computation() -> None:
    assert {case["calc"] for case in CASES} == set(COMPUTE)


def test_unionised_fraction__grows_as_printed_when_ph_creeps() -> None:
    """pH 6.0 to 7.2 at 22 °C: 15.74 times as much (worked out from Emerson et al. 1975)."""
    grown = unionised_fraction(ph=7.2, temperature_c=22.0) / unionised_fraction(
        ph=6.0, temperature_c=22.0
    )

    assert grown == pytest.approx(15.74, abs=0.005)


@pytest.mark.parametrize(("temperature_c", "less"), [(20.0, 0.21), (25.0, 0.15)])
def test_carbon_dioxide__is_above_the_rule_of_thumb_as_printed(
    temperature_c: float, less: float
) -> None:
    """The rule of thumb 3 * KH * 10^(7 - pH) reads 15 to 21 % low."""
    found = _co2_for_each_dkh(ph=7.0, temperature_c=temperature_c)

    assert 1.0 - 3.0 / found == pytest.approx(less, abs=0.005)
