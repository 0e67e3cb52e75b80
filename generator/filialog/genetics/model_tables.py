"""What crosses need of a model again and again: its chromosomes and what genotypes do."""

import math
from fractions import Fraction
from functools import lru_cache
from itertools import product

from filialog.genetics.chromosomes import (
    Chromosome,
    Haplotype,
    Parent,
    chromosome_of,
    linkage_groups,
)
from filialog.genetics.showing import look_chances, sex_of, survival
from filialog.genetics.trait_model import Genotype, Sex, TraitModel, looks_of_model

__all__ = ["Block", "ModelTables", "all_genotypes", "living_genotypes", "tables_of"]


class Block:
    """Linkage groups that are counted together; genotypes hold the pairs of their loci."""

    def __init__(self, chromosomes: tuple[Chromosome, ...], model: TraitModel) -> None:
        self.chromosomes = chromosomes
        self.places = tuple(sorted(place for one in chromosomes for place in one.places))
        here = {place: number for number, place in enumerate(self.places)}
        self._at = tuple(tuple(here[place] for place in one.places) for one in chromosomes)
        names = {model.loci[place].name for place in self.places}
        self.part = TraitModel(
            name=model.name,
            loci=tuple(model.loci[place] for place in self.places),
            looks=(),
            lethal=tuple(one for one in model.lethal if names.issuperset(c.locus for c in one)),
            viability=tuple(
                one for one in model.viability if names.issuperset(c.locus for c in one.conditions)
            ),
            sex=model.sex if model.sex is not None and model.sex.locus in names else None,
        )
        self.mortal = bool(self.part.lethal or self.part.viability)
        self._gametes: dict[tuple[Genotype, Parent], tuple[tuple[Haplotype, int], ...]] = {}
        self._unions: dict[tuple[Haplotype, Haplotype], Genotype] = {}
        self.living_scale = math.prod(one.share.denominator for one in self.part.viability)
        self._living: dict[Genotype, int] = {}

    def scale(self, parent: Parent) -> int:
        """Return the number of gametes that `gametes` counts."""
        return math.prod(one.scale[parent] for one in self.chromosomes)

    def gametes(self, genotype: Genotype, parent: Parent) -> tuple[tuple[Haplotype, int], ...]:
        """Return how many of `scale` gametes carry which alleles, by place of the block."""
        key = (genotype, parent)
        if key not in self._gametes:
            parts = [
                one.gametes(tuple(genotype[place] for place in at), parent)
                for one, at in zip(self.chromosomes, self._at, strict=True)
            ]
            self._gametes[key] = tuple(
                (
                    self._in_place([haplotype for haplotype, _ in drawn]),
                    math.prod(number for _, number in drawn),
                )
                for drawn in product(*parts)
            )
        return self._gametes[key]

    def _in_place(self, haplotypes: list[Haplotype]) -> Haplotype:
        alleles = [""] * len(self.places)
        for at, haplotype in zip(self._at, haplotypes, strict=True):
            for place, allele in zip(at, haplotype, strict=True):
                alleles[place] = allele
        return tuple(alleles)

    def union(self, egg: Haplotype, sperm: Haplotype) -> Genotype:
        """Return the young of an egg and a sperm."""
        key = (egg, sperm)
        if key not in self._unions:
            pairs: list[tuple[str, str]] = [("", "")] * len(self.places)
            for one, at in zip(self.chromosomes, self._at, strict=True):
                joined = one.union(
                    tuple(egg[place] for place in at), tuple(sperm[place] for place in at)
                )
                for place, pair in zip(at, joined, strict=True):
                    pairs[place] = pair
            self._unions[key] = tuple(pairs)
        return self._unions[key]

    def living(self, genotype: Genotype) -> int:
        """Return how many of `living_scale` live, as far as this block decides it."""
        if genotype not in self._living:
            self._living[genotype] = int(survival(genotype, self.part) * self.living_scale)
        return self._living[genotype]


