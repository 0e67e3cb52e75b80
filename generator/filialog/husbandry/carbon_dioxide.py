"""Carbon dioxide in water from carbonate hardness and pH, only where these two settle it."""

import math
from collections.abc import Sequence

from filialog.domain_error import DomainError
from filialog.husbandry.guards import in_range
from filialog.husbandry.hardness import HardnessUnit, convert_hardness
from filialog.husbandry.provenance import Basis, Provenance

__all__ = [
    "PLUMMER_BUSENBERG_1982",
    "carbon_dioxide_mg_per_l",
    "carbonic_acid_pk1",
]

PLUMMER_BUSENBERG_1982 = Provenance(
    source=(
        "Plummer & Busenberg 1982, Geochim. Cosmochim. Acta 46:1011-1040, first dissociation of"
        " carbonic acid; constants from memory"
    ),
    basis=Basis.FROM_MEMORY,
)
"""Source of `carbonic_acid_pk1`."""

_CO2_G_PER_MOL = 12.011 + 2.0 * 15.999


def carbonic_acid_pk1(temperature_c: float) -> float:
    """Return the pK of carbonic acid to hydrogen carbonate in fresh water.

    Parameters
    ----------
    temperature_c
        Water temperature in °C, 0 to 50.

    Returns
    -------
    float
        pK1, dissolved CO2 and carbonic acid counted together.

    Raises
    ------
    DomainError
        If the temperature is out of range or not a number.

    References
    ----------
    .. [1] `PLUMMER_BUSENBERG_1982`.

    Examples
    --------
    >>> round(carbonic_acid_pk1(25.0), 3)
    6.352
    """
    in_range("water temperature (°C)", temperature_c, low=0.0, high=50.0)
    kelvin = temperature_c + 273.15
    return (
        356.3094
        + 0.06091964 * kelvin
        - 21834.37 / kelvin
        - 126.8339 * math.log10(kelvin)
        + 1684915.0 / kelvin**2
    )


def carbon_dioxide_mg_per_l(
    *,
    carbonate_hardness_dkh: float,
    ph: float,
    temperature_c: float,
    other_buffers: Sequence[str] | None,
) -> float:
    """Return dissolved carbon dioxide where carbonate alone holds the pH.

    Parameters
    ----------
    carbonate_hardness_dkh
        Carbonate hardness in °dKH, more than 1 and at most 30.
    ph
        pH, 6.0 to 8.3.
    temperature_c
        Water temperature in °C, 0 to 50.
    other_buffers
        What else acts on the pH: active soil, peat, leaves, wood, humic acids, phosphate. An
        empty sequence says that there is nothing; None says that it is not known.

    Returns
    -------
    float
        CO2 in mg/L.

    Raises
    ------
    DomainError
        If a number is out of range, or anything else acts on the pH, or that is not known.

    Notes
    -----
    All carbonate hardness is taken as hydrogen carbonate. Above pH 8.3 carbonate would count;
    below pH 6 or at 1 °dKH other acids mostly set the pH. These limits are choices (common
    practice, no source). The rule of thumb with the factor 3 reads 15 to 21 % less.

    References
    ----------
    .. [1] `PLUMMER_BUSENBERG_1982`.

    Examples
    --------
    >>> round(
    ...     carbon_dioxide_mg_per_l(
    ...         carbonate_hardness_dkh=4.0, ph=7.0, temperature_c=25.0, other_buffers=()
    ...     ),
    ...     1,
    ... )
    14.1
    """
    if other_buffers is None or len(other_buffers) > 0:
        raise DomainError(
            "what acts on the pH beside carbonate",
            "not known" if other_buffers is None else ", ".join(other_buffers),
            "nothing: otherwise pH and carbonate hardness do not give the carbon dioxide",
        )
    if not 1.0 < carbonate_hardness_dkh <= 30.0:
        raise DomainError(
            "carbonate hardness (°dKH)", carbonate_hardness_dkh, "more than 1 and at most 30"
        )
    in_range("pH", ph, low=6.0, high=8.3)
    alkalinity_meq_per_l = convert_hardness(
        carbonate_hardness_dkh, given=HardnessUnit.GERMAN_DEGREES, wanted=HardnessUnit.MEQ_PER_L
    )
    ratio = math.pow(10.0, carbonic_acid_pk1(temperature_c) - ph)
    return alkalinity_meq_per_l * _CO2_G_PER_MOL * ratio
