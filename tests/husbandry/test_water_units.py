"""Units of water, readings within bounds, and where numbers come from."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.husbandry.bounds import (
    Bounds,
    below_detection,
    exactly,
    reading_bounds,
    within_corners,
)
from filialog.husbandry.conductivity import (
    conductivity_at_25_c,
    conductivity_from_ppm,
    ppm_from_conductivity,
)
from filialog.husbandry.guards import above_zero, fraction, in_range, zero_or_more
from filialog.husbandry.hardness import HardnessUnit, convert_hardness
from filialog.husbandry.limits import Limit, Standing, check_limit
from filialog.husbandry.nitrite import NITRITE_LIMIT_MG_N_PER_L
from filialog.husbandry.nitrogen import NitrogenForm, mg_n_per_l, mg_per_l_as
from filialog.husbandry.provenance import Basis, Provenance, Sourced
from filialog.husbandry.temperature import celsius_from_fahrenheit, fahrenheit_from_celsius

AMOUNTS = st.floats(min_value=0.0, max_value=1e4)
BAD_AMOUNTS = [
    pytest.param(-0.1, id="negative"),
    pytest.param(math.nan, id="no number"),
    pytest.param(math.inf, id="infinite"),
]


@given(AMOUNTS, st.sampled_from(HardnessUnit), st.sampled_from(HardnessUnit))
def test_convert_hardness__there_and_back_is_the_same(
    value: float, one: HardnessUnit, other: HardnessUnit
) -> None:
    there = convert_hardness(value, given=one, wanted=other)

    assert convert_hardness(there, given=other, wanted=one) == pytest.approx(value)


@given(
    AMOUNTS,
    st.sampled_from(HardnessUnit),
    st.sampled_from(HardnessUnit),
    st.sampled_from(HardnessUnit),
)
def test_convert_hardness__by_way_of_a_third_unit_is_the_same(
    value: float, one: HardnessUnit, middle: HardnessUnit, last: HardnessUnit
) -> None:
    stop = convert_hardness(value, given=one, wanted=middle)

    assert convert_hardness(stop, given=middle, wanted=last) == pytest.approx(
        convert_hardness(value, given=one, wanted=last)
    )


@pytest.mark.parametrize("value", BAD_AMOUNTS)
def test_convert_hardness__refuses(value: float) -> None:
    with pytest.raises(DomainError, match="hardness"):
        convert_hardness(
            value, given=HardnessUnit.GERMAN_DEGREES, wanted=HardnessUnit.MG_CACO3_PER_L
        )


@given(AMOUNTS, st.sampled_from(NitrogenForm))
def test_nitrogen__there_and_back_is_the_same(value: float, form: NitrogenForm) -> None:
    assert mg_per_l_as(mg_n_per_l(value, form=form), form=form) == pytest.approx(value)


def test_nitrogen__as_nitrogen_is_itself() -> None:
    assert mg_n_per_l(3.0, form=NitrogenForm.N) == 3.0


@pytest.mark.parametrize("value", BAD_AMOUNTS)
def test_nitrogen__refuses(value: float) -> None:
    with pytest.raises(DomainError, match="reading"):
        mg_n_per_l(value, form=NitrogenForm.NO3)
    with pytest.raises(DomainError, match="nitrogen"):
        mg_per_l_as(value, form=NitrogenForm.NO3)


@given(AMOUNTS, st.floats(min_value=0.4, max_value=1.0))
def test_ppm__there_and_back_is_the_same(ppm: float, factor: float) -> None:
    conductivity = conductivity_from_ppm(ppm, factor=factor)

    assert ppm_from_conductivity(conductivity, factor=factor) == pytest.approx(ppm)


@pytest.mark.parametrize("factor", [0.39, 1.01, 0.0, -0.5, 50.0, math.nan])
def test_ppm__refuses_a_factor_no_pen_has(factor: float) -> None:
    with pytest.raises(DomainError, match="factor of the pen"):
        conductivity_from_ppm(100.0, factor=factor)
    with pytest.raises(DomainError, match="factor of the pen"):
        ppm_from_conductivity(100.0, factor=factor)


@pytest.mark.parametrize("value", BAD_AMOUNTS)
def test_conductivity__refuses_amounts(value: float) -> None:
    with pytest.raises(DomainError, match="dissolved solids"):
        conductivity_from_ppm(value, factor=0.5)
    with pytest.raises(DomainError, match="conductivity"):
        ppm_from_conductivity(value, factor=0.5)
    with pytest.raises(DomainError, match="conductivity"):
        conductivity_at_25_c(value, temperature_c=25.0)


@pytest.mark.parametrize("temperature_c", [4.9, 35.1, -3.0, math.nan])
def test_conductivity_at_25_c__refuses_temperatures(temperature_c: float) -> None:
    with pytest.raises(DomainError, match="water temperature"):
        conductivity_at_25_c(200.0, temperature_c=temperature_c)


@pytest.mark.parametrize("per_k", [0.0149, 0.0251, 1.91, math.nan])
def test_conductivity_at_25_c__refuses_coefficients(per_k: float) -> None:
    with pytest.raises(DomainError, match="per K"):
        conductivity_at_25_c(200.0, temperature_c=20.0, per_k=per_k)


@given(st.floats(min_value=5.0, max_value=35.0), st.floats(min_value=1.0, max_value=5000.0))
def test_conductivity_at_25_c__turns_the_line_round(temperature_c: float, ec25: float) -> None:
    """The second way: what the line says is measured, brought back."""
    measured = ec25 + ec25 * 0.0191 * (temperature_c - 25.0)

    found = conductivity_at_25_c(measured, temperature_c=temperature_c)

    assert found == pytest.approx(ec25)


@pytest.mark.parametrize(("fahrenheit", "celsius"), [(32.0, 0.0), (68.0, 20.0), (212.0, 100.0)])
def test_fahrenheit__at_fixed_points(fahrenheit: float, celsius: float) -> None:
    assert celsius_from_fahrenheit(fahrenheit) == pytest.approx(celsius)
    assert fahrenheit_from_celsius(celsius) == pytest.approx(fahrenheit)


@pytest.mark.parametrize("value", [31.9, 212.1, math.nan])
def test_celsius_from_fahrenheit__refuses(value: float) -> None:
    with pytest.raises(DomainError, match="°F"):
        celsius_from_fahrenheit(value)


@pytest.mark.parametrize("value", [-0.1, 100.1, math.nan])
def test_fahrenheit_from_celsius__refuses(value: float) -> None:
    with pytest.raises(DomainError, match="°C"):
        fahrenheit_from_celsius(value)


def test_bounds__refuse_the_wrong_order_and_no_numbers() -> None:
    with pytest.raises(DomainError, match="upper bound"):
        Bounds(low=1.0, high=0.5)
    with pytest.raises(DomainError, match="upper bound"):
        Bounds(low=1.0, high=math.nan)
    for low in (math.nan, math.inf, -math.inf):
        with pytest.raises(DomainError, match="lower bound"):
            Bounds(low=low, high=math.inf)


def test_bounds__may_be_open_above() -> None:
    above_the_scale = Bounds(low=8.0, high=math.inf)

    assert above_the_scale.overlaps(exactly(1e9))
    assert not above_the_scale.overlaps(exactly(7.9))


def test_bounds__overlap_where_they_touch() -> None:
    assert Bounds(low=0.0, high=1.0).overlaps(Bounds(low=1.0, high=2.0))
    assert Bounds(low=1.0, high=2.0).overlaps(Bounds(low=0.0, high=1.0))
    assert not Bounds(low=0.0, high=1.0).overlaps(Bounds(low=1.1, high=2.0))


def test_below_detection__is_not_zero() -> None:
    assert below_detection(0.25) == Bounds(low=0.0, high=0.25)


@pytest.mark.parametrize("limit", [0.0, -1.0, math.nan, math.inf])
def test_below_detection__refuses(limit: float) -> None:
    with pytest.raises(DomainError, match="detection limit"):
        below_detection(limit)


@pytest.mark.parametrize(
    ("value", "detection_limit", "expected"),
    [
        (0.0, None, Bounds(low=0.0, high=0.5)),
        (3.0, None, Bounds(low=2.5, high=3.5)),
        (0.2, 0.25, Bounds(low=0.0, high=0.7)),
        (0.0, 0.6, Bounds(low=0.0, high=0.6)),
        (1.0, 0.6, Bounds(low=0.5, high=1.5)),
    ],
)
def test_reading_bounds__by_hand(
    value: float, detection_limit: float | None, expected: Bounds
) -> None:
    assert reading_bounds(value, resolution=0.5, detection_limit=detection_limit) == expected


@pytest.mark.parametrize("value", BAD_AMOUNTS)
def test_reading_bounds__refuses(value: float) -> None:
    with pytest.raises(DomainError, match="reading"):
        reading_bounds(value, resolution=0.1)
    with pytest.raises(DomainError, match="resolution"):
        reading_bounds(1.0, resolution=value)


UNIT = st.floats(min_value=0.0, max_value=1.0)


@given(
    st.tuples(st.floats(min_value=-5, max_value=5), st.floats(min_value=-5, max_value=5)),
    st.tuples(st.floats(min_value=-5, max_value=5), st.floats(min_value=-5, max_value=5)),
    UNIT,
    UNIT,
)
def test_within_corners__holds_every_point_between(
    x: tuple[float, float], y: tuple[float, float], at_x: float, at_y: float
) -> None:
    def product(*, x: float, y: float) -> float:
        return x * y

    found = within_corners(
        product, x=Bounds(low=min(x), high=max(x)), y=Bounds(low=min(y), high=max(y))
    )
    inside = (x[0] + at_x * (x[1] - x[0])) * (y[0] + at_y * (y[1] - y[0]))

    assert found.low - 1e-9 <= inside <= found.high + 1e-9


@pytest.mark.parametrize(
    ("measured", "standing"),
    [
        (exactly(0.06), Standing.WITHIN),
        (exactly(0.0601), Standing.ABOVE),
        (Bounds(low=0.06, high=0.07), Standing.CANNOT_TELL),
        (below_detection(0.05), Standing.WITHIN),
        (below_detection(0.1), Standing.CANNOT_TELL),
        (Bounds(low=1.0, high=math.inf), Standing.ABOVE),
    ],
)
def test_check_limit__by_hand(measured: Bounds, standing: Standing) -> None:
    found = check_limit(measured, limit=NITRITE_LIMIT_MG_N_PER_L)

    assert found.standing is standing
    assert found.limit.source.basis is Basis.FROM_MEMORY


@pytest.mark.parametrize("amount", [0.0, -1.0, math.nan, math.inf])
def test_check_limit__refuses_limits(amount: float) -> None:
    source = Provenance(source="none", basis=Basis.COMMON_PRACTICE)

    with pytest.raises(DomainError, match="limit"):
        check_limit(exactly(1.0), limit=Limit(rule="x", amount=amount, source=source))


def test_provenance__prints_source_and_basis() -> None:
    source = Provenance(source="Emerson et al. 1975", basis=Basis.SECONDARY)

    assert str(source) == "Emerson et al. 1975 [secondary]"
    assert Sourced(value=3.0, sources=(source,)).sources == (source,)


@pytest.mark.parametrize("value", BAD_AMOUNTS)
def test_guards__refuse(value: float) -> None:
    for guard in (zero_or_more, above_zero, fraction):
        with pytest.raises(DomainError, match="thing"):
            guard("thing", value)


def test_guards__differ_at_zero_and_one() -> None:
    assert zero_or_more("thing", 0.0) == 0.0
    assert fraction("thing", 1.0) == 1.0
    assert in_range("thing", 1.0, low=1.0, high=1.0) == 1.0
    with pytest.raises(DomainError, match="above 0"):
        above_zero("thing", 0.0)
    with pytest.raises(DomainError, match="above 0"):
        fraction("thing", 0.0)
    with pytest.raises(DomainError, match="at most 1"):
        fraction("thing", 1.001)
