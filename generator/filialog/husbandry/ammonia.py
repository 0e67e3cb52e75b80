"""How much of total ammonia is un-ionised, by pH and temperature."""

import math

from filialog.domain_error import DomainError
from filialog.husbandry.bounds import Bounds
from filialog.husbandry.guards import in_range
from filialog.husbandry.provenance import Basis, Provenance

__all__ = [
    "EMERSON_1975",
    "ammonia_pka",
    "unionised_ammonia_mg_n_per_l",
    "unionised_fraction",
]

EMERSON_1975 = Provenance(
    source=(
        "Emerson, Russo, Lund & Thurston 1975, Aqueous ammonia equilibrium calculations: effect of"
        " pH and temperature, J. Fish. Res. Board Can. 32:2379-2383; paper not opened"
    ),
    basis=Basis.SECONDARY,
)
"""Source of the constants of `ammonia_pka`."""

# Other code in circulation has 2727.92 and so 1.5 % too much ammonia; the pKa of 9.246 at 25 °C
# (Bates & Pinching 1949: 9.245, from memory) belongs to this one.
_PKA_AT_INFINITE_TEMPERATURE = 0.09018
_PKA_SLOPE_K = 2729.92
_ZERO_C_IN_K = 273.15


def ammonia_pka(temperature_c: float) -> float:
    """Return the pKa of ammonium in fresh water.

    Parameters
    ----------
    temperature_c
        Water temperature in °C, 0 to 50.

    Returns
    -------
    float
        pKa = 0.09018 + 2729.92 / T with T in kelvin.

    Raises
    ------
    DomainError
        If the temperature is out of range or not a number.

    References
    ----------
    .. [1] `EMERSON_1975`.

    Examples
    --------
    >>> round(ammonia_pka(25.0), 4)
    9.2464
    """
    in_range("water temperature (°C)", temperature_c, low=0.0, high=50.0)
    return _PKA_AT_INFINITE_TEMPERATURE + _PKA_SLOPE_K / (temperature_c + _ZERO_C_IN_K)


def unionised_fraction(*, ph: float, temperature_c: float) -> float:
    """Return the part of total ammonia that is un-ionised (NH3) and so the poisonous part.

    Parameters
    ----------
    ph
        pH, 0 to 14.
    temperature_c
        Water temperature in °C, 0 to 50.

    Returns
    -------
    float
        Fraction above 0 and below 1.

    Raises
    ------
    DomainError
        If an argument is out of range or not a number.

    Notes
    -----
    For fresh water: dissolved salts are not allowed for. One pH unit up is about ten times the
    fraction below pH 8.

    References
    ----------
    .. [1] `EMERSON_1975`.

    Examples
    --------
    >>> round(unionised_fraction(ph=8.0, temperature_c=25.0), 5)
    0.05366
    """
    in_range("pH", ph, low=0.0, high=14.0)
    return 1.0 / (1.0 + math.pow(10.0, ammonia_pka(temperature_c) - ph))


def unionised_ammonia_mg_n_per_l(
    *, total_mg_n_per_l: Bounds, ph: Bounds, temperature_c: Bounds
) -> Bounds:
    """Return how much un-ionised ammonia there is, from readings known within bounds.

    Parameters
    ----------
    total_mg_n_per_l
        Total ammonia, NH3 and NH4 together, in mg/L as nitrogen, zero or more.
    ph
        pH, 0 to 14.
    temperature_c
        Water temperature in °C, 0 to 50.

    Returns
    -------
    Bounds
        NH3 in mg/L as nitrogen. The amount rises with each of the three, so each bound comes
        from the bounds on the same side.

    Raises
    ------
    DomainError
        If a bound is out of range.

    References
    ----------
    .. [1] `EMERSON_1975`.

    Examples
    --------
    >>> from filialog.husbandry.bounds import below_detection, exactly
    >>> found = unionised_ammonia_mg_n_per_l(
    ...     total_mg_n_per_l=below_detection(0.05), ph=exactly(8.0), temperature_c=exactly(25.0)
    ... )
    >>> found.low, round(found.high, 5)
    (0.0, 0.00268)
    """
    if not total_mg_n_per_l.low >= 0.0:
        raise DomainError("total ammonia (mg/L as N)", total_mg_n_per_l.low, "0 or more")
    return Bounds(
        low=total_mg_n_per_l.low * unionised_fraction(ph=ph.low, temperature_c=temperature_c.low),
        high=total_mg_n_per_l.high
        * unionised_fraction(ph=ph.high, temperature_c=temperature_c.high),
    )
