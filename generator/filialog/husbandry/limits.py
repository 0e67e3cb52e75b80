"""Whether an amount between bounds is within a limit."""

from dataclasses import dataclass
from enum import StrEnum

from filialog.husbandry.bounds import Bounds
from filialog.husbandry.guards import above_zero
from filialog.husbandry.provenance import Provenance

__all__ = ["Limit", "LimitCheck", "Standing", "check_limit"]


class Standing(StrEnum):
    """How an amount stands to a limit."""

    WITHIN = "within"
    """Even the highest value it can have is at or below the limit."""
    ABOVE = "above"
    """Even the lowest value it can have is above the limit."""
    CANNOT_TELL = "cannot tell"
    """The limit lies between the two, as when the test does not show so little."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """An amount that is not to be exceeded."""

    rule: str
    """Name of the rule, in words."""
    amount: float
    """The limit, above zero, in the unit that the name of its holder gives."""
    source: Provenance
    """Where the rule is from."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitCheck:
    """An amount held against a limit."""

    measured: Bounds
    """The amount, in the unit of the limit."""
    limit: Limit
    """The limit it was held against."""
    standing: Standing
    """What came out."""


def check_limit(measured: Bounds, *, limit: Limit) -> LimitCheck:
    """Hold an amount against a limit.

    Parameters
    ----------
    measured
        The amount, in the unit of the limit; its lower bound zero or more.
    limit
        The limit.

    Returns
    -------
    LimitCheck
        Both, and how they stand. A kit that does not show amounts as small as the limit never
        gives "within".

    Raises
    ------
    DomainError
        If the limit is not above zero.

    Examples
    --------
    >>> from filialog.husbandry.bounds import below_detection
    >>> from filialog.husbandry.nitrite import NITRITE_LIMIT_MG_N_PER_L
    >>> print(check_limit(below_detection(0.1), limit=NITRITE_LIMIT_MG_N_PER_L).standing)
    cannot tell
    """
    above_zero(f"limit ({limit.rule})", limit.amount)
    if measured.high <= limit.amount:
        standing = Standing.WITHIN
    elif measured.low > limit.amount:
        standing = Standing.ABOVE
    else:
        standing = Standing.CANNOT_TELL
    return LimitCheck(measured=measured, limit=limit, standing=standing)
