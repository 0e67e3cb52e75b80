"""How much oxygen water holds when it is saturated with air."""

import math

from filialog.husbandry.guards import in_range, zero_or_more
from filialog.husbandry.provenance import Basis, Provenance

__all__ = ["BENSON_KRAUSE_1984", "oxygen_saturation_mg_per_l", "oxygen_saturation_part"]

BENSON_KRAUSE_1984 = Provenance(
    source=(
        "Benson & Krause 1984, Limnol. Oceanogr. 29:620-632, in the polynomial form of the APHA"
        " standard methods, for fresh water; its correction for air pressure from memory"
    ),
    basis=Basis.SECONDARY,
)
"""Source of `oxygen_saturation_mg_per_l`."""

_KPA_PER_ATM = 101.325


def oxygen_saturation_mg_per_l(
    *, temperature_c: float, air_pressure_kpa: float = _KPA_PER_ATM
) -> float:
    """Return the oxygen in fresh water in balance with damp air.

    Parameters
    ----------
    temperature_c
        Water temperature in °C, 0 to 40.
    air_pressure_kpa
        Air pressure at the place itself, not brought to sea level, in kPa, 50 to 110.

    Returns
    -------
    float
        Dissolved oxygen in mg/L.

    Raises
    ------
    DomainError
        If an argument is out of range or not a number.

    Notes
    -----
    What a tank holds, not what it has: animals and decay take oxygen out, plants in light put it
    in.

    References
    ----------
    .. [1] `BENSON_KRAUSE_1984`.

    Examples
    --------
    >>> round(oxygen_saturation_mg_per_l(temperature_c=20.0), 3)
    9.092
    >>> round(oxygen_saturation_mg_per_l(temperature_c=22.0, air_pressure_kpa=90.0), 2)
    7.74
    """
    in_range("water temperature (°C)", temperature_c, low=0.0, high=40.0)
    in_range("air pressure (kPa)", air_pressure_kpa, low=50.0, high=110.0)
    kelvin = temperature_c + 273.15
    at_one_atm = math.exp(
        -139.34411
        + 1.575701e5 / kelvin
        - 6.642308e7 / kelvin**2
        + 1.243800e10 / kelvin**3
        - 8.621949e11 / kelvin**4
    )
    pressure = air_pressure_kpa / _KPA_PER_ATM
    vapour = math.exp(11.8571 - 3840.70 / kelvin - 216961.0 / kelvin**2)
    theta = 0.000975 - 1.426e-5 * temperature_c + 6.436e-8 * temperature_c**2
    wet = (1.0 - vapour / pressure) * (1.0 - theta * pressure)
    return at_one_atm * pressure * wet / ((1.0 - vapour) * (1.0 - theta))


def oxygen_saturation_part(
    oxygen_mg_per_l: float, *, temperature_c: float, air_pressure_kpa: float = _KPA_PER_ATM
) -> float:
    """Return measured oxygen as a part of what the water would hold in balance with air.

    Parameters
    ----------
    oxygen_mg_per_l
        Measured oxygen in mg/L, zero or more.
    temperature_c, air_pressure_kpa
        As for `oxygen_saturation_mg_per_l`.

    Returns
    -------
    float
        1 at saturation; more than 1 is possible where plants grow in light.

    Raises
    ------
    DomainError
        If an argument is out of range or not a number.

    Examples
    --------
    >>> round(oxygen_saturation_part(5.5, temperature_c=28.0), 2)
    0.7
    """
    zero_or_more("oxygen (mg/L)", oxygen_mg_per_l)
    return oxygen_mg_per_l / oxygen_saturation_mg_per_l(
        temperature_c=temperature_c, air_pressure_kpa=air_pressure_kpa
    )
