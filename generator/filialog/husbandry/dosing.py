"""How much remineraliser a volume of water needs for a hardness or a conductivity."""

from dataclasses import dataclass
from enum import StrEnum

from filialog.domain_error import DomainError
from filialog.husbandry.guards import above_zero, zero_or_more
from filialog.husbandry.hardness import HardnessUnit, convert_hardness
from filialog.husbandry.provenance import Basis, Provenance

__all__ = [
    "LINEAR_DOSE",
    "Dose",
    "MineralReading",
    "Minerals",
    "calibrated_minerals",
    "dose_for",
    "mg_caco3_equivalent",
]

LINEAR_DOSE = Provenance(
    source=(
        "the keeper's own calibration of the product, scaled in proportion; not beyond twice what"
        " was calibrated"
    ),
    basis=Basis.COMMON_PRACTICE,
)
"""What a dose rests on."""

_FURTHEST_BEYOND_CALIBRATION = 2.0


class MineralReading(StrEnum):
    """A reading that a remineraliser raises."""

    GENERAL_HARDNESS = "GH (°d)"
    """General hardness in °dGH."""
    CARBONATE_HARDNESS = "KH (°d)"
    """Carbonate hardness in °dKH."""
    CONDUCTIVITY = "EC (µS/cm)"
    """Conductivity in µS/cm at 25 °C."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Minerals:
    """What one gram of a remineraliser in one litre adds, as calibrated."""

    hardness_dgh: float
    """General hardness, °dGH for each g/L."""
    carbonate_hardness_dkh: float
    """Carbonate hardness, °dKH for each g/L."""
    conductivity_us_per_cm: float
    """Conductivity at 25 °C, µS/cm for each g/L."""
    calibrated_to_g_per_l: float
    """The dose it was calibrated with, in g/L."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Dose:
    """An amount of remineraliser and the water it makes."""

    grams: float
    """Grams to dissolve."""
    hardness_dgh: float
    """General hardness afterwards, °dGH."""
    carbonate_hardness_dkh: float
    """Carbonate hardness afterwards, °dKH."""
    conductivity_us_per_cm: float
    """Conductivity afterwards, µS/cm at 25 °C."""
    sources: tuple[Provenance, ...]
    """What the dose rests on."""


def mg_caco3_equivalent(*, rise_dgh: float, net_litres: float) -> float:
    """Return the hardness to add, as the mass of calcium carbonate that would hold it.

    Parameters
    ----------
    rise_dgh
        Rise of general hardness wanted, in °dGH, zero or more.
    net_litres
        Litres of water, above zero.

    Returns
    -------
    float
        Milligrams counted as calcium carbonate; 100.086 of them are one mmol of calcium and
        magnesium. Not the mass of any salt.

    Raises
    ------
    DomainError
        If a number is out of range.

    Examples
    --------
    >>> round(mg_caco3_equivalent(rise_dgh=5.5, net_litres=20.0))
    1963
    """
    above_zero("litres", net_litres)
    return net_litres * convert_hardness(
        rise_dgh, given=HardnessUnit.GERMAN_DEGREES, wanted=HardnessUnit.MG_CACO3_PER_L
    )


def calibrated_minerals(
    *,
    grams: float,
    litres: float,
    rise_dgh: float,
    rise_dkh: float,
    rise_us_per_cm: float,
) -> Minerals:
    """Return what a product adds, from one measured dose in pure water.

    Parameters
    ----------
    grams
        Grams dissolved, above zero.
    litres
        Litres they were dissolved in, above zero; ten is a good amount.
    rise_dgh, rise_dkh
        By how much general and carbonate hardness rose, in °d, zero or more.
    rise_us_per_cm
        By how much conductivity at 25 °C rose, in µS/cm, above zero: every salt conducts.

    Returns
    -------
    Minerals
        Rises for one g/L.

    Raises
    ------
    DomainError
        If a number is out of range.

    Examples
    --------
    >>> calibrated_minerals(
    ...     grams=2.0, litres=10.0, rise_dgh=6.0, rise_dkh=0.0, rise_us_per_cm=240.0
    ... ).hardness_dgh
    30.0
    """
    per_l = above_zero("grams", grams) / above_zero("litres", litres)
    return Minerals(
        hardness_dgh=zero_or_more("rise of general hardness (°dGH)", rise_dgh) / per_l,
        carbonate_hardness_dkh=zero_or_more("rise of carbonate hardness (°dKH)", rise_dkh) / per_l,
        conductivity_us_per_cm=above_zero("rise of conductivity (µS/cm)", rise_us_per_cm) / per_l,
        calibrated_to_g_per_l=per_l,
    )


