"""Shares as they look to a sorter who makes mistakes, and corrected for the mistakes."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from filialog.domain_error import DomainError
from filialog.statistics.counts import Shares, checked_shares
from filialog.statistics.intervals import Interval, wilson_interval

__all__ = ["CorrectedShare", "corrected_share", "share_as_sorted", "shares_as_sorted"]


@dataclass(frozen=True, slots=True, kw_only=True)
class CorrectedShare:
    """The true share of a class behind an imperfect sort."""

    share: float | None
    """Estimated true share, 0 to 1; None when nothing was counted."""

    uncut: float | None
    """The same before it was cut to 0 and 1. Outside that range the sort found fewer (or
    more) than its errors alone would give."""

    interval: Interval
    """Interval of the true share, with sensitivity and specificity taken as known."""


def _check_sorter(sensitivity: float, specificity: float) -> None:
    for what, value in (("sensitivity", sensitivity), ("specificity", specificity)):
        if not 0.0 <= value <= 1.0:
            raise DomainError(what, value, "between 0 and 1")


def share_as_sorted(*, share: float, sensitivity: float, specificity: float) -> float:
    """Return the share of a class that an imperfect sorter is expected to find.

    Parameters
    ----------
    share
        True share of the class, 0 to 1.
    sensitivity
        Chance that an animal of the class is sorted into it.
    specificity
        Chance that any other animal is not.

    Returns
    -------
    float
        Expected share among the sorted animals.

    Raises
    ------
    DomainError
        If a number is not between 0 and 1.

    Examples
    --------
    A quarter is recessive, one recessive in ten is overlooked:

    >>> round(share_as_sorted(share=0.25, sensitivity=0.9, specificity=1.0), 4)
    0.225
    """
    _check_sorter(sensitivity, specificity)
    if not 0.0 <= share <= 1.0:
        raise DomainError("share", share, "between 0 and 1")
    return share * sensitivity + (1.0 - share) * (1.0 - specificity)


def shares_as_sorted(shares: Shares, sorting: Sequence[Shares]) -> tuple[float, ...]:
    """Return the shares of classes that an imperfect sorter is expected to find.

    Parameters
    ----------
    shares
        True share of each class; together 1.
    sorting
        For each true class, in the same order, the shares in which its animals are sorted
        into the classes found; together 1. There may be more or fewer classes found.

    Returns
    -------
    tuple of float
        Expected share of each class found; together 1.

    Raises
    ------
    DomainError
        If shares or rows are not valid.

    Notes
    -----
    Expectations of a fit test are put through this before the test, so that a sorter's known
    mistakes do not count as a misfit.

    Examples
    --------
    >>> shares_as_sorted((0.75, 0.25), ((1.0, 0.0), (0.5, 0.5)))
    (0.875, 0.125)
    """
    true = checked_shares(shares, classes=len(shares))
    if len(sorting) != len(true) or not sorting:
        raise DomainError("number of rows", len(sorting), f"{len(true)}, one per true class")
    rows = [checked_shares(row, classes=len(sorting[0])) for row in sorting]
    return tuple(
        math.fsum(share * row[found] for share, row in zip(true, rows, strict=True))
        for found in range(len(rows[0]))
    )


def corrected_share(
    *,
    seen: int,
    counted: int,
    sensitivity: float,
    specificity: float,
    confidence: float = 0.95,
) -> CorrectedShare:
    """Estimate the true share of a class from what an imperfect sorter found.

    Parameters
    ----------
    seen
        Animals sorted into the class, 0 to `counted`.
    counted
        All animals sorted; with 0 the interval is 0 to 1.
    sensitivity, specificity
        As in `share_as_sorted`; together above 1, else the sort tells nothing.
    confidence
        Wanted coverage, between 0 and 1.

    Returns
    -------
    CorrectedShare
        Estimate, and Wilson's limits put through the same correction.

    Raises
    ------
    DomainError
        If a number is out of range.

    Notes
    -----
    Uncertainty of sensitivity and specificity themselves is not in the interval.

    References
    ----------
    .. [1] Rogan W.J. & Gladen B. (1978) American Journal of Epidemiology 107:71-76
       (from memory).

    Examples
    --------
    >>> found = corrected_share(seen=18, counted=80, sensitivity=0.9, specificity=1.0)
    >>> round(found.share, 4), round(found.interval.low, 4), round(found.interval.high, 4)
    (0.25, 0.1637, 0.3643)
    """
    _check_sorter(sensitivity, specificity)
    if not sensitivity + specificity > 1.0:
        raise DomainError("sensitivity and specificity together", sensitivity + specificity, "> 1")
    sorted_in = wilson_interval(seen=seen, counted=counted, confidence=confidence)

    def uncut(found: float) -> float:
        return (found + specificity - 1.0) / (sensitivity + specificity - 1.0)

    def cut(found: float) -> float:
        return min(1.0, max(0.0, uncut(found)))

    estimate = uncut(seen / counted) if counted else None
    return CorrectedShare(
        share=cut(seen / counted) if counted else None,
        uncut=estimate,
        interval=Interval(low=cut(sorted_in.low), high=cut(sorted_in.high))
        if counted
        else sorted_in,
    )
