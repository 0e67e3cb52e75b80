"""The verdict on one tally: whether it fits, and whether a rival fits as well.

Limits of the rule. One tally in a hundred fails by chance at the default
`alpha`; who judges many tallies must correct for that. "Fits" means that no
*given* rival is left: an explanation nobody listed (deaths of one look before
the count, wrongly sorted young, a stray) is not excluded, and with no rivals
given every count that does not fail fits. The number of young is an average:
about half of all such counts still fall short. It starts from the component
that the count favours.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import Enum

from filialog.domain_error import DomainError
from filialog.statistics.counts import (
    Components,
    Shares,
    checked_components,
    checked_counts,
    checked_odds,
    checked_shares,
)
from filialog.statistics.evidence import (
    log_multinomial,
    log_sum,
    shares_equal,
    young_to_settle,
)
from filialog.statistics.exact_test import exact_test
from filialog.statistics.goodness_of_fit import Method, g_test
from filialog.statistics.outcomes import outcome_count

__all__ = ["EXACT_OUTCOMES", "MISFIT_BELOW", "Judgement", "Verdict", "judge"]

EXACT_OUTCOMES = 200_000
"""Up to this many outcomes a tally is judged by the exact test."""

MISFIT_BELOW = 0.01
"""A tally with a smaller p value does not fit, unless another limit is asked for."""

_CheckedMixture = tuple[tuple[float, tuple[float, ...]], ...]


class Verdict(Enum):
    """What a tally says about its expectation."""

    FITS = "fits"
    """The count agrees with the expectation and speaks against every rival."""

    DOES_NOT_FIT = "does not fit"
    """A count this odd is too rare under the expectation, or impossible."""

    CANNOT_TELL = "cannot tell"
    """The count agrees with the expectation, and with at least one rival as well."""

    NOTHING_COUNTED = "nothing counted"
    """No animal was counted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Judgement:
    """The verdict on one tally, and what it rests on."""

    verdict: Verdict
    """The verdict."""

    p_value: float
    """Probability of a count at least as odd if the expectation is right."""

    method: Method
    """EXACT or G_WILLIAMS."""

    statistic: float | None
    """Corrected G when that was the method; None for the exact test."""

    df: int | None
    """Degrees of freedom of the G test; None for the exact test."""

    best_rival: int | None
    """Index of the rival that explains the count best; None when no rival can give
    it, there is no rival, or nothing was counted."""

    best_rival_log_ratio: float | None
    """Natural log of the best rival's likelihood over that of the expectation:
    positive when the rival explains the count better, infinite when the
    expectation cannot give it."""

    nearest_rival: int | None
    """Index of the standing rival that takes the most young to refute; None unless
    the verdict is CANNOT_TELL or NOTHING_COUNTED."""

    more_needed: int | None
    """Young to count in addition until every standing rival should be refuted at the
    wanted odds, if the expectation is right; None unless the verdict is CANNOT_TELL
    or NOTHING_COUNTED."""


def _p_value(
    counts: Sequence[int], mixture: _CheckedMixture
) -> tuple[Method, float, float | None, int | None]:
    """Return method, p value, statistic and degrees of freedom."""
    possible = sum(any(shares[i] > 0.0 for _, shares in mixture) for i in range(len(counts)))
    outcomes = outcome_count(animals=sum(counts), classes=possible)
    if outcomes <= EXACT_OUTCOMES:
        return Method.EXACT, exact_test(counts, mixture).p_value, None, None
    fits = [g_test(counts, shares, williams=True) for _, shares in mixture]
    best = max(fits, key=lambda fit: (fit.p_value, -fit.statistic))
    return Method.G_WILLIAMS, best.p_value, best.statistic, best.df


def _verdict(*, animals: int, fits: bool, rivals_left: bool) -> Verdict:
    if animals == 0:
        return Verdict.NOTHING_COUNTED
    if not fits:
        return Verdict.DOES_NOT_FIT
    return Verdict.CANNOT_TELL if rivals_left else Verdict.FITS


