"""Two waters compared before a move, and the plan for it."""

import math
from collections.abc import Mapping
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.husbandry.acclimation import (
    DROP_ML,
    Acclimation,
    Advice,
    Refusal,
    drip_minutes,
    plan_acclimation,
)
from filialog.husbandry.provenance import Basis
from filialog.husbandry.waters import (
    NO_DRIP_NEEDED,
    TOO_LARGE_FOR_ONE_DAY,
    Water,
    WaterProperty,
    water_gaps,
)

BAG = Water(
    conductivity_us_per_cm=250.0,
    hardness_dgh=5.0,
    carbonate_hardness_dkh=1.0,
    ph=6.6,
    temperature_c=21.0,
    total_ammonia_mg_n_per_l=0.0,
)


def _plan(source: Water = BAG, *, bag_ml: float = 500.0, **target: float | None) -> Acclimation:
    return plan_acclimation(source, _but(target), bag_ml=bag_ml)


def _but(changes: Mapping[str, float | None]) -> Water:
    return replace(BAG, **changes)


def test_plan__of_one_water_is_to_float_only() -> None:
    plan = _plan()

    assert plan.advice is Advice.FLOAT_ONLY
    assert (plan.steps, plan.start_ml, plan.drops_per_minute, plan.old_water_left) == (0, 0, 0, 1)
    assert plan.float_minutes == 20
    assert plan.unknown == ()


def test_plan__of_a_small_gap_is_two_doublings() -> None:
    plan = _plan(conductivity_us_per_cm=290.0)

    assert plan.advice is Advice.DRIP
    assert plan.steps == 2
    assert plan.old_water_left == 0.25


def test_plan__by_hand() -> None:
    # 240 µS/cm is eight times 30: three doublings; it is 0.8 of 300, so that
    # 90 + (0.8 - 0.1) / 0.9 * 90 = 160 minutes, and 2 drops of 0.05 mL a second are 320 mL a step.
    plan = _plan(conductivity_us_per_cm=490.0)

    assert plan.steps == 3
    assert plan.step_minutes == pytest.approx(160.0 / 3.0)
    assert plan.start_ml == pytest.approx(320.0)
    assert plan.drops_per_minute == pytest.approx(120.0)


def test_plan__of_a_small_bag_drips_more_slowly() -> None:
    plan = _plan(bag_ml=160.0, conductivity_us_per_cm=490.0)

    assert plan.start_ml == 160.0
    assert plan.drops_per_minute == pytest.approx(60.0)


@given(
    st.floats(min_value=0.0, max_value=550.0),
    st.floats(min_value=0.0, max_value=13.0),
    st.floats(min_value=5.2, max_value=8.0),
    st.floats(min_value=50.0, max_value=3000.0),
)
def test_plan__closes_every_gap_at_a_bearable_rate(
    conductivity: float, hardness: float, ph: float, bag_ml: float
) -> None:
    plan = _plan(bag_ml=bag_ml, conductivity_us_per_cm=conductivity, hardness_dgh=hardness, ph=ph)

    assert plan.advice in (Advice.DRIP, Advice.FLOAT_ONLY)
    for gap in plan.gaps:
        assert abs(gap.difference) * plan.old_water_left <= gap.needs_no_drip * (1 + 1e-9)
    if plan.advice is Advice.DRIP:
        assert 90.0 - 1e-9 <= plan.steps * plan.step_minutes <= 180.0 + 1e-9
        assert plan.drops_per_minute <= 120.0 + 1e-9
        # The second way: every step doubles the water.
        assert drip_minutes(
            bag_ml=plan.start_ml, dilution=2.0, drops_per_s=plan.drops_per_minute / 60.0
        ) == pytest.approx(plan.step_minutes)


def test_plan__a_larger_gap_never_takes_less_time() -> None:
    times = []
    for conductivity in range(250, 551, 10):
        plan = _plan(conductivity_us_per_cm=float(conductivity))
        times.append(plan.steps * plan.step_minutes)

    assert times == sorted(times)
    assert times[0] == 0.0
    assert times[-1] == pytest.approx(180.0)


