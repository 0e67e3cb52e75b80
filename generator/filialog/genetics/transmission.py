"""What each pair of genotypes of one linkage group passes on, as tables."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from filialog.domain_error import DomainError
from filialog.genetics.chromosomes import Haplotype, Parent
from filialog.genetics.model_tables import tables_of
from filialog.genetics.trait_model import Genotype, TraitModel

__all__ = ["Transmission", "genotype_in_group", "transmission"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Transmission:
    """Inheritance in one linkage group, before any death and any look."""

    loci: tuple[str, ...]
    """Names of the loci of the group, in the order of their places in the model."""

    genotypes: tuple[Genotype, ...]
    """Every genotype of the group: one pair of alleles per locus of it."""

    haplotypes: tuple[Haplotype, ...]
    """Everything that one chromosome can carry, by locus of the group."""

    eggs: tuple[tuple[Fraction, ...], ...]
    """By genotype of a dam the probability of each haplotype; each row adds up to 1."""

    sperms: tuple[tuple[Fraction, ...], ...]
    """The same for a sire."""

    unions: tuple[tuple[int, ...], ...]
    """By haplotype of the egg and of the sperm the number of the young's genotype."""

    def young(self, dam: int, sire: int) -> Mapping[int, Fraction]:
        """Return the probability of each genotype of a young by numbers of genotypes."""
        found: dict[int, Fraction] = {}
        for row, egg in zip(self.unions, self.eggs[dam], strict=True):
            if egg:
                for genotype, sperm in zip(row, self.sperms[sire], strict=True):
                    if sperm:
                        found[genotype] = found.get(genotype, Fraction(0)) + egg * sperm
        return found


def transmission(model: TraitModel, group: int) -> Transmission:
    """Return T(young | dam, sire) of one linkage group.

    Parameters
    ----------
    model
        A model without problems.
    group
        Number of the group in `linkage_groups(model)`.

    Returns
    -------
    Transmission
        Gamete tables of dam and sire, and which genotype two gametes make.

    Raises
    ------
    DomainError
        If the model has no such group.

    Examples
    --------
    >>> from filialog.genetics.trait_model import Locus
    >>> model = TraitModel(name="one", loci=(Locus(name="a", alleles=("A", "a")),), looks=())
    >>> table = transmission(model, 0)
    >>> [str(share) for share in table.eggs[1]]
    ['1/2', '1/2']
    >>> {table.genotypes[young]: str(share) for young, share in table.young(1, 2).items()}
    {(('A', 'a'),): '1/2', (('a', 'a'),): '1/2'}
    """
    chromosomes = tables_of(model).chromosomes
    if not 0 <= group < len(chromosomes):
        raise DomainError("linkage group", group, f"0 or more and below {len(chromosomes)}")
    one = chromosomes[group]
    order = sorted(range(len(one.places)), key=one.places.__getitem__)
    tables = {}
    for parent in Parent:
        rows = []
        for genotype in one.genotypes:
            counts = dict(one.gametes(genotype, parent))
            rows.append(
                tuple(
                    Fraction(counts.get(haplotype, 0), one.scale[parent])
                    for haplotype in one.haplotypes
                )
            )
        tables[parent] = tuple(rows)
    number = {genotype: place for place, genotype in enumerate(one.genotypes)}
    return Transmission(
        loci=tuple(model.loci[one.places[place]].name for place in order),
        genotypes=tuple(tuple(genotype[place] for place in order) for genotype in one.genotypes),
        haplotypes=tuple(tuple(alleles[place] for place in order) for alleles in one.haplotypes),
        eggs=tables[Parent.DAM],
        sperms=tables[Parent.SIRE],
        unions=tuple(
            tuple(number[one.union(egg, sperm)] for sperm in one.haplotypes)
            for egg in one.haplotypes
        ),
    )


def genotype_in_group(genotype: Genotype, model: TraitModel, group: int) -> Genotype:
    """Return the part of a genotype of the model that one linkage group holds."""
    return tuple(genotype[place] for place in sorted(tables_of(model).chromosomes[group].places))
