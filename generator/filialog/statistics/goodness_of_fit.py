"""Large-sample tests of one count against expected shares: chi-square and G."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from filialog.statistics.counts import Shares, checked_counts, checked_shares

__all__ = ["FitState", "FitTest", "Method", "chi_square_tail", "chi_square_test", "g_test"]


class FitState(Enum):
    """What a test of fit could say at all."""

    TESTED = "tested"
    """Animals were counted and at least two classes can occur."""

    NOTHING_COUNTED = "nothing counted"
    """No animal was counted: the p value is 1 and says nothing."""

    ONE_CLASS = "one class"
    """Only one class can occur and only that one was seen: the p value is 1."""

    IMPOSSIBLE = "impossible"
    """A class with expected share 0 was seen: the p value is 0."""


class Method(Enum):
    """How a p value was found."""

    CHI_SQUARE = "chi-square"
    G = "G"
    G_WILLIAMS = "G with Williams' correction"
    EXACT = "exact"


@dataclass(frozen=True, slots=True, kw_only=True)
class FitTest:
    """One count held against expected shares."""

    state: FitState
    """Whether the numbers below come from a test, or from a named special case."""

    method: Method
    """Which statistic was used."""

    statistic: float
    """The statistic; 0 when nothing could be tested, infinite when impossible."""

    df: int
    """Degrees of freedom: classes with an expected share above 0, less one."""

    p_value: float
    """Probability of a statistic at least this large if the shares are right."""

    expected_counts: tuple[float, ...]
    """Expected number of animals in each class."""


def chi_square_tail(*, statistic: float, df: int) -> float:
    """Return the upper tail of the chi-square distribution.

    Parameters
    ----------
    statistic
        Zero or more; infinity is allowed.
    df
        Degrees of freedom; with 0 the distribution is the single point 0.

    Returns
    -------
    float
        Probability of a value of `statistic` or more.

    Examples
    --------
    >>> round(chi_square_tail(statistic=3.841459, df=1), 4)
    0.05
    """
    if df == 0:
        return 1.0 if statistic <= 0.0 else 0.0
    from scipy.special import gammaincc  # noqa: PLC0415 - a quick command should not load it

    return float(gammaincc(df / 2.0, statistic / 2.0))


def _state(counts: Sequence[int], shares: Sequence[float]) -> FitState:
    if any(count > 0 and share == 0.0 for count, share in zip(counts, shares, strict=True)):
        return FitState.IMPOSSIBLE
    if sum(counts) == 0:
        return FitState.NOTHING_COUNTED
    if sum(share > 0.0 for share in shares) == 1:
        return FitState.ONE_CLASS
    return FitState.TESTED


def _fit(
    method: Method, counts: tuple[int, ...], shares: tuple[float, ...], statistic: float
) -> FitTest:
    state = _state(counts, shares)
    df = sum(share > 0.0 for share in shares) - 1
    if state is FitState.TESTED:
        p_value = chi_square_tail(statistic=statistic, df=df)
    elif state is FitState.IMPOSSIBLE:
        statistic, p_value = math.inf, 0.0
    else:
        statistic, p_value = 0.0, 1.0
    total = sum(counts)
    return FitTest(
        state=state,
        method=method,
        statistic=statistic,
        df=df,
        p_value=p_value,
        expected_counts=tuple(total * share for share in shares),
    )


def williams_factor(animals: int, possible: int) -> float:
    """Return by how much Williams' correction divides G, for classes that can occur."""
    if animals == 0 or possible < 2:
        return 1.0
    return 1.0 + (possible**2 - 1) / (6.0 * animals * (possible - 1))


def chi_square_test(observed: Sequence[int], shares: Shares) -> FitTest:
    """Test a count against expected shares by Pearson's chi-square.

    Parameters
    ----------
    observed
        Animals counted in each class.
    shares
        Expected share of each class, together 1. A class with share 0 takes no
        part unless an animal of it was seen; then the result is "impossible".

    Returns
    -------
    FitTest
        Statistic, degrees of freedom and p value. No animals: p is 1 under the
        name "nothing counted".

    Raises
    ------
    DomainError
        If counts or shares are not valid.

    Notes
    -----
    The p value is the large-sample approximation. Where expected counts are
    below about 5 (common practice, no source) use the exact test.

    References
    ----------
    .. [1] Pearson K. (1900) Philosophical Magazine 50:157-175 (from memory).

    Examples
    --------
    Mendel's round and angular seeds:

    >>> fit = chi_square_test([5474, 1850], [0.75, 0.25])
    >>> round(fit.statistic, 3), fit.df, round(fit.p_value, 3)
    (0.263, 1, 0.608)
    """
    counts = checked_counts(observed)
    numbers = checked_shares(shares, classes=len(counts))
    total = sum(counts)
    statistic = math.fsum(
        (count - total * share) ** 2 / (total * share)
        for count, share in zip(counts, numbers, strict=True)
        if total * share > 0.0
    )
    return _fit(Method.CHI_SQUARE, counts, numbers, statistic)


def g_test(observed: Sequence[int], shares: Shares, *, williams: bool = False) -> FitTest:
    """Test a count against expected shares by the likelihood ratio statistic G.

    Parameters
    ----------
    observed
        Animals counted in each class.
    shares
        Expected share of each class, together 1; share 0 as in `chi_square_test`.
    williams
        Divide G by q = 1 + (a² − 1) / (6 n v), where a is the number of classes
        that can occur, v = a − 1 and n the number of animals.

    Returns
    -------
    FitTest
        G (corrected if asked), degrees of freedom and p value.

    Raises
    ------
    DomainError
        If counts or shares are not valid.

    References
    ----------
    .. [1] Williams D.A. (1976) Biometrika 63:33-37 (from memory).
    .. [2] Sokal R.R. & Rohlf F.J., Biometry, chapter 17 (from memory).

    Examples
    --------
    >>> fit = g_test([5474, 1850], [0.75, 0.25], williams=True)
    >>> round(fit.statistic, 5), round(fit.p_value, 4)
    (0.26226, 0.6086)
    """
    counts = checked_counts(observed)
    numbers = checked_shares(shares, classes=len(counts))
    total = sum(counts)
    # Rounding can leave a G of a perfect fit a hair below zero.
    statistic = max(
        0.0,
        2.0
        * math.fsum(
            count * math.log(count / (total * share))
            for count, share in zip(counts, numbers, strict=True)
            if count > 0 and total * share > 0.0
        ),
    )
    method = Method.G
    if williams:
        method = Method.G_WILLIAMS
        statistic /= williams_factor(total, sum(share > 0.0 for share in numbers))
    return _fit(method, counts, numbers, statistic)
