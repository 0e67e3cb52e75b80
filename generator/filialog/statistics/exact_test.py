"""The exact test of a count against a mixture of multinomials, by enumeration."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from filialog.domain_error import DomainError
from filialog.statistics.counts import Components, checked_components, checked_counts
from filialog.statistics.evidence import log_multinomial, log_sum
from filialog.statistics.goodness_of_fit import FitState

__all__ = ["MAX_OUTCOMES", "ExactFit", "exact_test", "outcome_count"]

MAX_OUTCOMES = 1_000_000
"""More outcomes than this are not enumerated."""

_TIE = 1e-7
"""Relative tolerance within which two outcomes are equally probable. The same
value as in R's binom.test and scipy.stats.binomtest, so that two classes agree."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ExactFit:
    """Result of an exact test."""

    state: FitState
    """Whether the p value comes from a test, or from a named special case."""

    p_value: float
    """Summed probability of all outcomes not more probable than the observed one."""

    observed_probability: float
    """Probability of exactly the observed count."""

    outcomes: int
    """How many different outcomes that many animals can have."""


def outcome_count(*, animals: int, classes: int) -> int:
    """Return in how many ways animals can fall into classes.

    Examples
    --------
    >>> outcome_count(animals=10, classes=3)
    66
    """
    return math.comb(animals + classes - 1, classes - 1)


def _binomial_row(animals: int, share: float, log_factorials: Sequence[float]) -> list[float]:
    """Return the probabilities of 0, 1, ... `animals` successes."""
    if share <= 0.0:
        return [1.0] + [0.0] * animals
    if share >= 1.0:
        return [0.0] * animals + [1.0]
    log_share, log_rest = math.log(share), math.log1p(-share)
    top = log_factorials[animals]
    return [
        math.exp(
            top
            - log_factorials[seen]
            - log_factorials[animals - seen]
            + seen * log_share
            + (animals - seen) * log_rest
        )
        for seen in range(animals + 1)
    ]


def _rows(
    position: int, animals: int, shares: Sequence[float], log_factorials: Sequence[float]
) -> dict[int, list[float]]:
    """Return, for each number of animals left, how many of them are of one class."""
    left = math.fsum(shares[position:])
    share = min(1.0, shares[position] / left) if left > 0.0 else 0.0
    # Before the first class all animals are left; later any number may be.
    numbers = [animals] if position == 0 else range(animals + 1)
    return {rest: _binomial_row(rest, share, log_factorials) for rest in numbers}


def _outcome_probabilities(
    animals: int, shares: Sequence[float], log_factorials: Sequence[float]
) -> list[float]:
    """Return the probability of every outcome, in an order set by `animals` alone.

    The classes are drawn one after the other, each as a binomial of what is left:
    every factor is a probability, so nothing overflows on the way.
    """
    states = [(1.0, animals)]
    last = len(shares) - 2
    for position in range(last):
        rows = _rows(position, animals, shares, log_factorials)
        states = [
            (lead * probability, rest - seen)
            for lead, rest in states
            for seen, probability in enumerate(rows[rest])
        ]
    rows = _rows(last, animals, shares, log_factorials)
    return [lead * probability for lead, rest in states for probability in rows[rest]]


def exact_test(observed: Sequence[int], components: Components) -> ExactFit:
    """Test a count exactly against a mixture of multinomials.

    Parameters
    ----------
    observed
        Animals counted in each class.
    components
        (weight, shares) pairs: with probability `weight` the whole brood follows
        `shares`. Plain shares are one component of weight 1, see `single`; the
        result is then the ordinary exact multinomial (or binomial) test.

    Returns
    -------
    ExactFit
        Two-sided p value by probability: all outcomes of the same number of
        animals that are not more probable than the observed one, ties included.

    Raises
    ------
    DomainError
        If counts, weights or shares are not valid, or if there are more than
        1,000,000 outcomes; then use the G test.

    Notes
    -----
    A class with share 0 in every component takes no part unless it was seen; then
    the result is "impossible" with p = 0. Cost grows with the number of outcomes,
    C(n + k - 1, k - 1) for n animals in k classes, times the components.

    A p value below about 1e-300 comes out as 0, under the name "tested".

    References
    ----------
    .. [1] Freeman G.H. & Halton J.H. (1951) Biometrika 38:141-149 (ordering by
       probability; from memory).

    Examples
    --------
    >>> from filialog.statistics.counts import single
    >>> fit = exact_test([5, 3, 2], single((0.25, 0.5, 0.25)))
    >>> round(fit.p_value, 4), fit.outcomes
    (0.2557, 66)
    """
    counts = checked_counts(observed)
    checked = checked_components(components, classes=len(counts))
    animals = sum(counts)
    possible = [i for i in range(len(counts)) if any(s[i] > 0.0 for _, s in checked)]
    outcomes = outcome_count(animals=animals, classes=len(possible))
    observed_probability = math.exp(
        log_sum([math.log(weight) + log_multinomial(counts, s) for weight, s in checked])
    )
    seen = [counts[i] for i in possible]
    # Not judged by the probability, which may be too small for a float: a count is
    # impossible only when every component lacks a class that was seen.
    impossible = all(
        any(c > 0 and s == 0.0 for c, s in zip(counts, shares, strict=True))
        for _, shares in checked
    )
    if impossible:
        state, p_value = FitState.IMPOSSIBLE, 0.0
    elif animals == 0:
        state, p_value = FitState.NOTHING_COUNTED, 1.0
    elif len(seen) == 1:
        state, p_value = FitState.ONE_CLASS, 1.0
    elif outcomes > MAX_OUTCOMES:
        raise DomainError(
            "number of outcomes", outcomes, f"at most {MAX_OUTCOMES} (else use the G test)"
        )
    else:
        state = FitState.TESTED
        p_value = _tail(
            animals=animals,
            mixture=[(weight, [shares[i] for i in possible]) for weight, shares in checked],
            limit=observed_probability * (1.0 + _TIE),
        )
    return ExactFit(
        state=state,
        p_value=p_value,
        observed_probability=observed_probability,
        outcomes=outcomes,
    )


def _tail(*, animals: int, mixture: Sequence[tuple[float, list[float]]], limit: float) -> float:
    """Return the summed probability of all outcomes of at most that probability."""
    log_factorials = [math.lgamma(number + 1) for number in range(animals + 1)]
    totals: list[float] = []
    for weight, shares in mixture:
        part = _outcome_probabilities(animals, shares, log_factorials)
        if totals:
            totals = [total + weight * p for total, p in zip(totals, part, strict=True)]
        else:
            totals = [weight * p for p in part]
    rarer = [total for total in totals if total <= limit]
    # All outcomes together are certain; adding them up would leave a hair missing.
    return 1.0 if len(rarer) == len(totals) else min(1.0, math.fsum(rarer))
