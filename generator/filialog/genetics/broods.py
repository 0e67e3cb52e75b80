"""What whole broods can look like: one set of shares for each pair the parents can be."""

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from filialog.domain_error import DomainError
from filialog.genetics.chromosomes import Haplotype, Parent
from filialog.genetics.crosses import barren
from filialog.genetics.genotype_law import GenotypeLaw
from filialog.genetics.model_tables import ModelTables, living_genotypes, tables_of
from filialog.genetics.trait_model import Genotype, Sex, ShownBy, TraitModel

__all__ = ["BroodComponents", "MatingShares", "brood_components", "mating_shares", "one_of_several"]

BroodComponents = tuple[tuple[Fraction, tuple[Fraction, ...]], ...]
"""With probability `weight` all young follow `shares`, one share per look of the model."""

_Counts = tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MatingShares:
    """One set of look shares, and the matings that give it."""

    shares: tuple[Fraction, ...]
    """Share of each look among living young, in the order of the model's looks."""

    pairs: tuple[tuple[Genotype, Genotype], ...]
    """Genotypes of dam and sire in declared order; a pair that gives the same both
    ways round is listed both ways round."""


class _LookCounts:
    """Counts living young by look, gamete by gamete, as whole numbers."""

    def __init__(self, tables: ModelTables) -> None:
        self._tables = tables
        self._block = tables.whole
        self._place = {look: number for number, look in enumerate(tables.looks)}
        self._unions: dict[tuple[Haplotype, Haplotype], _Counts] = {}
        self._scale = tables.look_scale

    def _union(self, egg: Haplotype, sperm: Haplotype) -> _Counts:
        """Return a young of an egg and a sperm by look; without looks, whether it lives."""
        key = (egg, sperm)
        if key not in self._unions:
            genotype = self._block.union(egg, sperm)
            alive = self._block.living(genotype) * self._scale
            counts = [0] * max(1, len(self._place))
            if self._tables.model.shown_by is ShownBy.DAM:
                counts[0] = alive
            elif alive:
                for look, chance in self._tables.chances(genotype):
                    counts[self._place[look]] += int(alive * chance)
            self._unions[key] = tuple(counts)
        return self._unions[key]

    def of_pairs(
        self, dams: Iterable[Genotype], sires: Iterable[Genotype]
    ) -> Iterable[tuple[Genotype, Genotype, _Counts]]:
        """Return the living young of each pair by look, in lowest terms."""
        all_sperms = {sire: self._block.gametes(sire, Parent.SIRE) for sire in sires}
        kinds = dict.fromkeys(sperm for some in all_sperms.values() for sperm, _ in some)
        for dam in dams:
            eggs = self._block.gametes(dam, Parent.DAM)
            by_sperm = {
                sperm: _summed([(number, self._union(egg, sperm)) for egg, number in eggs])
                for sperm in kinds
            }
            for sire, sperms in all_sperms.items():
                counts = _summed([(number, by_sperm[sperm]) for sperm, number in sperms])
                if self._tables.model.shown_by is ShownBy.DAM:
                    counts = self._of_dam(dam) if counts[0] else counts
                divisor = math.gcd(*counts)
                if divisor:
                    yield dam, sire, tuple(count // divisor for count in counts)

    def _of_dam(self, dam: Genotype) -> _Counts:
        counts = [0] * len(self._place)
        for look, chance in self._tables.chances(dam):
            counts[self._place[look]] = int(chance * self._scale)
        return tuple(counts)


def _summed(parts: list[tuple[int, _Counts]]) -> _Counts:
    if len(parts) == 1:
        return tuple(parts[0][0] * count for count in parts[0][1])
    weights = [weight for weight, _ in parts]
    return tuple(
        sum(map(int.__mul__, weights, column))
        for column in zip(*(counts for _, counts in parts), strict=True)
    )


def _shares_of_pairs(
    dams: Iterable[Genotype], sires: Iterable[Genotype], model: TraitModel
) -> dict[tuple[Fraction, ...], list[tuple[Genotype, Genotype]]]:
    """Return the pairs by the look shares of their living young, without barren pairs."""
    # Whole numbers in lowest terms stand for the shares until all pairs are sorted.
    found: dict[_Counts, list[tuple[Genotype, Genotype]]] = defaultdict(list)
    for dam, sire, counts in _LookCounts(tables_of(model)).of_pairs(dams, sires):
        found[counts].append((dam, sire))
    return {
        tuple(Fraction(count, sum(counts)) for count in counts): pairs
        for counts, pairs in found.items()
    }


def brood_components(
    dam_law: GenotypeLaw, sire_law: GenotypeLaw, model: TraitModel
) -> BroodComponents:
    """Return what a whole brood of one dam and one sire can look like.

    Parameters
    ----------
    dam_law, sire_law
        Laws of the parents' genotypes, independent of one another.
    model
        A model without problems.

    Returns
    -------
    tuple of (weight, shares)
        With probability `weight` all young of the brood follow `shares`, one share
        per look in the model's order. Equal shares are merged; the heaviest
        component comes first. The weights are together 1.

    Raises
    ------
    ContradictionError
        If no young of these parents can live.

    Notes
    -----
    Right for a brood of ONE dam and ONE sire whose genotypes are uncertain. Several
    sires of one brood mix within the brood instead, see `cloud_components`. Pairs
    without living young are left out, as in `cross`. In a model shown by the dam all
    young of a pair follow her genotype.

    Examples
    --------
    A recessive dam with one of two sires, A/A or A/a:

    >>> from filialog.genetics.genotype_law import certain, mixture
    >>> from filialog.genetics.trait_model import Condition, ConditionKind, Locus, LookRule
    >>> gene = Locus(name="gene", alleles=("A", "a"))
    >>> plain = Condition(locus="gene", kind=ConditionKind.HAS, alleles=("A",))
    >>> rules = (LookRule(look="plain", conditions=(plain,)), LookRule(look="fancy"))
    >>> model = TraitModel(name="one", loci=(gene,), looks=rules)
    >>> half = Fraction(1, 2)
    >>> sire = mixture([(half, certain((("A", "A"),))), (half, certain((("A", "a"),)))])
    >>> for weight, shares in brood_components(certain((("a", "a"),)), sire, model):
    ...     print(weight, *shares)
    1/2 1 0
    1/2 1/2 1/2
    """
    dams, sires = dict(dam_law.probabilities), dict(sire_law.probabilities)
    by_shares = {
        shares: sum((dams[dam] * sires[sire] for dam, sire in pairs), Fraction(0))
        for shares, pairs in _shares_of_pairs(dams, sires, model).items()
    }
    fertile = sum(by_shares.values(), Fraction(0))
    if fertile == 0:
        raise barren(dam_law, sire_law, model)
    components = [(weight / fertile, shares) for shares, weight in by_shares.items()]
    return tuple(sorted(components, reverse=True))


def one_of_several(parts: Sequence[tuple[Fraction, BroodComponents]]) -> BroodComponents:
    """Return what a brood can look like that has one of several pairs of parents.

    Parameters
    ----------
    parts
        How likely each pair is, together exactly 1, and what its brood can look like.

    Returns
    -------
    BroodComponents
        All young are of the same pair: a mixture of whole broods.

    Raises
    ------
    DomainError
        If a weight is negative or the weights do not add up to 1.

    Examples
    --------
    >>> half, whole = Fraction(1, 2), Fraction(1)
    >>> carrier, plain = ((whole, (half, half)),), ((whole, (whole, Fraction(0))),)
    >>> for weight, shares in one_of_several([(half / 2, carrier), (half * 3 / 2, plain)]):
    ...     print(weight, *shares)
    3/4 1 0
    1/4 1/2 1/2
    """
    total = sum((weight for weight, _ in parts), Fraction(0))
    if total != 1:
        raise DomainError("sum of the weights", total, "1")
    merged: dict[tuple[Fraction, ...], Fraction] = defaultdict(Fraction)
    for weight, components in parts:
        if weight < 0:
            raise DomainError("weight", weight, "0 or more")
        for own, shares in components:
            merged[shares] += weight * own
    return tuple(
        sorted(((weight, shares) for shares, weight in merged.items() if weight), reverse=True)
    )


def mating_shares(model: TraitModel) -> tuple[MatingShares, ...]:
    """Return every expectation that any pair of living genotypes can give.

    Parameters
    ----------
    model
        A model without problems.

    Returns
    -------
    tuple of MatingShares
        Different look shares, in the order in which the first pair of each comes
        when genotypes are listed in declared order: the rival explanations of a
        count. Where the model has sex chromosomes dams are females and sires males.

    Notes
    -----
    Cost grows with the square of the number of genotypes: 1,296 pairs for two loci
    with three alleles each.

    Examples
    --------
    >>> from filialog.genetics.trait_model import Condition, ConditionKind, Locus, LookRule
    >>> gene = Locus(name="gene", alleles=("A", "a"))
    >>> plain = Condition(locus="gene", kind=ConditionKind.HAS, alleles=("A",))
    >>> rules = (LookRule(look="plain", conditions=(plain,)), LookRule(look="fancy"))
    >>> for mating in mating_shares(TraitModel(name="one", loci=(gene,), looks=rules)):
    ...     print(*mating.shares, len(mating.pairs))
    1 0 5
    3/4 1/4 1
    1/2 1/2 2
    0 1 1
    """
    dams = living_genotypes(model, Sex.FEMALE)
    sires = living_genotypes(model, Sex.MALE)
    return tuple(
        MatingShares(shares=shares, pairs=tuple(pairs))
        for shares, pairs in _shares_of_pairs(dams, sires, model).items()
    )
