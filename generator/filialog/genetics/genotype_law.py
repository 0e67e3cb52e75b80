"""Exact probability distributions over genotypes."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from filialog.domain_error import DomainError
from filialog.genetics.model_tables import tables_of
from filialog.genetics.showing import sex_of
from filialog.genetics.trait_model import (
    Genotype,
    Sex,
    TraitModel,
    looks_in_class,
)

__all__ = [
    "ContradictionError",
    "GenotypeLaw",
    "as_parent",
    "certain",
    "condition_on_genotypes",
    "condition_on_look",
    "condition_on_sex",
    "law_of",
    "look_shares",
    "mixture",
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

    Notes
    -----
    The law is that of the animal whose genotype gives the look: in a model shown by
    the dam it is the dam's, and the look that of her young.

    Examples
    --------
    A plain animal of a cross A/a × A/a is A/a with probability 2/3:

    >>> from filialog.genetics.trait_model import Condition, ConditionKind, Locus, LookRule
    >>> gene = Locus(name="gene", alleles=("A", "a"))
    >>> fancy = Condition(locus="gene", kind=ConditionKind.HOM, alleles=("a",))
    >>> rules = (LookRule(look="fancy", conditions=(fancy,)), LookRule(look="plain"))
    >>> model = TraitModel(name="one", loci=(gene,), looks=rules)
    >>> quarter = Fraction(1, 4)
    >>> f2 = {(("A", "A"),): quarter, (("A", "a"),): 2 * quarter, (("a", "a"),): quarter}
    >>> condition_on_look(law_of(f2), model, ["plain"]).probability((("A", "a"),))
    Fraction(2, 3)
    """
    names = tuple(looks)
    wanted = {look for name in names for look in looks_in_class(name, model)}
    tables = tables_of(model)
    kept: dict[Genotype, Fraction] = {}
    for genotype, probability in law.probabilities:
        chance = sum((c for look, c in tables.chances(genotype) if look in wanted), Fraction(0))
        if chance:
            kept[genotype] = probability * chance
    total = sum(kept.values(), Fraction(0))
    if total == 0:
        possible = [look for look, share in look_shares(law, model) if share > 0]
        raise ContradictionError("look", ", ".join(names), f"one of {', '.join(possible)}")
    return law_of({genotype: share / total for genotype, share in kept.items()})


def condition_on_sex(law: GenotypeLaw, model: TraitModel, sex: Sex) -> GenotypeLaw:
    """Return the law of an animal seen to be female or male.

    Raises
    ------
    ContradictionError
        If the model has sex chromosomes and no possible genotype makes that sex. In a
        model without them the law stays as it is.

    Examples
    --------
    >>> from filialog.genetics.sex_systems import sex_system
    >>> locus, system = sex_system("XY")
    >>> model = TraitModel(name="sex", loci=(locus,), looks=(), sex=system)
    >>> law = law_of({(("X", "X"),): Fraction(1, 2), (("X", "Y"),): Fraction(1, 2)})
    >>> condition_on_sex(law, model, Sex.MALE).genotypes()
    ((('X', 'Y'),),)
    """
    if model.sex is None:
        return law
    kept = [genotype for genotype in law.genotypes() if sex_of(genotype, model) is sex]
    if not kept:
        raise ContradictionError("sex", sex.value, "one that a possible genotype makes")
    return condition_on_genotypes(law, kept)


def as_parent(law: GenotypeLaw, model: TraitModel, sex: Sex) -> GenotypeLaw:
    """Return the law of an animal that was a dam (female) or a sire (male).

    Where every possible genotype makes the other sex the parent is sex-reversed, and
    the law stays as it is.
    """
    if model.sex is None or all(sex_of(g, model) is not sex for g in law.genotypes()):
        return law
    return condition_on_sex(law, model, sex)


def look_shares(law: GenotypeLaw, model: TraitModel) -> tuple[tuple[str, Fraction], ...]:
    """Return the probability of every look of the model, in its order, zeros included.

    In a model shown by the dam these are the looks of young whose dam has the law.

    Examples
    --------
    >>> from filialog.genetics.trait_model import Locus, LookRule
    >>> gene = Locus(name="gene", alleles=("A", "a"))
    >>> model = TraitModel(name="one", loci=(gene,), looks=(LookRule(look="plain"),))
    >>> look_shares(certain((("A", "a"),)), model)
    (('plain', Fraction(1, 1)),)
    """
    tables = tables_of(model)
    shares = dict.fromkeys(tables.looks, Fraction(0))
    for genotype, probability in law.probabilities:
        for look, chance in tables.chances(genotype):
            shares[look] += probability * chance
    return tuple(shares.items())
