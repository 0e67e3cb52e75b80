"""How many young to plan for, so that two expected shares can be told apart."""

import math
from dataclasses import dataclass

from filialog.domain_error import DomainError
from filialog.statistics.counts import Share

__all__ = [
    "CutoffDesign",
    "chance_to_reject",
    "cutoff_design",
    "normal_family_size",
    "young_to_reject",
]

_MOST_YOUNG = 20_000
"""A plan for more young than this is not searched for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CutoffDesign:
    """A plan that tells a lower share from a higher one by a single number."""

    young: int
    """Young to count."""

    cutoff: int
    """So many of the class, or more, speak for the higher share; fewer for the lower."""

    wrong_if_low: float
    """Chance of deciding for the higher share where the lower one is right."""

    wrong_if_high: float
    """Chance of deciding for the lower share where the higher one is right."""


def _checked_pair(first: Share, second: Share) -> tuple[float, float]:
    one, other = float(first), float(second)
    for share in (one, other):
        if not 0.0 <= share <= 1.0:
            raise DomainError("share", share, "between 0 and 1")
    if one == other:
        raise DomainError("second share", other, "other than the first")
    return one, other


def _checked_chance(what: str, chance: float) -> None:
    if not 0.0 < chance < 1.0:
        raise DomainError(what, chance, "above 0 and below 1")


def normal_family_size(*, first: Share, second: Share, deviate: float = 1.96) -> float:
    """Return how many young tell two shares apart, by the normal approximation.

    Parameters
    ----------
    first, second
        Two different shares of a class, 0 to 1.
    deviate
        Standard normal deviate kept from both shares, above 0: 1.96 leaves 2.5 % beyond it
        on each side, 2.576 half a percent.

    Returns
    -------
    float
        The number at which both reaches meet; round it up.

    Raises
    ------
    DomainError
        If a share is out of range, both are equal, or the deviate is not above 0.

    Notes
    -----
    n = deviate² (√(pq) + √(PQ))² / (p − P)². `cutoff_design` gives the exact number.

    References
    ----------
    .. [1] Hanson W.D. (1959) Agronomy Journal 51:711-715.

    Examples
    --------
    >>> round(normal_family_size(first=0.25, second=0.5), 2)
    53.51
    """
    one, other = _checked_pair(first, second)
    if not 0.0 < deviate < math.inf:
        raise DomainError("deviate", deviate, "above 0")
    spreads = math.sqrt(one * (1.0 - one)) + math.sqrt(other * (1.0 - other))
    return (deviate * spreads / (one - other)) ** 2


def cutoff_design(
    *,
    low: Share,
    high: Share,
    most_wrong_if_low: Share = 0.05,
    most_wrong_if_high: Share = 0.05,
) -> CutoffDesign | None:
    """Find the smallest number of young that tells two shares apart, exactly.

    Parameters
    ----------
    low, high
        The two shares of a class, 0 to 1, `low` below `high`.
    most_wrong_if_low, most_wrong_if_high
        Tolerated chances of a wrong decision, between 0 and 1.

    Returns
    -------
    CutoffDesign or None
        The plan, by the binomial distribution; its cut-off is the lowest that keeps the first
        chance. None if more than 20,000 young would be needed.

    Raises
    ------
    DomainError
        If a share or a chance is out of range.

    Notes
    -----
    A few larger numbers fail again, because counts are whole: keep to the number planned.

    Examples
    --------
    >>> design = cutoff_design(low=0.25, high=0.5)
    >>> design.young, design.cutoff
    (42, 16)
    """
    one, other = _checked_pair(low, high)
    if one > other:
        raise DomainError("higher share", other, f"above {one}")
    first, second = float(most_wrong_if_low), float(most_wrong_if_high)
    _checked_chance("chance of a wrong decision", first)
    _checked_chance("chance of a wrong decision", second)
    from scipy.special import bdtr  # noqa: PLC0415 - a quick command should not load it

    cutoff = 0
    for young in range(1, _MOST_YOUNG + 1):
        # The lowest cut-off that keeps the first chance never falls as the number grows.
        while cutoff <= young and _at_least(cutoff, young, one) > first:
            cutoff += 1
        if cutoff > young:
            continue
        missed = float(bdtr(cutoff - 1, young, other)) if cutoff else 0.0
        if missed <= second:
            return CutoffDesign(
                young=young,
                cutoff=cutoff,
                wrong_if_low=_at_least(cutoff, young, one),
                wrong_if_high=missed,
            )
    return None


def _at_least(seen: int, young: int, share: float) -> float:
    from scipy.special import bdtrc  # noqa: PLC0415 - a quick command should not load it

    return float(bdtrc(seen - 1, young, share)) if seen > 0 else 1.0


def chance_to_reject(*, young: int, expected: Share, true: Share, alpha: float = 0.05) -> float:
    """Return the power of the exact test: how likely it notices a wrong expectation.

    Parameters
    ----------
    young
        Young counted, 0 or more.
    expected
        Share that is tested, 0 to 1.
    true
        Share that is right, 0 to 1.
    alpha
        The expectation is rejected where the two-sided p value by probability is below it.

    Returns
    -------
    float
        Probability of a rejection; where `true` is `expected`, that of a false alarm.

    Raises
    ------
    DomainError
        If a number is out of range.

    Examples
    --------
    >>> round(chance_to_reject(young=40, expected=0.25, true=0.5), 3)
    0.923
    """
    for share in (expected, true):
        if not 0.0 <= share <= 1.0:
            raise DomainError("share", float(share), "between 0 and 1")
    if not 0 <= young < math.inf:
        raise DomainError("number of young", young, "0 or more")
    _checked_chance("alpha", alpha)
    import numpy as np  # noqa: PLC0415 - a quick command should not load it

    from filialog.statistics.exact_test import TIE  # noqa: PLC0415 - as above
    from filialog.statistics.outcomes import mixture_probabilities  # noqa: PLC0415 - as above

    own, other = (
        mixture_probabilities(young, ((1.0, (float(share), 1.0 - float(share))),))
        for share in (expected, true)
    )
    ordered = np.sort(own)
    together = np.concatenate([[0.0], np.cumsum(ordered)])
    together[-1] = 1.0
    p_values = together[np.searchsorted(ordered, own * (1.0 + TIE), side="right")]
    # A count that cannot be is rejected, whatever the others add up to.
    return min(1.0, float(other[(p_values < alpha) | (own == 0.0)].sum()))


def young_to_reject(
    *, expected: Share, true: Share, alpha: float = 0.05, power: float = 0.8
) -> int | None:
    """Return the smallest number of young at which the exact test has the power wanted.

    Parameters
    ----------
    expected, true, alpha
        As in `chance_to_reject`.
    power
        Wanted chance of noticing, between 0 and 1.

    Returns
    -------
    int or None
        The number; None if it is above 2,000, or the two shares are equal.

    Raises
    ------
    DomainError
        If a number is out of range.

    Notes
    -----
    As with `cutoff_design` a few larger numbers can fall short again.

    Examples
    --------
    >>> young_to_reject(expected=0.25, true=0.5)
    28
    """
    _checked_chance("power", power)
    chance_to_reject(young=0, expected=expected, true=true, alpha=alpha)
    if float(expected) == float(true):
        return None
    return next(
        (
            young
            for young in range(1, 2_001)
            if chance_to_reject(young=young, expected=expected, true=true, alpha=alpha) >= power
        ),
        None,
    )
