"""Inbreeding and kinship of single animals, for many of them at once."""

from collections.abc import Mapping
from typing import TYPE_CHECKING

from filialog.domain_error import DomainError
from filialog.lineage.animal_matings import inbreeding_array
from filialog.lineage.animal_pedigree import AnimalPedigree, parent_places
from filialog.lineage.animal_sweeps import Sweeps, generation_depths, segregation_variances

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]
    Numbers = NDArray[np.int64]

__all__ = [
    "animal_kinship_matrix",
    "fraternity",
    "mean_kinship_of",
    "mean_kinships_with",
    "relationship_inverse",
]

_ROWS = 64  # filled before they are copied to the columns; small enough to stay in the cache


def animal_kinship_matrix(pedigree: AnimalPedigree) -> "Floats":
    """Give the kinship of all pairs of animals.

    Parameters
    ----------
    pedigree
        The animals.

    Returns
    -------
    numpy.ndarray
        Symmetric, in the order of the pedigree: the probability in [0, 1] that an allele
        drawn from one and an allele drawn from the other descend from the same founder
        allele. The diagonal is (1 + F) / 2. Eight bytes for each pair: 10 000 animals
        are 800 MB.

    Notes
    -----
    Founders and unknown parents are unrelated to all others and not inbred. The young's
    kinship to an animal that is no descendant of it is the mean of that of its parents.

    References
    ----------
    .. [1] Emik LO, Terrill CE (1949) Systematic procedures for calculating inbreeding
       coefficients. Journal of Heredity 40:51-55 (the table; from memory).
    .. [2] Lynch M, Walsh B (1998) Genetics and Analysis of Quantitative Traits.
       Sinauer, p. 775 (the rule, and unknown parents).

    Examples
    --------
    >>> sibs = AnimalPedigree(dams=(None, None, 0, 0), sires=(None, None, 1, 1))
    >>> animal_kinship_matrix(sibs)[2].tolist()
    [0.25, 0.25, 0.5, 0.25]
    """
    import numpy as np  # noqa: PLC0415 - a quick command should not load it

    dam_places, sire_places = parent_places(pedigree)
    dams, sires = dam_places.tolist(), sire_places.tolist()
    count = len(dams)
    table = np.zeros((count, count))
    for start in range(0, count, _ROWS):
        end = min(start + _ROWS, count)
        for place in range(start, end):
            _mean_of_rows(table, place, dams[place], sires[place], slice(0, start))
        table[:start, start:end] = table[start:end, :start].T
        for place in range(start, end):
            dam, sire = dams[place], sires[place]
            done = slice(start, place)
            _mean_of_rows(table, place, dam, sire, done)
            table[done, place] = table[place, done]
            inbred = float(table[dam, sire]) if dam >= 0 and sire >= 0 else 0.0
            table[place, place] = 0.5 + 0.5 * inbred
    return table


def _mean_of_rows(table: "Floats", place: int, dam: int, sire: int, columns: slice) -> None:
    import numpy as np  # noqa: PLC0415

    row = table[place, columns]
    if dam >= 0 and sire >= 0:
        np.add(table[dam, columns], table[sire, columns], out=row)
        row *= 0.5
    elif dam >= 0 or sire >= 0:
        np.multiply(table[max(dam, sire), columns], 0.5, out=row)


def mean_kinship_of(
    pedigree: AnimalPedigree, *, weights: Mapping[int, float] | None = None
) -> float:
    """Give the mean kinship of a group of animals, each also counted with itself.

    Parameters
    ----------
    pedigree
        The animals.
    weights
        For the places of the animals in the group, how much each counts: finite, zero or
        more, not all zero. By default every animal of the pedigree counts alike.

    Returns
    -------
    float
        Kinship in [0, 1] of two animals drawn from the group independently, so that they
        may be the same animal.

    Raises
    ------
    DomainError
        If the group is empty, or a place or a weight is not as described.

    Notes
    -----
    Time and memory grow with the number of animals, not of pairs: with A = T D T' the
    mean x'Ax / 2 needs one sweep from young to parents only.

    References
    ----------
    .. [1] Henderson CR (1976) A simple method for computing the inverse of a numerator
       relationship matrix used in prediction of breeding values. Biometrics 32:69-83
       (the factors T and D; from memory).

    Examples
    --------
    >>> sibs = AnimalPedigree(dams=(None, None, 0, 0), sires=(None, None, 1, 1))
    >>> mean_kinship_of(sibs, weights={2: 1, 3: 1})
    0.375
    """
    back, variances, _ = _swept_back(pedigree, weights)
    return float((back * back * variances).sum()) / 2


def mean_kinships_with(
    pedigree: AnimalPedigree, *, weights: Mapping[int, float] | None = None
) -> tuple[float, ...]:
    """Give each animal's mean kinship with a group.

    Parameters
    ----------
    pedigree
        The animals.
    weights
        The group, as in `mean_kinship_of`.

    Returns
    -------
    tuple of float
        For each animal of the pedigree its kinship in [0, 1] with an animal drawn from
        the group, which may be itself. Young of the least related add most diversity.

    Raises
    ------
    DomainError
        As in `mean_kinship_of`.

    Notes
    -----
    Two sweeps; time and memory grow with the number of animals, not of pairs.

    References
    ----------
    .. [1] Colleau JJ (2002) An indirect approach to the extensive calculation of
       relationship coefficients. Genetics Selection Evolution 34:409-421 (abstract).

    Examples
    --------
    >>> sibs = AnimalPedigree(dams=(None, None, 0, 0), sires=(None, None, 1, 1))
    >>> mean_kinships_with(sibs, weights={2: 1})
    (0.25, 0.25, 0.5, 0.25)
    """
    columns, variances, sweeps = _swept_back(pedigree, weights)
    columns *= variances
    sweeps.to_descendants(columns)
    return tuple((columns / 2).tolist())


