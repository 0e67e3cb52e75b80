"""Electrical conductivity: brought to 25 °C, and from the ppm of a pen."""

from filialog.husbandry.guards import in_range, zero_or_more
from filialog.husbandry.provenance import Basis, Provenance

__all__ = [
    "CONDUCTIVITY_PER_K",
    "PEN_FACTORS",
    "TEMPERATURE_COMPENSATION",
    "conductivity_at_25_c",
    "conductivity_from_ppm",
    "ppm_from_conductivity",
]

TEMPERATURE_COMPENSATION = Provenance(
    source=(
        "linear compensation to 25 °C by 1.91 % per K as in the manual of an instrument (2 % per K"
        " is common too); the standard is ISO 7888:1985, not opened"
    ),
    basis=Basis.SECONDARY,
)
"""Source of `CONDUCTIVITY_PER_K`."""
CONDUCTIVITY_PER_K = 0.0191
"""Part by which conductivity rises per K, relative to that at 25 °C."""
PEN_FACTORS = Provenance(
    source=(
        "factors of pens in use: 0.50 (scale of sodium or potassium chloride) to 0.70 (scale"
        " called 442); measured at 447 µS/cm: 0.505 KCl, 0.482 NaCl, 0.671 for 442"
    ),
    basis=Basis.SECONDARY,
)
"""Source of the factors from conductivity to ppm."""


def conductivity_at_25_c(
    conductivity_us_per_cm: float,
    *,
    temperature_c: float,
    per_k: float = CONDUCTIVITY_PER_K,
) -> float:
    """Return the conductivity the water would have at 25 °C.

    Parameters
    ----------
    conductivity_us_per_cm
        Conductivity in µS/cm as measured at the temperature of the water by an instrument that
        does not compensate, zero or more.
    temperature_c
        Temperature of the water in °C, 5 to 35.
    per_k
        Part by which conductivity rises per K, 0.015 to 0.025.

    Returns
    -------
    float
        Conductivity in µS/cm at 25 °C.

    Raises
    ------
    DomainError
        If an argument is outside its range or not a number.

    Notes
    -----
    A straight line in temperature; the range of temperatures is a choice: it is that of rooms
    with tanks, and far from 25 °C the line bends. A pen that compensates has done this already.

    References
    ----------
    .. [1] `TEMPERATURE_COMPENSATION`.

    Examples
    --------
    >>> round(conductivity_at_25_c(200.0, temperature_c=20.0), 1)
    221.1
    """
    zero_or_more("conductivity (µS/cm)", conductivity_us_per_cm)
    in_range("water temperature (°C)", temperature_c, low=5.0, high=35.0)
    in_range("rise of conductivity per K", per_k, low=0.015, high=0.025)
    return conductivity_us_per_cm / (1.0 + per_k * (temperature_c - 25.0))


def conductivity_from_ppm(ppm: float, *, factor: float) -> float:
    """Return conductivity from the ppm that a pen shows.

    Parameters
    ----------
    ppm
        The reading of the pen in ppm ("TDS"), zero or more.
    factor
        The pen's own factor from µS/cm to ppm, 0.4 to 1.0. There is no default: the same water
        reads 150 or 210.

    Returns
    -------
    float
        Conductivity in µS/cm at 25 °C, the pen being one that compensates.

    Raises
    ------
    DomainError
        If an argument is outside its range or not a number.

    References
    ----------
    .. [1] `PEN_FACTORS`; the range refused outside is a choice around them.

    Examples
    --------
    >>> round(conductivity_from_ppm(150.0, factor=0.5))
    300
    >>> round(conductivity_from_ppm(150.0, factor=0.7))
    214
    """
    zero_or_more("dissolved solids by the pen (ppm)", ppm)
    return ppm / _checked(factor)


def ppm_from_conductivity(conductivity_us_per_cm: float, *, factor: float) -> float:
    """Return what a pen with the given factor would show, the reverse of `conductivity_from_ppm`.

    Parameters
    ----------
    conductivity_us_per_cm
        Conductivity in µS/cm at 25 °C, zero or more.
    factor
        The pen's factor from µS/cm to ppm, 0.4 to 1.0.

    Returns
    -------
    float
        The reading in ppm.

    Raises
    ------
    DomainError
        If an argument is outside its range or not a number.

    Examples
    --------
    >>> ppm_from_conductivity(300.0, factor=0.5)
    150.0
    """
    zero_or_more("conductivity (µS/cm)", conductivity_us_per_cm)
    return conductivity_us_per_cm * _checked(factor)


def _checked(factor: float) -> float:
    return in_range("factor of the pen (ppm per µS/cm)", factor, low=0.4, high=1.0)