def _hardest_to_refute(
    standing: Mapping[int, tuple[tuple[float, ...], float]],
    *,
    expected: tuple[float, ...],
    wanted: float,
) -> tuple[int | None, int | None]:
    """Return the rival that takes the most young to refute, and how many more it takes."""
    needed = {
        index: young_to_settle(wanted=wanted, so_far=-ratio, expected=expected, rival=rival) or 0
        for index, (rival, ratio) in standing.items()
    }
    nearest = max(needed, key=lambda index: needed[index], default=None)
    return nearest, None if nearest is None else needed[nearest]


def _odds_against(
    counts: Sequence[int],
    mixture: _CheckedMixture,
    rivals: Sequence[tuple[float, ...]],
    *,
    own: float,
) -> dict[int, float]:
    """Return the log likelihood ratio of each true rival that can give the count at all."""
    logs = [log_multinomial(counts, rival) for rival in rivals]
    return {
        index: logs[index] - own
        for index, rival in enumerate(rivals)
        if logs[index] > -math.inf and not any(shares_equal(rival, shares) for _, shares in mixture)
    }


def judge(
    observed: Sequence[int],
    components: Components,
    rivals: Sequence[Shares],
    *,
    odds: float = 20.0,
    alpha: float = MISFIT_BELOW,
) -> Judgement:
    """Judge a tally against its expectation and against rival explanations.

    Parameters
    ----------
    observed
        Animals counted in each class.
    components
        The expectation as (weight, shares) pairs over whole broods, see
        `log_likelihood`; plain shares are one component of weight 1.
    rivals
        Shares of other explanations, such as other matings. A rival whose shares
        equal those of a component is part of the expectation and no rival.
    odds
        How many times less likely than the expectation a rival must be to count as
        refuted; above 1.
    alpha
        Limit of the p value below which the count does not fit; between 0 and 1.

    Returns
    -------
    Judgement
        NOTHING_COUNTED without animals; else DOES_NOT_FIT when p is below `alpha`;
        else FITS when every rival is refuted; else CANNOT_TELL with the number of
        young that should settle it.

    Raises
    ------
    DomainError
        If counts, weights, shares, `odds` or `alpha` are not valid.

    Notes
    -----
    The p value is exact up to 200,000 outcomes. Above that it is that of the G
    test with Williams' correction, for each component by itself, and the largest
    counts: a brood of one unknown sire follows one of the components, never their
    average. With many classes and few animals in each this approximation is rough.
    The limits of the rule stand at the head of this module.

    Examples
    --------
    Nine orange-eyed among 20 young of a dark-eyed pair; 3:1 was expected, and a
    backcross would give 1:1.

    >>> judgement = judge([11, 9], [(1, (0.75, 0.25))], [(0.5, 0.5), (0, 1)])
    >>> judgement.verdict.value, round(judgement.p_value, 4)
    ('cannot tell', 0.0652)
    >>> judgement.best_rival, judgement.more_needed
    (0, 37)
    """
    counts = checked_counts(observed)
    mixture = checked_components(components, classes=len(counts))
    checked_rivals = [checked_shares(rival, classes=len(counts)) for rival in rivals]
    wanted = checked_odds(odds)
    if not 0.0 < alpha < 1.0:
        raise DomainError("alpha", alpha, "above 0 and below 1")
    method, p_value, statistic, df = _p_value(counts, mixture)
    parts = [math.log(weight) + log_multinomial(counts, shares) for weight, shares in mixture]
    own = log_sum(parts)
    ratios = _odds_against(counts, mixture, checked_rivals, own=own)
    standing = [index for index, ratio in ratios.items() if ratio > -wanted]
    verdict = _verdict(animals=sum(counts), fits=p_value >= alpha, rivals_left=bool(standing))
    counted = verdict is not Verdict.NOTHING_COUNTED
    best = max(ratios, key=lambda index: ratios[index], default=None) if counted else None
    nearest = more_needed = None
    if verdict in {Verdict.CANNOT_TELL, Verdict.NOTHING_COUNTED}:
        favoured = mixture[parts.index(max(parts))][1]
        nearest, more_needed = _hardest_to_refute(
            {index: (checked_rivals[index], ratios[index]) for index in standing},
            expected=favoured,
            wanted=wanted,
        )
    return Judgement(
        verdict=verdict,
        p_value=p_value,
        method=method,
        statistic=statistic,
        df=df,
        best_rival=best,
        best_rival_log_ratio=None if best is None else ratios[best],
        nearest_rival=nearest,
        more_needed=more_needed,
    )
