"""Exact probability distributions over genotypes."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from filialog.domain_error import DomainError
from filialog.genetics.trait_model import (
    Genotype,
    Locus,
    TraitModel,
    living_genotypes,
    look_of,
    looks_in_class,
    looks_of_model,
)

__all__ = [
    "ContradictionError",
    "GenotypeLaw",
    "certain",
    "condition_on_genotypes",
    "condition_on_look",
    "law_of",
    "look_shares",
    "mixture",
    "pool_law",
]


class ContradictionError(DomainError):
    """Evidence that has probability 0: it contradicts what was known before."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GenotypeLaw:
    """How likely each genotype is. Made by the functions of this module."""

    probabilities: tuple[tuple[Genotype, Fraction], ...]
    """Each possible genotype with its probability, above 0 and together 1, sorted by
    the names of the alleles so that equal laws are equal values."""

    def probability(self, genotype: Genotype) -> Fraction:
        """Return the probability of one genotype, 0 when it is not possible."""
        return dict(self.probabilities).get(genotype, Fraction(0))

    def genotypes(self) -> tuple[Genotype, ...]:
        """Return the genotypes that are possible."""
        return tuple(genotype for genotype, _ in self.probabilities)


def law_of(probabilities: Mapping[Genotype, Fraction]) -> GenotypeLaw:
    """Make a law from exact probabilities.

    Parameters
    ----------
    probabilities
        Zero or more each, together exactly 1.

    Raises
    ------
    DomainError
        If a probability is negative or they do not add up to 1.

    Examples
    --------
    >>> law_of({(("a", "a"),): Fraction(1)}).genotypes()
    ((('a', 'a'),),)
    """
    for genotype, probability in probabilities.items():
        if probability < 0:
            raise DomainError(f"probability of {genotype}", probability, "0 or more")
    total = sum(probabilities.values(), Fraction(0))
    if total != 1:
        raise DomainError("sum of the probabilities", total, "1")
    return GenotypeLaw(
        probabilities=tuple(sorted((g, Fraction(p)) for g, p in probabilities.items() if p > 0))
    )


def certain(genotype: Genotype) -> GenotypeLaw:
    """Return the law of an animal whose genotype is known."""
    return GenotypeLaw(probabilities=((genotype, Fraction(1)),))


def mixture(parts: Sequence[tuple[Fraction, GenotypeLaw]]) -> GenotypeLaw:
    """Return the law of an animal drawn from one of several laws.

    Parameters
    ----------
    parts
        (weight, law) pairs, the weights together exactly 1.

    Returns
    -------
    GenotypeLaw
        The weighted average: right for one animal, not for a whole brood of one
        unknown parent (see `brood_components`).

    Raises
    ------
    DomainError
        If a weight is negative or the weights do not add up to 1.

    Examples
    --------
    >>> half = Fraction(1, 2)
    >>> law = mixture([(half, certain((("A", "A"),))), (half, certain((("a", "a"),)))])
    >>> law.probability((("a", "a"),))
    Fraction(1, 2)
    """
    total = sum((weight for weight, _ in parts), Fraction(0))
    if total != 1:
        raise DomainError("sum of the weights", total, "1")
    together: dict[Genotype, Fraction] = {}
    for weight, law in parts:
        if weight < 0:
            raise DomainError("weight", weight, "0 or more")
        for genotype, probability in law.probabilities:
            together[genotype] = together.get(genotype, Fraction(0)) + weight * probability
    return law_of(together)


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
        frequent, and so have all loci when nothing is given.

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
    Assumes random mating in the pool and no selection but lethality.

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
    given = frequencies or {}
    names = [locus.name for locus in model.loci]
    for name in given:
        if name not in names:
            raise DomainError("locus", name, f"one of {', '.join(names)}")
    by_locus = [_checked_frequencies(locus, given.get(locus.name)) for locus in model.loci]
    weights: dict[Genotype, Fraction] = {}
    for genotype in living_genotypes(model):
        weight = Fraction(1)
        for (first, second), frequency in zip(genotype, by_locus, strict=True):
            orders = 1 if first == second else 2
            weight *= orders * frequency[first] * frequency[second]
        weights[genotype] = weight
    total = sum(weights.values(), Fraction(0))
    if total == 0:
        raise ContradictionError("allele frequencies", given, "some that let an animal live")
    return law_of({genotype: weight / total for genotype, weight in weights.items()})


