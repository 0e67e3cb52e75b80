"""Counts by class and shares of classes, checked once for every test of this room."""

import math
import operator
from collections.abc import Sequence
from fractions import Fraction

from filialog.domain_error import DomainError

__all__ = [
    "Component",
    "Components",
    "Share",
    "Shares",
    "checked_components",
    "checked_counts",
    "checked_odds",
    "checked_shares",
    "shares_of_ratio",
    "single",
]

Share = float | Fraction
"""A fraction in [0, 1]."""

Shares = Sequence[Share]
"""One share per class, in the order of the counts; together 1."""

Component = tuple[Share, Shares]
"""A weight, and the shares that hold for the whole brood with that probability."""

Components = Sequence[Component]
"""A mixture over whole broods: the weights are together 1."""

_SUM_TOLERANCE = 1e-9


def shares_of_ratio(ratio: Sequence[int]) -> tuple[Fraction, ...]:
    """Turn a ratio such as 9:3:3:1 into exact shares.

    Parameters
    ----------
    ratio
        One whole number per class, zero or more, not all zero.

    Returns
    -------
    tuple of Fraction
        The share of each class; together exactly 1.

    Raises
    ------
    DomainError
        If a part is negative or no part is above zero.

    Examples
    --------
    >>> shares_of_ratio([3, 1])
    (Fraction(3, 4), Fraction(1, 4))
    """
    parts = checked_counts(ratio)
    whole = sum(parts)
    if whole == 0:
        raise DomainError("ratio", tuple(ratio), "at least one part above zero")
    return tuple(Fraction(part, whole) for part in parts)


def single(shares: Shares) -> Components:
    """Write plain shares as a mixture of one component.

    Examples
    --------
    >>> single((0.75, 0.25))
    ((1.0, (0.75, 0.25)),)
    """
    return ((1.0, shares),)


def checked_counts(observed: Sequence[int]) -> tuple[int, ...]:
    """Return the counts as whole numbers.

    Raises
    ------
    DomainError
        If there is no class, or a count is negative or not a whole number.

    Examples
    --------
    >>> checked_counts([3, 0])
    (3, 0)
    """
    if len(observed) == 0:
        raise DomainError("number of classes", 0, "1 or more")
    counts = []
    for count in observed:
        try:
            whole = operator.index(count)
        except TypeError:
            raise DomainError("count", count, "a whole number") from None
        if whole < 0:
            raise DomainError("count", whole, "0 or more")
        counts.append(whole)
    return tuple(counts)


def checked_shares(shares: Shares, *, classes: int) -> tuple[float, ...]:
    """Return the shares as floating point numbers.

    Raises
    ------
    DomainError
        If there are more or fewer shares than classes, a share is outside
        [0, 1] or not a number, or the shares do not add up to 1 within 1e-9.

    Examples
    --------
    >>> checked_shares([Fraction(3, 4), Fraction(1, 4)], classes=2)
    (0.75, 0.25)
    """
    if len(shares) != classes:
        raise DomainError("number of shares", len(shares), f"{classes}, one per class")
    numbers = tuple(float(share) for share in shares)
    for number in numbers:
        if not 0.0 <= number <= 1.0:  # written so that NaN fails too
            raise DomainError("share", number, "between 0 and 1")
    if not abs(math.fsum(numbers) - 1.0) <= _SUM_TOLERANCE:
        raise DomainError("sum of the shares", math.fsum(numbers), "1")
    return numbers


def checked_components(
    components: Components, *, classes: int
) -> tuple[tuple[float, tuple[float, ...]], ...]:
    """Return a mixture as floating point numbers, without components of weight 0.

    Raises
    ------
    DomainError
        If the weights are not shares that add up to 1, or the shares of a
        component are not valid.

    Examples
    --------
    >>> checked_components([(1, (0.5, 0.5)), (0, (1.0, 0.0))], classes=2)
    ((1.0, (0.5, 0.5)),)
    """
    weights = checked_shares([weight for weight, _ in components], classes=len(components))
    checked = tuple(checked_shares(shares, classes=classes) for _, shares in components)
    return tuple(
        (weight, shares) for weight, shares in zip(weights, checked, strict=True) if weight > 0.0
    )


def checked_odds(odds: float) -> float:
    """Return the natural logarithm of the odds that are asked for.

    Raises
    ------
    DomainError
        If the odds are not a finite number above 1.

    Examples
    --------
    >>> round(checked_odds(20.0), 3)
    2.996
    """
    if not 1.0 < odds < math.inf:
        raise DomainError("odds to one", odds, "a number above 1")
    return math.log(odds)