def _swept_back(
    pedigree: AnimalPedigree, weights: Mapping[int, float] | None
) -> "tuple[Floats, Floats, Sweeps]":
    dams, sires = parent_places(pedigree)
    columns = _shares(len(pedigree), weights)
    sweeps = Sweeps(dams, sires, generation_depths(dams, sires))
    sweeps.to_ancestors(columns)
    return columns, segregation_variances(dams, sires, inbreeding_array(dams, sires)), sweeps


def _shares(count: int, weights: Mapping[int, float] | None) -> "Floats":
    import numpy as np  # noqa: PLC0415

    if weights is None:
        if count == 0:
            raise DomainError("number of animals", count, "1 or more")
        return np.full(count, 1.0 / count)
    shares = np.zeros(count)
    for place, weight in weights.items():
        if type(place) is not int or not 0 <= place < count:
            raise DomainError("place of an animal", place, f"0 or more and below {count}")
        if not 0.0 <= weight < float("inf"):  # written so that NaN fails too
            raise DomainError("weight of an animal", weight, "a finite number, 0 or more")
        shares[place] = weight
    total = float(sum(weights.values()))
    if not 0.0 < total < float("inf"):
        raise DomainError("sum of the weights", total, "finite and above 0")
    shares /= total
    return shares


def relationship_inverse(pedigree: AnimalPedigree) -> "Floats":
    """Give the inverse of the relationship matrix, which is twice the kinship matrix.

    Parameters
    ----------
    pedigree
        The animals.

    Returns
    -------
    numpy.ndarray
        Symmetric, in the order of the pedigree.

    Raises
    ------
    DomainError
        If an animal's parents are both completely inbred, so that it is a copy of what
        they share and the matrix has no inverse.

    References
    ----------
    .. [1] Henderson CR (1976) Biometrics 32:69-83 (the rules; from memory).
    .. [2] Quaas RL (1976) Computing the diagonal elements and inverse of a large
       numerator relationship matrix. Biometrics 32:949-953 (with inbreeding; from memory).

    Examples
    --------
    >>> pair_and_young = AnimalPedigree(dams=(None, None, 0), sires=(None, None, 1))
    >>> relationship_inverse(pair_and_young).tolist()
    [[1.5, 0.5, -1.0], [0.5, 1.5, -1.0], [-1.0, -1.0, 2.0]]
    """
    import numpy as np  # noqa: PLC0415

    dams, sires = parent_places(pedigree)
    variances = segregation_variances(dams, sires, inbreeding_array(dams, sires))
    if (variances <= 0.0).any():
        place = int(np.argmax(variances <= 0.0))
        raise DomainError("animal of completely inbred parents", place, "none in this matrix")
    count = len(dams)
    inverse = np.zeros((count + 1, count + 1))  # the last row and column stand for unknown
    own, precision = np.arange(count), 1.0 / variances
    np.add.at(inverse, (own, own), precision)
    for parents in (dams, sires):
        np.add.at(inverse, (own, parents), -precision / 2)
        np.add.at(inverse, (parents, own), -precision / 2)
        for others in (dams, sires):
            np.add.at(inverse, (parents, others), precision / 4)
    return inverse[:count, :count].copy()


def fraternity(pedigree: AnimalPedigree, *, animal_a: int, animal_b: int) -> float:
    """Give the coefficient of fraternity of two animals that are not inbred.

    Parameters
    ----------
    pedigree
        The animals.
    animal_a, animal_b
        Their places; the order does not matter.

    Returns
    -------
    float
        Probability in [0, 1] that the two have both alleles of a locus in common by
        descent: 1/4 for full sibs. 0 where a parent of either is unknown.

    Raises
    ------
    DomainError
        If a place is not one of the pedigree.

    Notes
    -----
    Kinship of the dams times kinship of the sires, plus that of each dam with the other's
    sire. Where the two are inbred, this is the usual approximation.

    References
    ----------
    .. [1] Lynch M, Walsh B (1998) Genetics and Analysis of Quantitative Traits.
       Sinauer, ch. 7, pp. 155-156.

    Examples
    --------
    >>> sibs = AnimalPedigree(dams=(None, None, 0, 0), sires=(None, None, 1, 1))
    >>> fraternity(sibs, animal_a=2, animal_b=3)
    0.25
    """
    parents: list[int] = []
    for animal in (animal_a, animal_b):
        if not 0 <= animal < len(pedigree):
            raise DomainError("place of an animal", animal, f"0 to {len(pedigree) - 1}")
        dam, sire = pedigree.dams[animal], pedigree.sires[animal]
        if dam is None or sire is None:
            return 0.0
        parents += [dam, sire]
    dam_a, sire_a, dam_b, sire_b = parents
    with_dam = mean_kinships_with(pedigree, weights={dam_a: 1.0})
    with_sire = mean_kinships_with(pedigree, weights={sire_a: 1.0})
    return with_dam[dam_b] * with_sire[sire_b] + with_dam[sire_b] * with_sire[dam_b]
