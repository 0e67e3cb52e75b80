"""How strongly a count speaks for one expectation against another."""

import math
from collections.abc import Sequence

from filialog.domain_error import DomainError
from filialog.statistics.counts import (
    Components,
    Share,
    Shares,
    checked_components,
    checked_counts,
    checked_odds,
    checked_shares,
)

__all__ = [
    "break_even_share",
    "log_likelihood",
    "log_likelihood_ratio",
    "more_needed",
    "young_needed",
    "young_to_see",
]

_EQUAL_SHARES = 1e-12
"""Shares closer than this are the same: they differ by rounding only."""


def log_multinomial(counts: Sequence[int], shares: Sequence[float]) -> float:
    """Return the log probability of checked counts under checked shares."""
    total = math.lgamma(sum(counts) + 1)
    for count, share in zip(counts, shares, strict=True):
        if count > 0:
            if share == 0.0:
                return -math.inf
            total += count * math.log(share) - math.lgamma(count + 1)
    return total


def log_sum(logs: Sequence[float]) -> float:
    """Return the log of a sum of numbers given by their logs."""
    top = max(logs)
    if top == -math.inf:
        return top
    return top + math.log(math.fsum(math.exp(log - top) for log in logs))


def shares_equal(first: Sequence[float], second: Sequence[float]) -> bool:
    """Tell whether two checked share vectors differ by rounding only."""
    return all(abs(a - b) <= _EQUAL_SHARES for a, b in zip(first, second, strict=True))


def log_likelihood(observed: Sequence[int], components: Components) -> float:
    """Return the log probability of a count under a mixture of multinomials.

    Parameters
    ----------
    observed
        Animals counted in each class.
    components
        (weight, shares) pairs: with probability `weight` the whole brood follows
        `shares`. Plain shares are one component of weight 1, see `single`.

    Returns
    -------
    float
        Natural logarithm of the probability, multinomial coefficient included;
        minus infinity when no component can give the count; 0 for no animals.

    Raises
    ------
    DomainError
        If counts, weights or shares are not valid.

    Notes
    -----
    Young of one brood share their parents. When one of two sires is the father,
    the brood is a mixture of two binomials, not one binomial with the average.

    Examples
    --------
    No recessive among 8 young, when the sire is A/A or A/a with equal chances and
    the dam a/a shows half recessives with an A/a sire:

    >>> mixture = [(0.5, (1.0, 0.0)), (0.5, (0.5, 0.5))]
    >>> round(math.exp(log_likelihood([8, 0], mixture)), 4)
    0.502
    """
    counts = checked_counts(observed)
    checked = checked_components(components, classes=len(counts))
    return log_sum([math.log(weight) + log_multinomial(counts, s) for weight, s in checked])


def log_likelihood_ratio(
    observed: Sequence[int], *, expected: Components, rival: Components
) -> float | None:
    """Return how much better the expectation explains a count than a rival does.

    Parameters
    ----------
    observed
        Animals counted in each class.
    expected, rival
        Two mixtures as in `log_likelihood`.

    Returns
    -------
    float or None
        Natural log of the likelihood ratio, positive when it favours `expected`;
        infinite when only one of the two can give the count; None when neither can.

    Examples
    --------
    12 orange of 40 young, 3:1 against 1:1 (the inverse is 0.0481):

    >>> from filialog.statistics.counts import single
    >>> ratio = log_likelihood_ratio(
    ...     [28, 12], expected=single((0.75, 0.25)), rival=single((0.5, 0.5))
    ... )
    >>> round(math.exp(ratio), 2)
    20.81
    """
    for_expected = log_likelihood(observed, expected)
    for_rival = log_likelihood(observed, rival)
    if for_expected == for_rival == -math.inf:
        return None
    return for_expected - for_rival


def break_even_share(first: Share, second: Share) -> float:
    """Return the observed share of a class that speaks for neither of two expectations.

    Parameters
    ----------
    first, second
        Two different expected shares, above 0 and below 1.

    Returns
    -------
    float
        The share between them at which both likelihoods are equal.

    Raises
    ------
    DomainError
        If a share is out of range, or both are equal.

    Examples
    --------
    >>> round(break_even_share(0.5, 0.25), 3)
    0.369
    """
    one, other = float(first), float(second)
    for share in (one, other):
        if not 0.0 < share < 1.0:
            raise DomainError("share", share, "above 0 and below 1")
    if one == other:
        raise DomainError("second share", other, "other than the first")
    against = math.log((1.0 - other) / (1.0 - one))
    return against / (math.log(one / other) + against)


def _information_per_young(expected: Sequence[float], rival: Sequence[float]) -> float:
    """Return the Kullback-Leibler divergence: mean log likelihood ratio of one young."""
    total = 0.0
    for own, other in zip(expected, rival, strict=True):
        if other > 0.0:
            # Terms that are never negative, so that close shares do not cancel out.
            more = own - other
            total += (own * math.log1p(more / other) if own > 0.0 else 0.0) - more
        elif own > 0.0:
            return math.inf
    return total