def dose_for(
    target: float,
    *,
    reading: MineralReading,
    minerals: Minerals,
    net_litres: float,
    base_dgh: float = 0.0,
    base_dkh: float = 0.0,
    base_us_per_cm: float = 0.0,
) -> Dose:
    """Return the dose that brings one reading of a water to a target, and what the others become.

    Parameters
    ----------
    target
        The reading wanted, in the unit of `reading`.
    reading
        Which reading is brought to the target.
    minerals
        What the product adds.
    net_litres
        Litres of water, above zero: of the bucket, or of the tank without soil and stones.
    base_dgh, base_dkh, base_us_per_cm
        The water before: hardnesses in °d and conductivity at 25 °C in µS/cm, zero or more; zero
        for pure water.

    Returns
    -------
    Dose
        Grams and the water they make.

    Raises
    ------
    DomainError
        If the target is below the water before, the product does not raise that reading, the dose
        goes beyond twice the calibrated one, or a number is out of range.

    Notes
    -----
    One product has one proportion: only one of the three readings can be chosen. Dissolve it in
    the water for the change, not in the tank.

    References
    ----------
    .. [1] `LINEAR_DOSE`.

    Examples
    --------
    >>> product = calibrated_minerals(
    ...     grams=2.0, litres=10.0, rise_dgh=6.0, rise_dkh=0.0, rise_us_per_cm=240.0
    ... )
    >>> dose = dose_for(
    ...     5.0, reading=MineralReading.GENERAL_HARDNESS, minerals=product, net_litres=12.0
    ... )
    >>> round(dose.grams, 3), round(dose.conductivity_us_per_cm)
    (2.0, 200)
    """
    above_zero("litres", net_litres)
    base = {
        MineralReading.GENERAL_HARDNESS: base_dgh,
        MineralReading.CARBONATE_HARDNESS: base_dkh,
        MineralReading.CONDUCTIVITY: base_us_per_cm,
    }
    gain = {
        MineralReading.GENERAL_HARDNESS: minerals.hardness_dgh,
        MineralReading.CARBONATE_HARDNESS: minerals.carbonate_hardness_dkh,
        MineralReading.CONDUCTIVITY: minerals.conductivity_us_per_cm,
    }
    for name, value in base.items():
        zero_or_more(f"{name} of the water before", value)
    above_zero(f"rise of {reading} for each g/L", gain[reading])
    zero_or_more(f"{reading} wanted", target)
    if target < base[reading]:
        raise DomainError(
            f"{reading} wanted", target, f"{base[reading]:g} or more, which the water has already"
        )
    g_per_l = (target - base[reading]) / gain[reading]
    most = _FURTHEST_BEYOND_CALIBRATION * above_zero(
        "calibrated dose (g/L)", minerals.calibrated_to_g_per_l
    )
    if g_per_l > most * (1.0 + 1e-9):
        raise DomainError("dose (g/L)", g_per_l, f"at most {most:g}, twice the calibrated dose")
    after = {name: base[name] + gain[name] * g_per_l for name in MineralReading}
    return Dose(
        grams=g_per_l * net_litres,
        hardness_dgh=after[MineralReading.GENERAL_HARDNESS],
        carbonate_hardness_dkh=after[MineralReading.CARBONATE_HARDNESS],
        conductivity_us_per_cm=after[MineralReading.CONDUCTIVITY],
        sources=(LINEAR_DOSE,),
    )
