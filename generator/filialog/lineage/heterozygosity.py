"""How much variation a line keeps: after its founding, over generations, and of rare alleles."""

import math
from collections.abc import Sequence

from filialog.domain_error import DomainError

__all__ = [
    "chance_allele_is_founded",
    "founding_heterozygosity",
    "gene_diversity",
    "generations_until",
    "heterozygosity_forecast",
    "heterozygosity_kept",
    "inbreeding_forecast",
]


def founding_heterozygosity(founders: int) -> float:
    """Give the share of the source's heterozygosity that a sample of founders carries.

    Parameters
    ----------
    founders
        Unrelated, non-inbred animals taken at random from a large source, 1 or more.

    Returns
    -------
    float
        1 - 1/(2n), of the heterozygosity expected in the source.

    Raises
    ------
    DomainError
        If there is no founder.

    Notes
    -----
    This is the expected heterozygosity of the founders' genes (their gene diversity), which
    their young have when they mate at random, selfing included. Bought stock of one shop is
    seldom unrelated, so the real share is smaller.

    References
    ----------
    .. [1] Sampling of 2n genes; Wright S. (1931) Genetics 16:97-159.

    Examples
    --------
    >>> [founding_heterozygosity(n) for n in (1, 5, 10)]
    [0.5, 0.9, 0.95]
    """
    if not 1 <= founders < math.inf:
        raise DomainError("number of founders", founders, "1 or more")
    return 1.0 - 1.0 / (2.0 * founders)


def chance_allele_is_founded(*, frequency: float, founders: int) -> float:
    """Give the chance that founders bring an allele of the source at all.

    Parameters
    ----------
    frequency
        Frequency of the allele in the source, 0 to 1.
    founders
        Unrelated, non-inbred animals taken at random from a large source, 0 or more.

    Returns
    -------
    float
        1 - (1 - p)^(2n).

    Raises
    ------
    DomainError
        If a number is out of its range.

    References
    ----------
    .. [1] Binomial sampling of 2n genes.

    Examples
    --------
    >>> round(chance_allele_is_founded(frequency=0.05, founders=10), 3)
    0.642
    """
    if not 0.0 <= frequency <= 1.0:
        raise DomainError("frequency of the allele", frequency, "between 0 and 1")
    if not 0 <= founders < math.inf:
        raise DomainError("number of founders", founders, "0 or more")
    if frequency == 1.0:
        return 1.0 if founders else 0.0
    return -math.expm1(2.0 * founders * math.log1p(-frequency))


def heterozygosity_kept(effective_sizes: Sequence[float]) -> float:
    """Give the share of heterozygosity left after generations of known Ne.

    Parameters
    ----------
    effective_sizes
        Ne of each generation, at least 0.5 each; with none of them nothing is lost.

    Returns
    -------
    float
        The product of 1 - 1/(2 Ne), 0 to 1.

    Raises
    ------
    DomainError
        If a size is below 0.5 or not finite.

    Notes
    -----
    Expected over many neutral autosomal loci: no selection, mutation or newcomers.

    References
    ----------
    .. [1] Wright S. (1931) Evolution in Mendelian populations, Genetics 16:97-159.

    Examples
    --------
    >>> round(heterozygosity_kept([2, 10, 40, 40, 40]), 4)
    0.6861
    """
    return math.prod(1.0 - 1.0 / (2.0 * _checked_size(size)) for size in effective_sizes)


def heterozygosity_forecast(
    *, effective_size: float, generations: int, start: float = 1.0
) -> tuple[float, ...]:
    """Give the heterozygosity of each coming generation at a steady Ne.

    Parameters
    ----------
    effective_size
        Ne of every generation, at least 0.5.
    generations
        Generations to look ahead, 0 or more.
    start
        Heterozygosity now, 0 to 1; 1 counts in shares of what is there now.

    Returns
    -------
    tuple of float
        H_0 (1 - 1/(2 Ne))^t for t = 0, 1, … `generations`: one value more than generations.

    Raises
    ------
    DomainError
        If a number is out of its range or not finite.

    Notes
    -----
    As `heterozygosity_kept`.

    References
    ----------
    .. [1] Wright S. (1931) Evolution in Mendelian populations, Genetics 16:97-159.

    Examples
    --------
    >>> heterozygosity_forecast(effective_size=2, generations=2)
    (1.0, 0.75, 0.5625)
    """
    step = 1.0 - 1.0 / (2.0 * _checked_size(effective_size))
    if not 0 <= generations < math.inf:
        raise DomainError("number of generations", generations, "0 or more")
    if not 0.0 <= start <= 1.0:
        raise DomainError("heterozygosity now", start, "between 0 and 1")
    return tuple(start * step**t for t in range(generations + 1))


