"""The genotypes and gametes of one linkage group."""

import math
from collections import defaultdict
from dataclasses import dataclass, field
from enum import Enum
from fractions import Fraction
from itertools import product

from filialog.genetics.trait_model import Genotype, LinkageGroup, Locus, TraitModel

__all__ = [
    "Chromosome",
    "Haplotype",
    "Parent",
    "chromosome_of",
    "genotype_count",
    "linkage_groups",
]

Haplotype = tuple[str, ...]
"""What one chromosome carries: one allele per locus, in the order of the loci; where it
lacks a locus, the name of the sex chromosome."""


class Parent(Enum):
    """Which parent a gamete comes from."""

    DAM = "dam"
    SIRE = "sire"


def linkage_groups(model: TraitModel) -> tuple[LinkageGroup, ...]:
    """Return the linkage groups of a model, a locus of its own being a group of one.

    Parameters
    ----------
    model
        A model without problems.

    Returns
    -------
    tuple of LinkageGroup
        In the order in which the first locus of each is declared. Groups are inherited
        independently of one another.

    Examples
    --------
    >>> loci = tuple(Locus(name=name, alleles=(name.upper(), name)) for name in "abc")
    >>> linked = LinkageGroup(loci=("c", "a"), dam_recombination=(Fraction(1, 10),),
    ...     sire_recombination=(Fraction(1, 10),))
    >>> model = TraitModel(name="three", loci=loci, looks=(), linkage=(linked,))
    >>> [group.loci for group in linkage_groups(model)]
    [('c', 'a'), ('b',)]
    """
    group_of = {name: group for group in model.linkage for name in group.loci}
    return tuple(
        dict.fromkeys(
            group_of.get(locus.name, LinkageGroup(loci=(locus.name,))) for locus in model.loci
        )
    )


def genotype_count(model: TraitModel) -> int:
    """Return how many genotypes a model has, without listing them.

    Examples
    --------
    >>> loci = (Locus(name="a", alleles=("A", "a")), Locus(name="b", alleles=("B", "b")))
    >>> genotype_count(TraitModel(name="two", loci=loci, looks=()))
    9
    >>> linked = LinkageGroup(loci=("a", "b"))
    >>> genotype_count(TraitModel(name="two", loci=loci, looks=(), linkage=(linked,)))
    10
    """
    by_name = {locus.name: locus for locus in model.loci}
    genotypes = 1
    for group in linkage_groups(model):
        loci = [by_name[name] for name in group.loci]
        chromosomes: tuple[str | None, ...] = (None,)
        if model.sex is not None and model.sex.locus in group.loci:
            chromosomes = by_name[model.sex.locus].alleles
            loci = [locus for locus in loci if locus.name != model.sex.locus]
        haplotypes = sum(
            math.prod(len(locus.alleles) for locus in loci if one not in locus.absent_from)
            for one in chromosomes
        )
        genotypes *= haplotypes * (haplotypes + 1) // 2
    return genotypes


