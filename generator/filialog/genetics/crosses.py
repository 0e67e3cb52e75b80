"""What the young of a dam and a sire are, exactly."""

import math
from collections import defaultdict
from dataclasses import dataclass
from fractions import Fraction
from itertools import product

from filialog.genetics.chromosomes import Haplotype, Parent
from filialog.genetics.genotype_law import ContradictionError, GenotypeLaw, law_of
from filialog.genetics.genotype_text import format_genotype
from filialog.genetics.model_tables import Block, ModelTables, tables_of
from filialog.genetics.trait_model import Genotype, TraitModel

__all__ = ["Cross", "barren", "cross", "gametes", "whole_weights"]

_Part = dict[Genotype, Fraction]
"""The law of the loci of one block."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cross:
    """The young of one dam and one sire."""

    young: GenotypeLaw
    """Law of one living young."""

    dead_share: Fraction
    """Share of the eggs that die because of their genotype, 0 to 1."""


def whole_weights(probabilities: _Part) -> tuple[list[tuple[Genotype, int]], int]:
    """Return a law as whole numbers and what they add up to; whole numbers are quick."""
    scale = math.lcm(*(probability.denominator for probability in probabilities.values()))
    return [(g, p.numerator * (scale // p.denominator)) for g, p in probabilities.items()], scale


def barren(dam_law: GenotypeLaw, sire_law: GenotypeLaw, model: TraitModel) -> ContradictionError:
    """Return the error for parents that can have no living young."""
    parents = " × ".join(
        " or ".join(format_genotype(genotype, model) for genotype in law.genotypes())
        for law in (dam_law, sire_law)
    )
    return ContradictionError("parents", parents, "a pair that can have living young")


def gametes(
    law: GenotypeLaw, model: TraitModel, parent: Parent
) -> tuple[tuple[Haplotype, Fraction], ...]:
    """Return the gametes of an animal of a given law.

    Parameters
    ----------
    law
        Law of the animal's genotype.
    model
        A model without problems.
    parent
        Whether they are eggs of a dam or sperm of a sire, which may recombine
        differently.

    Returns
    -------
    tuple of (gamete, probability)
        One allele per locus of the model, or the sex chromosome that lacks it;
        together 1, sorted by the names of the alleles.

    Examples
    --------
    >>> from filialog.genetics.genotype_law import certain
    >>> from filialog.genetics.trait_model import LinkageGroup, Locus
    >>> linked = LinkageGroup(
    ...     loci=("a", "b"),
    ...     dam_recombination=(Fraction(1, 10),),
    ...     sire_recombination=(Fraction(0),),
    ... )
    >>> loci = (Locus(name="a", alleles=("A", "a")), Locus(name="b", alleles=("B", "b")))
    >>> model = TraitModel(name="two", loci=loci, looks=(), linkage=(linked,))
    >>> for gamete, share in gametes(certain((("A", "a"), ("b", "B"))), model, Parent.DAM):
    ...     print(*gamete, share)
    A B 1/20
    A b 9/20
    a B 9/20
    a b 1/20
    """
    block = tables_of(model).whole
    counts, scale = _gametes_together(block, dict(law.probabilities), parent)
    return tuple(sorted((gamete, Fraction(count, scale)) for gamete, count in counts.items()))


def _gametes_together(block: Block, law: _Part, parent: Parent) -> tuple[dict[Haplotype, int], int]:
    weights, scale = whole_weights(law)
    together: dict[Haplotype, int] = defaultdict(int)
    for genotype, weight in weights:
        for gamete, count in block.gametes(genotype, parent):
            together[gamete] += weight * count
    return together, scale * block.scale(parent)


def _independent_parts(law: GenotypeLaw, tables: ModelTables) -> list[_Part] | None:
    """Return the law of each block where they are independent, None where they are not."""
    if len(tables.blocks) == 1:
        return [dict(law.probabilities)]
    parts: list[_Part] = [defaultdict(Fraction) for _ in tables.blocks]
    for genotype, probability in law.probabilities:
        for block, part in zip(tables.blocks, parts, strict=True):
            part[tuple(genotype[place] for place in block.places)] += probability
    for genotype, probability in law.probabilities:
        alone = Fraction(1)
        for block, part in zip(tables.blocks, parts, strict=True):
            alone *= part[tuple(genotype[place] for place in block.places)]
        if alone != probability:
            return None
    return parts


@dataclass(frozen=True, slots=True, kw_only=True)
class _BlockYoung:
    """The young of one block: their law, and what became of pairs and eggs."""

    law: _Part
    """Among living young of fertile pairs, together 1; empty where no pair is fertile."""
    living_share: Fraction
    """Share of the eggs that live, over all pairs."""


def _young_in(block: Block, dams: _Part, sires: _Part) -> _BlockYoung:
    if block.mortal:
        return _mortal_young(block, dams, sires)
    eggs, egg_scale = _gametes_together(block, dams, Parent.DAM)
    sperms, sperm_scale = _gametes_together(block, sires, Parent.SIRE)
    counts: dict[Genotype, int] = defaultdict(int)
    for egg, number in eggs.items():
        for sperm, other in sperms.items():
            counts[block.union(egg, sperm)] += number * other
    scale = egg_scale * sperm_scale
    return _BlockYoung(
        law={genotype: Fraction(count, scale) for genotype, count in counts.items()},
        living_share=Fraction(1),
    )


def _mortal_young(block: Block, dams: _Part, sires: _Part) -> _BlockYoung:
    """Go through the pairs: each counts by its probability, however many eggs die."""
    dam_weights, dam_scale = whole_weights(dams)
    sire_weights, sire_scale = whole_weights(sires)
    by_sire = [(block.gametes(sire, Parent.SIRE), weight) for sire, weight in sire_weights]
    kinds = dict.fromkeys(sperm for sperms, _ in by_sire for sperm, _ in sperms)
    # Unions are added up apart for each number of living ones, so that one division serves all.
    unions: dict[int, dict[tuple[Haplotype, Haplotype], int]] = {}
    pairs: dict[int, int] = defaultdict(int)
    for dam, dam_weight in dam_weights:
        eggs = block.gametes(dam, Parent.DAM)
        lives = {
            sperm: sum(n * block.living(block.union(egg, sperm)) for egg, n in eggs)
            for sperm in kinds
        }
        together: dict[int, dict[Haplotype, int]] = {}
        for sperms, weight in by_sire:
            living = sum(number * lives[sperm] for sperm, number in sperms)
            pairs[living] += dam_weight * weight
            of_sires = together.setdefault(living, defaultdict(int))
            for sperm, number in sperms:
                of_sires[sperm] += weight * number
        for living, of_sires in together.items():
            sums = unions.setdefault(living, defaultdict(int))
            for egg, number in eggs:
                for sperm, other in of_sires.items():
                    sums[egg, sperm] += dam_weight * number * other
    all_pairs = dam_scale * sire_scale
    fertile = all_pairs - pairs.get(0, 0)
    law: _Part = defaultdict(Fraction)
    for living, sums in unions.items():
        if living:
            for (egg, sperm), count in sums.items():
                genotype = block.union(egg, sperm)
                law[genotype] += Fraction(count * block.living(genotype), living * fertile)
    alive = sum(living * weight for living, weight in pairs.items())
    young = block.scale(Parent.DAM) * block.scale(Parent.SIRE) * block.living_scale
    return _BlockYoung(law=law, living_share=Fraction(alive, young * all_pairs))


def cross(dam_law: GenotypeLaw, sire_law: GenotypeLaw, model: TraitModel) -> Cross:
    """Return the young of one dam and one sire.

    Parameters
    ----------
    dam_law, sire_law
        Laws of the parents' genotypes, independent of one another. They are taken as
        given: where the model has sex chromosomes, `as_parent` leaves out those of the
        other sex, and a sex-reversed parent is written as it is.
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
    Where parents are uncertain and genotypes die, each possible pair counts by its
    probability, however many of its eggs die: the brood is known to exist, not how
    large it might have been. Pairs without living young are left out.

    Linkage groups are counted apart and multiplied at the end wherever neither the
    laws of the parents nor mortality tie them together.

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
    tables = tables_of(model)
    blocks = tables.blocks
    dams, sires = _independent_parts(dam_law, tables), _independent_parts(sire_law, tables)
    if dams is None or sires is None:
        blocks = (tables.whole,)
        dams, sires = [dict(dam_law.probabilities)], [dict(sire_law.probabilities)]
    parts = [_young_in(*one) for one in zip(blocks, dams, sires, strict=True)]
    if not all(part.law for part in parts):
        raise barren(dam_law, sire_law, model)
    return Cross(
        young=law_of(_multiplied(blocks, [part.law for part in parts], len(model.loci))),
        dead_share=1 - math.prod((part.living_share for part in parts), start=Fraction(1)),
    )


def _multiplied(blocks: tuple[Block, ...], parts: list[_Part], loci: int) -> _Part:
    if len(blocks) == 1:
        return parts[0]
    together: _Part = {}
    for drawn in product(*(part.items() for part in parts)):
        pairs: list[tuple[str, str]] = [("", "")] * loci
        probability = Fraction(1)
        for block, (part, share) in zip(blocks, drawn, strict=True):
            probability *= share
            for place, pair in zip(block.places, part, strict=True):
                pairs[place] = pair
        together[tuple(pairs)] = probability
    return together
