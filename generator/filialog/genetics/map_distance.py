"""From distance on the map to recombination, and back."""

import math

from filialog.domain_error import DomainError

__all__ = [
    "haldane_distance_cm",
    "haldane_recombination",
    "kosambi_distance_cm",
    "kosambi_recombination",
]


def _check_distance(distance_cm: float) -> float:
    if not 0.0 <= distance_cm < math.inf:
        raise DomainError("distance (cM)", distance_cm, "0 or more")
    return distance_cm / 100.0


def _check_fraction(recombination: float) -> float:
    if not 0.0 <= recombination < 0.5:
        raise DomainError("recombination fraction", recombination, "0 or more and below 1/2")
    return recombination


def haldane_recombination(*, distance_cm: float) -> float:
    """Return the recombination fraction at a distance, without interference.

    Raises
    ------
    DomainError
        If the distance (centimorgan) is negative or not finite.

    References
    ----------
    .. [1] Haldane J.B.S. (1919) J. Genet. 8:299-309.

    Examples
    --------
    >>> round(haldane_recombination(distance_cm=20), 4)
    0.1648
    """
    return -math.expm1(-2.0 * _check_distance(distance_cm)) / 2.0


def haldane_distance_cm(*, recombination: float) -> float:
    """Return the distance in centimorgan at a recombination fraction, without interference.

    Raises
    ------
    DomainError
        If the fraction is not at least 0 and below 1/2.

    References
    ----------
    .. [1] Haldane J.B.S. (1919) J. Genet. 8:299-309.

    Examples
    --------
    >>> round(haldane_distance_cm(recombination=haldane_recombination(distance_cm=20)), 9)
    20.0
    """
    return -50.0 * math.log1p(-2.0 * _check_fraction(recombination))


def kosambi_recombination(*, distance_cm: float) -> float:
    """Return the recombination fraction at a distance, with interference that fades.

    Raises
    ------
    DomainError
        If the distance (centimorgan) is negative or not finite.

    References
    ----------
    .. [1] Kosambi D.D. (1944) Ann. Eugen. 12:172-175.

    Examples
    --------
    >>> round(kosambi_recombination(distance_cm=20), 4)
    0.19
    """
    return math.tanh(2.0 * _check_distance(distance_cm)) / 2.0


def kosambi_distance_cm(*, recombination: float) -> float:
    """Return the distance in centimorgan at a recombination fraction, with interference.

    Raises
    ------
    DomainError
        If the fraction is not at least 0 and below 1/2.

    References
    ----------
    .. [1] Kosambi D.D. (1944) Ann. Eugen. 12:172-175.

    Examples
    --------
    >>> round(kosambi_distance_cm(recombination=kosambi_recombination(distance_cm=20)), 9)
    20.0
    """
    return 50.0 * math.atanh(2.0 * _check_fraction(recombination))
