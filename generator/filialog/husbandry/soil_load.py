"""What has worn out the soil of a tank: its age, the alkalinity of the water poured in."""

import math
from collections.abc import Sequence
from datetime import date, timedelta

from filialog.domain_error import DomainError
from filialog.husbandry.guards import above_zero, zero_or_more
from filialog.husbandry.hardness import HardnessUnit, convert_hardness
from filialog.husbandry.provenance import Basis, Provenance, Sourced

__all__ = [
    "SOIL_AGE_DAYS",
    "alkalinity_load_meq",
    "kh_has_appeared",
    "soil_age_alert_date",
]

SOIL_AGE_DAYS: Sourced[int] = Sourced(
    value=274,
    sources=(
        Provenance(
            source="nine months; lifetimes quoted are 8 to 12, 10 to 24 and 12 to 24 months",
            basis=Basis.COMMON_PRACTICE,
        ),
    ),
)
"""Age in days at which soil is looked at even if nothing was measured."""


def alkalinity_load_meq(changes: Sequence[tuple[float, float]]) -> float:
    """Return the alkalinity that water changes have brought to the soil.

    Parameters
    ----------
    changes
        Litres of new water and its carbonate hardness in °dKH, each zero or more.

    Returns
    -------
    float
        Milliequivalents; each uses up one of the acid that the soil can give.

    Raises
    ------
    DomainError
        If a volume or a hardness is negative, infinite or not a number.

    Notes
    -----
    A balance of charges: it says what was brought, not how much the soil can take.

    Examples
    --------
    >>> round(alkalinity_load_meq([(5.0, 4.0)]), 1)
    7.1
    """
    return math.fsum(
        zero_or_more("new water (L)", litres)
        * convert_hardness(kh_dkh, given=HardnessUnit.GERMAN_DEGREES, wanted=HardnessUnit.MEQ_PER_L)
        for litres, kh_dkh in changes
    )


def soil_age_alert_date(laid: date, *, age_days: Sourced[int] = SOIL_AGE_DAYS) -> Sourced[date]:
    """Return the day on which soil is to be looked at for its age alone.

    Parameters
    ----------
    laid
        Day the soil was laid.
    age_days
        Age in days at which to look, one or more.

    Returns
    -------
    Sourced[date]
        The day, with where the age is from.

    Raises
    ------
    DomainError
        If the age is less than a day.

    Examples
    --------
    >>> soil_age_alert_date(date(2031, 1, 1)).value
    datetime.date(2031, 10, 2)
    """
    if not age_days.value >= 1:
        raise DomainError("age of soil (d)", age_days.value, "1 or more")
    return Sourced(value=laid + timedelta(days=age_days.value), sources=age_days.sources)


def kh_has_appeared(kh_dkh: Sequence[float], *, resolution_dkh: float) -> bool:
    """Tell whether carbonate hardness shows in a tank filled with water that has none.

    Parameters
    ----------
    kh_dkh
        Readings in °dKH, zero or more, in order of time.
    resolution_dkh
        Smallest step of the test, above zero.

    Returns
    -------
    bool
        True where the last two readings are both a step or more above zero. One is a drop too
        many as often as a change in the tank (common practice, no source).

    Raises
    ------
    DomainError
        If a reading is negative, infinite or not a number, or the step is not above zero.

    Examples
    --------
    >>> kh_has_appeared([0.0, 0.5], resolution_dkh=0.5)
    False
    >>> kh_has_appeared([0.0, 0.5, 0.5], resolution_dkh=0.5)
    True
    """
    above_zero("step of the test (°dKH)", resolution_dkh)
    for reading in kh_dkh:
        zero_or_more("carbonate hardness (°dKH)", reading)
    last = kh_dkh[-2:]
    return len(last) == 2 and min(last) >= resolution_dkh
