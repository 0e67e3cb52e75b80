"""The exact binomial test under its several conventions."""

from dataclasses import dataclass

from filialog.domain_error import DomainError
from filialog.statistics.counts import Share
from filialog.statistics.exact_test import exact_test

__all__ = ["BinomialTails", "binomial_tails"]


@dataclass(frozen=True, slots=True, kw_only=True)
class BinomialTails:
    """The p values of one count of two classes."""

    observed: float
    """Probability of exactly this count."""

    at_most: float
    """One-sided: probability of so many or fewer."""

    at_least: float
    """One-sided: probability of so many or more."""

    two_sided: float
    """Two-sided by probability, the convention of this program: all counts that are not
    more probable than the observed one."""

    doubled: float
    """Two-sided by doubling the smaller tail, at most 1."""

    mid: float
    """Two-sided mid-p: the smaller tail doubled, less the probability of the count itself."""


def binomial_tails(*, seen: int, counted: int, share: Share) -> BinomialTails:
    """Test how many of a class were seen against its expected share, exactly.

    Parameters
    ----------
    seen
        Animals of the class, 0 to `counted`.
    counted
        All animals, 0 or more; with 0 every p value is 1.
    share
        Expected share of the class, 0 to 1; 1/2 for a sex ratio.

    Returns
    -------
    BinomialTails
        One-sided tails and the three two-sided conventions.

    Raises
    ------
    DomainError
        If a number or the share is out of range, or more than 999,999 were counted.

    Notes
    -----
    The three two-sided values agree where the share is 1/2, but for the mid-p. State which
    one is shown; a p value chosen after looking at all of them means nothing.

    References
    ----------
    .. [1] Lancaster H.O. (1961) Journal of the American Statistical Association
       56:223-234 (mid-p; from memory).

    Examples
    --------
    Two of ten against one half:

    >>> tails = binomial_tails(seen=2, counted=10, share=0.5)
    >>> round(tails.at_most, 4), round(tails.two_sided, 4), round(tails.mid, 4)
    (0.0547, 0.1094, 0.0654)
    """
    if not counted >= 0:
        raise DomainError("number of animals counted", counted, "0 or more")
    if not 0 <= seen <= counted:
        raise DomainError("number of animals seen", seen, f"between 0 and {counted}")
    fit = exact_test([seen, counted - seen], [(1, (share, 1 - share))])
    from scipy.special import bdtr, bdtrc  # noqa: PLC0415 - a quick command should not load it

    at_most = float(bdtr(seen, counted, float(share)))
    at_least = float(bdtrc(seen - 1, counted, float(share))) if seen > 0 else 1.0
    smaller = min(at_most, at_least)
    return BinomialTails(
        observed=fit.observed_probability,
        at_most=at_most,
        at_least=at_least,
        two_sided=fit.p_value,
        doubled=min(1.0, 2.0 * smaller),
        mid=max(0.0, min(1.0, 2.0 * smaller - fit.observed_probability)),
    )