class ModelTables:
    """The chromosomes of a model, and its looks and survival by genotype."""

    def __init__(self, model: TraitModel) -> None:
        self.model = model
        self.groups = linkage_groups(model)
        self.chromosomes = tuple(chromosome_of(group, model) for group in self.groups)
        self.looks = looks_of_model(model)
        self.whole = Block(self.chromosomes, model)
        self.blocks = tuple(Block(joined, model) for joined in self._joined())
        self._chances: dict[Genotype, tuple[tuple[str, Fraction], ...]] = {}
        self._genotypes: tuple[Genotype, ...] | None = None
        shares = [share for rule in model.looks for _, share in rule.others]
        self.look_scale = math.lcm(*(share.denominator for share in shares))

    def _joined(self) -> list[tuple[Chromosome, ...]]:
        """Return the linkage groups, joined where a genotype of several of them dies."""
        names = [frozenset(group.loci) for group in self.groups]
        sets = [{number} for number in range(len(names))]
        entries = (*self.model.lethal, *(one.conditions for one in self.model.viability))
        for conditions in entries:
            asked = {condition.locus for condition in conditions}
            touched = {number for number, loci in enumerate(names) if asked & loci}
            if not conditions:
                touched = set(range(len(names)))
            together = [one for one in sets if one & touched]
            if len(together) > 1:
                sets = [one for one in sets if one not in together]
                sets.append(set().union(*together))
        return [
            tuple(self.chromosomes[number] for number in sorted(one))
            for one in sorted(sets, key=min)
        ]

    @property
    def genotypes(self) -> tuple[Genotype, ...]:
        """Every genotype of the model, in declared order."""
        if self._genotypes is None:
            found = []
            for parts in product(*(one.genotypes for one in self.chromosomes)):
                pairs: list[tuple[str, str]] = [("", "")] * len(self.model.loci)
                for one, part in zip(self.chromosomes, parts, strict=True):
                    for place, pair in zip(one.places, part, strict=True):
                        pairs[place] = pair
                found.append(tuple(pairs))
            self._genotypes = tuple(found)
        return self._genotypes

    def chances(self, genotype: Genotype) -> tuple[tuple[str, Fraction], ...]:
        """Return the looks that a genotype gives with their probabilities."""
        if genotype not in self._chances:
            self._chances[genotype] = look_chances(genotype, self.model)
        return self._chances[genotype]


@lru_cache(maxsize=64)
def tables_of(model: TraitModel) -> ModelTables:
    """Return the tables of a model; those of models in use are kept."""
    return ModelTables(model)


def all_genotypes(model: TraitModel) -> tuple[Genotype, ...]:
    """Return every genotype of a model, in declared order, lethal ones included.

    Examples
    --------
    >>> from filialog.genetics.trait_model import Locus
    >>> eye = Locus(name="eye", alleles=("O", "o"))
    >>> all_genotypes(TraitModel(name="eye", loci=(eye,), looks=()))
    ((('O', 'O'),), (('O', 'o'),), (('o', 'o'),))
    """
    return tables_of(model).genotypes


def living_genotypes(model: TraitModel, sex: Sex | None = None) -> tuple[Genotype, ...]:
    """Return every genotype a living animal can have, in declared order.

    Genotypes that only a sex-reversed parent can give, such as Y/Y, are left out.

    Parameters
    ----------
    model
        A model without problems.
    sex
        Only genotypes of that sex; all where the model has no sex chromosomes.
    """
    found = tuple(g for g in all_genotypes(model) if survival(g, model) > 0)
    if model.sex is None:
        return found
    usual = frozenset(model.sex.usual) | frozenset(pair[::-1] for pair in model.sex.usual)
    place = [locus.name for locus in model.loci].index(model.sex.locus)
    return tuple(g for g in found if g[place] in usual and (sex is None or sex_of(g, model) is sex))
