"""Correction of p values for many tests looked at together."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from filialog.domain_error import DomainError

__all__ = [
    "Discoveries",
    "benjamini_hochberg",
    "benjamini_hochberg_adjusted",
    "bonferroni_adjusted",
    "holm_adjusted",
]

_ROUNDING = 1e-12


@dataclass(frozen=True, slots=True, kw_only=True)
class Discoveries:
    """Which of many tests stand out once they are judged together."""

    adjusted: tuple[float, ...]
    """The adjusted p value of each test, in the order given."""

    found: tuple[int, ...]
    """Places of the tests that stand out, ascending."""

    threshold: float | None
    """The largest raw p value that stands out; None if none does."""


def benjamini_hochberg_adjusted(p_values: Sequence[float]) -> tuple[float, ...]:
    """Return p values adjusted for the false discovery rate.

    Parameters
    ----------
    p_values
        One p value for each test of the family, 0 to 1; tests of nothing (no animals
        counted) do not belong to it.

    Returns
    -------
    tuple of float
        For each test the smallest rate of false discoveries at which it stands out.

    Raises
    ------
    DomainError
        If a p value is out of range or not a number.

    Notes
    -----
    Holds for independent tests and for positively dependent ones. Tables that share their
    young are dependent; count every animal in one table only.

    References
    ----------
    .. [1] Benjamini Y. & Hochberg Y. (1995) Journal of the Royal Statistical Society B
       57:289-300.

    Examples
    --------
    >>> [round(p, 3) for p in benjamini_hochberg_adjusted((0.01, 0.5, 0.02))]
    [0.03, 0.5, 0.03]
    """
    ranked = _ranked(p_values)
    number = len(p_values)
    adjusted = [1.0] * number
    least = 1.0
    for rank in range(number, 0, -1):
        place = ranked[rank - 1]
        least = min(least, p_values[place] * number / rank)
        adjusted[place] = least
    return tuple(adjusted)


def benjamini_hochberg(p_values: Sequence[float], *, rate: float = 0.05) -> Discoveries:
    """Pick the tests that stand out among many, at a rate of false discoveries.

    Parameters
    ----------
    p_values
        As in `benjamini_hochberg_adjusted`.
    rate
        Share of false ones tolerated among those picked, between 0 and 1.

    Returns
    -------
    Discoveries
        Adjusted p values, and the tests at or below `rate`.

    Raises
    ------
    DomainError
        If a p value or the rate is out of range.

    References
    ----------
    .. [1] Benjamini & Hochberg (1995), as above.

    Examples
    --------
    >>> benjamini_hochberg((0.01, 0.5, 0.02)).found
    (0, 2)
    """
    if not 0.0 < rate < 1.0:
        raise DomainError("rate of false discoveries", rate, "above 0 and below 1")
    adjusted = benjamini_hochberg_adjusted(p_values)
    # A p value that lies on the line must not miss it by a hair of rounding.
    found = tuple(i for i, p in enumerate(adjusted) if p <= rate * (1.0 + _ROUNDING))
    return Discoveries(
        adjusted=adjusted,
        found=found,
        threshold=max((float(p_values[i]) for i in found), default=None),
    )


def bonferroni_adjusted(p_values: Sequence[float]) -> tuple[float, ...]:
    """Return p values adjusted so that no test at all stands out by chance.

    Parameters
    ----------
    p_values
        One p value for each test, 0 to 1.

    Returns
    -------
    tuple of float
        Each p value times the number of tests, at most 1.

    Raises
    ------
    DomainError
        If a p value is out of range or not a number.

    Examples
    --------
    >>> bonferroni_adjusted((0.25, 0.5))
    (0.5, 1.0)
    """
    _ranked(p_values)
    return tuple(min(1.0, p * len(p_values)) for p in p_values)


def holm_adjusted(p_values: Sequence[float]) -> tuple[float, ...]:
    """Return p values adjusted as `bonferroni_adjusted`, one step after the other.

    Parameters
    ----------
    p_values
        One p value for each test, 0 to 1.

    Returns
    -------
    tuple of float
        Never above those of Bonferroni, with the same guarantee.

    Raises
    ------
    DomainError
        If a p value is out of range or not a number.

    References
    ----------
    .. [1] Holm S. (1979) Scandinavian Journal of Statistics 6:65-70.

    Examples
    --------
    >>> holm_adjusted((0.25, 0.5))
    (0.5, 0.5)
    """
    adjusted = [1.0] * len(p_values)
    most = 0.0
    for rank, place in enumerate(_ranked(p_values)):
        most = max(most, min(1.0, p_values[place] * (len(p_values) - rank)))
        adjusted[place] = most
    return tuple(adjusted)


def _ranked(p_values: Sequence[float]) -> list[int]:
    """Return the places of the p values from the smallest to the largest."""
    for p_value in p_values:
        if math.isnan(p_value) or not 0.0 <= p_value <= 1.0:
            raise DomainError("p value", p_value, "between 0 and 1")
    return sorted(range(len(p_values)), key=lambda place: p_values[place])
