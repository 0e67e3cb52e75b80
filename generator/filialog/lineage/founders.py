"""Founders of the living animals: their shares, and the effective numbers that sum these up."""

import math
from collections.abc import Collection, Iterable
from dataclasses import dataclass
from fractions import Fraction

from filialog.domain_error import DomainError
from filialog.lineage.animal_pedigree import AnimalPedigree
from filialog.lineage.living_ancestry import LivingAncestry, living_ancestry

__all__ = [
    "AncestorContribution",
    "EffectiveAncestors",
    "FounderContribution",
    "effective_ancestors",
    "effective_founders",
    "founder_contributions",
    "founder_genome_equivalents_by_kinship",
]

_ROUNDING = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class FounderContribution:
    """What one founder gave to the living animals."""

    animal: int
    """Place of the founder in the pedigree, or of its young where it is not recorded."""

    recorded: bool
    """False where the founder is the unrecorded parent of `animal`."""

    share: float
    """Expected share of the living animals' genes, above 0 and at most 1."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AncestorContribution:
    """What one ancestor adds to what the ancestors chosen before it explain."""

    animal: int
    """Place of the ancestor in the pedigree, or of its young where it is not recorded."""

    recorded: bool
    """False where the ancestor is the unrecorded parent of `animal`."""

    share: float
    """Marginal contribution: share of the genes, above 0 and at most 1."""


@dataclass(frozen=True, slots=True, kw_only=True)
class EffectiveAncestors:
    """The ancestors that explain the genes of the living animals."""

    number: float
    """Effective number of ancestors: one over the sum of squared marginal contributions."""

    contributions: tuple[AncestorContribution, ...]
    """Ancestors in the order of choice, largest first; their shares sum to 1."""


def founder_contributions(
    pedigree: AnimalPedigree, living: Collection[int]
) -> tuple[FounderContribution, ...]:
    """Give the expected share of each founder in the genes of the living animals.

    Parameters
    ----------
    pedigree
        The parents of every animal.
    living
        Places of the living animals, each once, at least one; all count the same.

    Returns
    -------
    tuple of FounderContribution
        Founders with a share, by place; the shares sum to 1. A parent missing beside a
        known one is a founder of its own.

    Raises
    ------
    DomainError
        If a place is not in the pedigree, a living animal is named twice, or none is named.

    Notes
    -----
    Half of an animal's genes come from each parent: an expectation over autosomal loci,
    before any sorting by look. One backward sweep over the pedigree.

    References
    ----------
    .. [1] James J.W. (1972) Computation of genetic contributions from pedigrees,
       Theoretical and Applied Genetics 42:272-273 (from memory).

    Examples
    --------
    >>> back = AnimalPedigree(dams=(None, None, 0, 2), sires=(None, None, 1, 1))
    >>> [(found.animal, found.share) for found in founder_contributions(back, [3])]
    [(0, 0.25), (1, 0.75)]
    """
    ancestry = living_ancestry(pedigree, living)
    genes = _genes(ancestry, frozenset())
    return tuple(
        FounderContribution(
            animal=ancestry.name_of(place)[0],
            recorded=ancestry.name_of(place)[1],
            share=genes[place] / len(ancestry.living),
        )
        for place in ancestry.founders()
    )


def effective_founders(shares: Iterable[float | Fraction]) -> float:
    """Give the number of equally used founders that would leave as much variety.

    Parameters
    ----------
    shares
        Share of each founder in the genes of the living animals, 0 to 1 each; together 1.

    Returns
    -------
    float
        fe = 1 / sum of p^2: at most the number of founders, and that many only where all
        gave the same.

    Raises
    ------
    DomainError
        If there is no share, one is outside 0 to 1, or they do not sum to 1.

    Notes
    -----
    Genes lost by chance on the way are not counted; `founder_genome_equivalents` counts them.

    References
    ----------
    .. [1] Lacy R.C. (1989) Zoo Biology 8:111-123.

    Examples
    --------
    >>> effective_founders([0.5, 0.25, 0.25])
    2.6666666666666665
    """
    values = [float(share) for share in shares]
    if not values:
        raise DomainError("number of founders", 0, "1 or more")
    for value in values:
        if not 0.0 <= value <= 1.0:
            raise DomainError("share of a founder", value, "between 0 and 1")
    total = math.fsum(values)
    if abs(total - 1.0) > _ROUNDING:
        raise DomainError("sum of the founders' shares", total, "1")
    return 1.0 / math.fsum(value * value for value in values)


def founder_genome_equivalents_by_kinship(mean_kinship: float) -> float:
    """Give the number of founders that would have as much gene diversity when taken afresh.

    Parameters
    ----------
    mean_kinship
        Mean kinship over all ordered pairs of living animals, each with itself included,
        above 0 and at most 1.

    Returns
    -------
    float
        1 / (2 x mean kinship), in founders; at least 0.5.

    Raises
    ------
    DomainError
        If the mean kinship is out of its range.

    Notes
    -----
    Not the number of `founder_genome_equivalents`, which counts founder genes that are
    still there at all, however rare; this one weighs them by how common they are, so it is
    the smaller of the two. Say which one is shown.

    References
    ----------
    .. [1] Lacy R.C. (1995) Zoo Biology 14:565-578 (from memory); Caballero A. & Toro M.A.
       (2000) Genetical Research 75:331-343 (from memory).

    Examples
    --------
    >>> founder_genome_equivalents_by_kinship(0.25)
    2.0
    """
    if not 0.0 < mean_kinship <= 1.0:
        raise DomainError("mean kinship", mean_kinship, "above 0 and at most 1")
    return 1.0 / (2.0 * mean_kinship)


def effective_ancestors(
    pedigree: AnimalPedigree,
    living: Collection[int],
    *,
    living_are_ancestors: bool = False,
) -> EffectiveAncestors:
    """Choose the ancestors, founders or not, that explain the genes of the living animals.

    Parameters
    ----------
    pedigree
        The parents of every animal.
    living
        Places of the living animals, each once, at least one; all count the same.
    living_are_ancestors
        Whether a living animal may be chosen too; a living founder always may.

    Returns
    -------
    EffectiveAncestors
        Each choice is the ancestor that explains most of what the choices before it leave;
        of equal ones the first in the pedigree.

    Raises
    ------
    DomainError
        As `founder_contributions`.

    Notes
    -----
    Unlike the effective number of founders it shows a bottleneck: founders whose genes all
    passed through one animal count as that one. The time grows with the animals times the
    ancestors chosen.

    References
    ----------
    .. [1] Boichard D., Maignel L. & Verrier E. (1997) The value of using probabilities of
       gene origin to measure genetic variability in a population, Genet Sel Evol 29:5-23.

    Examples
    --------
    >>> dams, sires = (None, None, None, 0, 3, 3), (None, None, None, 1, 2, 2)
    >>> found = effective_ancestors(AnimalPedigree(dams=dams, sires=sires), [4, 5])
    >>> [(one.animal, one.share) for one in found.contributions]
    [(2, 0.5), (3, 0.5)]
    """
    ancestry = living_ancestry(pedigree, living)
    barred = frozenset(
        place
        for place in (() if living_are_ancestors else ancestry.living)
        if ancestry.parents[place] is not None
    )
    candidates = sorted((p for p in ancestry.order if p not in barred), key=ancestry.name_of)
    total = float(len(ancestry.living))
    chosen: list[AncestorContribution] = []
    places: set[int] = set()
    left = total
    while left > total * _ROUNDING:
        genes = _genes(ancestry, places)
        explained = _explained(ancestry, places)
        marginal = {p: genes[p] * (1.0 - explained[p]) for p in candidates}
        best = max(candidates, key=marginal.__getitem__)
        animal, recorded = ancestry.name_of(best)
        chosen.append(
            AncestorContribution(animal=animal, recorded=recorded, share=marginal[best] / total)
        )
        places.add(best)
        left -= marginal[best]
    return EffectiveAncestors(
        number=1.0 / math.fsum(one.share**2 for one in chosen), contributions=tuple(chosen)
    )


def _genes(ancestry: LivingAncestry, ends: Collection[int]) -> list[float]:
    """Count the living animals' genes that pass through each place, in animals.

    Parents of `ends` get nothing through these. Whole animals are halved and only divided by
    their number afterwards, so that equal contributions stay equal.
    """
    genes = [0.0] * len(ancestry.parents)
    for place in ancestry.living:
        genes[place] = 1.0
    for place in reversed(ancestry.order):
        above = ancestry.parents[place]
        if above is not None and place not in ends:
            for parent in above:
                genes[parent] += genes[place] / 2.0
    return genes


def _explained(ancestry: LivingAncestry, chosen: Collection[int]) -> list[float]:
    """Give the share of each animal's genes that comes from chosen ancestors."""
    explained = [0.0] * len(ancestry.parents)
    for place in ancestry.order:
        above = ancestry.parents[place]
        if place in chosen:
            explained[place] = 1.0
        elif above is not None:
            explained[place] = (explained[above[0]] + explained[above[1]]) / 2.0
    return explained
