"""How often two linked loci come apart, estimated from counts of young."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from filialog.domain_error import DomainError

__all__ = [
    "F2Linkage",
    "LinkageInTestCross",
    "recombination_from_f2",
    "recombination_from_test_cross",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class LinkageInTestCross:
    """Recombination between two loci, from young whose gametes can be told apart."""

    counted: int
    """Young counted."""

    recombination: float
    """Share of recombinants, the estimate of greatest likelihood, 0 to 1."""

    standard_error: float
    """Its standard error."""

    lod: float
    """Decimal logarithm of how much more probable the count is at the estimate than
    without linkage; 0 where the estimate is above 1/2."""

    chi_square: float
    """Chi-square of recombinants against half, with 1 degree of freedom."""


@dataclass(frozen=True, slots=True, kw_only=True)
class F2Linkage:
    """Recombination between two loci, from an F2 with a dominant allele at each."""

    counted: int
    """Young counted."""

    theta: float
    """Four times the share of double recessives: (1 - r)² in coupling, r² in repulsion."""

    standard_error: float
    """Standard error of theta."""

    coupling: float
    """Recombination fraction if the F1 had its recessives on one chromosome."""

    repulsion: float
    """Recombination fraction if the F1 had them on different chromosomes."""

    chi_square: float
    """Chi-square of linkage, with 1 degree of freedom, both single ratios apart."""


def _check(counts: Sequence[int], wanted: int) -> int:
    if len(counts) != wanted:
        raise DomainError("number of classes", len(counts), str(wanted))
    for count in counts:
        if not 0 <= count < math.inf:
            raise DomainError("count", count, "0 or more")
    total = sum(counts)
    if total == 0:
        raise DomainError("young counted", 0, "1 or more")
    return total


def recombination_from_test_cross(*, parental: int, recombinant: int) -> LinkageInTestCross:
    """Estimate how often two loci come apart, from a cross to double recessives.

    Parameters
    ----------
    parental
        Young with the alleles as the hybrid parent's own parents had them.
    recombinant
        Young with the other two combinations.

    Returns
    -------
    LinkageInTestCross
        Estimate, standard error, lod score and chi-square.

    Raises
    ------
    DomainError
        If a count is negative or nothing was counted.

    References
    ----------
    .. [1] Morton N.E. (1955) Am. J. Hum. Genet. 7:277-318 (lod score).

    Examples
    --------
    >>> result = recombination_from_test_cross(parental=9, recombinant=1)
    >>> result.recombination, round(result.lod, 3)
    (0.1, 1.598)
    """
    total = _check((parental, recombinant), 2)
    share = recombinant / total
    lod = total * math.log10(2.0)
    lod += recombinant * math.log10(share) if recombinant else 0.0
    lod += parental * math.log10(1.0 - share) if parental else 0.0
    return LinkageInTestCross(
        counted=total,
        recombination=share,
        standard_error=math.sqrt(share * (1.0 - share) / total),
        lod=max(0.0, lod) if share < 0.5 else 0.0,
        chi_square=(parental - recombinant) ** 2 / total,
    )


def recombination_from_f2(counts: Sequence[int]) -> F2Linkage:
    """Estimate how often two loci come apart, from an F2 of two dominant loci.

    Parameters
    ----------
    counts
        Young that show both dominants, the first only, the second only, neither.

    Returns
    -------
    F2Linkage
        The estimate of greatest likelihood, read as coupling and as repulsion.

    Raises
    ------
    DomainError
        If there are not four counts, one is negative, or nothing was counted.

    Notes
    -----
    The shares are (2 + θ) : (1 - θ) : (1 - θ) : θ over 4, and θ solves
    n θ² - (a - 2b - 2c - d) θ - 2d = 0. Assumes that eggs and sperm recombine alike
    and that all classes live alike.

    References
    ----------
    .. [1] Fisher R.A., Balmukand B. (1928) J. Genet. 20:79-92.

    Examples
    --------
    >>> result = recombination_from_f2((125, 18, 20, 34))
    >>> round(result.theta, 4), round(result.coupling, 4)
    (0.6268, 0.2083)
    """
    total = _check(counts, 4)
    both, first, second, neither = counts
    middle = both - 2 * first - 2 * second - neither
    root = math.sqrt(middle * middle + 8 * total * neither)
    # The form without cancellation, whichever sign the middle term has.
    theta = (
        (middle + root) / (2 * total)
        if middle >= 0
        else (4 * neither / (root - middle) if neither else 0.0)
    )
    theta = min(1.0, theta)
    variance = 2.0 * theta * (1.0 - theta) * (2.0 + theta) / (total * (1.0 + 2.0 * theta))
    repulsion = math.sqrt(theta)
    return F2Linkage(
        counted=total,
        theta=theta,
        standard_error=math.sqrt(variance),
        coupling=1.0 - repulsion,
        repulsion=repulsion,
        chi_square=(both - 3 * first - 3 * second + 9 * neither) ** 2 / (9 * total),
    )
