"""Ammonia, its limits, oxygen and carbon dioxide: second ways, properties, refusals."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.husbandry.ammonia import (
    ammonia_pka,
    unionised_ammonia_mg_n_per_l,
    unionised_fraction,
)
from filialog.husbandry.ammonia_limits import (
    UNIONISED_LIMIT_MG_N_PER_L,
    ammonia_standing,
    lower_ammonia_limit,
    total_ammonia_acute_mg_n_per_l,
    total_ammonia_chronic_mg_n_per_l,
)
from filialog.husbandry.bounds import Bounds, below_detection, exactly
from filialog.husbandry.carbon_dioxide import carbon_dioxide_mg_per_l, carbonic_acid_pk1
from filialog.husbandry.limits import Standing
from filialog.husbandry.oxygen import oxygen_saturation_mg_per_l, oxygen_saturation_part

PH = st.floats(min_value=4.0, max_value=9.0)
CRITERION_PH = st.floats(min_value=6.5, max_value=9.0)
CELSIUS = st.floats(min_value=0.0, max_value=30.0)
BAD_TEMPERATURES = [-0.1, -3.0, 50.1, math.nan, math.inf]


@pytest.mark.parametrize("temperature_c", BAD_TEMPERATURES)
def test_temperature__is_refused_by_each_formula(temperature_c: float) -> None:
    with pytest.raises(DomainError, match="water temperature"):
        ammonia_pka(temperature_c)
    with pytest.raises(DomainError, match="water temperature"):
        carbonic_acid_pk1(temperature_c)
    with pytest.raises(DomainError, match="water temperature"):
        oxygen_saturation_mg_per_l(temperature_c=temperature_c)
    for criterion in (total_ammonia_acute_mg_n_per_l, total_ammonia_chronic_mg_n_per_l):
        with pytest.raises(DomainError, match="water temperature"):
            criterion(ph=7.0, temperature_c=temperature_c)


@pytest.mark.parametrize("ph", [-0.1, 14.1, 61.0, math.nan])
def test_unionised_fraction__refuses_ph(ph: float) -> None:
    with pytest.raises(DomainError, match="pH"):
        unionised_fraction(ph=ph, temperature_c=20.0)


@pytest.mark.parametrize("ph", [6.49, 9.01, math.nan])
def test_total_ammonia__refuses_ph_outside_its_table(ph: float) -> None:
    for criterion in (total_ammonia_acute_mg_n_per_l, total_ammonia_chronic_mg_n_per_l):
        with pytest.raises(DomainError, match="pH for the total-ammonia criterion"):
            criterion(ph=ph, temperature_c=20.0)


@pytest.mark.parametrize("temperature_c", [30.01, 40.0])
def test_total_ammonia__refuses_warmth_outside_its_table(temperature_c: float) -> None:
    for criterion in (total_ammonia_acute_mg_n_per_l, total_ammonia_chronic_mg_n_per_l):
        with pytest.raises(DomainError, match="total-ammonia"):
            criterion(ph=7.0, temperature_c=temperature_c)


def test_unionised_fraction__is_half_where_ph_is_pka() -> None:
    assert unionised_fraction(ph=ammonia_pka(25.0), temperature_c=25.0) == pytest.approx(0.5)


@given(st.floats(min_value=0.0, max_value=14.0), st.floats(min_value=0.0, max_value=50.0))
def test_unionised_fraction__satisfies_the_equilibrium(ph: float, temperature_c: float) -> None:
    """The second way: K = [NH3][H] / [NH4] must come out of the parts."""
    part = unionised_fraction(ph=ph, temperature_c=temperature_c)

    assert math.log10(part) - math.log10(1.0 - part) - ph == pytest.approx(
        -ammonia_pka(temperature_c), abs=1e-6
    )


@given(PH, PH, CELSIUS, CELSIUS)
def test_unionised_fraction__never_falls_with_ph_or_warmth(
    one_ph: float, other_ph: float, one_c: float, other_c: float
) -> None:
    lower = unionised_fraction(ph=min(one_ph, other_ph), temperature_c=min(one_c, other_c))
    upper = unionised_fraction(ph=max(one_ph, other_ph), temperature_c=max(one_c, other_c))

    assert lower <= upper


@given(
    st.tuples(st.floats(min_value=0, max_value=5), st.floats(min_value=0, max_value=5)),
    st.tuples(PH, PH),
    st.tuples(CELSIUS, CELSIUS),
    st.floats(min_value=0.0, max_value=1.0),
)
def test_unionised_ammonia__bounds_hold_everything_between(
    total: tuple[float, float], ph: tuple[float, float], celsius: tuple[float, float], at: float
) -> None:
    def between(pair: tuple[float, float]) -> float:
        return min(pair) + at * (max(pair) - min(pair))

    def bounds(pair: tuple[float, float]) -> Bounds:
        return Bounds(low=min(pair), high=max(pair))

    found = unionised_ammonia_mg_n_per_l(
        total_mg_n_per_l=bounds(total), ph=bounds(ph), temperature_c=bounds(celsius)
    )
    inside = between(total) * unionised_fraction(
        ph=min(between(ph), max(ph)), temperature_c=min(between(celsius), max(celsius))
    )

    assert found.low - 1e-12 <= inside <= found.high + 1e-12


def test_unionised_ammonia__refuses_less_than_none() -> None:
    with pytest.raises(DomainError, match="total ammonia"):
        unionised_ammonia_mg_n_per_l(
            total_mg_n_per_l=exactly(-0.1), ph=exactly(7.0), temperature_c=exactly(20.0)
        )


def test_total_ammonia__is_its_constants_at_ph_7_and_20_c() -> None:
    """The second way: the function of pH is scaled to 1 there, the constants are the criteria."""
    assert total_ammonia_acute_mg_n_per_l(ph=7.0, temperature_c=20.0) == pytest.approx(
        0.7249 * 23.12, rel=1e-4
    )
    assert total_ammonia_chronic_mg_n_per_l(ph=7.0, temperature_c=20.0) == pytest.approx(
        0.8876 * 2.126, rel=1e-4
    )


def test_total_ammonia__stops_rising_in_the_cold() -> None:
    assert total_ammonia_chronic_mg_n_per_l(
        ph=7.0, temperature_c=0.0
    ) == total_ammonia_chronic_mg_n_per_l(ph=7.0, temperature_c=7.0)
    assert total_ammonia_acute_mg_n_per_l(ph=7.0, temperature_c=0.0) == pytest.approx(
        0.7249 * 51.93, rel=1e-4
    )


@given(CRITERION_PH, CELSIUS)
def test_total_ammonia__chronic_is_below_acute(ph: float, temperature_c: float) -> None:
    assert total_ammonia_chronic_mg_n_per_l(
        ph=ph, temperature_c=temperature_c
    ) < total_ammonia_acute_mg_n_per_l(ph=ph, temperature_c=temperature_c)


@given(PH, PH, CELSIUS, CELSIUS)
def test_lower_ammonia_limit__never_rises_with_ph_or_warmth(
    one_ph: float, other_ph: float, one_c: float, other_c: float
) -> None:
    strict = lower_ammonia_limit(ph=max(one_ph, other_ph), temperature_c=max(one_c, other_c))
    lenient = lower_ammonia_limit(ph=min(one_ph, other_ph), temperature_c=min(one_c, other_c))

    assert strict.amount <= lenient.amount


@given(CRITERION_PH, CELSIUS)
def test_lower_ammonia_limit__keeps_both_rules(ph: float, temperature_c: float) -> None:
    limit = lower_ammonia_limit(ph=ph, temperature_c=temperature_c)
    unionised = limit.amount * unionised_fraction(ph=ph, temperature_c=temperature_c)
    total = total_ammonia_chronic_mg_n_per_l(ph=ph, temperature_c=temperature_c)

    assert unionised <= UNIONISED_LIMIT_MG_N_PER_L.amount * (1 + 1e-12)
    assert limit.amount <= total
    assert limit.rule == ("total ammonia" if limit.amount == total else "un-ionised ammonia")
    assert ("EPA" in limit.source.source) == (limit.rule == "total ammonia")


def test_lower_ammonia_limit__stays_below_ph_6_5() -> None:
    found = lower_ammonia_limit(ph=5.0, temperature_c=22.0)

    assert found.amount == total_ammonia_chronic_mg_n_per_l(ph=6.5, temperature_c=22.0)


@pytest.mark.parametrize("ph", [3.9, 9.1, 61.0, math.nan])
def test_lower_ammonia_limit__refuses_ph(ph: float) -> None:
    with pytest.raises(DomainError, match="pH"):
        lower_ammonia_limit(ph=ph, temperature_c=20.0)


@pytest.mark.parametrize(
    ("total", "ph", "standing"),
    [
        pytest.param(below_detection(0.05), exactly(6.2), Standing.WITHIN, id="acid, none shown"),
        pytest.param(exactly(3.0), exactly(6.2), Standing.ABOVE, id="acid, over total rule"),
        pytest.param(exactly(1.0), exactly(8.0), Standing.ABOVE, id="alkaline, over NH3 rule"),
        pytest.param(below_detection(0.5), exactly(8.5), Standing.CANNOT_TELL, id="kit too coarse"),
        pytest.param(
            exactly(1.0), Bounds(low=7.0, high=8.0), Standing.CANNOT_TELL, id="pH too coarse"
        ),
    ],
)
def test_ammonia_standing__by_hand(total: Bounds, ph: Bounds, standing: Standing) -> None:
    found, limit = ammonia_standing(total_mg_n_per_l=total, ph=ph, temperature_c=exactly(22.0))

    assert found is standing
    assert limit == lower_ammonia_limit(ph=ph.high, temperature_c=22.0)


def test_ammonia_standing__counts_doubt_about_the_temperature() -> None:
    standing, _ = ammonia_standing(
        total_mg_n_per_l=exactly(1.75), ph=exactly(6.5), temperature_c=Bounds(low=20.0, high=28.0)
    )

    # The limit is 2.13 at 20 °C and 1.27 at 28 °C.
    assert standing is Standing.CANNOT_TELL


def _weiss_1970_mg_per_l(temperature_c: float) -> float:
    """Oxygen by Weiss 1970, Deep-Sea Res. 17:721-735 (constants from memory), mL to mg by 1.429."""
    hundreds = (temperature_c + 273.15) / 100.0
    return 1.42905 * math.exp(
        -173.4292 + 249.6339 / hundreds + 143.3483 * math.log(hundreds) - 21.8492 * hundreds
    )


@given(st.floats(min_value=0.0, max_value=36.0))
def test_oxygen__is_near_an_older_independent_fit(temperature_c: float) -> None:
    found = oxygen_saturation_mg_per_l(temperature_c=temperature_c)

    assert found == pytest.approx(_weiss_1970_mg_per_l(temperature_c), rel=0.005)


@given(st.floats(min_value=0.0, max_value=39.0), st.floats(min_value=50.0, max_value=109.0))
def test_oxygen__falls_with_warmth_and_rises_with_pressure(
    temperature_c: float, air_pressure_kpa: float
) -> None:
    here = oxygen_saturation_mg_per_l(
        temperature_c=temperature_c, air_pressure_kpa=air_pressure_kpa
    )

    assert here > oxygen_saturation_mg_per_l(
        temperature_c=temperature_c + 1.0, air_pressure_kpa=air_pressure_kpa
    )
    assert here < oxygen_saturation_mg_per_l(
        temperature_c=temperature_c, air_pressure_kpa=air_pressure_kpa + 1.0
    )


def test_oxygen__at_one_atmosphere_needs_no_correction() -> None:
    assert oxygen_saturation_mg_per_l(
        temperature_c=20.0, air_pressure_kpa=101.325
    ) == oxygen_saturation_mg_per_l(temperature_c=20.0)


def test_oxygen__at_low_pressure_in_steps() -> None:
    """The correction of the APHA standard methods (from memory), each factor by hand at 20 °C.

    Vapour pressure of water 0.02306 atm, theta 0.000716; pressure 0.5 atm.
    """
    ratio = oxygen_saturation_mg_per_l(
        temperature_c=20.0, air_pressure_kpa=0.5 * 101.325
    ) / oxygen_saturation_mg_per_l(temperature_c=20.0)
    dry = (0.5 - 0.02306) / (1.0 - 0.02306)

    assert ratio / dry == pytest.approx((1.0 - 0.000716 * 0.5) / (1.0 - 0.000716), abs=2e-5)


@pytest.mark.parametrize("pressure", [0.0, 1.0, 49.9, 110.1, 1013.0, math.nan])
def test_oxygen__refuses_pressures(pressure: float) -> None:
    with pytest.raises(DomainError, match="air pressure"):
        oxygen_saturation_mg_per_l(temperature_c=20.0, air_pressure_kpa=pressure)


def test_oxygen__refuses_above_40_c() -> None:
    with pytest.raises(DomainError, match="water temperature"):
        oxygen_saturation_mg_per_l(temperature_c=40.1)


def test_oxygen_part__is_one_at_saturation() -> None:
    full = oxygen_saturation_mg_per_l(temperature_c=22.0)

    assert oxygen_saturation_part(full, temperature_c=22.0) == 1.0
    assert oxygen_saturation_part(0.0, temperature_c=22.0) == 0.0


@pytest.mark.parametrize("oxygen", [-0.1, math.nan, math.inf])
def test_oxygen_part__refuses(oxygen: float) -> None:
    with pytest.raises(DomainError, match="oxygen"):
        oxygen_saturation_part(oxygen, temperature_c=22.0)


def _co2(
    *,
    kh: float = 4.0,
    ph: float = 7.0,
    celsius: float = 24.0,
    buffers: tuple[str, ...] | None = (),
) -> float:
    return carbon_dioxide_mg_per_l(
        carbonate_hardness_dkh=kh, ph=ph, temperature_c=celsius, other_buffers=buffers
    )


@pytest.mark.parametrize("temperature_c", [5.0, 15.0, 25.0, 35.0])
def test_pk1__is_near_an_independent_fit(temperature_c: float) -> None:
    """Harned & Davis 1943, J. Am. Chem. Soc. 65:2030-2037, constants from memory."""
    kelvin = temperature_c + 273.15
    other = 3404.71 / kelvin - 14.8435 + 0.032786 * kelvin

    assert carbonic_acid_pk1(temperature_c) == pytest.approx(other, abs=0.005)


def test_carbon_dioxide__is_ten_times_as_much_one_ph_lower() -> None:
    assert _co2(ph=6.5) == pytest.approx(10.0 * _co2(ph=7.5))


def test_carbon_dioxide__is_in_proportion_to_hardness() -> None:
    assert _co2(kh=6.0) == pytest.approx(3.0 * _co2(kh=2.0))


@pytest.mark.parametrize("kh", [0.0, 1.0, 30.1, -1.0, math.nan])
def test_carbon_dioxide__refuses_hardness(kh: float) -> None:
    with pytest.raises(DomainError, match="carbonate hardness"):
        _co2(kh=kh)


@pytest.mark.parametrize("ph", [5.99, 8.31, 61.0, math.nan])
def test_carbon_dioxide__refuses_ph(ph: float) -> None:
    with pytest.raises(DomainError, match="pH"):
        _co2(ph=ph)


@pytest.mark.parametrize(
    ("buffers", "words"),
    [(("active soil",), "active soil"), (("peat", "leaves"), "peat, leaves"), (None, "not known")],
)
def test_carbon_dioxide__refuses_other_buffers(buffers: tuple[str, ...] | None, words: str) -> None:
    with pytest.raises(DomainError, match=f"acts on the pH beside carbonate is '{words}'"):
        _co2(buffers=buffers)