def young_to_settle(
    *, wanted: float, so_far: float, expected: Sequence[float], rival: Sequence[float]
) -> int | None:
    """Return how many more young lift the log likelihood ratio `so_far` to `wanted`.

    Works on checked shares; see `more_needed` for the rule.
    """
    if so_far >= wanted:
        return 0
    if shares_equal(expected, rival):
        return None
    decisive = math.fsum(own for own, other in zip(expected, rival, strict=True) if other == 0.0)
    if decisive >= 1.0:
        return 1
    if decisive > 0.0:
        return max(1, math.ceil(wanted / -math.log1p(-decisive)))
    return max(1, math.ceil((wanted - so_far) / _information_per_young(expected, rival)))


def young_needed(
    expected_shares: Shares, rival_shares: Shares, *, odds: float = 20.0
) -> int | None:
    """Return how many young should tell two expectations apart.

    Parameters
    ----------
    expected_shares, rival_shares
        Shares of the same classes. The count is planned as if `expected_shares`
        were right.
    odds
        Odds to one wanted in favour of the expectation, above 1.

    Returns
    -------
    int or None
        Smallest n for which the expected log likelihood ratio, n times the
        Kullback-Leibler divergence, reaches the log of `odds`. None when the two
        are equal: no number of young tells them apart. 1 when the rival lacks a
        class that the expectation shows, since one young of it decides;
        `young_to_see` tells how many young make that one likely.

    Raises
    ------
    DomainError
        If the shares or the odds are not valid.

    Notes
    -----
    An average: about half of all broods of that size still fall short.

    References
    ----------
    .. [1] Kullback S. & Leibler R.A. (1951) Annals of Mathematical Statistics
       22:79-86 (from memory).

    Examples
    --------
    >>> young_needed((0.75, 0.25), (0.5, 0.5))
    23
    >>> young_needed((0.5, 0.5), (0.5, 0.5)) is None
    True
    """
    expected = checked_shares(expected_shares, classes=len(expected_shares))
    rival = checked_shares(rival_shares, classes=len(expected))
    wanted = checked_odds(odds)
    if shares_equal(expected, rival):
        return None
    per_young = _information_per_young(expected, rival)
    return max(1, math.ceil(wanted / per_young))


def more_needed(
    observed: Sequence[int],
    *,
    expected_shares: Shares,
    rival_shares: Shares,
    odds: float = 20.0,
) -> int | None:
    """Return how many more young should settle expectation against rival.

    Parameters
    ----------
    observed
        What was counted so far, by class.
    expected_shares, rival_shares
        Shares of the same classes.
    odds
        Odds to one wanted in favour of the expectation, above 1.

    Returns
    -------
    int or None
        0 when the count already gives these odds. Else the number that is
        expected to add what is missing; where the rival lacks a look, the number
        that shows that look with a chance of at least 1 - 1/odds, whatever was
        counted before. None when the two are equal, or when the expectation
        cannot give what was counted.

    Raises
    ------
    DomainError
        If counts, shares or odds are not valid.

    Examples
    --------
    Ten young without an orange one, 3:1 expected, against "no orange possible":

    >>> more_needed([10, 0], expected_shares=(0.75, 0.25), rival_shares=(1.0, 0.0))
    11
    """
    counts = checked_counts(observed)
    expected = checked_shares(expected_shares, classes=len(counts))
    rival = checked_shares(rival_shares, classes=len(counts))
    wanted = checked_odds(odds)
    so_far = log_multinomial(counts, expected)
    if so_far == -math.inf:
        return None
    return young_to_settle(
        wanted=wanted,
        so_far=so_far - log_multinomial(counts, rival),
        expected=expected,
        rival=rival,
    )


def young_to_see(*, share: float, confidence: float = 0.95) -> int | None:
    """Return how many young show at least one of a class with a given chance.

    Parameters
    ----------
    share
        Share of the class among the young, 0 to 1.
    confidence
        Wanted chance of at least one, between 0 and 1.

    Returns
    -------
    int or None
        Smallest n with 1 - (1 - share)^n of at least `confidence`; None when the
        share is 0.

    Raises
    ------
    DomainError
        If share or confidence is out of range.

    Examples
    --------
    One of four young is recessive, and one shall be seen with 95 %:

    >>> young_to_see(share=0.25)
    11
    """
    if not 0.0 <= share <= 1.0:
        raise DomainError("share", share, "between 0 and 1")
    if not 0.0 < confidence < 1.0:
        raise DomainError("confidence", confidence, "above 0 and below 1")
    if share == 0.0:
        return None
    if share == 1.0:
        return 1
    number = max(1, math.ceil(math.log1p(-confidence) / math.log1p(-share)))
    # A quotient that should be whole may come out a hair above it.
    if number > 1 and -math.expm1((number - 1) * math.log1p(-share)) >= confidence:
        number -= 1
    return number
