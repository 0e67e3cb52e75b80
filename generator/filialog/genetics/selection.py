"""What selection by a grade is expected to change in the next generations."""

import math
from collections.abc import Sequence

from filialog.domain_error import DomainError
from filialog.genetics.number_ranges import check_finite, check_share

__all__ = [
    "additive_variance_after_selection",
    "correlated_response",
    "differential_of_both_sexes",
    "forecast_means",
    "response_by_intensity",
    "response_per_time",
    "response_to_selection",
]


def differential_of_both_sexes(*, dams: float, sires: float) -> float:
    """Give the selection differential of a mating from those of its two sexes.

    Parameters
    ----------
    dams, sires
        Mean of the chosen dams (sires) less the mean of all females (males) of their
        generation, in units of the grade; 0 where a sex is not chosen by its grade.

    Returns
    -------
    float
        The mean of the two: each parent gives half the genes.

    Raises
    ------
    DomainError
        If a number is not finite.

    References
    ----------
    .. [1] Falconer D.S. & Mackay T.F.C. (1996) Introduction to Quantitative Genetics,
       ch. 11.

    Examples
    --------
    >>> differential_of_both_sexes(dams=1.5, sires=0.0)
    0.75
    """
    check_finite("selection differential of the dams", dams)
    check_finite("selection differential of the sires", sires)
    return (dams + sires) / 2.0


def response_to_selection(*, heritability: float, differential: float) -> float:
    """Give the expected change of the mean from one generation to the next.

    Parameters
    ----------
    heritability
        Narrow-sense heritability, 0 to 1.
    differential
        Mean of the chosen parents less the mean of their generation, in units of the grade.

    Returns
    -------
    float
        R = h² S, in units of the grade.

    Raises
    ------
    DomainError
        If a number is out of its range or not finite.

    Notes
    -----
    Parent and young must differ by a straight line on the average, and both generations
    must grow up alike.

    References
    ----------
    .. [1] Falconer D.S. & Mackay T.F.C. (1996) Introduction to Quantitative Genetics,
       ch. 11.

    Examples
    --------
    >>> response_to_selection(heritability=0.4, differential=10)
    4.0
    """
    check_share("heritability", heritability)
    check_finite("selection differential", differential)
    return heritability * differential


def response_by_intensity(*, intensity: float, accuracy: float, additive_sd: float) -> float:
    """Give the expected change of the mean from the intensity and accuracy of selection.

    Parameters
    ----------
    intensity
        Mean of the chosen above the mean of all, in standard deviations of what they are
        chosen by; the mean of both sexes.
    accuracy
        Correlation of what they are chosen by with the breeding value, 0 to 1; the square
        root of the heritability where an animal's own grade is used.
    additive_sd
        Standard deviation of breeding values, in units of the grade, 0 or more.

    Returns
    -------
    float
        R = i r σ_A, in units of the grade.

    Raises
    ------
    DomainError
        If a number is out of its range or not finite.

    References
    ----------
    .. [1] Falconer D.S. & Mackay T.F.C. (1996) Introduction to Quantitative Genetics,
       ch. 11.

    Examples
    --------
    >>> response_by_intensity(intensity=1.4, accuracy=0.5, additive_sd=2.0)
    1.4
    """
    check_finite("selection intensity", intensity)
    check_share("accuracy of selection", accuracy)
    if not 0.0 <= additive_sd < math.inf:
        raise DomainError("standard deviation of breeding values", additive_sd, "0 or more")
    return intensity * accuracy * additive_sd


def response_per_time(
    *, dams: float, sires: float, dam_interval: float, sire_interval: float
) -> float:
    """Give the expected change of the mean per unit of time.

    Parameters
    ----------
    dams, sires
        Mean breeding value of the chosen dams (sires) above that of their generation, in
        units of the grade; 0 where a sex is not chosen.
    dam_interval, sire_interval
        Mean age of the dams (sires) when their young that breed again hatch, above 0.

    Returns
    -------
    float
        Sum of the two superiorities over the sum of the two ages, in units of the grade per
        unit of the ages.

    Raises
    ------
    DomainError
        If a number is out of its range or not finite.

    References
    ----------
    .. [1] Rendel J.M. & Robertson A. (1950) Journal of Genetics 50:1-8 (from memory).

    Examples
    --------
    >>> response_per_time(dams=3, sires=0, dam_interval=4, sire_interval=4)
    0.375
    """
    check_finite("superiority of the dams", dams)
    check_finite("superiority of the sires", sires)
    for sex, interval in (("dams", dam_interval), ("sires", sire_interval)):
        if not 0.0 < interval < math.inf:
            raise DomainError(f"generation interval of the {sex}", interval, "above 0")
    return (dams + sires) / (dam_interval + sire_interval)


