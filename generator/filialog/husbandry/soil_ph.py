"""How the pH of a tank creeps while its soil wears out, and when it will leave its range."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from statistics import NormalDist

from filialog.domain_error import DomainError
from filialog.husbandry.provenance import Basis, Provenance

__all__ = [
    "ALERT_AHEAD_DAYS",
    "FEWEST_READINGS",
    "SOIL_PH_SOURCES",
    "PhTrend",
    "SoilState",
    "ph_trend",
    "soil_state",
]

FEWEST_READINGS = 8
"""Fewest days with a reading from which a state is told. A choice, checked by simulation."""
ALERT_AHEAD_DAYS = 42
"""Days before the projected end at which the alert begins. A choice, checked by simulation."""
_RECENT_READINGS = 24
"""Readings after which an earlier, flatter stretch is left out. A choice."""

SOIL_PH_SOURCES = (
    Provenance(
        source="slope: Sen P.K. (1968) J. Am. Stat. Assoc. 63:1379-1389, as computed by SciPy",
        basis=Basis.FROM_MEMORY,
    ),
    Provenance(
        source="level: Hodges J.L. & Lehmann E.L. (1963) Ann. Math. Stat. 34:598-611",
        basis=Basis.FROM_MEMORY,
    ),
    Provenance(
        source="eight readings, six weeks ahead: our own choice, tried out by simulation",
        basis=Basis.ARITHMETIC,
    ),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PhTrend:
    """A straight line through pH readings, and when it reaches the top of the range."""

    readings: int
    """Readings the line was drawn through, one for each day."""
    first_day: int
    """Day of the first of them, counted from the day the soil was laid."""
    last_day: int
    """Day of the last of them."""
    slope_per_week: float
    """Rise of pH per week; negative where it falls."""
    slope_low_per_week: float
    """Lower end of the interval of the rise."""
    slope_high_per_week: float
    """Upper end of it."""
    ph_at_last_day: float
    """pH of the line on the day of the last reading."""
    end_day: int | None
    """Day on which the line reaches the top of the range, not before the first of the readings;
    None where it does not rise."""
    end_low_day: int | None
    """Earliest such day; None where even the steepest line does not rise."""
    end_high_day: int | None
    """Latest such day; None where the pH may as well not be rising."""


class SoilState(StrEnum):
    """What the readings of a tank say about its soil."""

    TOO_FEW = "too few readings"
    """Nothing can be said yet."""
    STEADY = "steady"
    """No rise beyond what the scatter of the readings explains."""
    RISING = "rising"
    """The pH rises, but the range will hold for more than the days of warning."""
    ENDING = "ending"
    """The top of the range will be reached within the days of warning."""
    ENDED = "ended"
    """The line is above the top of the range."""

    @property
    def is_alert(self) -> bool:
        """True where the keeper has to act."""
        return self in {SoilState.ENDING, SoilState.ENDED}


def ph_trend(
    readings: Sequence[tuple[int, float]], *, highest_ph: float, confidence: float = 0.95
) -> PhTrend:
    """Return the line through the pH readings since the soil was laid.

    Parameters
    ----------
    readings
        Day, counted from the day the soil was laid (0 or later), and pH, in order of days; on
        three days at the least, several of one day are averaged. Best taken before the water
        change, at the same hour and with the same instrument.
    highest_ph
        Top of the target range of the tank.
    confidence
        Confidence of the intervals, between 0 and 1.

    Returns
    -------
    PhTrend
        The line, and the day on which it reaches the top of the range, with an interval.

    Raises
    ------
    DomainError
        If there are readings on too few days, days out of order or before the soil was laid, a
        pH outside 0 to 14 or not a number, or a confidence not between 0 and 1.

    Notes
    -----
    The slope is the median of the slopes between all pairs of readings, so that a few wild
    readings do not turn it; the level is the median of the means of all pairs of distances from
    the line. Where the last 24 readings rise more steeply than all of them (the whole line is
    below the 90 % interval of their slope), they alone are used: soil often holds its pH for
    months before it creeps. The interval of the end joins the intervals of slope and level, each
    at half the error, so it is wider than it would have to be.

    References
    ----------
    .. [1] `SOIL_PH_SOURCES`.

    Examples
    --------
    >>> weekly = [(7 * week, 5.6 + 0.05 * week) for week in range(10)]
    >>> trend = ph_trend(weekly, highest_ph=6.4)
    >>> round(trend.slope_per_week, 3), trend.end_day
    (0.05, 112)
    """
    _check(readings, highest_ph=highest_ph, confidence=confidence)
    used = _last_straight_stretch(_one_a_day(readings))
    z_confidence = (1.0 + confidence) / 2.0
    slope, low, high = _slope(used, confidence)
    _, wide_low, wide_high = _slope(used, z_confidence)
    middle = math.fsum(day for day, _ in used) / len(used)
    level, level_low, level_high = _level(
        [ph - slope * (day - middle) for day, ph in used], z_confidence
    )

    def end(from_ph: float, rise: float) -> float | None:
        return middle + (highest_ph - from_ph) / rise if rise > 0.0 else None

    best = end(level, slope)
    # Beyond the top, a steeper line has crossed it later.
    early = end(level_high, wide_high if level_high <= highest_ph else wide_low)
    if early is None and best is not None:
        early = -math.inf
    late = end(level_low, wide_low if level_low <= highest_ph else wide_high)
    first = used[0][0]
    return PhTrend(
        readings=len(used),
        first_day=first,
        last_day=used[-1][0],
        slope_per_week=7.0 * slope,
        slope_low_per_week=7.0 * low,
        slope_high_per_week=7.0 * high,
        ph_at_last_day=level + slope * (used[-1][0] - middle),
        end_day=None if best is None else math.floor(max(best, first) + 1e-9),
        end_low_day=None if early is None else math.floor(max(early, first) + 1e-9),
        end_high_day=None if late is None else math.ceil(max(late, first) - 1e-9),
    )


def soil_state(
    readings: Sequence[tuple[int, float]],
    *,
    highest_ph: float,
    ahead_days: int = ALERT_AHEAD_DAYS,
) -> SoilState:
    """Return what the pH readings since the soil was laid say about it.

    Parameters
    ----------
    readings
        As for `ph_trend`, but any number of them.
    highest_ph
        Top of the target range of the tank.
    ahead_days
        Days of warning wanted, zero or more.

    Returns
    -------
    SoilState
        An alert needs readings on eight days and either a line past the top of the range, or a
        rise whose 95 % interval lies above zero and that reaches the top within `ahead_days`.
        One reading never does.

    Raises
    ------
    DomainError
        As for `ph_trend` (except for few readings), and if the days of warning are negative.

    Examples
    --------
    >>> weekly = [(7 * week, 5.6 + 0.05 * week) for week in range(12)]
    >>> soil_state(weekly[:7], highest_ph=6.4)
    <SoilState.TOO_FEW: 'too few readings'>
    >>> soil_state(weekly[:8], highest_ph=6.4)
    <SoilState.RISING: 'rising'>
    >>> soil_state(weekly, highest_ph=6.4)
    <SoilState.ENDING: 'ending'>
    """
    if not ahead_days >= 0:
        raise DomainError("days of warning", ahead_days, "0 or more")
    _check_readings(readings)
    if len(_one_a_day(readings)) < FEWEST_READINGS:
        return SoilState.TOO_FEW
    trend = ph_trend(readings, highest_ph=highest_ph)
    if trend.ph_at_last_day > highest_ph:
        return SoilState.ENDED
    if trend.slope_low_per_week <= 0.0 or trend.end_day is None:
        return SoilState.STEADY
    if trend.end_day - trend.last_day <= ahead_days:
        return SoilState.ENDING
    return SoilState.RISING


def _check(readings: Sequence[tuple[int, float]], *, highest_ph: float, confidence: float) -> None:
    """Refuse what no line can be drawn through."""
    if not 0.0 < confidence < 1.0:
        raise DomainError("confidence", confidence, "between 0 and 1")
    if not 0.0 <= highest_ph <= 14.0:
        raise DomainError("top of the range of pH", highest_ph, "0 to 14")
    _check_readings(readings)
    days = len(_one_a_day(readings))
    if days < 3:
        raise DomainError("number of days with a pH reading", days, "3 or more")


def _check_readings(readings: Sequence[tuple[int, float]]) -> None:
    """Refuse impossible readings and days out of order."""
    before = 0
    for day, ph in readings:
        if not day >= before:
            raise DomainError(
                "day of a pH reading", day, f"{before} or later, in order from the laying"
            )
        if not 0.0 <= ph <= 14.0:
            raise DomainError("pH", ph, "0 to 14")
        before = day


def _one_a_day(readings: Sequence[tuple[int, float]]) -> list[tuple[int, float]]:
    """Return the mean reading of each day: readings of one day share what was wrong that day."""
    by_day: dict[int, list[float]] = {}
    for day, ph in readings:
        by_day.setdefault(day, []).append(ph)
    return [(day, math.fsum(found) / len(found)) for day, found in by_day.items()]


def _last_straight_stretch(
    readings: Sequence[tuple[int, float]],
) -> Sequence[tuple[int, float]]:
    """Return all readings, or the last ones where these rise more steeply."""
    recent = readings[-_RECENT_READINGS:]
    if len(recent) == len(readings):
        return readings
    whole, _, _ = _slope(readings, 0.9)
    _, low, _ = _slope(recent, 0.9)
    return recent if low > whole else readings


def _slope(readings: Sequence[tuple[int, float]], confidence: float) -> tuple[float, float, float]:
    """Return the slope per day with the ends of its interval."""
    from scipy.stats import theilslopes  # noqa: PLC0415 - takes long to load

    found = theilslopes([ph for _, ph in readings], [day for day, _ in readings], confidence)
    return float(found[0]), float(found[2]), float(found[3])


def _level(values: Sequence[float], confidence: float) -> tuple[float, float, float]:
    """Return the median of the means of all pairs with the ends of its interval."""
    import numpy as np  # noqa: PLC0415 - takes long to load

    number = len(values)
    array = np.asarray(values)
    first, second = np.triu_indices(number)
    means = np.sort((array[first] + array[second]) / 2.0)
    spread = math.sqrt(number * (number + 1) * (2 * number + 1) / 24.0)
    z = NormalDist().inv_cdf((1.0 + confidence) / 2.0)
    rank = max(math.floor(len(means) / 2.0 - z * spread), 0)
    return float(np.median(means)), float(means[rank]), float(means[-1 - rank])
