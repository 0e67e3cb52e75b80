"""How far above the mean the chosen animals stand, in standard deviations."""

import math
from dataclasses import dataclass

from filialog.domain_error import DomainError

__all__ = [
    "Truncation",
    "selection_intensity",
    "selection_intensity_of_few",
    "truncation_selection",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Truncation:
    """Selection of the best share of a large number of animals."""

    intensity: float
    """Mean of the chosen above the mean of all, in phenotypic standard deviations."""

    threshold: float
    """The value from which on animals are chosen, in standard deviations from the mean."""

    variance_lost: float
    """Part of the variance that the chosen lack, k = i (i - x), 0 to 1."""


def truncation_selection(chosen: float) -> Truncation:
    """Describe the selection of the best share of very many animals.

    Parameters
    ----------
    chosen
        Share of the animals that is chosen, above 0 and below 1.

    Returns
    -------
    Truncation
        Intensity i = z / p, threshold x and the lost part of the variance.

    Raises
    ------
    DomainError
        If the share is out of its range.

    Notes
    -----
    The grade is taken to be normally distributed and measured on every animal.

    References
    ----------
    .. [1] Falconer D.S. & Mackay T.F.C. (1996) Introduction to Quantitative Genetics,
       ch. 11 and Appendix Table A.

    Examples
    --------
    >>> best_tenth = truncation_selection(0.1)
    >>> round(best_tenth.intensity, 3), round(best_tenth.threshold, 4)
    (1.755, 1.2816)
    """
    if not 0.0 < chosen < 1.0:
        raise DomainError("share of animals chosen", chosen, "above 0 and below 1")
    from statistics import NormalDist  # noqa: PLC0415 - a quick command should not load it

    threshold = -NormalDist().inv_cdf(chosen)
    height = math.exp(-threshold * threshold / 2.0) / math.sqrt(2.0 * math.pi)
    intensity = height / chosen
    return Truncation(
        intensity=intensity,
        threshold=threshold + 0.0,  # no "-0.0" for a half
        variance_lost=intensity * (intensity - threshold),
    )


def selection_intensity(chosen: float) -> float:
    """Give the selection intensity when the best share of very many animals is chosen.

    Parameters
    ----------
    chosen
        Share of the animals that is chosen, above 0 and at most 1; with 1 there is no
        selection.

    Returns
    -------
    float
        i = z / p, in phenotypic standard deviations.

    Raises
    ------
    DomainError
        If the share is out of its range.

    Notes
    -----
    Where each sex is chosen by itself, the intensity is the mean of the two. Of a brood of
    tens of animals the real intensity is smaller: `selection_intensity_of_few`.

    References
    ----------
    .. [1] Falconer D.S. & Mackay T.F.C. (1996) Introduction to Quantitative Genetics,
       ch. 11 and Appendix Table A.

    Examples
    --------
    >>> round(selection_intensity(0.2), 3)
    1.4
    """
    return 0.0 if chosen == 1.0 else truncation_selection(chosen).intensity


def selection_intensity_of_few(*, chosen: int, measured: int) -> float:
    """Give the expected selection intensity when the best few of a known number are chosen.

    Parameters
    ----------
    chosen
        Animals chosen, 1 or more.
    measured
        Animals measured, at least as many as chosen.

    Returns
    -------
    float
        Expected mean of the chosen above the expected mean of all, in phenotypic standard
        deviations of the population from which the animals come.

    Raises
    ------
    DomainError
        If a number is out of its range.

    Notes
    -----
    Mean of the largest order statistics of a normal sample, exact but for integration
    (error below 1e-9): given the best animal that is not chosen, the chosen are the upper
    tail of a normal law above it. The animals must be unrelated; sibs resemble one another,
    which makes the real intensity a little smaller.

    References
    ----------
    .. [1] Walsh B. & Lynch M. (2018) Evolution and Selection of Quantitative Traits,
       Example 21.4 (values for the best 2 of 10 and 4 of 20).

    Examples
    --------
    >>> round(selection_intensity_of_few(chosen=2, measured=10), 2)
    1.27
    """
    if not 1 <= measured < math.inf:
        raise DomainError("animals measured", measured, "1 or more")
    if not 1 <= chosen <= measured:
        raise DomainError("animals chosen", chosen, f"between 1 and {measured}")
    left = measured - chosen
    if left == 0:
        return 0.0
    import numpy as np  # noqa: PLC0415 - a quick command should not load it
    from scipy import special  # noqa: PLC0415

    # The share below the best one left out follows a beta law with (left, chosen + 1).
    low = float(special.ndtri(special.betaincinv(left, chosen + 1, 1e-17)))
    high = -float(special.ndtri(special.betaincinv(chosen + 1, left, 1e-17)))
    x = np.linspace(low, high, 801)
    log_above = special.log_ndtr(-x)
    log_height = -x * x / 2.0 - math.log(2.0 * math.pi) / 2.0
    log_density = log_height + (left - 1) * special.log_ndtr(x) + chosen * log_above
    density = np.exp(log_density - log_density.max())
    # Both ends are practically 0, where the trapezoidal rule is as good as any.
    return float((density * np.exp(log_height - log_above)).sum() / density.sum())
