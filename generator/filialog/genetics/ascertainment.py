"""Shares among families that were recorded only because one of their young stood out."""

from collections.abc import Iterable
from fractions import Fraction

from filialog.domain_error import DomainError

__all__ = ["share_without_singles", "truncated_share"]


def truncated_share(share: Fraction, young: int) -> Fraction:
    """Return the share to expect in families that show at least one of a class.

    Parameters
    ----------
    share
        Share of the class among all young of such parents, above 0 and at most 1.
    young
        Young of each family, 1 or more.

    Returns
    -------
    Fraction
        p / (1 - (1 - p)ⁿ): larger than p, because families without the class were
        never noticed.

    Raises
    ------
    DomainError
        If the share or the number is out of range.

    References
    ----------
    .. [1] Li C.C., Mantel N. (1968) Am. J. Hum. Genet. 20:61-81.

    Examples
    --------
    >>> truncated_share(Fraction(1, 4), 2)
    Fraction(4, 7)
    """
    if not 0 < share <= 1:
        raise DomainError("share", share, "above 0 and at most 1")
    if young < 1:
        raise DomainError("young of a family", young, "1 or more")
    return Fraction(share) / (1 - (1 - Fraction(share)) ** young)


def share_without_singles(families: Iterable[tuple[int, int]]) -> Fraction | None:
    """Estimate the share of a class from families recorded because they show it.

    Parameters
    ----------
    families
        Young of each family, and how many of them show the class: 1 or more.

    Returns
    -------
    Fraction or None
        (R - J) / (T - J) with R of the class among T young, and J families that show
        it once. None where nothing is left to divide by.

    Raises
    ------
    DomainError
        If a family shows the class in none or in more young than it has.

    Notes
    -----
    Right for families that were all recorded (complete ascertainment), each brood
    with parents that can give the class.

    References
    ----------
    .. [1] Li C.C., Mantel N. (1968) Am. J. Hum. Genet. 20:61-81.

    Examples
    --------
    >>> share_without_singles([(4, 1), (4, 2), (5, 1)])
    Fraction(2, 11)
    """
    young = shown = singles = 0
    for size, seen in families:
        if not 1 <= seen <= size:
            raise DomainError("young of the class in a family", seen, f"1 to {size}")
        young += size
        shown += seen
        singles += seen == 1
    return Fraction(shown - singles, young - singles) if young > singles else None
