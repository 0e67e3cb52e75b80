"""How alike sibs are, and the heritability that this would mean."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from filialog.domain_error import DomainError
from filialog.genetics.number_ranges import check_confidence, check_finite

__all__ = ["SibCorrelation", "heritability_from_sibs", "sib_correlation"]

_ROUNDING = 1e-12


@dataclass(frozen=True, slots=True, kw_only=True)
class SibCorrelation:
    """How alike the members of a family are."""

    correlation: float | None
    """Intraclass correlation t; None where the grades do not vary or too few were made. Chance
    may take it below 0."""

    low: float | None
    """Lower limit; None where there is no correlation, or the grades do not vary within
    families or not between them and so show no scatter to judge it by."""

    high: float | None
    """Upper limit, or None."""


def sib_correlation(
    families: Sequence[Sequence[float]], *, confidence: float = 0.95
) -> SibCorrelation:
    """Give the correlation of sibs from the grades of several families.

    Parameters
    ----------
    families
        Grades of the young of each family; families without grades are left out.
    confidence
        Wanted coverage of the interval, between 0 and 1.

    Returns
    -------
    SibCorrelation
        t = (MSB - MSW) / (MSB + (n - 1) MSW), with n the family size corrected for unequal
        families; needs two families and one of at least two young.

    Raises
    ------
    DomainError
        If a grade is not finite or the confidence is out of range.

    Notes
    -----
    The interval is exact for normal grades in families of equal size, and near it where
    sizes differ.

    References
    ----------
    .. [1] Falconer D.S. & Mackay T.F.C. (1996) ch. 10; Searle S.R. (1971) Linear Models,
       ch. 9 for the interval (both from memory).

    Examples
    --------
    >>> sib_correlation([[1, 2, 3], [4, 5, 7]]).correlation
    0.75
    """
    check_confidence(confidence)
    for grade in (grade for family in families for grade in family):
        check_finite("grade", grade)
    nothing = SibCorrelation(correlation=None, low=None, high=None)
    graded = [family for family in families if family]
    sizes = [len(family) for family in graded]
    total, groups = sum(sizes), len(graded)
    if groups < 2 or total == groups:
        return nothing
    size = (total - sum(n * n for n in sizes) / total) / (groups - 1)
    means = [math.fsum(family) / len(family) for family in graded]
    overall = math.fsum(grade for family in graded for grade in family) / total
    between = math.fsum(n * (mean - overall) ** 2 for n, mean in zip(sizes, means, strict=True)) / (
        groups - 1
    )
    within = math.fsum(
        (grade - mean) ** 2 for family, mean in zip(graded, means, strict=True) for grade in family
    ) / (total - groups)
    if not between and not within:
        return nothing
    correlation = _intraclass(between, within, size)
    if min(between, within) <= _ROUNDING * max(between, within):
        return SibCorrelation(correlation=correlation, low=None, high=None)
    from scipy.special import fdtri  # noqa: PLC0415 - a quick command should not load it

    tail = (1.0 - confidence) / 2.0
    limits = [
        _intraclass(between, within * float(fdtri(groups - 1, total - groups, part)), size)
        for part in (1.0 - tail, tail)
    ]
    return SibCorrelation(correlation=correlation, low=limits[0], high=limits[1])


def heritability_from_sibs(*, correlation: float, full_sibs: bool) -> float:
    """Give the heritability that a correlation of sibs would mean.

    Parameters
    ----------
    correlation
        Intraclass correlation of the sibs, -1 to 1.
    full_sibs
        Whether the sibs share both parents; otherwise one.

    Returns
    -------
    float
        4 t of half sibs, 2 t of full sibs. Of full sibs it is an upper limit, since brood
        mates also share dominance and their tank. Chance may take it out of 0 to 1.

    Raises
    ------
    DomainError
        If the correlation is out of its range.

    References
    ----------
    .. [1] Falconer D.S. & Mackay T.F.C. (1996) Introduction to Quantitative Genetics,
       ch. 10.

    Examples
    --------
    >>> heritability_from_sibs(correlation=0.121, full_sibs=False)
    0.484
    """
    if not -1.0 <= correlation <= 1.0:
        raise DomainError("correlation of sibs", correlation, "between -1 and 1")
    return (2.0 if full_sibs else 4.0) * correlation


def _intraclass(between: float, within: float, size: float) -> float:
    return (between - within) / (between + (size - 1.0) * within)
