"""Confidence intervals of one share."""

import math
from dataclasses import dataclass

from filialog.domain_error import DomainError

__all__ = [
    "Interval",
    "agresti_coull_interval",
    "clopper_pearson_interval",
    "jeffreys_interval",
    "wilson_interval",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Interval:
    """Lower and upper limit of a share, or of a difference of shares."""

    low: float
    """Lower limit: 0 to 1 for a share, -1 to 1 for a difference."""

    high: float
    """Upper limit, in the same range."""


_ANYTHING = Interval(low=0.0, high=1.0)


def _check(seen: int, counted: int, confidence: float) -> None:
    if not counted >= 0:
        raise DomainError("number of animals counted", counted, "0 or more")
    if not 0 <= seen <= counted:
        raise DomainError("number of animals seen", seen, f"between 0 and {counted}")
    if not 0.0 < confidence < 1.0:
        raise DomainError("confidence", confidence, "above 0 and below 1")


def wilson_interval(*, seen: int, counted: int, confidence: float = 0.95) -> Interval:
    """Return Wilson's score interval of a share.

    Parameters
    ----------
    seen
        Animals of the class, 0 to `counted`.
    counted
        All animals; with 0 the interval is 0 to 1.
    confidence
        Wanted coverage, between 0 and 1.

    Returns
    -------
    Interval
        The limits, without continuity correction.

    Raises
    ------
    DomainError
        If a count or the confidence is out of range.

    Notes
    -----
    Coverage is right on average over shares, not guaranteed for every share; the
    Clopper-Pearson interval guarantees it and is wider.

    References
    ----------
    .. [1] Wilson E.B. (1927) Journal of the American Statistical Association
       22:209-212.

    Examples
    --------
    >>> interval = wilson_interval(seen=7, counted=30)
    >>> round(interval.low, 4), round(interval.high, 4)
    (0.1179, 0.4093)
    """
    _check(seen, counted, confidence)
    if counted == 0:
        return _ANYTHING
    from statistics import NormalDist  # noqa: PLC0415 - a quick command should not load it

    z = -NormalDist().inv_cdf((1.0 - confidence) / 2.0)
    spread = z * z / counted
    share = seen / counted
    middle = (share + spread / 2.0) / (1.0 + spread)
    half = (
        z * math.sqrt(share * (1.0 - share) / counted + spread / (4.0 * counted)) / (1.0 + spread)
    )
    # At 0 and at all the limit is exact; rounding would leave a hair beside it.
    return Interval(
        low=0.0 if seen == 0 else max(0.0, middle - half),
        high=1.0 if seen == counted else min(1.0, middle + half),
    )


def clopper_pearson_interval(*, seen: int, counted: int, confidence: float = 0.95) -> Interval:
    """Return the exact (Clopper-Pearson) interval of a share.

    Parameters
    ----------
    seen
        Animals of the class, 0 to `counted`.
    counted
        All animals; with 0 the interval is 0 to 1.
    confidence
        Guaranteed coverage, between 0 and 1.

    Returns
    -------
    Interval
        The limits.

    Raises
    ------
    DomainError
        If a count or the confidence is out of range.

    References
    ----------
    .. [1] Clopper C.J. & Pearson E.S. (1934) Biometrika 26:404-413.

    Examples
    --------
    >>> interval = clopper_pearson_interval(seen=81, counted=263)
    >>> round(interval.low, 4), round(interval.high, 4)
    (0.2527, 0.3676)
    """
    _check(seen, counted, confidence)
    if counted == 0:
        return _ANYTHING
    from scipy.special import betaincinv  # noqa: PLC0415 - a quick command should not load it

    tail = (1.0 - confidence) / 2.0
    unseen = counted - seen
    return Interval(
        low=0.0 if seen == 0 else float(betaincinv(seen, unseen + 1, tail)),
        high=1.0 if unseen == 0 else float(betaincinv(seen + 1, unseen, 1.0 - tail)),
    )


def jeffreys_interval(
    *, seen: int, counted: int, confidence: float = 0.95, reach_ends: bool = True
) -> Interval:
    """Return Jeffreys' interval of a share.

    Parameters
    ----------
    seen
        Animals of the class, 0 to `counted`.
    counted
        All animals; with 0 the interval is that of the prior, or 0 to 1 with `reach_ends`.
    confidence
        Wanted coverage, between 0 and 1.
    reach_ends
        Let the lower limit be 0 where none was seen, and the upper 1 where all were.

    Returns
    -------
    Interval
        The limits.

    Raises
    ------
    DomainError
        If a count or the confidence is out of range.

    Notes
    -----
    Equal tails of the beta distribution with seen + 1/2 and unseen + 1/2, the posterior
    under the prior of Jeffreys. Without `reach_ends` the interval leaves out 0 even when
    none was seen, so that a share of exactly 0 is never covered.

    References
    ----------
    .. [1] Brown L.D., Cai T.T. & DasGupta A. (2001) Statistical Science 16:101-133.

    Examples
    --------
    >>> interval = jeffreys_interval(seen=15, counted=148)
    >>> round(interval.low, 4), round(interval.high, 4)
    (0.0604, 0.1576)
    >>> round(jeffreys_interval(seen=0, counted=20, reach_ends=False).low, 6)
    2.4e-05
    """
    _check(seen, counted, confidence)
    from scipy.special import betaincinv  # noqa: PLC0415 - a quick command should not load it

    tail = (1.0 - confidence) / 2.0
    unseen = counted - seen
    low, high = (float(betaincinv(seen + 0.5, unseen + 0.5, place)) for place in (tail, 1.0 - tail))
    return Interval(
        low=0.0 if reach_ends and seen == 0 else low,
        high=1.0 if reach_ends and unseen == 0 else high,
    )


def agresti_coull_interval(
    *, seen: int, counted: int, confidence: float = 0.95, clipped: bool = True
) -> Interval:
    """Return the interval of Agresti and Coull.

    Parameters
    ----------
    seen
        Animals of the class, 0 to `counted`.
    counted
        All animals.
    confidence
        Wanted coverage, between 0 and 1.
    clipped
        Cut the limits to 0 and 1. The formula alone can pass them.

    Returns
    -------
    Interval
        The limits; with nothing counted 0 to 1 (clipped).

    Raises
    ------
    DomainError
        If a count or the confidence is out of range.

    Notes
    -----
    Its middle is that of Wilson's interval, and it is never shorter.

    References
    ----------
    .. [1] Agresti A. & Coull B.A. (1998) The American Statistician 52:119-126.

    Examples
    --------
    >>> interval = agresti_coull_interval(seen=12, counted=60)
    >>> round(interval.low, 4), round(interval.high, 4)
    (0.1168, 0.3193)
    """
    _check(seen, counted, confidence)
    from statistics import NormalDist  # noqa: PLC0415 - a quick command should not load it

    z = -NormalDist().inv_cdf((1.0 - confidence) / 2.0)
    number = counted + z * z
    middle = (seen + z * z / 2.0) / number
    half = z * math.sqrt(middle * (1.0 - middle) / number)
    low, high = middle - half, middle + half
    return (
        Interval(low=max(0.0, low), high=min(1.0, high))
        if clipped
        else Interval(low=low, high=high)
    )