@pytest.mark.parametrize(
    "target",
    [
        {"conductivity_us_per_cm": 551.0},
        {"hardness_dgh": 13.1},
        {"carbonate_hardness_dkh": 5.1},
        {"ph": 8.2},
        {"ph": 5.0},
        {"temperature_c": 29.1},
        {"temperature_c": 12.9},
    ],
    ids=str,
)
def test_plan__does_not_mix_waters_too_far_apart(target: dict[str, float]) -> None:
    plan = plan_acclimation(BAG, _but(target), bag_ml=500.0)

    assert plan.advice is Advice.DO_NOT_MIX
    assert plan.reasons == (Refusal.GAP_TOO_LARGE,)
    assert (plan.steps, plan.float_minutes, plan.start_ml) == (0, 0, 0.0)


def test_plan__does_not_mix_where_rising_ph_makes_ammonia() -> None:
    # 2 mg/L at pH 7.6 and 21 °C: 0.0166 of it, 0.033 mg/L; the limit is 0.0156.
    plan = _plan(replace(BAG, total_ammonia_mg_n_per_l=2.0), ph=7.6)

    assert plan.advice is Advice.DO_NOT_MIX
    assert plan.reasons == (Refusal.AMMONIA,)


def test_plan__names_both_reasons() -> None:
    plan = _plan(replace(BAG, total_ammonia_mg_n_per_l=2.0), ph=7.6, hardness_dgh=14.0)

    assert plan.reasons == (Refusal.AMMONIA, Refusal.GAP_TOO_LARGE)


@pytest.mark.parametrize("ph", [6.6, 6.0])
def test_plan__ammonia_does_not_matter_where_ph_stays_or_falls(ph: float) -> None:
    plan = _plan(replace(BAG, total_ammonia_mg_n_per_l=50.0), ph=ph)

    assert plan.reasons == ()
    assert not plan.ammonia_unknown


def test_plan__a_little_ammonia_is_no_reason() -> None:
    assert _plan(replace(BAG, total_ammonia_mg_n_per_l=0.25), ph=7.0).reasons == ()


def test_plan__warmth_alone_can_make_ammonia() -> None:
    # At pH 7.5: 0.0105 un-ionised at 19 °C, 0.0184 at 27 °C; of 1.2 mg/L 0.0126 and 0.0221.
    bag = replace(BAG, ph=7.5, temperature_c=19.5, total_ammonia_mg_n_per_l=1.2)

    assert _plan(bag, ph=7.5, temperature_c=19.5).reasons == ()
    assert _plan(bag, ph=7.5, temperature_c=27.0).reasons == (Refusal.AMMONIA,)


def test_plan__no_ammonia_is_known_to_be_harmless_without_ph() -> None:
    assert not _plan(ph=None).ammonia_unknown


def test_plan__a_gap_in_temperature_alone_is_floated_not_dripped() -> None:
    assert _plan(temperature_c=26.0).advice is Advice.FLOAT_ONLY


def test_plan__a_gap_in_ph_alone_is_dripped() -> None:
    # 1.3 is more than four times 0.3.
    assert _plan(ph=5.3).steps == 3


def test_plan__says_that_ammonia_is_not_known() -> None:
    bag = replace(BAG, total_ammonia_mg_n_per_l=None)

    assert _plan(bag, ph=7.0).ammonia_unknown
    assert not _plan(bag, ph=6.4).ammonia_unknown


@pytest.mark.parametrize(
    ("missing", "advice"),
    [
        ({"ph": None}, Advice.CANNOT_TELL),
        ({"temperature_c": None}, Advice.CANNOT_TELL),
        ({"conductivity_us_per_cm": None, "hardness_dgh": None}, Advice.CANNOT_TELL),
        ({"conductivity_us_per_cm": None}, Advice.FLOAT_ONLY),
        ({"hardness_dgh": None, "carbonate_hardness_dkh": None}, Advice.FLOAT_ONLY),
    ],
    ids=str,
)
def test_plan__says_what_is_not_known(missing: dict[str, None], advice: Advice) -> None:
    plan = plan_acclimation(BAG, _but(missing), bag_ml=500.0)

    assert plan.advice is advice
    assert len(plan.unknown) == len(missing)
    assert len(plan.unknown) + len(plan.gaps) == len(WaterProperty)


