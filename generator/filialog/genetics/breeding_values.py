"""What an animal's own grade and those of its relatives tell of its worth as a parent."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from filialog.domain_error import DomainError
from filialog.genetics.number_ranges import check_count, check_finite, check_share

__all__ = [
    "SelectionIndex",
    "accuracy_of_full_sibs",
    "accuracy_of_half_sibs",
    "accuracy_of_own_records",
    "accuracy_of_young",
    "breeding_value",
    "breeding_value_from_young",
    "expected_young",
    "selection_index",
]


def breeding_value(*, own: float, mean: float, heritability: float) -> float:
    """Give the best guess of an animal's breeding value from its own grade.

    Parameters
    ----------
    own
        The animal's grade.
    mean
        Mean grade of its generation, raised alike.
    heritability
        Narrow-sense heritability, 0 to 1.

    Returns
    -------
    float
        h² (own - mean), in units of the grade, as a deviation from the mean.

    Raises
    ------
    DomainError
        If a number is out of its range or not finite.

    References
    ----------
    .. [1] Falconer D.S. & Mackay T.F.C. (1996) Introduction to Quantitative Genetics,
       ch. 10.

    Examples
    --------
    >>> breeding_value(own=45, mean=30, heritability=0.2)
    3.0
    """
    check_finite("grade of the animal", own)
    check_finite("mean grade", mean)
    check_share("heritability", heritability)
    return heritability * (own - mean)


def breeding_value_from_young(
    *, young_mean: float, mean: float, young: int, heritability: float
) -> float:
    """Give the best guess of a parent's breeding value from young by many mates.

    Parameters
    ----------
    young_mean
        Mean grade of its young.
    mean
        Mean grade of their generation, raised alike.
    young
        Number of young graded, each by another unrelated mate, 0 or more.
    heritability
        Narrow-sense heritability, 0 to 1.

    Returns
    -------
    float
        2 n h² / (4 + (n - 1) h²) times the deviation of the young, in units of the grade.

    Raises
    ------
    DomainError
        If a number is out of its range or not finite.

    References
    ----------
    .. [1] Mrode R.A. (2014) Linear Models for the Prediction of Animal Breeding Values,
       ch. 1 (from memory).

    Examples
    --------
    >>> round(breeding_value_from_young(young_mean=11, mean=10, young=5, heritability=0.25), 6)
    0.5
    """
    check_finite("mean grade of the young", young_mean)
    check_finite("mean grade", mean)
    accuracy = accuracy_of_young(heritability=heritability, young=young)
    return 2.0 * accuracy * accuracy * (young_mean - mean)


def expected_young(*, dam_value: float, sire_value: float) -> float:
    """Give the expected deviation of the young of two parents.

    Parameters
    ----------
    dam_value, sire_value
        Breeding value of each parent as a deviation from the mean; 0 for an average one.

    Returns
    -------
    float
        The mean of the two, in units of the grade.

    Raises
    ------
    DomainError
        If a number is not finite.

    References
    ----------
    .. [1] Falconer D.S. & Mackay T.F.C. (1996) Introduction to Quantitative Genetics,
       ch. 7.

    Examples
    --------
    >>> expected_young(dam_value=3.0, sire_value=0.0)
    1.5
    """
    check_finite("breeding value of the dam", dam_value)
    check_finite("breeding value of the sire", sire_value)
    return (dam_value + sire_value) / 2.0


def accuracy_of_own_records(
    *, heritability: float, records: int = 1, repeatability: float | None = None
) -> float:
    """Give the accuracy of selection by an animal's own grades.

    Parameters
    ----------
    heritability
        Narrow-sense heritability of a single grade, 0 to 1.
    records
        Gradings of the same animal that are averaged, 0 or more.
    repeatability
        Correlation of two gradings of one animal, from the heritability to 1; needed for
        more than one record.

    Returns
    -------
    float
        sqrt(n h² / (1 + (n - 1) t)), the correlation with the breeding value, 0 to 1; with
        one record sqrt(h²).

    Raises
    ------
    DomainError
        If a number is out of its range, or the repeatability is missing.

    References
    ----------
    .. [1] Falconer D.S. & Mackay T.F.C. (1996); Mrode R.A. (2014) ch. 1 (both from memory).

    Examples
    --------
    >>> accuracy_of_own_records(heritability=0.25)
    0.5
    """
    check_share("heritability", heritability)
    check_count("number of records", records)
    if repeatability is None:
        if records > 1:
            raise DomainError("repeatability", None, "given where a grade is repeated")
        repeatability = 1.0
    if not heritability <= repeatability <= 1.0:
        raise DomainError("repeatability", repeatability, f"between {heritability} and 1")
    return _accuracy(records, heritability, relationship=1.0, likeness=repeatability)


def accuracy_of_young(*, heritability: float, young: int) -> float:
    """Give the accuracy of selecting a parent by young of many mates.

    Parameters
    ----------
    heritability
        Narrow-sense heritability, 0 to 1.
    young
        Number of young graded, each by another unrelated mate, 0 or more.

    Returns
    -------
    float
        sqrt(n h² / (4 + (n - 1) h²)), 0 to 1; it comes near 1 with very many young.

    Raises
    ------
    DomainError
        If a number is out of its range.

    Notes
    -----
    Young of one mate resemble each other more than half sibs, so a single brood tells less.

    References
    ----------
    .. [1] Falconer D.S. & Mackay T.F.C. (1996); Mrode R.A. (2014) ch. 1 (both from memory).

    Examples
    --------
    >>> accuracy_of_young(heritability=0.25, young=5)
    0.5
    """
    return accuracy_of_half_sibs(heritability=heritability, sibs=young, relationship=0.5)


def accuracy_of_half_sibs(*, heritability: float, sibs: int, relationship: float = 0.25) -> float:
    """Give the accuracy of selecting an animal by the mean of half sibs of one another.

    Parameters
    ----------
    heritability
        Narrow-sense heritability, 0 to 1.
    sibs
        Number of half sibs graded, the animal itself not among them, 0 or more.
    relationship
        Additive relationship of the animal to each of them, 0 to 1: 0.25 where it is
        their half sib, 0.5 where it is their parent.

    Returns
    -------
    float
        a sqrt(n h² / (1 + (n - 1) h²/4)), 0 to 1.

    Raises
    ------
    DomainError
        If a number is out of its range.

    References
    ----------
    .. [1] Mrode R.A. (2014) Linear Models for the Prediction of Animal Breeding Values,
       ch. 1 (from memory).

    Examples
    --------
    >>> round(accuracy_of_half_sibs(heritability=0.25, sibs=5), 6)
    0.25
    """
    check_share("heritability", heritability)
    check_count("number of relatives", sibs)
    check_share("relationship", relationship)
    return _accuracy(sibs, heritability, relationship=relationship, likeness=heritability / 4.0)


def accuracy_of_full_sibs(
    *, heritability: float, sibs: int, common_environment: float = 0.0
) -> float:
    """Give the accuracy of selecting an animal by the mean of its full sibs.

    Parameters
    ----------
    heritability
        Narrow-sense heritability, 0 to 1.
    sibs
        Number of full sibs graded, the animal itself not among them, 0 or more.
    common_environment
        Part of the variance that brood mates share for other reasons (tank, mother), 0 to
        1 less the heritability.

    Returns
    -------
    float
        ½ sqrt(n h² / (1 + (n - 1) t)) with t = h²/2 + c², 0 to sqrt(½).

    Raises
    ------
    DomainError
        If a number is out of its range.

    References
    ----------
    .. [1] Mrode R.A. (2014) Linear Models for the Prediction of Animal Breeding Values,
       ch. 1 (from memory).

    Examples
    --------
    >>> round(accuracy_of_full_sibs(heritability=0.5, sibs=10), 4)
    0.6202
    """
    check_share("heritability", heritability)
    check_count("number of relatives", sibs)
    if not 0.0 <= common_environment <= 1.0 - heritability:
        raise DomainError(
            "part of the variance shared by brood mates",
            common_environment,
            f"between 0 and {1.0 - heritability}",
        )
    likeness = heritability / 2.0 + common_environment
    return _accuracy(sibs, heritability, relationship=0.5, likeness=likeness)


@dataclass(frozen=True, slots=True, kw_only=True)
class SelectionIndex:
    """How to weigh several graded traits against one another."""

    weights: tuple[float, ...]
    """Points per unit of each graded trait."""

    accuracy: float
    """Correlation of the index with the breeding goal, 0 to 1."""

    responses: tuple[float, ...]
    """Expected change of each trait of the goal per unit of selection intensity."""


def selection_index(
    *,
    phenotypic: Sequence[Sequence[float]],
    genetic: Sequence[Sequence[float]],
    values: Sequence[float],
) -> SelectionIndex:
    """Give the index of own grades that changes a goal of several traits fastest.

    Parameters
    ----------
    phenotypic
        Variances and covariances of the graded traits (symmetric, positive definite).
    genetic
        Additive variances and covariances of the same traits (symmetric, of every sum of
        traits at least 0 and at most the phenotypic variance).
    values
        How much one unit of each trait is worth to the breeder; not all of no effect.

    Returns
    -------
    SelectionIndex
        b = P^-1 G v.

    Raises
    ------
    DomainError
        If sizes do not agree, a matrix is not as described, or nothing of the goal can be
        changed.

    References
    ----------
    .. [1] Hazel L.N. (1943) The genetic basis for constructing selection indexes, Genetics
       28:476-490 (from memory).

    Examples
    --------
    >>> selection_index(
    ...     phenotypic=[[1, 0], [0, 4]], genetic=[[0.5, 0], [0, 1]], values=[1, 1]
    ... ).weights
    (0.5, 0.25)
    """
    import numpy as np  # noqa: PLC0415 - a quick command should not load it

    traits = len(values)
    matrices = []
    for what, rows in (("phenotypic", phenotypic), ("genetic", genetic)):
        if traits == 0 or len(rows) != traits or any(len(row) != traits for row in rows):
            raise DomainError(f"{what} covariances", rows, f"{traits} rows of {traits}, 1 or more")
        matrix = np.array(rows, dtype=np.float64)
        if not np.isfinite(matrix).all() or not np.allclose(matrix, matrix.T, rtol=1e-9, atol=0):
            raise DomainError(f"{what} covariances", rows, "finite numbers, symmetric")
        matrices.append(matrix)
    for value in values:
        check_finite("worth of a trait", value)
    total, additive = matrices
    if not (np.linalg.eigvalsh(total) > 0.0).all():
        raise DomainError("phenotypic covariances", phenotypic, "positive definite")
    slack = 1e-9 * float(np.abs(total).max())
    if not (np.linalg.eigvalsh(additive) >= -slack).all():
        raise DomainError("genetic covariances", genetic, "no variance below 0")
    if not (np.linalg.eigvalsh(total - additive) >= -slack).all():
        raise DomainError("genetic covariances", genetic, "no more than the phenotypic ones")
    worth = np.array(values, dtype=np.float64)
    weights = np.linalg.solve(total, additive @ worth)
    index_variance = float(weights @ total @ weights)
    goal_variance = float(worth @ additive @ worth)
    if not (index_variance > 0.0 and goal_variance > 0.0):
        raise DomainError("breeding goal", values, "a goal with genetic variance")
    responses = additive @ weights / math.sqrt(index_variance)
    return SelectionIndex(
        weights=tuple(float(weight) for weight in weights),
        accuracy=math.sqrt(index_variance / goal_variance),
        responses=tuple(float(response) for response in responses),
    )


def _accuracy(number: int, heritability: float, *, relationship: float, likeness: float) -> float:
    """Correlate the mean of `number` grades, alike by `likeness`, with the breeding value."""
    if number == 0:
        return 0.0
    return relationship * math.sqrt(number * heritability / (1.0 + (number - 1) * likeness))
