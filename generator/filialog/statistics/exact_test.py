"""The exact test of a count against a mixture of multinomials, by enumeration."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from filialog.domain_error import DomainError
from filialog.statistics.counts import Components, Shares, checked_components, checked_counts
from filialog.statistics.evidence import log_multinomial, log_sum
from filialog.statistics.goodness_of_fit import FitState
from filialog.statistics.outcomes import mixture_probabilities, outcome_count, outcome_scores

__all__ = ["MAX_OUTCOMES", "ExactFit", "exact_test", "exact_test_by_distance"]

MAX_OUTCOMES = 1_000_000
"""More outcomes than this are not enumerated."""

TIE = 1e-7
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
            limit=observed_probability * (1.0 + TIE),
        )
    return ExactFit(
        state=state,
        p_value=p_value,
        observed_probability=observed_probability,
        outcomes=outcomes,
    )


def exact_test_by_distance(observed: Sequence[int], shares: Shares) -> ExactFit:
    """Test a count exactly, with outcomes ranked by their chi-square distance.

    Parameters
    ----------
    observed
        Animals counted in each class.
    shares
        Expected share of each class, together 1.

    Returns
    -------
    ExactFit
        The p value adds up all outcomes with at least the chi-square of the observed
        one, ties included. `exact_test` ranks by probability; the two can differ a lot
        where some classes are rare.

    Raises
    ------
    DomainError
        As `exact_test`.

    Examples
    --------
    >>> round(exact_test_by_distance([5, 3, 2], (0.25, 0.5, 0.25)).p_value, 4)
    0.2776
    """
    fit = exact_test(observed, ((1.0, shares),))
    if fit.state is not FitState.TESTED:
        return fit
    import numpy as np  # noqa: PLC0415 - a quick command should not load it

    animals = sum(observed)
    pairs = [
        (count, float(share))
        for count, share in zip(observed, shares, strict=True)
        if float(share) > 0.0
    ]
    numbers = np.arange(animals + 1)
    tables = [
        np.square(numbers - animals * share, dtype=np.float64) / (animals * share)
        for _, share in pairs
    ]
    limit = sum(float(table[count]) for (count, _), table in zip(pairs, tables, strict=True))
    distances = outcome_scores(animals, tables)
    chances = mixture_probabilities(animals, [(1.0, [share for _, share in pairs])])
    farther = chances[distances >= limit * (1.0 - TIE)]
    return replace(
        fit, p_value=1.0 if farther.size == chances.size else min(1.0, float(farther.sum()))
    )


def _tail(*, animals: int, mixture: Sequence[tuple[float, list[float]]], limit: float) -> float:
    """Return the summed probability of all outcomes of at most that probability."""
    chances = mixture_probabilities(animals, mixture)
    rarer = chances[chances <= limit]
    # All outcomes together are certain; adding them up would leave a hair missing.
    return 1.0 if rarer.size == chances.size else min(1.0, float(rarer.sum()))