def condition_on_genotypes(law: GenotypeLaw, genotypes: Iterable[Genotype]) -> GenotypeLaw:
    """Return the law of an animal known to have one of some genotypes.

    Parameters
    ----------
    law
        What was known before.
    genotypes
        The genotypes it can have, such as `parse_genotype` returns.

    Returns
    -------
    GenotypeLaw
        The part of the law on these genotypes, scaled to 1.

    Raises
    ------
    ContradictionError
        If that part has probability 0.

    Examples
    --------
    >>> law = law_of({(("A", "A"),): Fraction(1, 4), (("A", "a"),): Fraction(3, 4)})
    >>> condition_on_genotypes(law, [(("A", "a"),)]).probability((("A", "a"),))
    Fraction(1, 1)
    """
    wanted = frozenset(genotypes)
    kept = {g: p for g, p in law.probabilities if g in wanted}
    total = sum(kept.values(), Fraction(0))
    if total == 0:
        raise ContradictionError("genotype", sorted(wanted), "one that was possible before")
    return law_of({genotype: probability / total for genotype, probability in kept.items()})


def condition_on_look(law: GenotypeLaw, model: TraitModel, looks: Iterable[str]) -> GenotypeLaw:
    """Return the law of an animal seen to have one of some looks.

    Parameters
    ----------
    law
        What was known before.
    model
        A model without problems.
    looks
        Looks or coarser classes of the model; the animal shows one of them.

    Returns
    -------
    GenotypeLaw
        The law given that look.

    Raises
    ------
    DomainError
        If the model has no such look; `ContradictionError` if the look has
        probability 0.

    Examples
    --------
    A plain animal of a cross A/a × A/a is A/a with probability 2/3:

    >>> from filialog.genetics.trait_model import Condition, ConditionKind, LookRule
    >>> gene = Locus(name="gene", alleles=("A", "a"))
    >>> fancy = Condition(locus="gene", kind=ConditionKind.HOM, alleles=("a",))
    >>> rules = (LookRule(look="fancy", conditions=(fancy,)), LookRule(look="plain"))
    >>> model = TraitModel(name="one", loci=(gene,), looks=rules)
    >>> condition_on_look(pool_law(model), model, ["plain"]).probability((("A", "a"),))
    Fraction(2, 3)
    """
    names = tuple(looks)
    wanted = {look for name in names for look in looks_in_class(name, model)}
    shown = [g for g, _ in law.probabilities if look_of(g, model) in wanted]
    if not shown:
        possible = [look for look, share in look_shares(law, model) if share > 0]
        raise ContradictionError("look", ", ".join(names), f"one of {', '.join(possible)}")
    return condition_on_genotypes(law, shown)


def look_shares(law: GenotypeLaw, model: TraitModel) -> tuple[tuple[str, Fraction], ...]:
    """Return the probability of every look of the model, in its order, zeros included.

    Examples
    --------
    >>> from filialog.genetics.trait_model import Condition, ConditionKind, LookRule
    >>> gene = Locus(name="gene", alleles=("A", "a"))
    >>> model = TraitModel(name="one", loci=(gene,), looks=(LookRule(look="plain"),))
    >>> look_shares(certain((("A", "a"),)), model)
    (('plain', Fraction(1, 1)),)
    """
    shares = dict.fromkeys(looks_of_model(model), Fraction(0))
    for genotype, probability in law.probabilities:
        shares[look_of(genotype, model)] += probability
    return tuple(shares.items())
