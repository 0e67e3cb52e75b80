"""Kinship at loci on the sex chromosome that one sex carries twice and the other once."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Literal

from filialog.domain_error import DomainError
from filialog.lineage.animal_pedigree import AnimalPedigree, parent_places

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["sex_linked_kinship_matrix"]


def sex_linked_kinship_matrix(
    pedigree: AnimalPedigree,
    *,
    sexes: Sequence[Literal["female", "male"] | None],
    system: Literal["XY", "ZW"],
) -> "NDArray[np.float64]":
    """Give the kinship of all pairs of animals at an X- or Z-linked locus.

    Parameters
    ----------
    pedigree
        The animals; none may be both dam and sire.
    sexes
        Sex of each animal in the same order. None is unknown: parents get the sex of
        their role, others count half as female and half as male.
    system
        "XY" where males have a single X, "ZW" where females have a single Z.

    Returns
    -------
    numpy.ndarray
        Symmetric, in the order of the pedigree: the probability in [0, 1] that an allele
        drawn from one and an allele drawn from the other descend from the same founder
        allele. The diagonal is 1 for the sex with one allele, (1 + F) / 2 for the other.
        Twice the kinship is the relationship: for XY, 1 of a father with his daughter and
        0 with his son, where the parents are unrelated and not inbred.

    Raises
    ------
    DomainError
        If the sexes are not one for each animal, a dam is male, a sire female, one animal
        is both, or the system is another.

    Notes
    -----
    The young of the sex with one allele have it from the parent of the other sex (a son
    his X from his dam); young of the sex with two have one from each. Applies to loci
    without partner on the Y or W. Founders and unknown parents are unrelated.

    References
    ----------
    .. [1] Lynch M, Walsh B (1998) Genetics and Analysis of Quantitative Traits.
       Sinauer, ch. 7, pp. 155-156 (X-linked kinship of one pair).
    .. [2] Fernando RL, Grossman M (1990) Genetic evaluation with autosomal and X-chromosomal
       inheritance. Theoretical and Applied Genetics 80:75-80 (the recursion; from memory).

    Examples
    --------
    >>> family = AnimalPedigree(dams=(None, None, 0, 0), sires=(None, None, 1, 1))
    >>> kinship = sex_linked_kinship_matrix(
    ...     family, sexes=("female", "male", "female", "male"), system="XY"
    ... )
    >>> kinship[1].tolist()
    [0.0, 1.0, 0.5, 0.0]
    """
    import numpy as np  # noqa: PLC0415 - a quick command should not load it

    if system not in {"XY", "ZW"}:
        raise DomainError("system of sex chromosomes", system, "XY or ZW")
    female = _shares_of_females(pedigree, sexes)
    dam_places, sire_places = parent_places(pedigree)
    dams, sires = dam_places.tolist(), sire_places.tolist()
    count = len(dams)
    table = np.zeros((count + 1, count + 1))  # the last row and column stand for unknown
    for place in range(count):
        dam, sire = dams[place], sires[place]
        single = 1.0 - female[place] if system == "XY" else female[place]
        giver, other = (dam, sire) if system == "XY" else (sire, dam)
        before = slice(0, place)
        row = 0.5 * (1.0 + single) * table[giver, before]
        row += 0.5 * (1.0 - single) * table[other, before]
        table[place, before] = table[before, place] = row
        table[place, place] = single + (1.0 - single) * (0.5 + 0.5 * table[dam, sire])
    return table[:count, :count].copy()


def _shares_of_females(
    pedigree: AnimalPedigree, sexes: Sequence[Literal["female", "male"] | None]
) -> list[float]:
    if len(sexes) != len(pedigree):
        raise DomainError("number of sexes", len(sexes), f"{len(pedigree)}, one for each animal")
    dams, sires = set(pedigree.dams), set(pedigree.sires)
    shares: list[float] = []
    for place, sex in enumerate(sexes):
        if sex not in {"female", "male", None}:
            raise DomainError(f"sex of animal {place}", sex, "female, male or None")
        if place in dams and (place in sires or sex == "male"):
            raise DomainError(f"sex of animal {place}, a dam", sex or "both", "female")
        if place in sires and sex == "female":
            raise DomainError(f"sex of animal {place}, a sire", sex, "male")
        is_female = sex == "female" or place in dams
        shares.append(float(is_female) if sex or place in dams or place in sires else 0.5)
    return shares
