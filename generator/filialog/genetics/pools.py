"""The law of an animal of a pool that mates at random."""

from collections.abc import Mapping
from fractions import Fraction

from filialog.domain_error import DomainError
from filialog.genetics.genotype_law import ContradictionError, GenotypeLaw, law_of
from filialog.genetics.model_tables import living_genotypes, tables_of
from filialog.genetics.showing import sex_of, survival
from filialog.genetics.trait_model import Genotype, Locus, TraitModel

__all__ = ["pool_law"]


def pool_law(
    model: TraitModel, frequencies: Mapping[str, Mapping[str, Fraction]] | None = None
) -> GenotypeLaw:
    """Return the law of one animal from a pool with given allele frequencies.

    Parameters
    ----------
    model
        A model without problems.
    frequencies
        For each locus name the frequency of each allele, together exactly 1; an
        allele left out has frequency 0. A locus left out has all alleles equally
        frequent, and so have all loci when nothing is given. Sex chromosomes have no
        frequencies: they follow from the sexes.

    Returns
    -------
    GenotypeLaw
        Hardy-Weinberg proportions with independent loci, among living animals.

    Raises
    ------
    DomainError
        If a locus or allele is unknown or frequencies do not add up to 1;
        `ContradictionError` if no such animal can live.

    Notes
    -----
    Assumes random mating in the pool, no selection but viability, and linkage
    equilibrium: an animal heterozygous at two linked loci has them in coupling or in
    repulsion as the frequencies give, half and half. Half of the pool are females;
    the pairs of sex chromosomes that make a sex are equally frequent in it, and a
    chromosome that carries a locus carries its alleles by the same frequencies,
    whichever chromosome it is.

    References
    ----------
    .. [1] Hardy G.H. (1908) Science 28:49-50 (from memory).

    Examples
    --------
    >>> eye = Locus(name="eye", alleles=("O", "o"))
    >>> model = TraitModel(name="eye", loci=(eye,), looks=())
    >>> law = pool_law(model, {"eye": {"O": Fraction(4, 5), "o": Fraction(1, 5)}})
    >>> law.probability((("O", "o"),))
    Fraction(8, 25)
    """
    by_place = _checked(model, frequencies or {})
    weights: dict[Genotype, Fraction] = {}
    for genotype in living_genotypes(model):
        weight = survival(genotype, model)
        for chromosome in tables_of(model).chromosomes:
            pairs = [genotype[place] for place in chromosome.places]
            alike_in_sex = True
            for pair, place in zip(pairs, chromosome.places, strict=True):
                of_locus = by_place[place]
                if of_locus is None:
                    alike_in_sex = pair[0] == pair[1]
                    weight *= _share_of_sex_pair(genotype, place, model)
                else:
                    # A chromosome that lacks the locus lacks it for certain.
                    weight *= of_locus.get(pair[0], Fraction(1))
                    weight *= of_locus.get(pair[1], Fraction(1))
            if alike_in_sex and any(first != second for first, second in pairs):
                weight *= 2
        weights[genotype] = weight
    total = sum(weights.values(), Fraction(0))
    if total == 0:
        raise ContradictionError(
            "allele frequencies", frequencies or {}, "some that let an animal live"
        )
    return law_of({genotype: weight / total for genotype, weight in weights.items()})


def _share_of_sex_pair(genotype: Genotype, place: int, model: TraitModel) -> Fraction:
    """Return the frequency of a pair of sex chromosomes: half for each sex, even within."""
    assert model.sex is not None
    sex = sex_of(genotype, model)
    nothing = genotype[:place], genotype[place + 1 :]
    alike = [
        pair for pair in model.sex.usual if sex_of((*nothing[0], pair, *nothing[1]), model) is sex
    ]
    return Fraction(1, 2 * len(alike))


def _checked(
    model: TraitModel, given: Mapping[str, Mapping[str, Fraction]]
) -> list[dict[str, Fraction] | None]:
    """Return the frequencies by place of the locus; None where sex chromosomes stand."""
    sex_locus = model.sex.locus if model.sex is not None else None
    names = [locus.name for locus in model.loci if locus.name != sex_locus]
    for name in given:
        if name not in names:
            raise DomainError("locus", name, f"one of {', '.join(names)}")
    return [
        None if locus.name == sex_locus else _checked_frequencies(locus, given.get(locus.name))
        for locus in model.loci
    ]


def _checked_frequencies(
    locus: Locus, frequencies: Mapping[str, Fraction] | None
) -> dict[str, Fraction]:
    if frequencies is None:
        return dict.fromkeys(locus.alleles, Fraction(1, len(locus.alleles)))
    for allele, frequency in frequencies.items():
        if allele not in locus.alleles:
            raise DomainError(
                f"allele of locus {locus.name}", allele, f"one of {', '.join(locus.alleles)}"
            )
        if not 0 <= frequency <= 1:
            raise DomainError(f"frequency of allele {allele}", frequency, "between 0 and 1")
    total = sum(frequencies.values(), Fraction(0))
    if total != 1:
        raise DomainError(f"sum of the allele frequencies of locus {locus.name}", total, "1")
    return {allele: Fraction(frequencies.get(allele, 0)) for allele in locus.alleles}
