"""How long eggs are carried, from the temperatures of the water."""

import math
from bisect import bisect_left
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from filialog.domain_error import DomainError

__all__ = [
    "NEOCARIDINA_DAVIDI",
    "DayRange",
    "ThermalLaw",
    "daily_temperatures",
    "days_to_hatching",
    "incubation_range",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class ThermalLaw:
    """Eggs hatch when the daily excess over a base temperature has added up to a sum."""

    sum_c_days: float
    """The sum, in °C times days."""
    base_c: float
    """Temperature in °C at and below which nothing adds up."""
    lowest_c: float
    """Lowest water temperature, in °C, for which the law is used."""
    highest_c: float
    """Highest water temperature, in °C, for which the law is used."""
    source: str
    """Where the numbers come from, to be printed with every result."""


NEOCARIDINA_DAVIDI = ThermalLaw(
    sum_c_days=230.0,
    base_c=12.5,
    lowest_c=20.0,
    highest_c=32.0,
    source=(
        "a line through 1/days at three points: 27 °C, 15 d (Nur & Christianus 2013, Asian J."
        " Anim. Vet. Adv. 8:108-115, abstract read); 24 °C, 21 d and 32 °C, 12 d (read on"
        " secondary pages only)"
    ),
)
"""*Neocaridina davidi*: days = 230 / (T - 12.5), from 20 to 32 °C.

Below 20 °C no berried females of three related shrimp were seen (Dudgeon 1985, Hydrobiologia
120:141-149, abstract read); 32 °C is the warmest of the three points. There, every female that had
matured and mated at 32 °C lost her eggs (Tropea et al. 2015, PLoS ONE 10, abstract read).
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class DayRange:
    """A number of days between two bounds."""

    low_days: int
    """Fewest days."""
    high_days: int
    """Most days, `low_days` or more."""


def days_to_hatching(
    temperatures_c: Iterable[float], *, law: ThermalLaw = NEOCARIDINA_DAVIDI
) -> float:
    """Return the days eggs are carried in water of changing temperature.

    Parameters
    ----------
    temperatures_c
        Mean water temperature of one day after the other, in °C: from the day of fertilisation
        on, or back from the day of hatching. Days after the last one needed are not looked at.
    law
        The sum and the base temperature of the species.

    Returns
    -------
    float
        Days, with the part of the last one that was needed.

    Raises
    ------
    DomainError
        If a temperature is outside the range of the law or not a number, or if the days given do
        not suffice.

    Notes
    -----
    At an even temperature the result is ``sum / (T - base)``. The line misses the points it was
    drawn through by up to one day.

    References
    ----------
    .. [1] `ThermalLaw.source` of the law names its points.

    Examples
    --------
    >>> round(days_to_hatching([23.0] * 40), 1)
    21.9
    >>> round(days_to_hatching([20.0] * 10 + [26.0] * 30), 1)
    21.5
    """
    total = 0.0
    for day, temperature in enumerate(temperatures_c):
        if not law.lowest_c <= temperature <= law.highest_c:
            raise DomainError(
                "water temperature (°C)",
                temperature,
                f"{law.lowest_c:g} to {law.highest_c:g}, where the days eggs are carried are known",
            )
        gain = temperature - law.base_c
        if total + gain >= law.sum_c_days:
            return day + (law.sum_c_days - total) / gain
        total += gain
    raise DomainError(
        "sum of daily temperatures over the base (°C d)", total, f"{law.sum_c_days:g} or more"
    )


def incubation_range(
    temperatures_c: Sequence[float],
    *,
    law: ThermalLaw = NEOCARIDINA_DAVIDI,
    margin_c: float = 1.0,
    margin_days: int = 2,
) -> DayRange:
    """Return the fewest and the most days eggs were carried, with margins.

    Parameters
    ----------
    temperatures_c
        Mean water temperature of one day after the other, in °C, as for `days_to_hatching`.
    law
        The sum and the base temperature of the species.
    margin_c
        By how much the readings can miss the mean of the day, in °C, zero or more.
    margin_days
        Days by which the law itself can be off, zero or more.

    Returns
    -------
    DayRange
        Whole days: the fewest rounded down, the most rounded up, at least one.

    Raises
    ------
    DomainError
        As for `days_to_hatching`, and if a margin is negative or not a number.

    Notes
    -----
    Both margins are choices: a reading is taken at one time of day, and the line misses its own
    points by up to one day. The range of the law is asked of the readings, not of the readings
    with their margin.

    Examples
    --------
    >>> incubation_range([22.0] * 40)
    DayRange(low_days=19, high_days=30)
    """
    if not margin_c >= 0.0:
        raise DomainError("margin of temperature (°C)", margin_c, "0 or more")
    if not margin_days >= 0:
        raise DomainError("margin in days", margin_days, "0 or more")
    middle = days_to_hatching(temperatures_c, law=law)
    wide = ThermalLaw(
        sum_c_days=law.sum_c_days,
        base_c=law.base_c,
        lowest_c=-math.inf,
        highest_c=math.inf,
        source=law.source,
    )
    # Where the cooler series ends too early, its last day goes on.
    longer = math.ceil(middle) * 10
    last = temperatures_c[-1]
    cooler = [*temperatures_c, *([last] * longer)]
    if min(cooler) - margin_c <= law.base_c:
        raise DomainError(
            "margin of temperature (°C)", margin_c, f"less than {min(cooler) - law.base_c:g}"
        )
    low = days_to_hatching([one + margin_c for one in temperatures_c], law=wide)
    high = days_to_hatching([one - margin_c for one in cooler], law=wide)
    return DayRange(
        low_days=max(math.floor(low) - margin_days, 1), high_days=math.ceil(high) + margin_days
    )


def daily_temperatures(
    readings: Sequence[tuple[int, float]], *, days: Sequence[int], longest_gap_days: int = 14
) -> tuple[float, ...]:
    """Return a temperature for each day from readings on some of them.

    Parameters
    ----------
    readings
        Day number and water temperature in °C, by day; several of one day are averaged.
    days
        The days wanted, by number.
    longest_gap_days
        Most days between a day wanted and the nearest reading, zero or more.

    Returns
    -------
    tuple of float
        Temperatures in °C in the order of `days`: on a straight line between the readings before
        and after, or that of the nearest where there is none on one side.

    Raises
    ------
    DomainError
        If a day is further from every reading than the longest gap, or a temperature is not a
        number.

    Notes
    -----
    Fourteen days is a choice: water in a room follows the weather within a week or two.

    Examples
    --------
    >>> daily_temperatures([(1, 20.0), (5, 24.0)], days=[0, 1, 3, 6])
    (20.0, 20.0, 22.0, 24.0)
    """
    by_day: dict[int, list[float]] = {}
    for day, temperature in readings:
        if not math.isfinite(temperature):
            raise DomainError("water temperature (°C)", temperature, "a number")
        by_day.setdefault(day, []).append(temperature)
    known = sorted(by_day)
    mean = {day: math.fsum(found) / len(found) for day, found in by_day.items()}
    result = []
    for day in days:
        position = bisect_left(known, day)
        around = known[max(position - 1, 0) : position + 1]
        gap = min((abs(day - one) for one in around), default=None)
        if gap is None or gap > longest_gap_days:
            raise DomainError(
                "days to the nearest temperature reading", gap, f"{longest_gap_days} or fewer"
            )
        before, after = around[0], around[-1]
        if before == after or day <= before:
            result.append(mean[before])
        elif day >= after:
            result.append(mean[after])
        else:
            part = (day - before) / (after - before)
            result.append(mean[before] + part * (mean[after] - mean[before]))
    return tuple(result)
