"""How many more young settle a question when the counting stops as soon as it is settled.

Two numbers answer two plans. `young_that_suffice` is for a keeper who sets a number aside
and counts them all at once. `stopping_time` is for one who looks at one young after the other
and stops at the wanted odds, for or against: the sequential test of likelihood ratios.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from filialog.domain_error import DomainError
from filialog.statistics.counts import Shares, checked_counts, checked_odds, checked_shares
from filialog.statistics.evidence import log_multinomial, shares_equal

__all__ = ["StoppingTime", "chance_to_settle", "stopping_time", "young_that_suffice"]

_ROUNDING = 1e-9
_MOST_YOUNG = 5_000
"""Plans for more young than this are not searched for."""
_MOST_FOLLOWED = 500_000
"""More states than this are not followed, all steps together."""
_DECIMALS = 10
"""Ratios that agree to so many decimals are one state."""
_LEFT_OUT = 1e-12
"""The walk ends when it goes on with less than this chance."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StoppingTime:
    """How long a count goes on that stops as soon as the odds are reached."""

    mean: float
    """Expected number of further young, if the expectation is right."""

    enough: int
    """So many further young or fewer do with the chance that was asked for."""

    chance_for: float
    """Chance of stopping in favour of the expectation, if it is right."""

    chance_against: float
    """Chance of stopping at the same odds against it, though it is right."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Question:
    """A checked question: how far it is, and what one more young of each kind adds."""

    so_far: float
    """Log likelihood ratio of the count so far, in favour of the expectation."""
    wanted: float
    """Log of the odds wanted."""
    steps: tuple[tuple[float, float], ...]
    """(log likelihood ratio, expected share) of each kind of young, classes with the same
    ratio joined; the ratio is infinite where the rival lacks the class."""


def _question(
    observed: Sequence[int], expected_shares: Shares, rival_shares: Shares, odds: float
) -> _Question | None:
    """Check what is asked; None where it has no answer."""
    counts = checked_counts(observed)
    expected = checked_shares(expected_shares, classes=len(counts))
    rival = checked_shares(rival_shares, classes=len(counts))
    wanted = checked_odds(odds)
    own = log_multinomial(counts, expected)
    if own == -math.inf or shares_equal(expected, rival):
        return None
    steps: dict[float, float] = {}
    for mine, other in zip(expected, rival, strict=True):
        if mine > 0.0:
            ratio = math.log(mine / other) if other > 0.0 else math.inf
            alike = next((known for known in steps if _same(known, ratio)), ratio)
            steps[alike] = steps.get(alike, 0.0) + mine
    return _Question(
        so_far=own - log_multinomial(counts, rival),
        wanted=wanted,
        steps=tuple(sorted(steps.items())),
    )


def _same(one: float, other: float) -> bool:
    return one == other or abs(one - other) <= _ROUNDING


def chance_to_settle(
    observed: Sequence[int],
    *,
    expected_shares: Shares,
    rival_shares: Shares,
    more: int,
    odds: float = 20.0,
) -> float | None:
    """Return the chance that a fixed number of further young settles a question.

    Parameters
    ----------
    observed
        What was counted so far, by class.
    expected_shares, rival_shares
        Shares of the same classes. The chance is taken as if `expected_shares` were right.
    more
        Further young, all of them counted; 0 or more.
    odds
        Odds to one wanted in favour of the expectation, above 1.

    Returns
    -------
    float or None
        Probability, by the binomial or multinomial distribution, that all young together
        give these odds or more. None when the two are equal, or the expectation cannot give
        what was counted.

    Raises
    ------
    DomainError
        If counts, shares or odds are not valid, or the young can fall in more than
        1,000,000 ways.

    Examples
    --------
    One quarter against one half, nothing counted so far:

    >>> round(chance_to_settle(
    ...     [0, 0], expected_shares=(0.75, 0.25), rival_shares=(0.5, 0.5), more=23), 3)
    0.468
    """
    if not 0 <= more < math.inf:
        raise DomainError("further young", more, "0 or more")
    question = _question(observed, expected_shares, rival_shares, odds)
    return None if question is None else _chance(question, more)


def _chance(question: _Question, more: int) -> float:
    import numpy as np  # noqa: PLC0415 - a quick command should not load it

    from filialog.statistics.exact_test import MAX_OUTCOMES  # noqa: PLC0415 - as above
    from filialog.statistics.outcomes import (  # noqa: PLC0415 - as above
        mixture_probabilities,
        outcome_count,
        outcome_scores,
    )

    ways = outcome_count(animals=more, classes=len(question.steps))
    if ways > MAX_OUTCOMES:
        raise DomainError("ways in which the young can fall", ways, f"at most {MAX_OUTCOMES}")
    shares = [share for _, share in question.steps]
    numbers = np.arange(more + 1)
    # Infinity times nothing seen is nothing.
    tables = [
        np.where(numbers > 0, np.maximum(numbers, 1) * step, 0.0) for step, _ in question.steps
    ]
    ratios = question.so_far + outcome_scores(more, tables)
    settled = mixture_probabilities(more, ((1.0, shares),))[ratios >= question.wanted - _ROUNDING]
    return min(1.0, float(settled.sum()))


def young_that_suffice(
    observed: Sequence[int],
    *,
    expected_shares: Shares,
    rival_shares: Shares,
    odds: float = 20.0,
    chance: float = 0.9,
) -> int | None:
    """Return how many further young settle a question with a given chance.

    Parameters
    ----------
    observed, expected_shares, rival_shares, odds
        As in `chance_to_settle`.
    chance
        Wanted chance of reaching the odds, between 0 and 1.

    Returns
    -------
    int or None
        Smallest number for which `chance_to_settle` is at least `chance`; a few larger
        numbers can fall a little short again. None where that has no answer, or it is above
        5,000, or the young could fall in too many ways.

    Raises
    ------
    DomainError
        If counts, shares, odds or chance are not valid.

    Notes
    -----
    `more_needed` names the number at which the odds are reached on average; about half of
    all broods of that size fall short. This one names the number to plan for.

    Examples
    --------
    >>> young_that_suffice([0, 0], expected_shares=(0.75, 0.25), rival_shares=(0.5, 0.5))
    57
    """
    if not 0.0 < chance < 1.0:
        raise DomainError("chance", chance, "above 0 and below 1")
    question = _question(observed, expected_shares, rival_shares, odds)
    if question is None:
        return None
    for more in range(_MOST_YOUNG + 1):
        try:
            if _chance(question, more) >= chance:
                return more
        except DomainError:
            return None
    return None


def stopping_time(
    observed: Sequence[int],
    *,
    expected_shares: Shares,
    rival_shares: Shares,
    odds: float = 20.0,
    chance: float = 0.9,
) -> StoppingTime | None:
    """Return how many further young it takes when counting stops once the odds are reached.

    Parameters
    ----------
    observed, expected_shares, rival_shares, odds
        As in `chance_to_settle`; the count stops at these odds for the expectation, or
        against it.
    chance
        Chance with which `enough` young do, between 0 and 1.

    Returns
    -------
    StoppingTime or None
        Exact, by following every count that has not stopped. None where `chance_to_settle`
        has no answer, or too many counts would have to be followed.

    Raises
    ------
    DomainError
        If counts, shares, odds or chance are not valid.

    Notes
    -----
    Young must be looked at one by one in an order that does not depend on their look.
    Wald's bound holds: the chance of stopping on the wrong side is at most 1/odds, if
    nothing was counted before.

    References
    ----------
    .. [1] Wald A. (1945) Annals of Mathematical Statistics 16:117-186 (from memory).

    Examples
    --------
    >>> time = stopping_time([0, 0], expected_shares=(0.75, 0.25), rival_shares=(0.5, 0.5))
    >>> round(time.mean, 1), time.enough, round(time.chance_against, 3)
    (22.7, 41, 0.036)
    """
    if not 0.0 < chance < 1.0:
        raise DomainError("chance", chance, "above 0 and below 1")
    question = _question(observed, expected_shares, rival_shares, odds)
    return None if question is None else _walk(question, chance)


def _walk(question: _Question, chance: float) -> StoppingTime | None:
    """Follow the ratio step by step until hardly any count goes on."""
    stopped_for = stopped_against = mean = 0.0
    going = {question.so_far: 1.0}
    enough: int | None = None
    followed = 0
    for more in range(_MOST_YOUNG + 1):
        limit = question.wanted - _ROUNDING
        stopped_for += math.fsum(part for ratio, part in going.items() if ratio >= limit)
        stopped_against += math.fsum(part for ratio, part in going.items() if ratio <= -limit)
        going = {ratio: part for ratio, part in going.items() if abs(ratio) < limit}
        left = math.fsum(going.values())
        if enough is None and left <= 1.0 - chance + _LEFT_OUT:
            enough = more
        if enough is not None and left < _LEFT_OUT:
            return StoppingTime(
                mean=mean, enough=enough, chance_for=stopped_for, chance_against=stopped_against
            )
        followed += len(going)
        if followed > _MOST_FOLLOWED:
            return None
        mean += left
        going = _one_more(question, going)
    return None


def _one_more(question: _Question, counts: Mapping[float, float]) -> dict[float, float]:
    """Count one more young, of each kind in turn; equal ratios are one state."""
    after: dict[float, float] = {}
    for so_far, probability in counts.items():
        for step, share in question.steps:
            ratio = round(so_far + step, _DECIMALS)
            after[ratio] = after.get(ratio, 0.0) + probability * share
    return after
