"""Mixing, water changes and what is read afterwards, evaporation, doses."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.husbandry.bounds import Bounds, exactly, reading_bounds
from filialog.husbandry.change_check import ChangeCheck, ChangeVerdict, check_change
from filialog.husbandry.dosing import (
    Dose,
    MineralReading,
    Minerals,
    calibrated_minerals,
    dose_for,
    mg_caco3_equivalent,
)
from filialog.husbandry.evaporation import (
    RiseCause,
    after_evaporation,
    after_topping_up,
    cause_of_rise,
)
from filialog.husbandry.mixing import (
    after_changes,
    change_fraction,
    changes_needed,
    fraction_needed,
    level_after_many_changes,
    mixed,
    share_of_first,
)

LEVEL = st.floats(min_value=0.0, max_value=1000.0)
LITRES = st.floats(min_value=0.1, max_value=500.0)
PART = st.floats(min_value=0.01, max_value=0.99)
BAD = [
    pytest.param(-0.1, id="negative"),
    pytest.param(math.nan, id="no number"),
    pytest.param(math.inf, id="infinite"),
]


@given(st.lists(st.tuples(LITRES, LEVEL), min_size=1, max_size=5))
def test_mixed__keeps_the_mass_and_lies_between(parts: list[tuple[float, float]]) -> None:
    found = mixed(parts)

    assert found * sum(litres for litres, _ in parts) == pytest.approx(
        sum(litres * level for litres, level in parts)
    )
    levels = [level for _, level in parts]
    assert min(levels) - 1e-9 <= found <= max(levels) + 1e-9


@pytest.mark.parametrize("parts", [[], [(0.0, 5.0)]])
def test_mixed__refuses_no_water(parts: list[tuple[float, float]]) -> None:
    with pytest.raises(DomainError, match="litres together"):
        mixed(parts)


@pytest.mark.parametrize("value", BAD)
def test_mixed__refuses_bad_numbers(value: float) -> None:
    with pytest.raises(DomainError, match="litres"):
        mixed([(value, 1.0), (5.0, 1.0)])
    with pytest.raises(DomainError, match="concentration"):
        mixed([(1.0, value)])


@given(LEVEL, LEVEL, PART)
def test_share_of_first__makes_the_mix_asked_for(first: float, second: float, part: float) -> None:
    target = second + part * (first - second)
    assume(abs(first - second) > 1e-3)

    share = share_of_first(target, first=first, second=second)

    assert mixed([(share, first), (1.0 - share, second)]) == pytest.approx(target)


@pytest.mark.parametrize(
    ("target", "first", "second", "words"),
    [
        (15.0, 14.0, 0.0, "concentration wanted"),
        (1.0, 14.0, 2.0, "concentration wanted"),
        (5.0, 5.0, 5.0, "concentration of the second"),
        (-1.0, 14.0, 0.0, "concentration wanted"),
        (5.0, math.nan, 0.0, "first water"),
        (5.0, 14.0, -1.0, "second water"),
    ],
)
def test_share_of_first__refuses(target: float, first: float, second: float, words: str) -> None:
    with pytest.raises(DomainError, match=words):
        share_of_first(target, first=first, second=second)


@given(LEVEL, LEVEL, PART, st.integers(min_value=0, max_value=12))
def test_after_changes__is_the_mixing_done_one_by_one(
    before: float, fresh: float, part: float, times: int
) -> None:
    level = before
    for _ in range(times):
        level = mixed([(1.0 - part, level), (part, fresh)])

    found = after_changes(before=before, fresh=fresh, changed_fraction=part, times=times)

    assert found == pytest.approx(level, abs=1e-9)


def test_after_changes__of_nothing_and_of_everything() -> None:
    assert after_changes(before=320.0, fresh=180.0, changed_fraction=0.3, times=0) == 320.0
    assert after_changes(before=320.0, fresh=180.0, changed_fraction=1.0) == 180.0


@pytest.mark.parametrize("part", [0.0, -0.1, 1.1, 25.0, math.nan])
def test_changes__refuse_fractions(part: float) -> None:
    with pytest.raises(DomainError, match="fraction changed"):
        after_changes(before=1.0, fresh=0.0, changed_fraction=part)
    with pytest.raises(DomainError, match="fraction changed"):
        changes_needed(before=2.0, target=1.0, fresh=0.0, changed_fraction=part)
    with pytest.raises(DomainError, match="fraction changed"):
        level_after_many_changes(fresh=1.0, changed_fraction=part, added_between=1.0)


@pytest.mark.parametrize("value", BAD)
def test_changes__refuse_bad_levels(value: float) -> None:
    with pytest.raises(DomainError, match="concentration before"):
        after_changes(before=value, fresh=0.0, changed_fraction=0.1)
    with pytest.raises(DomainError, match="fresh water"):
        after_changes(before=1.0, fresh=value, changed_fraction=0.1)
    with pytest.raises(DomainError, match="fresh water"):
        level_after_many_changes(fresh=value, changed_fraction=0.1, added_between=1.0)
    with pytest.raises(DomainError, match="addition"):
        level_after_many_changes(fresh=1.0, changed_fraction=0.1, added_between=value)


def test_after_changes__refuses_fewer_than_none() -> None:
    with pytest.raises(DomainError, match="number of changes"):
        after_changes(before=1.0, fresh=0.0, changed_fraction=0.1, times=-1)


@given(LEVEL, LEVEL, PART, PART)
def test_changes_needed__lead_to_the_target(
    before: float, fresh: float, way: float, part: float
) -> None:
    assume(abs(before - fresh) > 1.0)
    target = before + way * (fresh - before)

    times = changes_needed(before=before, target=target, fresh=fresh, changed_fraction=part)

    assert fresh + (before - fresh) * (1.0 - part) ** times == pytest.approx(target, abs=1e-6)


def test_changes_needed__where_already_there_is_none() -> None:
    assert changes_needed(before=5.0, target=5.0, fresh=1.0, changed_fraction=0.2) == 0.0


@pytest.mark.parametrize("target", [180.0, 100.0, 400.0])
def test_changes_needed__refuses_what_changes_never_reach(target: float) -> None:
    with pytest.raises(DomainError, match="concentration wanted"):
        changes_needed(before=320.0, target=target, fresh=180.0, changed_fraction=0.2)


def test_fraction_needed__refuses_the_wrong_way() -> None:
    with pytest.raises(DomainError, match="concentration wanted"):
        fraction_needed(before=320.0, target=340.0, fresh=180.0)


@given(LEVEL, st.floats(min_value=0.05, max_value=1.0), LEVEL, LEVEL)
def test_level_after_many_changes__is_where_repetition_ends(
    fresh: float, part: float, added: float, start: float
) -> None:
    level = start
    for _ in range(600):
        level = after_changes(before=level + added, fresh=fresh, changed_fraction=part)

    assert level_after_many_changes(
        fresh=fresh, changed_fraction=part, added_between=added
    ) == pytest.approx(level, abs=1e-6)


@pytest.mark.parametrize("litres", [0.0, -1.0, math.nan, math.inf])
def test_volumes__are_refused(litres: float) -> None:
    with pytest.raises(DomainError, match="litres changed"):
        change_fraction(changed_litres=litres, net_litres=20.0)
    with pytest.raises(DomainError, match="net litres"):
        change_fraction(changed_litres=1.0, net_litres=litres)
    with pytest.raises(DomainError, match="net litres"):
        after_evaporation(100.0, net_litres=litres, lost_litres=0.0)
    with pytest.raises(DomainError, match="litres"):
        mg_caco3_equivalent(rise_dgh=1.0, net_litres=litres)


def test_change_fraction__refuses_more_than_there_is() -> None:
    assert change_fraction(changed_litres=20.0, net_litres=20.0) == 1.0
    with pytest.raises(DomainError, match="at most the 20 there are"):
        change_fraction(changed_litres=20.1, net_litres=20.0)


def _check(
    *,
    before: float = 320.0,
    fresh: float = 180.0,
    measured: float = 260.0,
    resolution: float = 5.0,
    changed: Bounds | None = None,
    net: Bounds | None = None,
) -> ChangeCheck:
    return check_change(
        before=reading_bounds(before, resolution=resolution),
        fresh=reading_bounds(fresh, resolution=resolution),
        measured=reading_bounds(measured, resolution=resolution),
        changed_litres=changed or exactly(9.0),
        net_litres=net or exactly(21.0),
    )


def test_check_change__as_expected() -> None:
    found = _check()

    assert found.verdict is ChangeVerdict.AS_EXPECTED
    # 320 + 9/21 (180 - 320) = 260, and each reading within 5.
    assert found.expected.low == pytest.approx(255.0)
    assert found.expected.high == pytest.approx(265.0)


@pytest.mark.parametrize(
    ("measured", "verdict"),
    [
        (270.0, ChangeVerdict.AS_EXPECTED),
        (250.0, ChangeVerdict.AS_EXPECTED),
        (271.0, ChangeVerdict.VOLUME_OR_MIX_WRONG),
        (249.0, ChangeVerdict.VOLUME_OR_MIX_WRONG),
    ],
)
def test_check_change__turns_where_the_steps_of_the_pen_end(
    measured: float, verdict: ChangeVerdict
) -> None:
    assert _check(measured=measured).verdict is verdict


def test_check_change__names_what_would_explain_the_reading() -> None:
    found = _check(measured=295.0, resolution=0.0)

    assert found.verdict is ChangeVerdict.VOLUME_OR_MIX_WRONG
    # (320 - 295) / (320 - 180) of 21 litres, or water of 320 - 25 * 21 / 9.
    assert found.litres_that_would_fit is not None
    assert found.litres_that_would_fit.low == pytest.approx(3.75)
    assert found.fresh_that_would_fit is not None
    assert found.fresh_that_would_fit.high == pytest.approx(320.0 - 25.0 * 21.0 / 9.0)


def test_check_change__counts_doubt_about_the_volume() -> None:
    found = _check(
        resolution=0.0, changed=Bounds(low=8.0, high=10.0), net=Bounds(low=20.0, high=25.0)
    )

    # From 10 of 20 litres to 8 of 25.
    assert found.expected.low == pytest.approx(250.0)
    assert found.expected.high == pytest.approx(320.0 - 140.0 * 8.0 / 25.0)


def test_check_change__never_asks_for_less_than_no_water() -> None:
    found = _check(measured=322.0)

    assert found.litres_that_would_fit is not None
    assert found.litres_that_would_fit.low == 0.0


def test_check_change__no_volume_explains_a_reading_beyond_both_waters() -> None:
    found = _check(measured=400.0)

    assert found.litres_that_would_fit is None
    assert found.fresh_that_would_fit is not None
    assert found.fresh_that_would_fit.low > 320.0


def test_check_change__no_water_explains_a_fall_below_what_is_kept() -> None:
    assert _check(measured=100.0).fresh_that_would_fit is None


def test_check_change__cannot_tell_where_the_waters_read_alike() -> None:
    found = _check(before=200.0, fresh=205.0, measured=202.0)

    assert found.verdict is ChangeVerdict.CANNOT_TELL
    assert found.litres_that_would_fit is None


def test_check_change__sees_a_wrong_mix_even_where_the_waters_read_alike() -> None:
    assert _check(before=200.0, fresh=205.0, measured=260.0).verdict is (
        ChangeVerdict.VOLUME_OR_MIX_WRONG
    )


@given(
    st.floats(min_value=50.0, max_value=800.0),
    st.floats(min_value=50.0, max_value=800.0),
    st.floats(min_value=0.05, max_value=0.9),
    st.tuples(*[st.floats(min_value=-1.0, max_value=1.0)] * 3),
)
def test_check_change__never_accuses_a_right_change(
    before: float, fresh: float, part: float, errors: tuple[float, float, float]
) -> None:
    after = mixed([(1.0 - part, before), (part, fresh)])
    found = check_change(
        before=reading_bounds(before + 4.99 * errors[0], resolution=5.0),
        fresh=reading_bounds(fresh + 4.99 * errors[1], resolution=5.0),
        measured=reading_bounds(after + 4.99 * errors[2], resolution=5.0),
        changed_litres=Bounds(low=19.0 * part, high=20.0 * part),
        net_litres=Bounds(low=19.0, high=20.0),
    )

    assert found.verdict is not ChangeVerdict.VOLUME_OR_MIX_WRONG


def test_check_change__refuses_more_than_there_may_be() -> None:
    with pytest.raises(DomainError, match="litres changed"):
        _check(changed=Bounds(low=18.0, high=20.5), net=Bounds(low=20.0, high=21.0))


@pytest.mark.parametrize("litres", [exactly(0.0), Bounds(low=1.0, high=math.inf)])
def test_check_change__refuses_volumes(litres: Bounds) -> None:
    with pytest.raises(DomainError, match="litres changed"):
        _check(changed=litres)
    with pytest.raises(DomainError, match="net litres"):
        _check(net=litres)


@pytest.mark.parametrize("bad", [exactly(-1.0), Bounds(low=1.0, high=math.inf)])
def test_check_change__refuses_readings(bad: Bounds) -> None:
    good, litres = exactly(200.0), exactly(10.0)
    for words, before, fresh, measured in (
        ("before", bad, good, good),
        ("fresh", good, bad, good),
        ("after", good, good, bad),
    ):
        with pytest.raises(DomainError, match=f"reading .*{words}"):
            check_change(
                before=before,
                fresh=fresh,
                measured=measured,
                changed_litres=litres,
                net_litres=litres,
            )


@given(LEVEL, LITRES, PART)
def test_evaporation__keeps_the_mass(level: float, litres: float, part: float) -> None:
    left = litres * (1.0 - part)
    found = after_evaporation(level, net_litres=litres, lost_litres=litres - left)

    assert found * left == pytest.approx(level * litres, rel=1e-6)


@given(LEVEL, PART)
def test_topping_up__with_pure_water_brings_the_tank_back(level: float, part: float) -> None:
    assert after_topping_up(
        level, net_litres=20.0, lost_litres=20.0 * part, topping=0.0
    ) == pytest.approx(level)


def test_topping_up__rises_each_time_by_the_same() -> None:
    once = after_topping_up(180.0, net_litres=20.0, lost_litres=1.0, topping=100.0)
    twice = after_topping_up(once, net_litres=20.0, lost_litres=1.0, topping=100.0)

    assert once == pytest.approx(185.0)
    assert twice == pytest.approx(190.0)


@pytest.mark.parametrize("lost", [-0.1, 20.0, 21.0, math.nan])
def test_evaporation__refuses_what_cannot_evaporate(lost: float) -> None:
    with pytest.raises(DomainError, match="litres evaporated"):
        after_evaporation(100.0, net_litres=20.0, lost_litres=lost)


@pytest.mark.parametrize("value", BAD)
def test_evaporation__refuses_levels(value: float) -> None:
    with pytest.raises(DomainError, match="concentration"):
        after_evaporation(value, net_litres=20.0, lost_litres=1.0)
    with pytest.raises(DomainError, match="concentration"):
        after_topping_up(1.0, net_litres=20.0, lost_litres=1.0, topping=value)


def _cause(before: Bounds, after: Bounds, gh_before: Bounds, gh_after: Bounds) -> RiseCause:
    return cause_of_rise(
        conductivity_before_us_per_cm=before,
        conductivity_after_us_per_cm=after,
        hardness_before_dgh=gh_before,
        hardness_after_dgh=gh_after,
    )


@pytest.mark.parametrize(
    ("after", "gh_before", "gh_after", "cause"),
    [
        (exactly(250.0), exactly(5.0), exactly(6.0), RiseCause.NO_RISE),
        (exactly(300.0), exactly(5.0), exactly(5.0), RiseCause.FOOD_AND_WASTE),
        (exactly(300.0), exactly(5.0), exactly(4.0), RiseCause.FOOD_AND_WASTE),
        (exactly(300.0), exactly(5.0), exactly(6.0), RiseCause.MINERAL_TOPPING),
        (exactly(300.0), exactly(5.0), exactly(5.5), RiseCause.BOTH_OR_OTHER),
        (exactly(300.0), exactly(5.0), exactly(8.0), RiseCause.BOTH_OR_OTHER),
        (
            exactly(300.0),
            Bounds(low=4.0, high=6.0),
            Bounds(low=4.0, high=6.0),
            RiseCause.CANNOT_TELL,
        ),
        (exactly(300.0), exactly(0.0), exactly(1.0), RiseCause.CANNOT_TELL),
    ],
)
def test_cause_of_rise__by_hand(
    after: Bounds, gh_before: Bounds, gh_after: Bounds, cause: RiseCause
) -> None:
    assert _cause(exactly(250.0), after, gh_before, gh_after) is cause


def test_cause_of_rise__refuses() -> None:
    one = exactly(1.0)
    with pytest.raises(DomainError, match="conductivity before"):
        _cause(exactly(0.0), one, one, one)
    with pytest.raises(DomainError, match="conductivity after"):
        _cause(one, exactly(0.0), one, one)
    with pytest.raises(DomainError, match="hardness before"):
        _cause(one, one, exactly(-1.0), one)
    with pytest.raises(DomainError, match="hardness after"):
        _cause(one, one, one, exactly(-1.0))


PRODUCT = calibrated_minerals(
    grams=2.0, litres=10.0, rise_dgh=6.0, rise_dkh=1.5, rise_us_per_cm=240.0
)


def _dose(target: float, reading: MineralReading, minerals: Minerals = PRODUCT) -> Dose:
    return dose_for(
        target,
        reading=reading,
        minerals=minerals,
        net_litres=12.5,
        base_dgh=1.0,
        base_dkh=0.5,
        base_us_per_cm=20.0,
    )


def test_mg_caco3_equivalent__in_millimoles() -> None:
    """20 L from 0 to 5.5 °d: 19.6 mmol of calcium and magnesium."""
    assert mg_caco3_equivalent(rise_dgh=5.5, net_litres=20.0) / 100.086 == pytest.approx(
        19.6, abs=0.05
    )


def test_dose__repeats_its_calibration() -> None:
    dose = dose_for(6.0, reading=MineralReading.GENERAL_HARDNESS, minerals=PRODUCT, net_litres=10.0)

    assert dose.grams == pytest.approx(2.0)
    assert dose.carbonate_hardness_dkh == pytest.approx(1.5)
    assert dose.conductivity_us_per_cm == pytest.approx(240.0)


@pytest.mark.parametrize("reading", MineralReading)
@given(part=st.floats(min_value=0.0, max_value=2.0))
def test_dose__by_each_reading_is_the_same_dose(reading: MineralReading, part: float) -> None:
    targets = {
        MineralReading.GENERAL_HARDNESS: 1.0 + 6.0 * part,
        MineralReading.CARBONATE_HARDNESS: 0.5 + 1.5 * part,
        MineralReading.CONDUCTIVITY: 20.0 + 240.0 * part,
    }
    dose = _dose(targets[reading], reading)

    assert dose.grams == pytest.approx(2.0 / 10.0 * part * 12.5, abs=1e-9)
    assert dose.hardness_dgh == pytest.approx(targets[MineralReading.GENERAL_HARDNESS])
    assert dose.carbonate_hardness_dkh == pytest.approx(targets[MineralReading.CARBONATE_HARDNESS])
    assert dose.conductivity_us_per_cm == pytest.approx(targets[MineralReading.CONDUCTIVITY])


def test_dose__refuses_beyond_twice_the_calibration() -> None:
    with pytest.raises(DomainError, match="twice the calibrated dose"):
        _dose(13.1, MineralReading.GENERAL_HARDNESS)


def test_dose__refuses_a_target_below_the_water() -> None:
    with pytest.raises(DomainError, match="the water has already"):
        _dose(0.9, MineralReading.GENERAL_HARDNESS)


def test_dose__refuses_a_reading_the_product_does_not_raise() -> None:
    no_carbonate = calibrated_minerals(
        grams=2.0, litres=10.0, rise_dgh=6.0, rise_dkh=0.0, rise_us_per_cm=240.0
    )

    with pytest.raises(DomainError, match="rise of KH"):
        _dose(2.0, MineralReading.CARBONATE_HARDNESS, no_carbonate)


@pytest.mark.parametrize("value", BAD)
def test_dose__refuses_bad_numbers(value: float) -> None:
    with pytest.raises(DomainError, match="wanted"):
        _dose(value, MineralReading.CONDUCTIVITY)
    for base in ("base_dgh", "base_dkh", "base_us_per_cm"):
        with pytest.raises(DomainError, match="water before"):
            dose_for(
                5.0,
                reading=MineralReading.GENERAL_HARDNESS,
                minerals=PRODUCT,
                net_litres=10.0,
                **{base: value},
            )
    with pytest.raises(DomainError, match="litres"):
        dose_for(5.0, reading=MineralReading.GENERAL_HARDNESS, minerals=PRODUCT, net_litres=value)
    with pytest.raises(DomainError, match="hardness"):
        mg_caco3_equivalent(rise_dgh=value, net_litres=10.0)


def test_dose__refuses_an_uncalibrated_product() -> None:
    unknown = Minerals(
        hardness_dgh=30.0,
        carbonate_hardness_dkh=0.0,
        conductivity_us_per_cm=1200.0,
        calibrated_to_g_per_l=0.0,
    )

    with pytest.raises(DomainError, match="calibrated dose"):
        _dose(5.0, MineralReading.GENERAL_HARDNESS, unknown)


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("grams", "grams"),
        ("litres", "litres"),
        ("rise_dgh", "general hardness"),
        ("rise_dkh", "carbonate hardness"),
        ("rise_us_per_cm", "conductivity"),
    ],
)
@pytest.mark.parametrize("value", BAD)
def test_calibrated_minerals__refuses(name: str, words: str, value: float) -> None:
    good = {
        "grams": 2.0,
        "litres": 10.0,
        "rise_dgh": 6.0,
        "rise_dkh": 0.0,
        "rise_us_per_cm": 240.0,
    }

    with pytest.raises(DomainError, match=words):
        calibrated_minerals(**{**good, name: value})


@pytest.mark.parametrize("name", ["grams", "litres", "rise_us_per_cm"])
def test_calibrated_minerals__refuses_zero(name: str) -> None:
    good = {
        "grams": 2.0,
        "litres": 10.0,
        "rise_dgh": 6.0,
        "rise_dkh": 0.0,
        "rise_us_per_cm": 240.0,
    }

    with pytest.raises(DomainError, match="above 0"):
        calibrated_minerals(**{**good, name: 0.0})
