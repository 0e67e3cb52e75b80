"""The mean of a few measured animals, and how far it can be trusted."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from filialog.domain_error import DomainError

__all__ = ["MeanInterval", "mean_interval"]


@dataclass(frozen=True, slots=True, kw_only=True)
class MeanInterval:
    """The mean of a sample, with the interval of the mean of all it was drawn from."""

    mean: float
    """Arithmetic mean, in the unit of the values."""

    low: float | None
    """Lower limit; None where no spread was seen: one value, or all alike."""

    high: float | None
    """Upper limit, or None."""

    deviation: float | None
    """Standard deviation of the sample (n - 1 in the denominator); None for one value."""

    number: int
    """Values, 1 or more."""


def mean_interval(values: Sequence[float], *, confidence: float = 0.95) -> MeanInterval:
    """Return the mean of values with Student's t interval.

    Parameters
    ----------
    values
        One finite number for each animal, at least one.
    confidence
        Wanted coverage, between 0 and 1.

    Returns
    -------
    MeanInterval
        The mean; the interval is None for one value and for values that are all alike, which
        show no spread to judge the mean by.

    Raises
    ------
    DomainError
        If there is no value, one is not finite, or the confidence is out of range.

    Notes
    -----
    Assumes values drawn independently from a normal distribution. Steps of an ordered scale
    counted as 1, 2, 3 are not normal: the interval is then approximate, and it can reach past
    the ends of the scale.

    References
    ----------
    .. [1] Student (1908) Biometrika 6:1-25.

    Examples
    --------
    >>> found = mean_interval([1.0, 2.0, 2.0, 3.0])
    >>> found.mean, round(found.low, 4), round(found.high, 4)
    (2.0, 0.7008, 3.2992)
    >>> mean_interval([2.0, 2.0]).low is None
    True
    """
    if not values:
        raise DomainError("number of values", 0, "1 or more")
    for value in values:
        if not math.isfinite(value):
            raise DomainError("value", value, "a finite number")
    if not 0.0 < confidence < 1.0:
        raise DomainError("confidence", confidence, "above 0 and below 1")
    number = len(values)
    if min(values) == max(values):
        # Summing equal values could leave a hair of spread.
        return MeanInterval(
            mean=float(values[0]),
            low=None,
            high=None,
            deviation=None if number == 1 else 0.0,
            number=number,
        )
    from scipy.special import stdtrit  # noqa: PLC0415 - a quick command should not load it

    mean = math.fsum(values) / number
    deviation = math.sqrt(math.fsum((value - mean) ** 2 for value in values) / (number - 1))
    t = -float(stdtrit(number - 1, (1.0 - confidence) / 2.0))
    half = t * deviation / math.sqrt(number)
    return MeanInterval(
        mean=mean, low=mean - half, high=mean + half, deviation=deviation, number=number
    )
