"""What the young of a dam and a sire are, exactly."""

import math
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from itertools import product

from filialog.genetics.genotype_law import ContradictionError, GenotypeLaw, law_of
from filialog.genetics.genotype_text import format_genotype
from filialog.genetics.trait_model import (
    Genotype,
    TraitModel,
    is_lethal,
    living_genotypes,
    look_of,
    looks_of_model,
)

__all__ = [
    "Cross",
    "Gamete",
    "MatingShares",
    "brood_components",
    "cross",
    "gametes",
    "mating_shares",
]

Gamete = tuple[str, ...]
"""One allele per locus of the model."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cross:
    """The young of one dam and one sire."""

    young: GenotypeLaw
    """Law of one living young."""

    lethal_share: Fraction
    """Share of the eggs that die because of a lethal genotype, 0 to 1."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MatingShares:
    """One set of look shares, and the matings that give it."""

    shares: tuple[Fraction, ...]
    """Share of each look among living young, in the order of the model's looks."""

    pairs: tuple[tuple[Genotype, Genotype], ...]
    """Genotypes of dam and sire in declared order; a pair that gives the same both
    ways round is listed both ways round."""


class _Matings:
    """Counts the young of pairs of genotypes; each union of gametes is worked out once."""

    def __init__(self, model: TraitModel) -> None:
        self._model = model
        self._pairs = [
            {
                (one, other): (one, other) if i <= j else (other, one)
                for i, one in enumerate(locus.alleles)
                for j, other in enumerate(locus.alleles)
            }
            for locus in model.loci
        ]
        self._gametes: dict[Genotype, dict[Gamete, int]] = {}
        self._unions: dict[tuple[Gamete, Gamete], Genotype | None] = {}
        self.eggs = 4 ** len(model.loci)

    def gametes(self, genotype: Genotype) -> dict[Gamete, int]:
        """Return how many of 2 to the power of the loci are of each kind."""
        counts = self._gametes.get(genotype)
        if counts is None:
            counts = defaultdict(int)
            for gamete in product(*genotype):
                counts[gamete] += 1
            self._gametes[genotype] = counts
        return counts

    def _union(self, pair: tuple[Gamete, Gamete]) -> Genotype | None:
        """Return the young of an egg and a sperm, None when it does not live."""
        if pair not in self._unions:
            genotype = tuple(
                written[alleles]
                for written, alleles in zip(self._pairs, zip(*pair, strict=True), strict=True)
            )
            self._unions[pair] = None if is_lethal(genotype, self._model) else genotype
        return self._unions[pair]

    def young(self, dam: Genotype, sire: Genotype) -> dict[Genotype, int]:
        """Return the living young of `eggs` eggs by genotype."""
        counts: dict[Genotype, int] = defaultdict(int)
        for egg, eggs in self.gametes(dam).items():
            for sperm, sperms in self.gametes(sire).items():
                genotype = self._union((egg, sperm))
                if genotype is not None:
                    counts[genotype] += eggs * sperms
        return counts


