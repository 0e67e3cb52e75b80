"""A straight line through points by least squares, with the interval of its slope."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from filialog.domain_error import DomainError

__all__ = ["SlopeFit", "line_fit", "line_fit_through_origin"]

_ROUNDING = 1e-12


@dataclass(frozen=True, slots=True, kw_only=True)
class SlopeFit:
    """A straight line fitted to points, as far as the points allow."""

    points: int
    """Points that bear on the slope."""

    slope: float | None
    """Rise of y per unit of x; None where all points have the same x."""

    intercept: float | None
    """Value at x = 0; None where there is no slope."""

    standard_error: float | None
    """Standard error of the slope; None where no point is left over to measure the scatter."""

    low: float | None
    """Lower limit of the slope; None without standard error, or where all points lie on the
    line and so show no scatter to judge it by."""

    high: float | None
    """Upper limit of the slope, or None."""


def line_fit(x: Sequence[float], y: Sequence[float], *, confidence: float = 0.95) -> SlopeFit:
    """Fit y = a + bx by ordinary least squares.

    Parameters
    ----------
    x, y
        Coordinates of the points, in the same order; any finite numbers.
    confidence
        Wanted coverage of the interval, between 0 and 1.

    Returns
    -------
    SlopeFit
        Slope and intercept need two different x; the standard error needs a third point.

    Raises
    ------
    DomainError
        If the two differ in length, a number is not finite, or the confidence is out of
        range.

    Notes
    -----
    The interval is that of Student's t with n - 2 degrees of freedom: it holds for
    independent points with the same normal scatter in y.

    References
    ----------
    .. [1] Sokal R.R. & Rohlf F.J. (1995) Biometry, ch. 14 (from memory).

    Examples
    --------
    >>> fit = line_fit([0, 1, 2, 3], [1, 3, 4, 8])
    >>> round(fit.slope, 4), round(fit.intercept, 4), round(fit.standard_error, 4)
    (2.2, 0.7, 0.4243)
    """
    _check(x, y, confidence)
    if len(set(x)) < 2:
        return _no_slope(len(x))
    mean_x, mean_y = math.fsum(x) / len(x), math.fsum(y) / len(y)
    from_x, from_y = [value - mean_x for value in x], [value - mean_y for value in y]
    return _fit(from_x, from_y, shift=(mean_x, mean_y), df=len(x) - 2, confidence=confidence)


def line_fit_through_origin(
    x: Sequence[float], y: Sequence[float], *, confidence: float = 0.95
) -> SlopeFit:
    """Fit y = bx by ordinary least squares.

    Parameters
    ----------
    x, y
        Coordinates of the points, in the same order; any finite numbers.
    confidence
        Wanted coverage of the interval, between 0 and 1.

    Returns
    -------
    SlopeFit
        With intercept 0. The slope needs a point with x other than 0, the standard error a
        second one.

    Raises
    ------
    DomainError
        As `line_fit`.

    Notes
    -----
    A point at the origin lies on the line whatever its slope; it is left out, so that it
    does not pass for a measurement. The interval is that of Student's t with n - 1 degrees
    of freedom.

    References
    ----------
    .. [1] Sokal R.R. & Rohlf F.J. (1995) Biometry, ch. 14 (from memory).

    Examples
    --------
    >>> fit = line_fit_through_origin([0, 1, 2], [0, 2, 3])
    >>> fit.points, fit.slope, round(fit.standard_error, 4)
    (2, 1.6, 0.2)
    """
    _check(x, y, confidence)
    pairs = [(first, second) for first, second in zip(x, y, strict=True) if first or second]
    kept_x, kept_y = [first for first, _ in pairs], [second for _, second in pairs]
    if not any(kept_x):
        return _no_slope(len(pairs))
    return _fit(kept_x, kept_y, shift=(0.0, 0.0), df=len(pairs) - 1, confidence=confidence)


def _fit(
    x: Sequence[float],
    y: Sequence[float],
    *,
    shift: tuple[float, float],
    df: int,
    confidence: float,
) -> SlopeFit:
    """Fit a line through the origin of coordinates that were shifted there."""
    spread = math.fsum(value * value for value in x)
    slope = math.fsum(a * b for a, b in zip(x, y, strict=True)) / spread
    error = low = high = None
    if df > 0:
        scatter = math.fsum((b - slope * a) ** 2 for a, b in zip(x, y, strict=True))
        error = math.sqrt(scatter / df / spread)
        if scatter > _ROUNDING**2 * math.fsum(value * value for value in y):
            from scipy.special import stdtrit  # noqa: PLC0415 - a quick command should not load it

            half = float(stdtrit(df, (1.0 + confidence) / 2.0)) * error
            low, high = slope - half, slope + half
    return SlopeFit(
        points=len(x),
        slope=slope,
        intercept=shift[1] - slope * shift[0],
        standard_error=error,
        low=low,
        high=high,
    )


def _no_slope(points: int) -> SlopeFit:
    return SlopeFit(
        points=points, slope=None, intercept=None, standard_error=None, low=None, high=None
    )


def _check(x: Sequence[float], y: Sequence[float], confidence: float) -> None:
    if len(x) != len(y):
        raise DomainError("number of y values", len(y), f"{len(x)}, one for each x")
    for value in (*x, *y):
        if not math.isfinite(value):
            raise DomainError("coordinate of a point", value, "a finite number")
    if not 0.0 < confidence < 1.0:
        raise DomainError("confidence", confidence, "above 0 and below 1")