def forecast_means(
    *, mean: float, heritability: float, differentials: Sequence[float]
) -> tuple[float, ...]:
    """Give the expected mean of each generation under a plan of selection.

    Parameters
    ----------
    mean
        Mean grade of the generation in which selection starts.
    heritability
        Narrow-sense heritability, 0 to 1, taken to stay the same.
    differentials
        Selection differential of each generation, in units of the grade.

    Returns
    -------
    tuple of float
        The mean now and after each generation: one value more than differentials.

    Raises
    ------
    DomainError
        If a number is out of its range or not finite.

    Notes
    -----
    Heritability falls under selection and in a small line, so the forecast of many
    generations is too high: see `additive_variance_after_selection`.

    References
    ----------
    .. [1] Falconer D.S. & Mackay T.F.C. (1996) Introduction to Quantitative Genetics,
       ch. 11.

    Examples
    --------
    >>> forecast_means(mean=10.0, heritability=0.5, differentials=[2, 1])
    (10.0, 11.0, 11.5)
    """
    check_finite("mean grade", mean)
    check_share("heritability", heritability)
    means = [mean]
    for differential in differentials:
        change = response_to_selection(heritability=heritability, differential=differential)
        means.append(means[-1] + change)
    return tuple(means)


def correlated_response(
    *,
    intensity: float,
    accuracy: float,
    genetic_correlation: float,
    other_additive_sd: float,
) -> float:
    """Give the expected change of a trait that is not selected itself.

    Parameters
    ----------
    intensity
        Selection intensity on the selected trait, in its standard deviations.
    accuracy
        Accuracy of selection for the selected trait, 0 to 1.
    genetic_correlation
        Correlation of the breeding values of both traits, -1 to 1.
    other_additive_sd
        Standard deviation of breeding values of the other trait, in its units, 0 or more.

    Returns
    -------
    float
        CR = i r_X r_A σ_AY, in units of the other trait.

    Raises
    ------
    DomainError
        If a number is out of its range or not finite.

    References
    ----------
    .. [1] Falconer D.S. & Mackay T.F.C. (1996) Introduction to Quantitative Genetics,
       ch. 19.

    Examples
    --------
    >>> correlated_response(
    ...     intensity=1.0, accuracy=0.5, genetic_correlation=-0.5, other_additive_sd=2.0
    ... )
    -0.5
    """
    if not -1.0 <= genetic_correlation <= 1.0:
        raise DomainError("genetic correlation", genetic_correlation, "between -1 and 1")
    direct = response_by_intensity(
        intensity=intensity, accuracy=accuracy, additive_sd=other_additive_sd
    )
    return genetic_correlation * direct


def additive_variance_after_selection(
    *,
    variance: float,
    base_variance: float,
    heritability: float,
    variance_lost: float,
    inbreeding_rise: float = 0.0,
) -> float:
    """Give the additive variance among the young of selected parents.

    Parameters
    ----------
    variance
        Additive variance in the generation that is selected, 0 or more.
    base_variance
        Additive variance there would be with random mating and no selection, 0 or more.
    heritability
        Heritability in the generation that is selected, 0 to 1.
    variance_lost
        Part of the phenotypic variance that the chosen lack, k = i (i - x), 0 to 1, as
        `truncation_selection` gives it.
    inbreeding_rise
        Inbreeding of the parents (relative to the base), 0 to 1, which lessens what
        segregates within families.

    Returns
    -------
    float
        ½ (1 - k h²) V_A + ½ (1 - F) V_0, in squared units of the grade.

    Raises
    ------
    DomainError
        If a number is out of its range or not finite.

    Notes
    -----
    Many loci of small effect, the same selection in both sexes. Most of the fall comes in
    the first two or three generations and comes back when selection ends.

    References
    ----------
    .. [1] Bulmer M.G. (1971) The effect of selection on genetic variability, American
       Naturalist 105:201-211 (from memory).

    Examples
    --------
    >>> additive_variance_after_selection(
    ...     variance=1.0, base_variance=1.0, heritability=0.5, variance_lost=0.8
    ... )
    0.8
    """
    for what, number in (("additive variance", variance), ("base variance", base_variance)):
        if not 0.0 <= number < math.inf:
            raise DomainError(what, number, "0 or more")
    check_share("heritability", heritability)
    check_share("part of the variance lost", variance_lost)
    check_share("inbreeding of the parents", inbreeding_rise)
    among = (1.0 - variance_lost * heritability) * variance
    return (among + (1.0 - inbreeding_rise) * base_variance) / 2.0
