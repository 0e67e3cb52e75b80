"""How far two observed shares are apart."""

import math
from dataclasses import dataclass

from filialog.statistics.intervals import Interval, wilson_interval

__all__ = ["ShareDifference", "share_difference"]


@dataclass(frozen=True, slots=True, kw_only=True)
class ShareDifference:
    """The first share less the second."""

    difference: float | None
    """The difference, -1 to 1; None where one of the two has no animals."""

    interval: Interval
    """Its interval; -1 to 1 at the widest."""


def share_difference(
    *,
    first_seen: int,
    first_counted: int,
    second_seen: int,
    second_counted: int,
    confidence: float = 0.95,
) -> ShareDifference:
    """Compare the share of a class in two independent counts.

    Parameters
    ----------
    first_seen, second_seen
        Animals of the class, 0 to the number counted.
    first_counted, second_counted
        All animals of each count; with 0 that share can be anything.
    confidence
        Wanted coverage, between 0 and 1.

    Returns
    -------
    ShareDifference
        Difference and hybrid score interval.

    Raises
    ------
    DomainError
        If a count or the confidence is out of range.

    Notes
    -----
    Method 10 of the source: each limit joins the distances of the shares to their own Wilson
    limits as the legs of a right triangle. Not for two shares out of one count.

    References
    ----------
    .. [1] Newcombe R.G. (1998) Statistics in Medicine 17:873-890, method 10.

    Examples
    --------
    >>> found = share_difference(first_seen=56, first_counted=70, second_seen=48, second_counted=80)
    >>> round(found.difference, 4), round(found.interval.low, 4), round(found.interval.high, 4)
    (0.2, 0.0524, 0.3339)
    """
    first = wilson_interval(seen=first_seen, counted=first_counted, confidence=confidence)
    second = wilson_interval(seen=second_seen, counted=second_counted, confidence=confidence)
    if first_counted == 0 or second_counted == 0:
        interval = Interval(low=first.low - second.high, high=first.high - second.low)
        return ShareDifference(difference=None, interval=interval)
    one, other = first_seen / first_counted, second_seen / second_counted
    below = math.hypot(one - first.low, second.high - other)
    above = math.hypot(first.high - one, other - second.low)
    return ShareDifference(
        difference=one - other,
        interval=Interval(low=one - other - below, high=one - other + above),
    )
