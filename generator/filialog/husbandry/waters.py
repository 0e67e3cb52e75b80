"""How far two waters are apart in what animals feel of them."""

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum

from filialog.husbandry.guards import above_zero, in_range, zero_or_more
from filialog.husbandry.provenance import Basis, Provenance

__all__ = [
    "ACCLIMATION_PRACTICE",
    "NO_DRIP_NEEDED",
    "TOO_LARGE_FOR_ONE_DAY",
    "Gap",
    "MoveLimits",
    "Water",
    "WaterProperty",
    "water_gaps",
]

ACCLIMATION_PRACTICE = Provenance(
    source=(
        "float the closed bag 15 to 20 minutes, drip 1.5 to 3 hours, longer for large gaps, pour no"
        " bag water into the tank; the gaps that need no dripping and those too large for one day"
        " are choices of the same kind"
    ),
    basis=Basis.COMMON_PRACTICE,
)
"""What every limit and duration here rests on."""


class WaterProperty(StrEnum):
    """A property by which two waters are compared."""

    CONDUCTIVITY = "EC (µS/cm)"
    """Conductivity in µS/cm at 25 °C."""
    GENERAL_HARDNESS = "GH (°d)"
    """General hardness in °dGH."""
    CARBONATE_HARDNESS = "KH (°d)"
    """Carbonate hardness in °dKH."""
    PH = "pH"
    """pH."""
    TEMPERATURE = "temperature (°C)"
    """Temperature in °C."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Water:
    """A water as far as it was measured; None where it was not."""

    conductivity_us_per_cm: float | None = None
    """Conductivity in µS/cm at 25 °C, zero or more."""
    hardness_dgh: float | None = None
    """General hardness in °dGH, zero or more."""
    carbonate_hardness_dkh: float | None = None
    """Carbonate hardness in °dKH, zero or more."""
    ph: float | None = None
    """pH, 0 to 14."""
    temperature_c: float | None = None
    """Temperature in °C, 0 to 50."""
    total_ammonia_mg_n_per_l: float | None = None
    """Total ammonia in mg/L as nitrogen, zero or more; below detection, the detection limit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MoveLimits:
    """Gaps between two waters, each in the unit of its property, above zero."""

    conductivity_us_per_cm: float
    """Conductivity, µS/cm at 25 °C."""
    hardness_dgh: float
    """General hardness, °dGH."""
    carbonate_hardness_dkh: float
    """Carbonate hardness, °dKH."""
    ph: float
    """pH."""
    temperature_c: float
    """Temperature, K."""


NO_DRIP_NEEDED = MoveLimits(
    conductivity_us_per_cm=30.0,
    hardness_dgh=1.0,
    carbonate_hardness_dkh=1.0,
    ph=0.3,
    temperature_c=1.0,
)
"""Gaps that need no dripping: about what a water change does (common practice, no source)."""
TOO_LARGE_FOR_ONE_DAY = MoveLimits(
    conductivity_us_per_cm=300.0,
    hardness_dgh=8.0,
    carbonate_hardness_dkh=4.0,
    ph=1.5,
    temperature_c=8.0,
)
"""Gaps to be closed over days in a tank of its own (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """How far the two waters are apart in one property."""

    of: WaterProperty
    """The property."""
    difference: float
    """Target minus source, in the unit of the property."""
    needs_no_drip: float
    """Size of the gap up to which nothing is needed."""
    too_large: float
    """Size of the gap above which one day is too short."""


_READ: tuple[tuple[WaterProperty, str, Callable[[Water | MoveLimits], float | None]], ...] = (
    (
        WaterProperty.CONDUCTIVITY,
        "conductivity (µS/cm)",
        lambda found: found.conductivity_us_per_cm,
    ),
    (
        WaterProperty.GENERAL_HARDNESS,
        "general hardness (°dGH)",
        lambda found: found.hardness_dgh,
    ),
    (
        WaterProperty.CARBONATE_HARDNESS,
        "carbonate hardness (°dKH)",
        lambda found: found.carbonate_hardness_dkh,
    ),
    (WaterProperty.PH, "pH", lambda found: found.ph),
    (WaterProperty.TEMPERATURE, "water temperature (°C)", lambda found: found.temperature_c),
)


def water_gaps(
    source: Water,
    target: Water,
    *,
    needs_no_drip: MoveLimits = NO_DRIP_NEEDED,
    too_large: MoveLimits = TOO_LARGE_FOR_ONE_DAY,
) -> tuple[Gap, ...]:
    """Return how far two waters are apart in everything measured in both.

    Parameters
    ----------
    source, target
        The water the animals are in and the one they are to come into.
    needs_no_drip, too_large
        Gaps up to which nothing is needed and above which one day is too short.

    Returns
    -------
    tuple of Gap
        In the order of `WaterProperty`.

    Raises
    ------
    DomainError
        If a reading is out of range, or a limit is not above zero.

    References
    ----------
    .. [1] `ACCLIMATION_PRACTICE`.

    Examples
    --------
    >>> [gap.difference for gap in water_gaps(Water(ph=6.5), Water(ph=7.0, hardness_dgh=6.0))]
    [0.5]
    """
    for water in (source, target):
        _check(water)
    gaps = []
    for of, words, read in _READ:
        small = above_zero(f"gap in {words} that needs no dripping", read(needs_no_drip) or 0.0)
        large = above_zero(f"gap in {words} too large for a day", read(too_large) or 0.0)
        before, after = read(source), read(target)
        if before is not None and after is not None:
            gaps.append(Gap(of=of, difference=after - before, needs_no_drip=small, too_large=large))
    return tuple(gaps)


def _check(water: Water) -> None:
    for of, words, read in _READ:
        value = read(water)
        if value is None:
            continue
        if of is WaterProperty.PH:
            in_range(words, value, low=0.0, high=14.0)
        elif of is WaterProperty.TEMPERATURE:
            in_range(words, value, low=0.0, high=50.0)
        else:
            zero_or_more(words, value)
    if water.total_ammonia_mg_n_per_l is not None:
        zero_or_more("total ammonia (mg/L as N)", water.total_ammonia_mg_n_per_l)
