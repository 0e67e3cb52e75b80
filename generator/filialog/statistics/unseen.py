"""How common a class can still be when none of it was seen."""

import math

from filialog.domain_error import DomainError

__all__ = ["rule_of_three", "unseen_share"]


def unseen_share(*, counted: int, confidence: float = 0.95) -> float:
    """Return the largest share that a class not seen at all can plausibly have.

    Parameters
    ----------
    counted
        Animals counted, none of them of the class; 0 or more.
    confidence
        One-sided confidence, between 0 and 1.

    Returns
    -------
    float
        The share at which none among `counted` has the chance 1 - `confidence`: the exact
        one-sided upper limit. 1 when nothing was counted.

    Raises
    ------
    DomainError
        If the number or the confidence is out of range.

    References
    ----------
    .. [1] Hanley J.A. & Lippman-Hand A. (1983) Journal of the American Medical
       Association 249:1743-1745 (from memory).

    Examples
    --------
    >>> round(unseen_share(counted=30), 4)
    0.095
    """
    _check(counted)
    if not 0.0 < confidence < 1.0:
        raise DomainError("confidence", confidence, "above 0 and below 1")
    if counted == 0:
        return 1.0
    return -math.expm1(math.log1p(-confidence) / counted)


def rule_of_three(*, counted: int) -> float:
    """Return 3/n, the rule of thumb for `unseen_share` at 95 %.

    Parameters
    ----------
    counted
        Animals counted, none of them of the class; 0 or more.

    Returns
    -------
    float
        The share, at most 1.

    Raises
    ------
    DomainError
        If the number is out of range.

    References
    ----------
    .. [1] Hanley J.A. & Lippman-Hand A. (1983), as above.

    Examples
    --------
    >>> rule_of_three(counted=30)
    0.1
    """
    _check(counted)
    return 1.0 if counted == 0 else min(1.0, 3.0 / counted)


def _check(counted: int) -> None:
    if not 0 <= counted < math.inf:
        raise DomainError("number of animals counted", counted, "0 or more")
