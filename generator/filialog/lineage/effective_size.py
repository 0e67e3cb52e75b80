"""The effective size Ne: how many ideal breeders would lose variation as fast as the real ones."""

import math
from collections.abc import Sequence

from filialog.domain_error import DomainError

__all__ = [
    "effective_size_by_family_size",
    "effective_size_by_inbreeding_rate",
    "effective_size_by_sex",
    "effective_size_needed",
    "effective_size_of_overlapping_generations",
    "effective_size_over_generations",
    "effective_size_sex_linked",
    "effective_size_with_selfing",
    "inbreeding_rate",
]


def effective_size_by_sex(*, males: float, females: float) -> float:
    """Give Ne from the numbers of breeding males and females.

    Parameters
    ----------
    males
        Males that breed in the generation, above 0; an average may be fractional.
    females
        Females that breed in the generation, above 0.

    Returns
    -------
    float
        Ne = 4MF / (M + F), in animals; never more than M + F.

    Raises
    ------
    DomainError
        If a number is not above 0 (without one sex there are no young) or not finite.

    Notes
    -----
    Within each sex all animals are taken to have the same chance at every young. One
    sire for most broods, which is usual in a tank, makes the real Ne smaller.

    References
    ----------
    .. [1] Wright S. (1931) Evolution in Mendelian populations, Genetics 16:97-159.

    Examples
    --------
    >>> round(effective_size_by_sex(males=10, females=250), 1)
    38.5
    """
    _check_breeders(males=males, females=females)
    return 4.0 * males / (males + females) * females


def effective_size_sex_linked(*, heterogametic: float, homogametic: float) -> float:
    """Give Ne of the genes on the X (or Z) chromosome from the numbers of both sexes.

    Parameters
    ----------
    heterogametic
        Breeders with one X (males in XY) or one Z (females in ZW), above 0.
    homogametic
        Breeders with two X (females in XY) or two Z (males in ZW), above 0.

    Returns
    -------
    float
        Ne = 9HM / (4H + 2M) with H heterogametic and M homogametic breeders, in animals.
        With equal sexes it is three quarters of all breeders.

    Raises
    ------
    DomainError
        If a number is not above 0 or not finite.

    Notes
    -----
    The same number holds where males hatch from unfertilised eggs. Assumptions as for
    `effective_size_by_sex`.

    References
    ----------
    .. [1] Wright S. (1931) Evolution in Mendelian populations, Genetics 16:97-159
       (from memory).

    Examples
    --------
    >>> effective_size_sex_linked(heterogametic=10, homogametic=10)
    15.0
    """
    _check_breeders(heterogametic=heterogametic, homogametic=homogametic)
    return 9.0 * heterogametic * homogametic / (4.0 * heterogametic + 2.0 * homogametic)


def effective_size_over_generations(sizes: Sequence[float]) -> float:
    """Give Ne over several generations of known Ne each.

    Parameters
    ----------
    sizes
        Ne of each generation, in any order, each above 0.

    Returns
    -------
    float
        The harmonic mean, in animals: the smallest generations count most.

    Raises
    ------
    DomainError
        If there is no generation, or a size is not above 0 or not finite.

    References
    ----------
    .. [1] Wright S. (1938) Size of population and breeding structure in relation to
       evolution, Science 87:430-431 (from memory).

    Examples
    --------
    >>> round(effective_size_over_generations([10, 100, 50, 80, 20, 500]), 1)
    30.8
    """
    if not sizes:
        raise DomainError("number of generations", 0, "1 or more")
    for size in sizes:
        _check_size(size)
    return len(sizes) / math.fsum(1.0 / size for size in sizes)