@dataclass(slots=True, kw_only=True)
class Chromosome:
    """A linkage group with everything that can be on it. Made by `chromosome_of`."""

    places: tuple[int, ...]
    """Where its loci stand in the model."""

    sex_place: int | None
    """Which of its loci decides the sex; None on an autosome."""

    haplotypes: tuple[Haplotype, ...]
    """In declared order."""

    genotypes: tuple[Genotype, ...]
    """Pairs of haplotypes in declared order, with one pair of alleles per locus."""

    scale: dict[Parent, int]
    """Number of gametes that `gametes` counts."""

    _rank: dict[Haplotype, int]
    _apart: dict[Parent, tuple[Fraction, ...]]
    _lacking: tuple[frozenset[str], ...]
    """By locus the names that stand for a chromosome without it."""
    _gametes: dict[tuple[Genotype, Parent], tuple[tuple[Haplotype, int], ...]] = field(
        default_factory=dict
    )

    def union(self, egg: Haplotype, sperm: Haplotype) -> Genotype:
        """Return the genotype of two haplotypes."""
        if self._rank[egg] > self._rank[sperm]:
            egg, sperm = sperm, egg
        return tuple(zip(egg, sperm, strict=True))

    def gametes(self, genotype: Genotype, parent: Parent) -> tuple[tuple[Haplotype, int], ...]:
        """Return how many of `scale` gametes carry each haplotype."""
        key = (genotype, parent)
        if key not in self._gametes:
            self._gametes[key] = self._counted(genotype, parent)
        return self._gametes[key]

    def _counted(self, genotype: Genotype, parent: Parent) -> tuple[tuple[Haplotype, int], ...]:
        first, second = zip(*genotype, strict=True)
        if first == second:
            return ((first, self.scale[parent]),)
        strands = (first, second)
        locked = self._locked(first, second)
        # (strand now followed, alleles so far) with the number of gametes
        partial: dict[tuple[int, Haplotype], int] = {(0, first[:1]): 1, (1, second[:1]): 1}
        for place, apart in enumerate(self._apart[parent]):
            crossed = 0 if place in locked else apart.numerator
            grown: dict[tuple[int, Haplotype], int] = defaultdict(int)
            for (strand, alleles), number in partial.items():
                for to, times in ((strand, apart.denominator - crossed), (1 - strand, crossed)):
                    if times:
                        grown[to, (*alleles, strands[to][place + 1])] += number * times
            partial = grown
        together: dict[Haplotype, int] = defaultdict(int)
        for (_, alleles), number in partial.items():
            together[alleles] += number
        return tuple(together.items())

    def _locked(self, first: Haplotype, second: Haplotype) -> range:
        """Return the stretches between loci in which unlike sex chromosomes cannot cross over.

        They pair only where both carry the same loci: between the sex-deciding locus and
        any locus that one of them lacks nothing is exchanged.
        """
        if self.sex_place is None or first[self.sex_place] == second[self.sex_place]:
            return range(0)
        unlike = [
            place
            for place, lacking in enumerate(self._lacking)
            if place == self.sex_place or first[place] in lacking or second[place] in lacking
        ]
        return range(min(unlike), max(unlike))


def chromosome_of(group: LinkageGroup, model: TraitModel) -> Chromosome:
    """Return the haplotypes and genotypes of a linkage group of a model.

    Parameters
    ----------
    group
        One of `linkage_groups(model)`.
    model
        A model without problems.

    Notes
    -----
    Crossings-over in neighbouring stretches are independent (no interference [1]_).
    Eggs follow the fractions of dams and sperm those of sires, whatever the sex
    chromosomes of the animal.

    References
    ----------
    .. [1] Haldane J.B.S. (1919) J. Genet. 8:299-309.
    """
    by_name = {locus.name: (place, locus) for place, locus in enumerate(model.loci)}
    places = tuple(by_name[name][0] for name in group.loci)
    loci: tuple[Locus, ...] = tuple(by_name[name][1] for name in group.loci)
    sex_place = None
    if model.sex is not None and model.sex.locus in group.loci:
        sex_place = group.loci.index(model.sex.locus)
    haplotypes = tuple(
        alleles
        for alleles in product(*((*locus.alleles, *locus.absent_from) for locus in loci))
        if _consistent(alleles, loci, sex_place)
    )
    length = len(loci) - 1
    apart = {
        Parent.DAM: group.dam_recombination[:length],
        Parent.SIRE: group.sire_recombination[:length],
    }
    scale = dict.fromkeys(Parent, 2)
    for parent, fractions in apart.items():
        for fraction in fractions:
            scale[parent] *= fraction.denominator
    return Chromosome(
        places=places,
        sex_place=sex_place,
        haplotypes=haplotypes,
        genotypes=tuple(
            tuple(zip(one, other, strict=True))
            for number, one in enumerate(haplotypes)
            for other in haplotypes[number:]
        ),
        scale=scale,
        _rank={haplotype: number for number, haplotype in enumerate(haplotypes)},
        _apart=apart,
        _lacking=tuple(frozenset(locus.absent_from) for locus in loci),
    )


def _consistent(alleles: Haplotype, loci: tuple[Locus, ...], sex_place: int | None) -> bool:
    """Say whether a chromosome carries the loci it has, and no others."""
    if sex_place is None:
        return True
    sex = alleles[sex_place]
    return all(
        (allele == sex) if sex in locus.absent_from else (allele not in locus.absent_from)
        for allele, locus in zip(alleles, loci, strict=True)
    )
