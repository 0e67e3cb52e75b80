"""How well a class lives beside another, estimated from counts of young."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from filialog.domain_error import DomainError
from filialog.statistics import chi_square_test

__all__ = [
    "EggCheck",
    "LinkedViability",
    "RelativeViability",
    "check_deaths_by_eggs",
    "relative_viability",
    "viability_of_linked",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class RelativeViability:
    """How many of a class live for each one of another class, given equal starts."""

    estimate: float
    """Found over expected, 0 or more; 1 where both live alike."""

    unbiased: float
    """Haldane's estimate, which adds one to the class compared with."""

    standard_error: float
    """Standard error of the estimate."""

    low: float
    """Lower limit, by the logarithm; 0 where the class was not seen."""

    high: float
    """Upper limit; infinite where a class was not seen."""

    chi_square: float
    """Chi-square against equal viability, with 1 degree of freedom."""

    p_value: float
    """Its p value."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LinkedViability:
    """Recombination and viabilities of two loci from one test cross."""

    recombination: float
    """Recombination fraction free of the viabilities, by the product of classes."""

    naive_recombination: float
    """Plain share of recombinants."""

    first: float
    """Viability of the recessive of the first locus relative to the dominant."""

    second: float
    """The same for the second locus."""


@dataclass(frozen=True, slots=True, kw_only=True)
class EggCheck:
    """Whether deaths before the count explain a shortage."""

    dead_share: float
    """Share of the eggs that did not live."""

    viability: float
    """Viability of the second class if the whole shortage is deaths."""

    predicted_dead_share: float
    """Share of the eggs that would then have died."""

    chi_square: float
    """Chi-square of the dead against that share, with 1 degree of freedom."""


def _check(*counts: int) -> None:
    for count in counts:
        if not 0 <= count < math.inf:
            raise DomainError("count", count, "0 or more")


def relative_viability(
    *, first: int, second: int, expected_ratio: float = 1.0, confidence: float = 0.95
) -> RelativeViability:
    """Estimate how well a second class lives beside a first one.

    Parameters
    ----------
    first
        Young of the class compared with, 1 or more.
    second
        Young of the class in question.
    expected_ratio
        How many of the second class are expected for each of the first if both live
        alike: 1 in a test cross, 1/3 for recessives of an F2.
    confidence
        Wanted coverage, between 0 and 1.

    Returns
    -------
    RelativeViability
        Estimate, interval by the logarithm, and test.

    Raises
    ------
    DomainError
        If a count is negative, the first is 0, or the ratio or confidence is out of
        range.

    References
    ----------
    .. [1] Haldane J.B.S. (1956) The estimation of viabilities, J. Genet. 54:294-296.

    Examples
    --------
    >>> result = relative_viability(first=48, second=12)
    >>> result.estimate, round(result.low, 2), round(result.high, 2)
    (0.25, 0.13, 0.47)
    """
    _check(first, second)
    if first == 0:
        raise DomainError("young of the first class", first, "1 or more")
    if not 0.0 < expected_ratio < math.inf:
        raise DomainError("expected ratio", expected_ratio, "above 0")
    if not 0.0 < confidence < 1.0:
        raise DomainError("confidence", confidence, "between 0 and 1")
    from statistics import NormalDist  # noqa: PLC0415 - a quick command should not load it

    estimate = second / first / expected_ratio
    of_logarithm = math.sqrt(1.0 / first + 1.0 / second) if second else math.inf
    reach = -NormalDist().inv_cdf((1.0 - confidence) / 2.0) * of_logarithm
    share = 1.0 / (1.0 + expected_ratio)
    test = chi_square_test([first, second], (share, 1.0 - share))
    return RelativeViability(
        estimate=estimate,
        unbiased=second / (first + 1) / expected_ratio,
        standard_error=estimate * of_logarithm if second else 0.0,
        low=estimate * math.exp(-reach) if second else 0.0,
        high=estimate * math.exp(reach) if second else math.inf,
        chi_square=test.statistic,
        p_value=test.p_value,
    )


def viability_of_linked(counts: Sequence[int], *, coupling: bool = True) -> LinkedViability:
    """Estimate recombination and viabilities together, from a cross to double recessives.

    Parameters
    ----------
    counts
        Young that show both dominants, the first only, the second only, neither; each
        1 or more.
    coupling
        True where the hybrid parent had both recessives on one chromosome.

    Returns
    -------
    LinkedViability
        Four counts fix the total and three unknowns, so that nothing is left to test.

    Raises
    ------
    DomainError
        If there are not four counts of 1 or more.

    Notes
    -----
    Assumes that the viabilities of both loci multiply.

    References
    ----------
    .. [1] Bailey N.T.J. (1961) Introduction to the Mathematical Theory of Genetic
       Linkage (product-ratio method).

    Examples
    --------
    >>> round(viability_of_linked((400, 60, 50, 200)).recombination, 4)
    0.1622
    """
    if len(counts) != 4:
        raise DomainError("number of classes", len(counts), "4")
    _check(*counts)
    if 0 in counts:
        raise DomainError("count", 0, "1 or more in each class")
    both, first, second, neither = counts
    mixed, alike = math.sqrt(first * second), math.sqrt(both * neither)
    crossed, seen = (mixed, first + second) if coupling else (alike, both + neither)
    return LinkedViability(
        recombination=crossed / (mixed + alike),
        naive_recombination=seen / sum(counts),
        first=math.sqrt(second * neither / (both * first)),
        second=math.sqrt(first * neither / (both * second)),
    )


def check_deaths_by_eggs(*, eggs: int, first: int, second: int) -> EggCheck:
    """Compare the eggs that died with the deaths that would explain a shortage.

    Parameters
    ----------
    eggs
        Eggs counted, of two classes expected alike.
    first, second
        Young counted of both classes, the first 1 or more.

    Returns
    -------
    EggCheck
        A small chi-square: deaths of the second class can explain its shortage. A
        large one with few dead: its gametes were fewer from the start.

    Raises
    ------
    DomainError
        If a count is negative, the first is 0, the second is above it, or there are
        more young than eggs.

    Examples
    --------
    >>> result = check_deaths_by_eggs(eggs=200, first=104, second=48)
    >>> result.dead_share, round(result.predicted_dead_share, 3)
    (0.24, 0.269)
    """
    _check(eggs, first, second)
    if first == 0:
        raise DomainError("young of the first class", first, "1 or more")
    if second > first:
        raise DomainError("young of the second class", second, f"at most {first}")
    if first + second > eggs:
        raise DomainError("young counted", first + second, f"at most {eggs}, one per egg")
    viability = second / first
    predicted = (1.0 - viability) / 2.0
    dead = eggs - first - second
    return EggCheck(
        dead_share=dead / eggs,
        viability=viability,
        predicted_dead_share=predicted,
        chi_square=chi_square_test([dead, eggs - dead], (predicted, 1.0 - predicted)).statistic,
    )
