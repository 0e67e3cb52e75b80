"""Shares that several parents may have among the young: points and weights on a simplex."""

from itertools import product
from math import prod
from typing import NamedTuple

__all__ = ["SharePoint", "share_points"]


class SharePoint(NamedTuple):
    """One set of shares, together 1."""

    weight: float
    shares: tuple[float, ...]


def share_points(parents: int, *, degree: int, most: int) -> tuple[tuple[SharePoint, ...], bool]:
    """Return points that integrate polynomials over all shares, every set equally probable.

    Parameters
    ----------
    parents
        Number of shares, 1 or more.
    degree
        Degree of the polynomials, 0 or more.
    most
        Points that may be used.

    Returns
    -------
    points, exact
        The points, their weights together 1, and whether the integral of every polynomial
        of that degree is exact but for rounding.

    Notes
    -----
    The law is Dirichlet(1, …, 1), broken stick by stick: the first share is Beta(1, k - 1),
    the next such a part of what is left. Each is integrated by the rule of Gauss and
    Jacobi [1]_, which with m points is exact to degree 2m - 1; their product is exact for
    polynomials of the shares to the same degree.

    References
    ----------
    .. [1] Stroud A.H. (1971) Approximate Calculation of Multiple Integrals, conical
       product rules (from memory).

    Examples
    --------
    >>> points, exact = share_points(2, degree=2, most=100)
    >>> round(sum(point.weight * point.shares[0] ** 2 for point in points), 12), exact
    (0.333333333333, True)
    """
    from scipy.special import roots_jacobi  # noqa: PLC0415 - only clouds pay for it

    if parents == 1:
        return (SharePoint(1.0, (1.0,)),), True
    sticks = parents - 1
    wanted = degree // 2 + 1
    used = wanted
    while used > 1 and used**sticks > most:
        used -= 1
    rules = []
    for stick in range(sticks):
        nodes, weights = roots_jacobi(used, sticks - 1 - stick, 0)
        total = float(weights.sum())
        rules.append(
            [((1 + float(x)) / 2, float(w) / total) for x, w in zip(nodes, weights, strict=True)]
        )
    points = []
    for drawn in product(*rules):
        shares, left = [], 1.0
        for part, _ in drawn:
            shares.append(left * part)
            left *= 1 - part
        points.append(SharePoint(prod(weight for _, weight in drawn), (*shares, left)))
    return tuple(points), used == wanted
