"""A number known only to lie between two bounds, as readings are."""

import math
from collections.abc import Callable
from dataclasses import dataclass

from filialog.domain_error import DomainError

__all__ = ["Bounds", "below_detection", "exactly", "reading_bounds", "within_corners"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bounds:
    """The lowest and the highest value a quantity can have; raises `DomainError` if reversed."""

    low: float
    """Lowest value, finite."""
    high: float
    """Highest value, `low` or more; infinite where a reading was above the scale."""

    def __post_init__(self) -> None:
        """Refuse bounds in the wrong order and bounds that are no numbers."""
        if not math.isfinite(self.low):
            raise DomainError("lower bound", self.low, "a finite number")
        if not self.low <= self.high:
            raise DomainError("upper bound", self.high, f"{self.low:g} or more")

    @property
    def is_exact(self) -> bool:
        """Whether both bounds are the same number."""
        return self.low == self.high

    def overlaps(self, other: "Bounds") -> bool:
        """Return whether some number lies within both."""
        return self.low <= other.high and other.low <= self.high

    def rising(self, of: Callable[[float], float]) -> "Bounds":
        """Return the bounds of a function that never falls as its argument rises.

        Examples
        --------
        >>> Bounds(low=1.0, high=2.0).rising(lambda value: 10.0 * value)
        Bounds(low=10.0, high=20.0)
        """
        return Bounds(low=of(self.low), high=of(self.high))


def exactly(value: float) -> Bounds:
    """Return the bounds of a value taken as exact.

    Examples
    --------
    >>> exactly(7.0).is_exact
    True
    """
    return Bounds(low=value, high=value)


def below_detection(detection_limit: float) -> Bounds:
    """Return the bounds of an amount that the test did not show.

    Parameters
    ----------
    detection_limit
        The smallest amount the test shows, above zero, in any unit.

    Returns
    -------
    Bounds
        From zero to the detection limit, in the same unit. It is not zero: "0 on the kit" says
        only this much.

    Raises
    ------
    DomainError
        If the limit is not above zero or not finite.

    Examples
    --------
    >>> below_detection(0.05)
    Bounds(low=0.0, high=0.05)
    """
    if not 0.0 < detection_limit < math.inf:
        raise DomainError("detection limit", detection_limit, "above 0")
    return Bounds(low=0.0, high=detection_limit)


def reading_bounds(
    value: float, *, resolution: float, detection_limit: float | None = None
) -> Bounds:
    """Return the bounds of a reading of an amount from the steps of the instrument.

    Parameters
    ----------
    value
        The reading, zero or more, in any unit.
    resolution
        The smallest step of the instrument or of the colour chart, in the same unit, zero or
        more.
    detection_limit
        The smallest amount the test shows, in the same unit, or None where that is the
        resolution itself.

    Returns
    -------
    Bounds
        One step to either side of the reading, never below zero. A reading below the detection
        limit reaches from zero to that limit, and one step further where the reading and its
        step do.

    Raises
    ------
    DomainError
        If the reading or the resolution is negative or not finite, or the limit is not above
        zero.

    Notes
    -----
    One step to either side is a choice (common practice, no source). It covers the rounding of
    the display and the drop too many, not an instrument that was never calibrated.

    Examples
    --------
    >>> reading_bounds(250.0, resolution=10.0)
    Bounds(low=240.0, high=260.0)
    >>> reading_bounds(0.0, resolution=0.25, detection_limit=0.25)
    Bounds(low=0.0, high=0.25)
    """
    if not 0.0 <= value < math.inf:
        raise DomainError("reading", value, "0 or more")
    if not 0.0 <= resolution < math.inf:
        raise DomainError("resolution", resolution, "0 or more")
    around = Bounds(low=max(value - resolution, 0.0), high=value + resolution)
    if detection_limit is None:
        return around
    hidden = below_detection(detection_limit)
    if value >= detection_limit:
        return around
    return Bounds(low=0.0, high=max(hidden.high, around.high))


def within_corners(function: Callable[..., float], /, **arguments: Bounds) -> Bounds:
    """Return the bounds of a function that rises or falls steadily in each argument.

    Parameters
    ----------
    function
        Called with one number for every name in `arguments`. In each argument alone it must
        only rise or only fall while the others stay; it may rise for some values of the others
        and fall for others.
    arguments
        The bounds of each argument, by name.

    Returns
    -------
    Bounds
        Lowest and highest value over all corners, which for such a function are the lowest and
        highest of all.

    Examples
    --------
    >>> within_corners(
    ...     lambda x, y: x * y, x=Bounds(low=-1.0, high=2.0), y=Bounds(low=3.0, high=4.0)
    ... )
    Bounds(low=-4.0, high=8.0)
    """
    corners: list[dict[str, float]] = [{}]
    for name, bounds in arguments.items():
        corners = [{**corner, name: end} for corner in corners for end in (bounds.low, bounds.high)]
    found = [function(**corner) for corner in corners]
    return Bounds(low=min(found), high=max(found))
