"""Whether several broods agree with one expectation, and with one another."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from filialog.domain_error import DomainError
from filialog.statistics.counts import Shares, checked_counts, checked_shares
from filialog.statistics.goodness_of_fit import (
    FitState,
    FitTest,
    chi_square_tail,
    chi_square_test,
    g_test,
)

__all__ = ["BroodHeterogeneity", "Part", "brood_heterogeneity"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One line of the partition."""

    statistic: float
    """Chi-square or G; infinite when an impossible class was seen."""

    df: int
    """Degrees of freedom."""

    p_value: float
    """Upper tail probability; 1 when there are no degrees of freedom."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BroodHeterogeneity:
    """Replicated test of fit: total = pooled + heterogeneity."""

    state: FitState
    """Whether the broods could be tested at all."""

    broods: int
    """How many broods have animals; empty ones take no part."""

    pooled_counts: tuple[int, ...]
    """Animals of all broods by class."""

    total_chi_square: Part
    """Chi-squares of all broods added up."""

    pooled_chi_square: Part
    """Chi-square of the pooled counts: do the broods together fit?"""

    heterogeneity_chi_square: Part | None
    """Total less pooled: do the broods differ? None when the state is impossible."""

    total_g: Part
    """G of all broods added up."""

    pooled_g: Part
    """G of the pooled counts."""

    heterogeneity_g: Part | None
    """Total less pooled, which is exactly the G of the contingency table."""

    contingency_chi_square: Part
    """Homogeneity of the broods by chi-square, without any expectation."""


def _part(statistic: float, df: int) -> Part:
    # A difference of two equal sums can come out a hair below zero.
    statistic = max(0.0, statistic)
    return Part(statistic=statistic, df=df, p_value=chi_square_tail(statistic=statistic, df=df))


def _partition(fits: Sequence[FitTest], pooled: FitTest) -> tuple[Part, Part, Part | None]:
    total_statistic = math.fsum(fit.statistic for fit in fits)
    total = _part(total_statistic, sum(fit.df for fit in fits))
    of_pool = Part(statistic=pooled.statistic, df=pooled.df, p_value=pooled.p_value)
    if pooled.state is FitState.IMPOSSIBLE:
        # Nothing is left to say with infinite statistics, whatever the degrees of freedom.
        return Part(statistic=math.inf, df=total.df, p_value=0.0), of_pool, None
    between = _part(total_statistic - pooled.statistic, max(0, len(fits) - 1) * pooled.df)
    return total, of_pool, between


def _contingency(broods: Sequence[Sequence[int]], pooled: Sequence[int]) -> Part:
    whole = sum(pooled)
    seen = [column for column, count in enumerate(pooled) if count > 0]
    statistic = math.fsum(
        (brood[column] - expected) ** 2 / expected
        for brood in broods
        for column in seen
        for expected in [sum(brood) * pooled[column] / whole]
    )
    return _part(statistic, max(0, len(broods) - 1) * max(0, len(seen) - 1))


def brood_heterogeneity(broods: Sequence[Sequence[int]], shares: Shares) -> BroodHeterogeneity:
    """Test several broods against one expectation, together and between them.

    Parameters
    ----------
    broods
        One count per brood, all with the same classes. A brood without animals
        takes no part.
    shares
        Expected share of each class, together 1.

    Returns
    -------
    BroodHeterogeneity
        Total, pooled and heterogeneity by chi-square and by G, and the
        contingency chi-square.

    Raises
    ------
    DomainError
        If there is no brood, the classes differ, or counts or shares are not valid.

    Notes
    -----
    Pooled broods can fit although they differ from one another, when their
    deviations cancel out. For G, heterogeneity equals the contingency G exactly;
    for chi-square the two differ a little. All p values are large-sample
    approximations. The broods must have the same expectation each: a mixture over
    unknown parents makes broods differ by itself.

    References
    ----------
    .. [1] Mather K. (1938) The Measurement of Linkage in Heredity (method; from
       memory).
    .. [2] Sokal R.R. & Rohlf F.J., Biometry, replicated tests of goodness of fit
       (from memory).

    Examples
    --------
    >>> result = brood_heterogeneity(
    ...     [[18, 2], [15, 9], [22, 6], [9, 8], [30, 5]], [0.75, 0.25]
    ... )
    >>> round(result.pooled_chi_square.p_value, 3)
    0.836
    >>> round(result.heterogeneity_chi_square.p_value, 3)
    0.025
    """
    if len(broods) == 0:
        raise DomainError("number of broods", 0, "1 or more")
    counts = [checked_counts(brood) for brood in broods]
    numbers = checked_shares(shares, classes=len(counts[0]))
    for brood in counts:
        if len(brood) != len(numbers):
            raise DomainError("number of classes of a brood", len(brood), str(len(numbers)))
    pooled = tuple(sum(column) for column in zip(*counts, strict=True))
    filled = [brood for brood in counts if sum(brood) > 0]
    pooled_chi_square = chi_square_test(pooled, numbers)
    chi_square = _partition([chi_square_test(b, numbers) for b in filled], pooled_chi_square)
    g = _partition([g_test(b, numbers) for b in filled], g_test(pooled, numbers))
    return BroodHeterogeneity(
        state=pooled_chi_square.state,
        broods=len(filled),
        pooled_counts=pooled,
        total_chi_square=chi_square[0],
        pooled_chi_square=chi_square[1],
        heterogeneity_chi_square=chi_square[2],
        total_g=g[0],
        pooled_g=g[1],
        heterogeneity_g=g[2],
        contingency_chi_square=_contingency(filled, pooled),
    )
