"""Heritability of a grade: realised by selection, or from young and their parents."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from filialog.domain_error import DomainError
from filialog.genetics.number_ranges import check_confidence, check_finite
from filialog.statistics import SlopeFit, line_fit, line_fit_through_origin

__all__ = [
    "RealisedHeritability",
    "SelectionStep",
    "heritability_by_midparents",
    "heritability_by_one_parent",
    "realised_heritability",
    "selection_step",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class SelectionStep:
    """One generation of selection."""

    differential: float
    """Mean of the chosen parents less the mean of their generation, in units of the grade."""

    response: float
    """Mean of the young less the mean of their parents' generation, in units of the grade."""

    heritability: float | None
    """Response over differential; None where nothing was selected. Chance may take it out of
    0 to 1."""

    low: float | None
    """Lower limit of the heritability; None without standard errors of the means."""

    high: float | None
    """Upper limit of the heritability; None without standard errors of the means."""


def selection_step(
    *,
    mean_before: float,
    mean_chosen: float,
    mean_young: float,
    error_before: float | None = None,
    error_young: float | None = None,
    confidence: float = 0.95,
) -> SelectionStep:
    """Give the realised heritability of one generation of selection.

    Parameters
    ----------
    mean_before
        Mean grade of the generation from which the parents were chosen.
    mean_chosen
        Mean grade of the chosen parents.
    mean_young
        Mean grade of their young.
    error_before, error_young
        Standard error of the first and last mean, 0 or more; None where not known.
    confidence
        Wanted coverage of the interval, between 0 and 1.

    Returns
    -------
    SelectionStep
        S, R and h² = R / S, with an interval where both standard errors are known.

    Raises
    ------
    DomainError
        If a number is out of its range or not finite.

    Notes
    -----
    The interval is normal and holds the differential for known: it shows the scatter of the
    two means only. Drift and a change of water or food between the generations come on top,
    so one generation says little.

    References
    ----------
    .. [1] Falconer D.S. & Mackay T.F.C. (1996) Introduction to Quantitative Genetics,
       ch. 11; the interval is the usual propagation of independent errors.

    Examples
    --------
    >>> step = selection_step(mean_before=40, mean_chosen=50, mean_young=44)
    >>> step.differential, step.response, step.heritability
    (10.0, 4.0, 0.4)
    """
    for what, mean in (
        ("mean grade before selection", mean_before),
        ("mean grade of the chosen", mean_chosen),
        ("mean grade of the young", mean_young),
    ):
        check_finite(what, mean)
    for error in (error_before, error_young):
        if error is not None and not 0.0 <= error < math.inf:
            raise DomainError("standard error of a mean grade", error, "0 or more")
    check_confidence(confidence)
    differential = float(mean_chosen - mean_before)
    response = float(mean_young - mean_before)
    low = high = None
    if differential and error_before is not None and error_young is not None:
        from statistics import NormalDist  # noqa: PLC0415 - a quick command should not load it

        reach = NormalDist().inv_cdf((1.0 + confidence) / 2.0)
        half = reach * math.hypot(error_before, error_young) / abs(differential)
        low, high = response / differential - half, response / differential + half
    return SelectionStep(
        differential=differential,
        response=response,
        heritability=response / differential if differential else None,
        low=low,
        high=high,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class RealisedHeritability:
    """Three estimates of the heritability realised over several generations; they differ."""

    ratio: float | None
    """Total response over total differential; None where the total differential is 0."""

    line: SlopeFit
    """Regression of cumulated response on cumulated differential, with intercept."""

    line_through_origin: SlopeFit
    """The same regression through the starting point, which is taken as exact."""


def realised_heritability(
    *,
    cumulated_differentials: Sequence[float],
    cumulated_responses: Sequence[float],
    confidence: float = 0.95,
) -> RealisedHeritability:
    """Give the heritability realised over several generations of selection.

    Parameters
    ----------
    cumulated_differentials
        Sum of the selection differentials up to each generation, in units of the grade,
        starting with 0 for the first generation.
    cumulated_responses
        Mean of each generation less that of the first, starting with 0.
    confidence
        Wanted coverage of the intervals, between 0 and 1.

    Returns
    -------
    RealisedHeritability
        The ratio of totals, and the two regressions with interval as far as the generations
        allow.

    Raises
    ------
    DomainError
        If the two differ in length, do not start with 0, have a number that is not finite,
        or the confidence is out of range.

    Notes
    -----
    Drift adds up from one generation to the next, so the points of a line are not
    independent and the intervals of the regressions are too narrow in a small line.

    References
    ----------
    .. [1] Hill W.G. (1972) Estimation of realised heritabilities from selection
       experiments, Biometrics 28:747-780 (from memory).
    .. [2] Walsh B. & Lynch M. (2018) Evolution and Selection of Quantitative Traits, ch. 18.

    Examples
    --------
    >>> found = realised_heritability(
    ...     cumulated_differentials=[0, 4, 8, 12], cumulated_responses=[0, 2, 3, 6]
    ... )
    >>> found.ratio, round(found.line.slope, 3), round(found.line_through_origin.slope, 3)
    (0.5, 0.475, 0.464)
    """
    differentials, responses = cumulated_differentials, cumulated_responses
    line = line_fit(differentials, responses, confidence=confidence)
    through = line_fit_through_origin(differentials, responses, confidence=confidence)
    if not differentials or differentials[0] or responses[0]:
        start = (differentials[0], responses[0]) if differentials else None
        raise DomainError("first cumulated differential and response", start, "0 and 0")
    total = differentials[-1]
    return RealisedHeritability(
        ratio=responses[-1] / total if total else None, line=line, line_through_origin=through
    )


def heritability_by_midparents(
    *,
    dams: Sequence[float],
    sires: Sequence[float],
    young: Sequence[float],
    confidence: float = 0.95,
) -> SlopeFit:
    """Give the heritability by regression of the young on the mean of both parents.

    Parameters
    ----------
    dams, sires, young
        Grade of the dam, grade of the sire and mean grade of the young of each family, in
        the same order and units.
    confidence
        Wanted coverage of the interval, between 0 and 1.

    Returns
    -------
    SlopeFit
        The slope is h²; it holds also where the parents were chosen by their grade.

    Raises
    ------
    DomainError
        If the three differ in length, a number is not finite, or the confidence is out of
        range.

    Notes
    -----
    Families count the same, however many young were graded. Parent and young in one tank
    resemble each other for other reasons as well.

    References
    ----------
    .. [1] Falconer D.S. & Mackay T.F.C. (1996) Introduction to Quantitative Genetics,
       ch. 10.

    Examples
    --------
    >>> fit = heritability_by_midparents(dams=[9, 10, 11], sires=[9, 12, 11], young=[9, 10, 10])
    >>> fit.slope
    0.5
    """
    if not len(dams) == len(sires) == len(young):
        raise DomainError(
            "number of dams, sires and families", (len(dams), len(sires), len(young)), "the same"
        )
    middles = [(dam + sire) / 2.0 for dam, sire in zip(dams, sires, strict=True)]
    return line_fit(middles, young, confidence=confidence)


def heritability_by_one_parent(
    *, parents: Sequence[float], young: Sequence[float], confidence: float = 0.95
) -> SlopeFit:
    """Give the heritability by regression of the young on one parent.

    Parameters
    ----------
    parents, young
        Grade of the one parent (all dams, or all sires) and mean grade of the young of each
        family, in the same order and units.
    confidence
        Wanted coverage of the interval, between 0 and 1.

    Returns
    -------
    SlopeFit
        The slope is h²: twice the slope of the regression, with its standard error and limits
        doubled as well. The intercept is that of the regression itself.

    Raises
    ------
    DomainError
        As `heritability_by_midparents`.

    Notes
    -----
    Mates must be paired without regard to the grade; where like is put to like, the result is
    too high. From dams it also holds what a mother gives besides genes.

    References
    ----------
    .. [1] Falconer D.S. & Mackay T.F.C. (1996) Introduction to Quantitative Genetics,
       ch. 10.

    Examples
    --------
    >>> heritability_by_one_parent(parents=[9, 10, 11], young=[9.75, 10, 10.25]).slope
    0.5
    """
    fit = line_fit(parents, young, confidence=confidence)
    return SlopeFit(
        points=fit.points,
        slope=_twice(fit.slope),
        intercept=fit.intercept,
        standard_error=_twice(fit.standard_error),
        low=_twice(fit.low),
        high=_twice(fit.high),
    )


def _twice(value: float | None) -> float | None:
    return None if value is None else 2.0 * value