def inbreeding_forecast(
    *, effective_size: float, generations: int, start: float = 0.0
) -> tuple[float, ...]:
    """Give the mean inbreeding of each coming generation at a steady Ne.

    Parameters
    ----------
    effective_size
        Ne of every generation, at least 0.5.
    generations
        Generations to look ahead, 0 or more.
    start
        Mean inbreeding coefficient now, 0 to 1.

    Returns
    -------
    tuple of float
        F_t = 1 - (1 - F_0)(1 - 1/(2 Ne))^t for t = 0, 1, … `generations`.

    Raises
    ------
    DomainError
        If a number is out of its range or not finite.

    Notes
    -----
    Where selfing does not occur, the first generation from unrelated founders is not inbred
    at all and the rise sets in one generation later than this ideal population has it.

    References
    ----------
    .. [1] Wright S. (1931) Evolution in Mendelian populations, Genetics 16:97-159.

    Examples
    --------
    >>> inbreeding_forecast(effective_size=2, generations=2)
    (0.0, 0.25, 0.4375)
    """
    if not 0.0 <= start <= 1.0:
        raise DomainError("inbreeding now", start, "between 0 and 1")
    left = heterozygosity_forecast(
        effective_size=effective_size, generations=generations, start=1.0 - start
    )
    return tuple(1.0 - share for share in left)


def generations_until(*, kept: float, effective_size: float) -> float:
    """Give the generations after which only a share of heterozygosity is left.

    Parameters
    ----------
    kept
        Share of the heterozygosity of now, above 0 and at most 1.
    effective_size
        Steady Ne, above 0.5.

    Returns
    -------
    float
        ln(kept) / ln(1 - 1/(2 Ne)), in generations; with 0.5 the half-life.

    Raises
    ------
    DomainError
        If a number is out of its range or not finite.

    References
    ----------
    .. [1] Wright S. (1931) Genetics 16:97-159, H_t = H_0 (1 - 1/(2 Ne))^t solved for t.

    Examples
    --------
    >>> round(generations_until(kept=0.5, effective_size=20), 1)
    27.4
    """
    if not 0.0 < kept <= 1.0:
        raise DomainError("share of heterozygosity left", kept, "above 0 and at most 1")
    if not 0.5 < effective_size < math.inf:
        raise DomainError("effective size", effective_size, "above 0.5")
    return math.log(kept) / math.log1p(-1.0 / (2.0 * effective_size))


def gene_diversity(mean_kinship: float) -> float:
    """Give the expected heterozygosity of a line as a share of that of its founders' source.

    Parameters
    ----------
    mean_kinship
        Mean kinship over all ordered pairs of living animals, each with itself included,
        0 to 1.

    Returns
    -------
    float
        1 - mean kinship.

    Raises
    ------
    DomainError
        If the mean kinship is out of its range.

    References
    ----------
    .. [1] Lacy R.C. (1995) Clarification of genetic terms and their use in the management
       of captive populations, Zoo Biology 14:565-578 (from memory).

    Examples
    --------
    >>> gene_diversity(0.25)
    0.75
    """
    if not 0.0 <= mean_kinship <= 1.0:
        raise DomainError("mean kinship", mean_kinship, "between 0 and 1")
    return 1.0 - mean_kinship


def _checked_size(size: float) -> float:
    if not 0.5 <= size < math.inf:
        raise DomainError("effective size", size, "0.5 or more")
    return size