def _whole_weights(law: GenotypeLaw) -> tuple[list[tuple[Genotype, int]], int]:
    """Return a law as whole numbers and what they add up to; whole numbers are quick."""
    scale = math.lcm(*(probability.denominator for _, probability in law.probabilities))
    return [(g, p.numerator * (scale // p.denominator)) for g, p in law.probabilities], scale


def _barren(dam_law: GenotypeLaw, sire_law: GenotypeLaw) -> ContradictionError:
    parents = " × ".join(
        " or ".join(format_genotype(genotype) for genotype in law.genotypes())
        for law in (dam_law, sire_law)
    )
    return ContradictionError("parents", parents, "a pair that can have living young")


def gametes(law: GenotypeLaw, model: TraitModel) -> tuple[tuple[Gamete, Fraction], ...]:
    """Return the gametes of an animal of a given law.

    Parameters
    ----------
    law
        Law of the animal's genotype.
    model
        A model without problems.

    Returns
    -------
    tuple of (gamete, probability)
        Together 1, sorted by the names of the alleles.

    Examples
    --------
    >>> from filialog.genetics.genotype_law import certain
    >>> from filialog.genetics.trait_model import Locus
    >>> gene = Locus(name="gene", alleles=("A", "a"))
    >>> gametes(certain((("A", "a"),)), TraitModel(name="one", loci=(gene,), looks=()))
    ((('A',), Fraction(1, 2)), (('a',), Fraction(1, 2)))
    """
    matings = _Matings(model)
    together: dict[Gamete, Fraction] = defaultdict(Fraction)
    for genotype, probability in law.probabilities:
        for gamete, count in matings.gametes(genotype).items():
            together[gamete] += probability * Fraction(count, 2 ** len(model.loci))
    return tuple(sorted(together.items()))


def cross(dam_law: GenotypeLaw, sire_law: GenotypeLaw, model: TraitModel) -> Cross:
    """Return the young of one dam and one sire.

    Parameters
    ----------
    dam_law, sire_law
        Laws of the parents' genotypes, independent of one another.
    model
        A model without problems.

    Returns
    -------
    Cross
        The law of one living young, and the share of eggs that die.

    Raises
    ------
    ContradictionError
        If no young of these parents can live.

    Notes
    -----
    Where parents are uncertain and genotypes lethal, each possible pair counts by
    its probability, however many of its eggs die: the brood is known to exist, not
    how large it might have been. Pairs without living young are left out.

    The law is that of a single young. Brood mates share their parents; for the
    count of a brood use `brood_components`.

    References
    ----------
    .. [1] Mendel G. (1866) Versuche über Pflanzen-Hybriden, Verh. naturf. Ver.
       Brünn 4:3-47.

    Examples
    --------
    >>> from filialog.genetics.genotype_law import certain
    >>> from filialog.genetics.trait_model import Locus
    >>> gene = Locus(name="gene", alleles=("A", "a"))
    >>> model = TraitModel(name="one", loci=(gene,), looks=())
    >>> hybrid = certain((("A", "a"),))
    >>> cross(hybrid, hybrid, model).young.probability((("a", "a"),))
    Fraction(1, 4)
    """
    matings = _Matings(model)
    dams, dam_scale = _whole_weights(dam_law)
    sires, sire_scale = _whole_weights(sire_law)
    # Young are added up as whole numbers, apart for each number of living ones.
    by_living: dict[int, dict[Genotype, int]] = {}
    pairs_by_living: dict[int, int] = defaultdict(int)
    for dam, dam_weight in dams:
        for sire, sire_weight in sires:
            weight = dam_weight * sire_weight
            young = matings.young(dam, sire)
            living = sum(young.values())
            pairs_by_living[living] += weight
            sums = by_living.setdefault(living, defaultdict(int))
            for genotype, count in young.items():
                sums[genotype] += weight * count
    all_pairs = dam_scale * sire_scale
    fertile = all_pairs - pairs_by_living.get(0, 0)
    if fertile == 0:
        raise _barren(dam_law, sire_law)
    law: dict[Genotype, Fraction] = defaultdict(Fraction)
    for living, sums in by_living.items():
        for genotype, count in sums.items():
            law[genotype] += Fraction(count, living * fertile)
    dead = sum(weight * (matings.eggs - living) for living, weight in pairs_by_living.items())
    return Cross(young=law_of(law), lethal_share=Fraction(dead, matings.eggs * all_pairs))


def _look_indices(model: TraitModel) -> dict[Genotype, int]:
    looks = looks_of_model(model)
    return {g: looks.index(look_of(g, model)) for g in living_genotypes(model)}


def _shares_of_pairs(
    dams: Iterable[Genotype], sires: Iterable[Genotype], model: TraitModel
) -> dict[tuple[Fraction, ...], list[tuple[Genotype, Genotype]]]:
    """Return the pairs by the look shares of their living young, without barren pairs."""
    matings = _Matings(model)
    look_indices = _look_indices(model)
    looks = len(looks_of_model(model))
    sires = tuple(sires)
    # Whole numbers in lowest terms stand for the shares until all pairs are sorted.
    found: dict[tuple[int, ...], list[tuple[Genotype, Genotype]]] = defaultdict(list)
    for dam in dams:
        for sire in sires:
            counts = [0] * looks
            for genotype, count in matings.young(dam, sire).items():
                counts[look_indices[genotype]] += count
            divisor = math.gcd(*counts)
            if divisor > 0:
                found[tuple(count // divisor for count in counts)].append((dam, sire))
    return {
        tuple(Fraction(count, sum(counts)) for count in counts): pairs
        for counts, pairs in found.items()
    }


def brood_components(
    dam_law: GenotypeLaw, sire_law: GenotypeLaw, model: TraitModel
) -> tuple[tuple[Fraction, tuple[Fraction, ...]], ...]:
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
    sires of one brood mix within the brood instead. Pairs without living young are
    left out, as in `cross`; the weighted average of the shares is that of `cross`.

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
        raise _barren(dam_law, sire_law)
    components = [(weight / fertile, shares) for shares, weight in by_shares.items()]
    return tuple(sorted(components, reverse=True))


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
        count.

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
    living = living_genotypes(model)
    return tuple(
        MatingShares(shares=shares, pairs=tuple(pairs))
        for shares, pairs in _shares_of_pairs(living, living, model).items()
    )
