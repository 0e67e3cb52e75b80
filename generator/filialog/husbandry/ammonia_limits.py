"""The limits for ammonia: total ammonia by pH and temperature, and the un-ionised part."""

import math

from filialog.husbandry.ammonia import EMERSON_1975, unionised_fraction
from filialog.husbandry.bounds import Bounds
from filialog.husbandry.guards import in_range
from filialog.husbandry.limits import Limit, Standing
from filialog.husbandry.nitrogen import NitrogenForm, mg_n_per_l
from filialog.husbandry.provenance import Basis, Provenance

__all__ = [
    "TOTAL_AMMONIA_2013",
    "UNIONISED_LIMIT_MG_N_PER_L",
    "ammonia_standing",
    "lower_ammonia_limit",
    "total_ammonia_acute_mg_n_per_l",
    "total_ammonia_chronic_mg_n_per_l",
]

TOTAL_AMMONIA_2013 = Provenance(
    source=(
        "US EPA 2013, Aquatic Life Ambient Water Quality Criteria for Ammonia - Freshwater,"
        " EPA 822-R-13-001: the values at pH 7 and 20 °C (17 and 1.9 mg TAN-N/L) on its official"
        " page, the equations from memory"
    ),
    basis=Basis.FROM_MEMORY,
)
"""Source of both criteria for total ammonia; the equations give the two values."""

UNIONISED_LIMIT_MG_N_PER_L = Limit(
    rule="un-ionised ammonia",
    amount=mg_n_per_l(0.019, form=NitrogenForm.NH3),
    source=Provenance(
        source="guideline for the protection of aquatic life, 0.019 mg NH3/L (CCME)",
        basis=Basis.ABSTRACT_READ,
    ),
)
"""0.019 mg/L of NH3, which is 0.0156 mg/L as nitrogen. No value for dwarf shrimp is known."""

_LOWEST_PH, _HIGHEST_PH = 6.5, 9.0
_LOWEST_C, _HIGHEST_C = 0.0, 30.0


def _check(*, ph: float, temperature_c: float) -> None:
    in_range("pH for the total-ammonia criterion", ph, low=_LOWEST_PH, high=_HIGHEST_PH)
    in_range(
        "water temperature for the total-ammonia criterion (°C)",
        temperature_c,
        low=_LOWEST_C,
        high=_HIGHEST_C,
    )


def _by_ph(ph: float, *, middle: float, low: float, high: float) -> float:
    """Return the factor that falls from `low` in acid to `high` in alkaline water."""
    return high / (1.0 + math.pow(10.0, middle - ph)) + low / (1.0 + math.pow(10.0, ph - middle))


def total_ammonia_acute_mg_n_per_l(*, ph: float, temperature_c: float) -> float:
    """Return the acute criterion for total ammonia (mean of one hour), no salmonids present.

    Parameters
    ----------
    ph
        pH, 6.5 to 9.0, as far as the criterion is tabulated.
    temperature_c
        Water temperature in °C, 0 to 30.

    Returns
    -------
    float
        Total ammonia in mg/L as nitrogen.

    Raises
    ------
    DomainError
        If an argument is out of range or not a number.

    Notes
    -----
    The function of pH in brackets is 1 at pH 7, the pH the criterion is stated for.

    References
    ----------
    .. [1] `TOTAL_AMMONIA_2013`.

    Examples
    --------
    >>> round(total_ammonia_acute_mg_n_per_l(ph=7.0, temperature_c=20.0))
    17
    """
    _check(ph=ph, temperature_c=temperature_c)
    by_ph = _by_ph(ph, middle=7.204, low=1.6181, high=0.0114)
    by_temperature = min(51.93, 23.12 * math.pow(10.0, 0.036 * (20.0 - temperature_c)))
    return 0.7249 * by_ph * by_temperature


def total_ammonia_chronic_mg_n_per_l(*, ph: float, temperature_c: float) -> float:
    """Return the chronic criterion for total ammonia (mean of thirty days).

    Parameters
    ----------
    ph
        pH, 6.5 to 9.0, as far as the criterion is tabulated.
    temperature_c
        Water temperature in °C, 0 to 30.

    Returns
    -------
    float
        Total ammonia in mg/L as nitrogen.

    Raises
    ------
    DomainError
        If an argument is out of range or not a number.

    References
    ----------
    .. [1] `TOTAL_AMMONIA_2013`.

    Examples
    --------
    >>> round(total_ammonia_chronic_mg_n_per_l(ph=7.0, temperature_c=20.0), 1)
    1.9
    """
    _check(ph=ph, temperature_c=temperature_c)
    by_ph = _by_ph(ph, middle=7.688, low=1.1994, high=0.0278)
    by_temperature = 2.126 * math.pow(10.0, 0.028 * (20.0 - max(temperature_c, 7.0)))
    return 0.8876 * by_ph * by_temperature


