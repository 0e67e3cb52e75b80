"""Refusals shared by the formulas for water: readings that water cannot have."""

import math

from filialog.domain_error import DomainError

__all__ = ["above_zero", "fraction", "in_range", "zero_or_more"]


def zero_or_more(quantity: str, value: float) -> float:
    """Return the value; raise `DomainError` where it is negative, infinite or no number."""
    if not 0.0 <= value < math.inf:
        raise DomainError(quantity, value, "0 or more")
    return value


def above_zero(quantity: str, value: float) -> float:
    """Return the value; raise `DomainError` where it is not above zero and finite."""
    if not 0.0 < value < math.inf:
        raise DomainError(quantity, value, "above 0")
    return value


def fraction(quantity: str, value: float) -> float:
    """Return the value; raise `DomainError` where it is not above zero and at most one."""
    if not 0.0 < value <= 1.0:
        raise DomainError(quantity, value, "above 0 and at most 1")
    return value


def in_range(quantity: str, value: float, *, low: float, high: float) -> float:
    """Return the value; raise `DomainError` where it is outside the range or no number."""
    if not low <= value <= high:
        raise DomainError(quantity, value, f"{low:g} to {high:g}")
    return value
