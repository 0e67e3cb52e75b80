"""One cloud of young of several pairs: mixtures within the brood."""

import math
from collections import defaultdict
from collections.abc import Sequence
from fractions import Fraction
from itertools import product

from filialog.domain_error import DomainError
from filialog.genetics.broods import BroodComponents

__all__ = ["cloud_components", "cloud_probability"]

_MOST_COMPONENTS = 200_000
_MOST_TERMS = 4_000


def cloud_components(clutches: Sequence[tuple[Fraction, BroodComponents]]) -> BroodComponents:
    """Return what the young of several pairs in known shares can look like.

    Parameters
    ----------
    clutches
        For each pair the share of the young that is of it, together exactly 1, and
        what its own young can look like, see `brood_components`.

    Returns
    -------
    BroodComponents
        With probability `weight` every young follows `shares`, a mixture within the
        cloud. Genotypes of different pairs are taken as independent.

    Raises
    ------
    DomainError
        If a share is negative, the shares do not add up to 1, or there are more than
        200,000 ways the parents can be.

    Examples
    --------
    >>> half, whole, none = Fraction(1, 2), Fraction(1), Fraction(0)
    >>> carrier, plain = ((whole, (half, half)),), ((whole, (none, whole)),)
    >>> for weight, shares in cloud_components([(half, carrier), (half, plain)]):
    ...     print(weight, *shares)
    1 1/4 3/4
    """
    total = sum((share for share, _ in clutches), Fraction(0))
    if total != 1:
        raise DomainError("sum of the shares", total, "1")
    if any(share < 0 for share, _ in clutches):
        raise DomainError("share", min(share for share, _ in clutches), "0 or more")
    ways = math.prod(len(components) for _, components in clutches)
    if ways > _MOST_COMPONENTS:
        raise DomainError("number of ways the parents can be", ways, f"at most {_MOST_COMPONENTS}")
    merged: dict[tuple[Fraction, ...], Fraction] = defaultdict(Fraction)
    for drawn in product(*(components for _, components in clutches)):
        weight = math.prod((own for own, _ in drawn), start=Fraction(1))
        columns = zip(*(shares for _, shares in drawn), strict=True)
        together = tuple(
            sum((s * p for (s, _), p in zip(clutches, column, strict=True)), Fraction(0))
            for column in columns
        )
        merged[together] += weight
    return tuple(sorted(((weight, shares) for shares, weight in merged.items()), reverse=True))


def cloud_probability(
    counts: Sequence[int], pairs: Sequence[tuple[Fraction, ...]]
) -> Fraction | float:
    """Return how probable a count is when nothing is known of the shares of the pairs.

    Parameters
    ----------
    counts
        Young counted of each look, whole numbers from 0.
    pairs
        For each pair the shares of its young by look, in the same order.

    Returns
    -------
    Fraction or float
        The multinomial probability of the counts, averaged over all shares that the
        pairs can have in the cloud, all shares equally likely (Dirichlet with all
        parameters 1). Exact where the young and pairs are few, else by a fixed
        quadrature that is exact but for rounding.

    Raises
    ------
    DomainError
        If there is no pair, a count is negative, or the numbers of looks differ.

    Notes
    -----
    The product of the young's probabilities is a polynomial in the shares, and the
    mean of a monomial is (k-1)! a₁! … a_k! / (n+k-1)! for k pairs and n young [1]_.
    The quadrature cuts the shares off one after another and takes Gauss-Jacobi nodes
    for each, enough for a polynomial of degree n.

    References
    ----------
    .. [1] Johnson N.L., Kotz S. (1972) Continuous Multivariate Distributions, ch. 40
       (from memory).

    Examples
    --------
    >>> half, whole, none = Fraction(1, 2), Fraction(1), Fraction(0)
    >>> cloud_probability((0, 2), [(half, half), (none, whole)])
    Fraction(7, 12)
    """
    if not pairs:
        raise DomainError("number of pairs", 0, "1 or more")
    for shares in pairs:
        if len(shares) != len(counts):
            raise DomainError("number of looks", len(shares), f"{len(counts)}, one per count")
    if any(count < 0 for count in counts):
        raise DomainError("count", min(counts), "0 or more")
    young = sum(counts)
    orders = math.factorial(young) // math.prod(math.factorial(count) for count in counts)
    if math.comb(young + len(pairs) - 1, len(pairs) - 1) <= _MOST_TERMS:
        return orders * _exact_mean(counts, pairs)
    return _mean_by_quadrature(counts, pairs)


def _exact_mean(counts: Sequence[int], pairs: Sequence[tuple[Fraction, ...]]) -> Fraction:
    polynomial: dict[tuple[int, ...], Fraction] = {(0,) * len(pairs): Fraction(1)}
    for look, count in enumerate(counts):
        for _ in range(count):
            grown: dict[tuple[int, ...], Fraction] = defaultdict(Fraction)
            for powers, factor in polynomial.items():
                for number, shares in enumerate(pairs):
                    if shares[look]:
                        raised = (*powers[:number], powers[number] + 1, *powers[number + 1 :])
                        grown[raised] += factor * shares[look]
            polynomial = grown
    total = Fraction(0)
    for powers, factor in polynomial.items():
        total += factor * math.prod(math.factorial(power) for power in powers)
    scale = Fraction(math.factorial(len(pairs) - 1), math.factorial(sum(counts) + len(pairs) - 1))
    return total * scale


def _mean_by_quadrature(counts: Sequence[int], pairs: Sequence[tuple[Fraction, ...]]) -> float:
    import numpy as np  # noqa: PLC0415 - small clouds do without
    from scipy.special import gammaln, roots_sh_jacobi, xlogy  # noqa: PLC0415

    nodes = sum(counts) // 2 + 1
    table = np.array([[float(share) for share in shares] for shares in pairs])
    shares, weights = np.zeros((1, 0)), np.ones(1)
    left = np.ones(1)
    for number in range(len(pairs) - 1):
        rest = len(pairs) - 1 - number
        # The first of `rest` + 1 shares has density rest (1 - x)^(rest - 1).
        points, masses = roots_sh_jacobi(nodes, rest, 1)
        masses = masses / masses.sum()
        taken = np.outer(left, points)
        shares = np.concatenate([np.repeat(shares, nodes, axis=0), taken.reshape(-1, 1)], axis=1)
        weights = np.outer(weights, masses).ravel()
        left = (left[:, None] - taken).ravel()
    shares = np.concatenate([shares, left.reshape(-1, 1)], axis=1)
    number_seen = np.array(counts, dtype=float)
    logs = xlogy(number_seen, shares @ table).sum(axis=1)
    logs += gammaln(number_seen.sum() + 1) - gammaln(number_seen + 1).sum()
    return float((weights * np.exp(logs)).sum())
