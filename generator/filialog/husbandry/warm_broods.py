"""Whether the warmth of the water may have turned the sex ratio of a brood."""

from itertools import pairwise

from filialog.domain_error import DomainError
from filialog.husbandry.provenance import Basis, Provenance, Sourced

__all__ = ["FEMALE_SHARE_POINTS", "expected_female_share", "sex_ratio_is_suspect"]

FEMALE_SHARE_POINTS: Sourced[tuple[tuple[float, float], ...]] = Sourced(
    value=((20.0, 0.80), (23.0, 0.50), (26.0, 0.18)),
    sources=(
        Provenance(
            source=(
                "one study of Neocaridina davidi, three replicates, its wording leaves a doubt:"
                " Fresenius Environ. Bull. 26(12):7575-7579, 2017"
            ),
            basis=Basis.ABSTRACT_READ,
        ),
    ),
)
"""Water temperature in °C while the young grew up, and share of females."""


def expected_female_share(temperature_c: float) -> Sourced[float]:
    """Return the share of females of *Neocaridina davidi* reared at a temperature.

    Parameters
    ----------
    temperature_c
        Mean water temperature in °C while eggs were carried and in the first thirty days, 20 to
        26: the study goes no further.

    Returns
    -------
    Sourced[float]
        Share from 0 to 1, on straight lines between the three points of the study.

    Raises
    ------
    DomainError
        If the temperature is outside 20 to 26 °C or not a number.

    Examples
    --------
    >>> expected_female_share(21.5).value
    0.65
    """
    points = FEMALE_SHARE_POINTS.value
    if not points[0][0] <= temperature_c <= points[-1][0]:
        raise DomainError(
            "water temperature (°C)", temperature_c, f"{points[0][0]:g} to {points[-1][0]:g}"
        )
    for (cool, many), (warm, few) in pairwise(points):
        if temperature_c <= warm:
            part = (temperature_c - cool) / (warm - cool)
            return Sourced(value=many + part * (few - many), sources=FEMALE_SHARE_POINTS.sources)
    raise AssertionError("the last point is the upper bound")


def sex_ratio_is_suspect(temperature_c: float, *, lopsided: float = 0.65) -> bool:
    """Tell whether to look at the sexes of a brood with the temperature in mind.

    Parameters
    ----------
    temperature_c
        As for `expected_female_share`.
    lopsided
        Share of one sex from which a ratio is called lopsided, 0.5 to 1; a choice.

    Returns
    -------
    bool
        True where either sex would be `lopsided` or more. A flag, never a correction of a count.

    Raises
    ------
    DomainError
        As for `expected_female_share`, or if `lopsided` is out of its range.

    Examples
    --------
    >>> [sex_ratio_is_suspect(degrees) for degrees in (20.0, 23.0, 26.0)]
    [True, False, True]
    """
    if not 0.5 <= lopsided <= 1.0:
        raise DomainError("share called lopsided", lopsided, "0.5 to 1")
    females = expected_female_share(temperature_c).value
    return max(females, 1.0 - females) >= lopsided
