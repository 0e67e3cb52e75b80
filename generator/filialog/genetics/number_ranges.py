"""Ranges that several formulas of quantitative genetics share."""

import math

from filialog.domain_error import DomainError

__all__ = ["check_confidence", "check_count", "check_finite", "check_share"]


def check_share(what: str, value: float) -> None:
    """Raise a DomainError if the value is not between 0 and 1."""
    if not 0.0 <= value <= 1.0:
        raise DomainError(what, value, "between 0 and 1")


def check_finite(what: str, value: float) -> None:
    """Raise a DomainError if the value is not a finite number."""
    if not math.isfinite(value):
        raise DomainError(what, value, "a finite number")


def check_count(what: str, value: int) -> None:
    """Raise a DomainError if the value is negative or not finite."""
    if not 0 <= value < math.inf:
        raise DomainError(what, value, "0 or more")


def check_confidence(value: float) -> None:
    """Raise a DomainError if no interval can have this coverage."""
    if not 0.0 < value < 1.0:
        raise DomainError("confidence", value, "above 0 and below 1")