def effective_size_by_family_size(*, breeders: float, variance: float, mean: float = 2.0) -> float:
    """Give Ne from the variance of the number of young that each breeder leaves.

    Parameters
    ----------
    breeders
        Animals that could breed in the generation, both sexes, more than 1.
    variance
        Variance over the breeders of the number of young that they leave as breeders of
        the next generation, 0 or more; those that leave none are counted.
    mean
        Mean of that number, above 1; it is 2 where the number of breeders stays the same.

    Returns
    -------
    float
        Ne = (Nk - 1) / (k - 1 + V/k), in animals; with k = 2 this is (4N - 2) / (V + 2).
        Equal families (V = 0) give nearly 2N, chance alone (V = 2) about N.

    Raises
    ------
    DomainError
        If a number is out of its range or not finite.

    Notes
    -----
    Both sexes are taken together, with the same mean and variance. The shorter 4N / (V + 2)
    found in textbooks is an approximation of the same.

    References
    ----------
    .. [1] Wright S. (1938) Science 87:430-431; Crow J.F. & Kimura M. (1970) An
       Introduction to Population Genetics Theory (both from memory).

    Examples
    --------
    >>> effective_size_by_family_size(breeders=20, variance=2)
    19.5
    """
    if not 1.0 < breeders < math.inf:
        raise DomainError("number of breeders", breeders, "more than 1")
    _check_variance(variance)
    if not 1.0 < mean < math.inf:
        raise DomainError("mean number of young kept per breeder", mean, "above 1")
    return (breeders * mean - 1.0) / (mean - 1.0 + variance / mean)


def effective_size_of_overlapping_generations(
    *, young_per_interval: float, generation_intervals: float, variance: float = 2.0
) -> float:
    """Give Ne of a line in which animals of several ages breed at one time.

    Parameters
    ----------
    young_per_interval
        Animals that join the breeders in each interval of time (month, say), above 0.
    generation_intervals
        Mean age of the parents when their young hatch, in the same intervals, above 0.
    variance
        Variance over the breeders of the number of young that they leave as breeders in
        their whole life, 0 or more; 2 is chance alone.

    Returns
    -------
    float
        Ne = 4NL / (V + 2), in animals, per generation.

    Raises
    ------
    DomainError
        If a number is out of its range or not finite.

    Notes
    -----
    Numbers and ages must have been steady for some generations.

    References
    ----------
    .. [1] Hill W.G. (1972) Effective size of populations with overlapping generations,
       Theoretical Population Biology 3:278-289 (from memory).

    Examples
    --------
    >>> effective_size_of_overlapping_generations(
    ...     young_per_interval=4, generation_intervals=5, variance=6
    ... )
    10.0
    """
    if not 0.0 < young_per_interval < math.inf:
        raise DomainError("new breeders per interval", young_per_interval, "above 0")
    if not 0.0 < generation_intervals < math.inf:
        raise DomainError("generation length in intervals", generation_intervals, "above 0")
    _check_variance(variance)
    return 4.0 * young_per_interval * generation_intervals / (variance + 2.0)


def inbreeding_rate(*, before: float, after: float, generations: float = 1.0) -> float:
    """Give the rise of inbreeding per generation, as a share of what could still rise.

    Parameters
    ----------
    before
        Mean inbreeding coefficient at the start, 0 or more and below 1.
    after
        Mean inbreeding coefficient at the end, 0 to 1.
    generations
        Generations from start to end, above 0; equivalent generations may be fractional.

    Returns
    -------
    float
        dF = 1 - ((1 - F_end) / (1 - F_start)) ^ (1 / generations); below 0 where
        inbreeding fell, as after an outcross.

    Raises
    ------
    DomainError
        If a number is out of its range or not finite.

    References
    ----------
    .. [1] Falconer D.S. & Mackay T.F.C. (1996) Introduction to Quantitative Genetics,
       ch. 4: dF = (F_t - F_t-1) / (1 - F_t-1); over several generations, the steady rate
       that leads from start to end.

    Examples
    --------
    >>> round(inbreeding_rate(before=0.0, after=0.25), 3)
    0.25
    >>> round(inbreeding_rate(before=0.0, after=0.2, generations=6), 4)
    0.0365
    """
    if not 0.0 <= before < 1.0:
        raise DomainError("inbreeding at the start", before, "0 or more and below 1")
    if not 0.0 <= after <= 1.0:
        raise DomainError("inbreeding at the end", after, "between 0 and 1")
    _check_generations(generations)
    if after == 1.0:
        return 1.0
    kept = (math.log1p(-after) - math.log1p(-before)) / generations
    return -math.expm1(kept)


