"""Rival explanations of a count: how much better or worse each explains it.

A rival without a free number is weighed by its likelihood ratio. One with a free number, such
as how well a look survives, is weighed at the number that explains the count best, and that
number comes with an interval. A fitted rival is never worse than the expectation it contains,
so its ratio says how much there is to gain, not how likely the rival is.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from filialog.domain_error import DomainError
from filialog.statistics.counts import Components, checked_components, checked_counts
from filialog.statistics.evidence import log_likelihood, log_multinomial, log_sum

__all__ = [
    "FittedRival",
    "Rival",
    "RivalOdds",
    "foreign_share",
    "relative_survival",
    "rival_odds",
]

_MOST_LOG = 20.0
"""A look that survives e^20 times better or worse than the rest is the only one, or absent."""
_STEPS = 100
"""Points of the grid that is searched first, beside the best points of the components."""
_HALVINGS = 45
_ROUNDING = 1e-12

_Mixture = tuple[tuple[float, tuple[float, ...]], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rival:
    """An explanation other than the expectation, without a free number."""

    name: str
    """What the caller calls it."""

    components: Components
    """(weight, shares) pairs over whole broods, see `log_likelihood`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RivalOdds:
    """How a rival explains a count, beside the expectation."""

    name: str
    """Name of the rival."""

    log_ratio: float | None
    """Natural log of the rival's likelihood over that of the expectation: positive where the
    rival explains the count better, infinite where only one of the two can give it; None where
    neither can."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FittedRival:
    """A rival whose one free number was fitted to the count."""

    estimate: float
    """The number that explains the count best; can be infinite for a survival."""

    low: float
    """Lower end of the likelihood interval."""

    high: float
    """Upper end; can be infinite for a survival."""

    log_likelihood: float
    """Natural log of the probability of the count at the estimate."""

    log_ratio: float
    """Natural log of the likelihood at the estimate over that of the expectation, 0 or more;
    infinite where the expectation cannot give the count."""


def rival_odds(
    observed: Sequence[int], *, expected: Components, rivals: Sequence[Rival]
) -> tuple[RivalOdds, ...]:
    """Weigh rivals against the expectation, each by its likelihood ratio.

    Parameters
    ----------
    observed
        Animals counted in each class.
    expected
        The expectation, as (weight, shares) pairs over whole broods.
    rivals
        The rivals, over the same classes.

    Returns
    -------
    tuple of RivalOdds
        In the order given.

    Raises
    ------
    DomainError
        If counts, weights or shares are not valid.

    Examples
    --------
    No recessive among 8 young of a recessive dam. Expected was a sire A/a; rivals are a sire A/A,
    and one of two sires of which only the other is A/a:

    >>> found = rival_odds([8, 0], expected=[(1, (0.5, 0.5))], rivals=[
    ...     Rival(name="A/A", components=[(1, (1.0, 0.0))]),
    ...     Rival(name="either", components=[(0.5, (1.0, 0.0)), (0.5, (0.5, 0.5))]),
    ... ])
    >>> [(one.name, round(math.exp(one.log_ratio), 1)) for one in found]
    [('A/A', 256.0), ('either', 128.5)]
    """
    own = log_likelihood(observed, expected)
    found = []
    for rival in rivals:
        other = log_likelihood(observed, rival.components)
        neither = own == other == -math.inf
        found.append(RivalOdds(name=rival.name, log_ratio=None if neither else other - own))
    return tuple(found)


def relative_survival(
    observed: Sequence[int], components: Components, *, place: int, confidence: float = 0.95
) -> FittedRival | None:
    """Fit how well one class survives until the count, beside all others.

    Parameters
    ----------
    observed
        Animals counted in each class.
    components
        The expectation at equal survival, as (weight, shares) pairs over whole broods.
    place
        Place of the class.
    confidence
        Wanted coverage of the interval, between 0 and 1.

    Returns
    -------
    FittedRival or None
        The survival of the class where the others have 1: 0 and more, infinite where only
        the class was seen. None when no animal was counted, when no survival lets the
        expectation give the count, or when none makes a difference to it.

    Raises
    ------
    DomainError
        If counts, weights, shares, place or confidence are not valid.

    Notes
    -----
    A class of share s that survives v times as well has the share v s / (1 - s + v s). The
    likelihood of the whole mixture is maximised over v, and the interval holds every v that
    twice the log likelihood ratio does not reject, by chi-square with 1 degree of freedom; it is
    reported from its lowest to its highest point.

    References
    ----------
    .. [1] Wilks S.S. (1938) Annals of Mathematical Statistics 9:60-62 (from memory).

    Examples
    --------
    3:1 was expected; 55 to 5 would come of recessives that live 0.27 times as well.

    >>> fitted = relative_survival([55, 5], [(1, (0.75, 0.25))], place=1)
    >>> [round(number, 2) for number in (fitted.estimate, fitted.low, fitted.high)]
    [0.27, 0.1, 0.62]
    >>> round(math.exp(fitted.log_ratio))
    256
    """
    counts = checked_counts(observed)
    mixture = checked_components(components, classes=len(counts))
    if not 0 <= place < len(counts):
        raise DomainError("place of the class", place, f"between 0 and {len(counts) - 1}")
    drop = _allowed_drop(confidence)
    seen, rest = counts[place], sum(counts) - counts[place]

    def log_of(survival: float) -> float:
        return _log_of(counts, [(w, _with_survival(s, place, survival)) for w, s in mixture])

    middle = []
    for _, shares in mixture:
        if 0.0 < shares[place] < 1.0 and seen and rest:
            odds = seen / rest * (1.0 - shares[place]) / shares[place]
            middle.append(math.log(odds))
    free = any(0.0 < shares[place] < 1.0 for _, shares in mixture)
    if not free or not sum(counts):
        return None
    grid = _grid(-_MOST_LOG, _MOST_LOG, middle)
    fitted = _fit(lambda x: log_of(_survival(x)), grid, drop)
    if fitted is None:
        return None
    best, low, high, top = fitted
    return FittedRival(
        estimate=_survival(best),
        low=_survival(low),
        high=_survival(high),
        log_likelihood=top,
        log_ratio=max(0.0, top - log_of(1.0)),
    )


def foreign_share(
    observed: Sequence[int],
    components: Components,
    foreign: Components,
    *,
    confidence: float = 0.95,
) -> FittedRival | None:
    """Fit what part of the young is of other parents than those expected.

    Parameters
    ----------
    observed
        Animals counted in each class.
    components
        The expectation, as (weight, shares) pairs over whole broods.
    foreign
        What the young of the other parents look like, in the same way.
    confidence
        Wanted coverage of the interval, between 0 and 1.

    Returns
    -------
    FittedRival or None
        The part, 0 to 1. None when no animal was counted, or when no part lets the two give
        the count.

    Raises
    ------
    DomainError
        If counts, weights, shares or confidence are not valid.

    Notes
    -----
    Every young is taken to be of the other parents with the same chance. Interval as in
    `relative_survival`; at the ends 0 and 1 it is on the safe side.

    Examples
    --------
    Recessive parents have recessive young only; 6 of 40 were plain, as of a sire A/A.

    >>> fitted = foreign_share([6, 34], [(1, (0.0, 1.0))], [(1, (1.0, 0.0))])
    >>> [round(number, 2) for number in (fitted.estimate, fitted.low, fitted.high)]
    [0.15, 0.06, 0.28]
    """
    counts = checked_counts(observed)
    own = checked_components(components, classes=len(counts))
    other = checked_components(foreign, classes=len(counts))
    drop = _allowed_drop(confidence)
    if not sum(counts):
        return None

    def log_of(part: float) -> float:
        joined = [
            (w * u, tuple((1.0 - part) * a + part * b for a, b in zip(s, t, strict=True)))
            for w, s in own
            for u, t in other
        ]
        return _log_of(counts, joined)

    middle = [
        (count / sum(counts) - a) / (b - a)
        for _, shares in own
        for _, foreigners in other
        for count, a, b in zip(counts, shares, foreigners, strict=True)
        if a != b
    ]
    fitted = _fit(log_of, _grid(0.0, 1.0, middle), drop)
    if fitted is None:
        return None
    best, low, high, top = fitted
    return FittedRival(
        estimate=best, low=low, high=high, log_likelihood=top, log_ratio=max(0.0, top - log_of(0.0))
    )


def _allowed_drop(confidence: float) -> float:
    """Return how far the log likelihood may fall within the interval."""
    if not 0.0 < confidence < 1.0:
        raise DomainError("confidence", confidence, "above 0 and below 1")
    from statistics import NormalDist  # noqa: PLC0415 - a quick command should not load it

    # Chi-square with 1 degree of freedom is the square of a normal deviate.
    return NormalDist().inv_cdf((1.0 + confidence) / 2.0) ** 2 / 2.0


def _survival(logarithm: float) -> float:
    if logarithm <= -_MOST_LOG:
        return 0.0
    return math.inf if logarithm >= _MOST_LOG else math.exp(logarithm)


def _with_survival(shares: tuple[float, ...], place: int, survival: float) -> tuple[float, ...]:
    own = shares[place]
    if not 0.0 < own < 1.0:
        return shares
    if survival == math.inf:
        return tuple(float(i == place) for i in range(len(shares)))
    whole = 1.0 - own + survival * own
    return tuple(
        (survival if i == place else 1.0) * share / whole for i, share in enumerate(shares)
    )


def _log_of(counts: tuple[int, ...], mixture: Sequence[tuple[float, tuple[float, ...]]]) -> float:
    return log_sum([math.log(weight) + log_multinomial(counts, s) for weight, s in mixture])


def _grid(first: float, last: float, middle: Sequence[float]) -> list[float]:
    """Return the points to look at: an even grid, and where single components are best."""
    even = {first + (last - first) * i / _STEPS for i in range(_STEPS + 1)}
    return sorted(even | {point for point in middle if first < point < last})


def _fit(
    log_of: Callable[[float], float], grid: Sequence[float], drop: float
) -> tuple[float, float, float, float] | None:
    """Return the best point, the ends of its interval, and the log likelihood there."""
    logs = [log_of(point) for point in grid]
    at = max(range(len(grid)), key=lambda i: logs[i])
    if logs[at] == -math.inf:
        return None
    best = _peak(log_of, grid[max(at - 1, 0)], grid[min(at + 1, len(grid) - 1)])
    top = log_of(best)
    if top <= logs[at] + _ROUNDING * max(1.0, abs(logs[at])):
        best, top = grid[at], logs[at]
    inside = [i for i, log in enumerate(logs) if log >= top - drop]
    ends = []
    for end, step in ((inside[0], -1), (inside[-1], 1)):
        if not 0 <= end + step < len(grid):
            ends.append(grid[end])
            continue
        within, beyond = grid[end], grid[end + step]
        for _ in range(_HALVINGS):
            half = (within + beyond) / 2.0
            if log_of(half) >= top - drop:
                within = half
            else:
                beyond = half
        ends.append(within)
    return best, min(best, ends[0]), max(best, ends[1]), top


def _peak(log_of: Callable[[float], float], low: float, high: float) -> float:
    """Return the highest point between two, where there is one peak (golden section)."""
    ratio = (math.sqrt(5.0) - 1.0) / 2.0
    first, second = high - ratio * (high - low), low + ratio * (high - low)
    of_first, of_second = log_of(first), log_of(second)
    # One of the two points serves the next step as well.
    for _ in range(_HALVINGS):
        if of_first < of_second:
            low, first, of_first = first, second, of_second
            second = low + ratio * (high - low)
            of_second = log_of(second)
        else:
            high, second, of_second = second, first, of_first
            first = high - ratio * (high - low)
            of_first = log_of(first)
    return (low + high) / 2.0