def test_plan__a_gap_too_large_settles_it_whatever_is_not_known() -> None:
    plan = _plan(ph=None, hardness_dgh=20.0)

    assert plan.advice is Advice.DO_NOT_MIX


def test_plan__of_nothing_known() -> None:
    plan = plan_acclimation(Water(), Water(), bag_ml=500.0)

    assert plan.advice is Advice.CANNOT_TELL
    assert plan.unknown == tuple(WaterProperty)
    assert plan.ammonia_unknown


def test_plan__prints_that_its_limits_are_common_practice() -> None:
    assert _plan().sources[0].basis is Basis.COMMON_PRACTICE


def test_water_gaps__are_target_minus_source() -> None:
    gaps = water_gaps(Water(ph=7.0, hardness_dgh=4.0), Water(ph=6.5, hardness_dgh=6.0))

    assert [(gap.of, gap.difference) for gap in gaps] == [
        (WaterProperty.GENERAL_HARDNESS, 2.0),
        (WaterProperty.PH, -0.5),
    ]
    assert [(gap.needs_no_drip, gap.too_large) for gap in gaps] == [(1.0, 8.0), (0.3, 1.5)]


@pytest.mark.parametrize(
    ("field", "value", "words"),
    [
        ("ph", 61.0, "pH"),
        ("ph", math.nan, "pH"),
        ("temperature_c", -3.0, "water temperature"),
        ("temperature_c", 77.0, "water temperature"),
        ("conductivity_us_per_cm", -1.0, "conductivity"),
        ("hardness_dgh", math.nan, "general hardness"),
        ("carbonate_hardness_dkh", math.inf, "carbonate hardness"),
        ("total_ammonia_mg_n_per_l", -0.1, "total ammonia"),
    ],
)
def test_plan__refuses_readings_in_either_water(field: str, value: float, words: str) -> None:
    bad = replace(BAG, **{field: value})

    with pytest.raises(DomainError, match=words):
        plan_acclimation(bad, BAG, bag_ml=500.0)
    with pytest.raises(DomainError, match=words):
        plan_acclimation(BAG, bad, bag_ml=500.0)


@pytest.mark.parametrize("bag_ml", [0.0, -1.0, math.nan, math.inf])
def test_plan__refuses_bags(bag_ml: float) -> None:
    with pytest.raises(DomainError, match="water of the animals"):
        _plan(bag_ml=bag_ml)
    with pytest.raises(DomainError, match="water of the animals"):
        drip_minutes(bag_ml=bag_ml, dilution=2.0, drops_per_s=1.0)


@pytest.mark.parametrize("limit", [0.0, -1.0, math.nan])
def test_water_gaps__refuses_limits(limit: float) -> None:
    with pytest.raises(DomainError, match="needs no dripping"):
        water_gaps(BAG, BAG, needs_no_drip=replace(NO_DRIP_NEEDED, ph=limit))
    with pytest.raises(DomainError, match="too large for a day"):
        water_gaps(BAG, BAG, too_large=replace(TOO_LARGE_FOR_ONE_DAY, ph=limit))


@pytest.mark.parametrize("value", [0.99, 0.0, math.nan, math.inf])
def test_drip_minutes__refuses_dilutions(value: float) -> None:
    with pytest.raises(DomainError, match="dilution"):
        drip_minutes(bag_ml=500.0, dilution=value, drops_per_s=1.0)


@pytest.mark.parametrize("value", [0.0, -1.0, math.nan, math.inf])
def test_drip_minutes__refuses_rates(value: float) -> None:
    with pytest.raises(DomainError, match="drops per second"):
        drip_minutes(bag_ml=500.0, dilution=2.0, drops_per_s=value)


def test_drip_minutes__counts_drops() -> None:
    minutes = drip_minutes(bag_ml=300.0, dilution=4.0, drops_per_s=1.5)

    assert minutes * 60.0 * 1.5 * DROP_ML == pytest.approx(900.0)