def effective_size_by_inbreeding_rate(rate: float) -> float | None:
    """Give Ne from the rise of inbreeding per generation.

    Parameters
    ----------
    rate
        Rise per generation as `inbreeding_rate` gives it, at most 1.

    Returns
    -------
    float or None
        Ne = 1 / (2 dF), in animals; None where inbreeding did not rise, since then it
        says nothing of Ne.

    Raises
    ------
    DomainError
        If the rate is above 1 or not a finite number.

    References
    ----------
    .. [1] Falconer D.S. & Mackay T.F.C. (1996) Introduction to Quantitative Genetics,
       ch. 4.

    Examples
    --------
    >>> effective_size_by_inbreeding_rate(0.125)
    4.0
    """
    if not -math.inf < rate <= 1.0:
        raise DomainError("rise of inbreeding per generation", rate, "at most 1")
    return 1.0 / (2.0 * rate) if rate > 0.0 else None


def effective_size_with_selfing(*, animals: float, selfed: float) -> float:
    """Give Ne of hermaphrodites of which some young come from selfing.

    Parameters
    ----------
    animals
        Breeding hermaphrodites, above 0.
    selfed
        Share of the young that have one parent only, 0 to 1.

    Returns
    -------
    float
        Ne = N / (1 + F) with F = s / (2 - s), in animals: N without selfing, N/2 with
        nothing else.

    Raises
    ------
    DomainError
        If a number is out of its range or not finite.

    Notes
    -----
    Holds once the share has been steady for some generations. Many pond snails are
    hermaphrodites that can self; whether and how often depends on the species.

    References
    ----------
    .. [1] Pollak E. (1987) Genetics 117:353-360; Caballero A. & Hill W.G. (1992)
       Genetics 130:909-916 (both from memory).

    Examples
    --------
    >>> effective_size_with_selfing(animals=100, selfed=0.5)
    75.0
    """
    if not 0.0 < animals < math.inf:
        raise DomainError("number of breeding hermaphrodites", animals, "above 0")
    if not 0.0 <= selfed <= 1.0:
        raise DomainError("share of selfed young", selfed, "between 0 and 1")
    return animals * (2.0 - selfed) / 2.0


def effective_size_needed(*, kept: float, generations: float) -> float:
    """Give the steady Ne with which a share of heterozygosity is kept for some generations.

    Parameters
    ----------
    kept
        Share of the heterozygosity of the start to be left at the end, above 0 and below 1.
    generations
        Generations, above 0.

    Returns
    -------
    float
        The Ne that just keeps it, in animals; round up for whole animals.

    Raises
    ------
    DomainError
        If a number is out of its range or not finite.

    References
    ----------
    .. [1] H_t = H_0 (1 - 1/(2 Ne))^t, Wright S. (1931) Genetics 16:97-159, solved for Ne.

    Examples
    --------
    >>> round(effective_size_needed(kept=0.9, generations=10), 1)
    47.7
    """
    if not 0.0 < kept < 1.0:
        raise DomainError("share of heterozygosity to keep", kept, "above 0 and below 1")
    _check_generations(generations)
    return -1.0 / (2.0 * math.expm1(math.log(kept) / generations))


def _check_breeders(**numbers: float) -> None:
    for sex, number in numbers.items():
        if not 0.0 < number < math.inf:
            raise DomainError(f"number of breeding animals, {sex}", number, "above 0")


def _check_size(size: float) -> None:
    if not 0.0 < size < math.inf:
        raise DomainError("effective size", size, "above 0")


def _check_variance(variance: float) -> None:
    if not 0.0 <= variance < math.inf:
        raise DomainError("variance of family size", variance, "0 or more")


def _check_generations(generations: float) -> None:
    if not 0.0 < generations < math.inf:
        raise DomainError("number of generations", generations, "above 0")
