"""Whether a sample looks like a pool that mates at random."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from filialog.domain_error import DomainError
from filialog.statistics.goodness_of_fit import chi_square_tail

__all__ = ["HardyWeinberg", "hardy_weinberg_test"]


@dataclass(frozen=True, slots=True, kw_only=True)
class HardyWeinberg:
    """Genotypes of one locus against Hardy-Weinberg proportions."""

    frequency: float
    """Frequency of the first allele, 0 to 1."""

    expected_counts: tuple[float, float, float]
    """Expected of both pairs of like alleles, with the mixed pair between them."""

    chi_square: float
    """Pearson's chi-square, 0 where only one allele was found."""

    df: int
    """Degrees of freedom: 1, the frequency being estimated; 0 with one allele."""

    p_value: float
    """Its p value; 1 where only one allele was found."""

    missing_share: float | None
    """Share of the expected mixed pairs that is missing (F), below 0 where there are too
    many; None where only one allele was found."""


def hardy_weinberg_test(observed: Sequence[int]) -> HardyWeinberg:
    """Compare counts of A/A, A/a and a/a with a pool that mates at random.

    Parameters
    ----------
    observed
        Animals of each of the three genotypes.

    Returns
    -------
    HardyWeinberg
        Expected counts, chi-square and the shortage of mixed pairs.

    Raises
    ------
    DomainError
        If there are not three counts, one is negative, or no animal was counted.

    References
    ----------
    .. [1] Hardy G.H. (1908) Science 28:49-50 (from memory).

    Examples
    --------
    >>> result = hardy_weinberg_test((905, 78, 3))
    >>> round(result.frequency, 4), round(result.chi_square, 3), round(result.p_value, 3)
    (0.9574, 0.894, 0.344)
    """
    if len(observed) != 3:
        raise DomainError("number of genotypes", len(observed), "3")
    for count in observed:
        if not 0 <= count < math.inf:
            raise DomainError("count", count, "0 or more")
    total = sum(observed)
    if total == 0:
        raise DomainError("animals counted", 0, "1 or more")
    first = 2 * observed[0] + observed[1]
    frequency, other = first / (2 * total), (2 * total - first) / (2 * total)
    expected = (
        total * frequency * frequency,
        2.0 * total * frequency * other,
        total * other * other,
    )
    if first in {0, 2 * total}:
        return HardyWeinberg(
            frequency=frequency,
            expected_counts=expected,
            chi_square=0.0,
            df=0,
            p_value=1.0,
            missing_share=None,
        )
    statistic = sum((o - e) ** 2 / e for o, e in zip(observed, expected, strict=True))
    return HardyWeinberg(
        frequency=frequency,
        expected_counts=expected,
        chi_square=statistic,
        df=1,
        p_value=chi_square_tail(statistic=statistic, df=1),
        missing_share=1.0 - observed[1] / expected[1],
    )