def lower_ammonia_limit(*, ph: float, temperature_c: float) -> Limit:
    """Return the lower of the two rules for ammonia, as a limit for total ammonia.

    Parameters
    ----------
    ph
        pH, 4 to 9. Below 6.5 the total-ammonia criterion of pH 6.5 is used, which is lower than
        the criterion would be if its equation went on.
    temperature_c
        Water temperature in °C, 0 to 30.

    Returns
    -------
    Limit
        The lower limit, in mg/L of total ammonia as nitrogen, with the rule it comes from.

    Raises
    ------
    DomainError
        If an argument is out of range or not a number.

    Notes
    -----
    In acid water hardly any ammonia is un-ionised, and a rule for the un-ionised part alone would
    allow 54 mg/L of total ammonia at pH 5.8 and 22 °C. That is why both are asked.

    References
    ----------
    .. [1] `TOTAL_AMMONIA_2013`, chronic criterion.
    .. [2] `UNIONISED_LIMIT_MG_N_PER_L`, by the fraction of `EMERSON_1975`.

    Examples
    --------
    >>> limit = lower_ammonia_limit(ph=5.8, temperature_c=22.0)
    >>> limit.rule, round(limit.amount, 2)
    ('total ammonia', 1.87)
    >>> limit = lower_ammonia_limit(ph=8.0, temperature_c=25.0)
    >>> limit.rule, round(limit.amount, 2)
    ('un-ionised ammonia', 0.29)
    """
    in_range("pH", ph, low=4.0, high=_HIGHEST_PH)
    total = total_ammonia_chronic_mg_n_per_l(ph=max(ph, _LOWEST_PH), temperature_c=temperature_c)
    unionised = UNIONISED_LIMIT_MG_N_PER_L.amount / unionised_fraction(
        ph=ph, temperature_c=temperature_c
    )
    if total <= unionised:
        return Limit(rule="total ammonia", amount=total, source=TOTAL_AMMONIA_2013)
    return Limit(
        rule=UNIONISED_LIMIT_MG_N_PER_L.rule,
        amount=unionised,
        source=Provenance(
            source=f"{UNIONISED_LIMIT_MG_N_PER_L.source.source}; {EMERSON_1975.source}",
            basis=EMERSON_1975.basis,
        ),
    )


def ammonia_standing(
    *, total_mg_n_per_l: Bounds, ph: Bounds, temperature_c: Bounds
) -> tuple[Standing, Limit]:
    """Return how total ammonia stands to the lower of the two rules.

    Parameters
    ----------
    total_mg_n_per_l
        Total ammonia in mg/L as nitrogen.
    ph
        pH, 4 to 9.
    temperature_c
        Water temperature in °C, 0 to 30.

    Returns
    -------
    tuple of Standing and Limit
        "Within" only if the highest ammonia is within the strictest limit there can be, "above"
        only if the lowest is above the most lenient one; and the strictest limit.

    Raises
    ------
    DomainError
        If a bound is out of range.

    Notes
    -----
    Both limits fall, or stay, as pH and temperature rise; the strictest is that of the upper
    bounds.

    Examples
    --------
    >>> from filialog.husbandry.bounds import below_detection, exactly
    >>> standing, limit = ammonia_standing(
    ...     total_mg_n_per_l=below_detection(0.05), ph=exactly(6.2), temperature_c=exactly(22.0)
    ... )
    >>> print(standing, round(limit.amount, 2))
    within 1.87
    """
    strict = lower_ammonia_limit(ph=ph.high, temperature_c=temperature_c.high)
    lenient = lower_ammonia_limit(ph=ph.low, temperature_c=temperature_c.low)
    if total_mg_n_per_l.high <= strict.amount:
        return Standing.WITHIN, strict
    if total_mg_n_per_l.low > lenient.amount:
        return Standing.ABOVE, strict
    return Standing.CANNOT_TELL, strict
