"""Trait models: loci, linkage, sex chromosomes, and which genotype shows which look."""

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from filialog.domain_error import DomainError

__all__ = [
    "CoarseLook",
    "Condition",
    "ConditionKind",
    "Genotype",
    "LinkageGroup",
    "Locus",
    "LookRule",
    "Sex",
    "SexSystem",
    "ShownBy",
    "TraitModel",
    "Viability",
    "looks_in_class",
    "looks_of_model",
]

Genotype = tuple[tuple[str, str], ...]
"""One pair of alleles per locus of the model.

Within a linkage group the first alleles of all pairs stand on one chromosome and the
second ones on the other, so that coupling (A/a B/b) and repulsion (A/a b/B) are
different values; the chromosome that comes first in declared order is the first, so
that a locus of its own has its pair in declared order. Where a chromosome lacks the
locus, the name of that sex chromosome stands in the place of an allele: `w`, `Y`."""


class Sex(Enum):
    """Female or male."""

    FEMALE = "female"
    MALE = "male"


@dataclass(frozen=True, slots=True, kw_only=True)
class Locus:
    """A place on a chromosome and the alleles it can carry."""

    name: str
    """Name, unique in the model."""

    alleles: tuple[str, ...]
    """Alleles in the order in which genotypes are written, the dominant one first. At the
    locus that decides the sex they are the sex chromosomes."""

    absent_from: tuple[str, ...] = ()
    """Sex chromosomes that lack the locus; none for an autosomal locus and for one that
    all sex chromosomes carry."""


class ConditionKind(Enum):
    """What a condition asks of the two alleles at a locus."""

    HAS = "has"
    """At least one copy of the allele."""

    HOM = "hom"
    """Two copies of the allele."""

    IS = "is"
    """Exactly this pair, in either order; a sex chromosome that lacks the locus is named
    in the place of an allele."""

    LACKS = "lacks"
    """No copy of the allele."""

    SEX = "sex"
    """The animal is female, or male; the locus is the one that decides the sex."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Condition:
    """One demand on one locus."""

    locus: str
    """Name of the locus."""

    kind: ConditionKind
    """What is asked."""

    alleles: tuple[str, ...]
    """The allele asked for; two of them for IS; `female` or `male` for SEX."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LookRule:
    """A look, and when it is shown."""

    look: str
    """Name of the look. Several rules may give the same look."""

    conditions: tuple[Condition, ...] = ()
    """All must hold; none at all means every genotype that is left."""

    others: tuple[tuple[str, Fraction], ...] = ()
    """Incomplete penetrance: share of the animals for which the conditions hold that
    shows another look instead, by that look. The rest shows this one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CoarseLook:
    """A coarser class that joins several looks."""

    name: str
    """Name of the class."""

    looks: tuple[str, ...]
    """The looks it joins."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Viability:
    """Genotypes of which some die before they can be seen."""

    conditions: tuple[Condition, ...]
    """Conditions that together mark such a genotype."""

    share: Fraction
    """Share that lives, 0 to 1, relative to genotypes that no entry names."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LinkageGroup:
    """Loci on one chromosome, in their order, and how often they come apart."""

    loci: tuple[str, ...]
    """Names of the loci."""

    dam_recombination: tuple[Fraction, ...] = ()
    """Recombination fraction between each locus and the next in eggs, 0 to 1/2."""

    sire_recombination: tuple[Fraction, ...] = ()
    """The same in sperm."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SexSystem:
    """How sex chromosomes decide the sex."""

    locus: str
    """The locus of the model whose alleles are the sex chromosomes."""

    female: tuple[tuple[str, str], ...]
    """Pairs of chromosomes, in declared order, that make a female; all others make a
    male."""

    usual: tuple[tuple[str, str], ...]
    """Pairs that come about without sex reversal."""


class ShownBy(Enum):
    """Whose genotype gives the look."""

    OWN = "own"
    """The animal's own."""

    DAM = "dam"
    """That of its dam: a maternal effect. All young of a dam follow her genotype."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TraitModel:
    """Loci, looks and mortality of one trait."""

    name: str
    """Name of the model."""

    loci: tuple[Locus, ...]
    """The loci, in the order in which genotypes are written."""

    looks: tuple[LookRule, ...]
    """Rules in order: the first whose conditions all hold gives the look."""

    lethal: tuple[tuple[Condition, ...], ...] = ()
    """Genotypes that die before they can be seen: each entry is a set of conditions
    that together mark such a genotype."""

    coarse: tuple[CoarseLook, ...] = ()
    """Coarser classes that a tally may use."""

    linkage: tuple[LinkageGroup, ...] = ()
    """Loci that are linked. A locus that no group names is inherited on its own."""

    sex: SexSystem | None = None
    """Sex chromosomes; None where the model does not need the sex."""

    viability: tuple[Viability, ...] = ()
    """Genotypes of which some die; where several entries hold their shares multiply."""

    shown_by: ShownBy = ShownBy.OWN
    """Whose genotype gives the look."""


def looks_of_model(model: TraitModel) -> tuple[str, ...]:
    """Return the names of the looks in the order of the rules, each once."""
    return tuple(
        dict.fromkeys(
            look
            for rule in model.looks
            for look in (rule.look, *(other for other, _ in rule.others))
        )
    )


def looks_in_class(name: str, model: TraitModel) -> tuple[str, ...]:
    """Return the looks that a name in a tally stands for.

    Parameters
    ----------
    name
        A look, or a coarser class.
    model
        The trait model.

    Returns
    -------
    tuple of str
        The look itself, or the looks that the class joins.

    Raises
    ------
    DomainError
        If the model has no look or class of that name.
    """
    looks = looks_of_model(model)
    if name in looks:
        return (name,)
    for coarse in model.coarse:
        if coarse.name == name:
            return coarse.looks
    known = (*looks, *(coarse.name for coarse in model.coarse))
    raise DomainError("look", name, f"one of {', '.join(known)}")
