"""Trait models: loci, and which genotype shows which look."""

from dataclasses import dataclass
from enum import Enum
from itertools import combinations_with_replacement, product

from filialog.domain_error import DomainError

__all__ = [
    "CoarseLook",
    "Condition",
    "ConditionKind",
    "Genotype",
    "Locus",
    "LookRule",
    "TraitModel",
    "all_genotypes",
    "is_lethal",
    "living_genotypes",
    "look_of",
    "look_or_none",
    "looks_in_class",
    "looks_of_model",
]

Genotype = tuple[tuple[str, str], ...]
"""One pair of alleles per locus of the model, each pair in declared order."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Locus:
    """A place on a chromosome and the alleles it can carry."""

    name: str
    """Name, unique in the model."""

    alleles: tuple[str, ...]
    """Alleles in the order in which genotypes are written, the dominant one first."""


class ConditionKind(Enum):
    """What a condition asks of the two alleles at a locus."""

    HAS = "has"
    """At least one copy of the allele."""

    HOM = "hom"
    """Two copies of the allele."""

    IS = "is"
    """Exactly this pair, in either order."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Condition:
    """One demand on one locus."""

    locus: str
    """Name of the locus."""

    kind: ConditionKind
    """What is asked."""

    alleles: tuple[str, ...]
    """The allele asked for; two of them for IS."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LookRule:
    """A look, and when it is shown."""

    look: str
    """Name of the look. Several rules may give the same look."""

    conditions: tuple[Condition, ...] = ()
    """All must hold; none at all means every genotype that is left."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CoarseLook:
    """A coarser class that joins several looks."""

    name: str
    """Name of the class."""

    looks: tuple[str, ...]
    """The looks it joins."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TraitModel:
    """Loci, looks and lethal genotypes of one trait. All loci are unlinked autosomes."""

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


def _holds(condition: Condition, pair: tuple[str, str]) -> bool:
    match condition.kind:
        case ConditionKind.HAS:
            return condition.alleles[0] in pair
        case ConditionKind.HOM:
            return pair == (condition.alleles[0], condition.alleles[0])
        case ConditionKind.IS:
            return pair in {condition.alleles, condition.alleles[::-1]}


def _all_hold(conditions: tuple[Condition, ...], genotype: Genotype, model: TraitModel) -> bool:
    at = {locus.name: pair for locus, pair in zip(model.loci, genotype, strict=True)}
    return all(_holds(condition, at[condition.locus]) for condition in conditions)


def all_genotypes(model: TraitModel) -> tuple[Genotype, ...]:
    """Return every genotype of a model, in declared order, lethal ones included.

    Examples
    --------
    >>> eye = Locus(name="eye", alleles=("O", "o"))
    >>> all_genotypes(TraitModel(name="eye", loci=(eye,), looks=()))
    ((('O', 'O'),), (('O', 'o'),), (('o', 'o'),))
    """
    pairs = [tuple(combinations_with_replacement(locus.alleles, 2)) for locus in model.loci]
    return tuple(product(*pairs))


def is_lethal(genotype: Genotype, model: TraitModel) -> bool:
    """Tell whether animals of this genotype die before they can be seen."""
    return any(_all_hold(conditions, genotype, model) for conditions in model.lethal)


def living_genotypes(model: TraitModel) -> tuple[Genotype, ...]:
    """Return every genotype a living animal can have, in declared order."""
    return tuple(genotype for genotype in all_genotypes(model) if not is_lethal(genotype, model))


def looks_of_model(model: TraitModel) -> tuple[str, ...]:
    """Return the names of the looks in the order of the rules, each once."""
    return tuple(dict.fromkeys(rule.look for rule in model.looks))


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


def look_of(genotype: Genotype, model: TraitModel) -> str:
    """Return the look that a genotype shows.

    Parameters
    ----------
    genotype
        A genotype of the model.
    model
        A model without problems, see `model_problems`.

    Returns
    -------
    str
        The look of the first rule whose conditions all hold.

    Raises
    ------
    DomainError
        If no rule fits.

    Examples
    --------
    >>> eye = Locus(name="eye", alleles=("O", "o"))
    >>> orange = Condition(locus="eye", kind=ConditionKind.HOM, alleles=("o",))
    >>> rules = (LookRule(look="orange", conditions=(orange,)), LookRule(look="dark"))
    >>> look_of((("O", "o"),), TraitModel(name="eye", loci=(eye,), looks=rules))
    'dark'
    """
    look = look_or_none(genotype, model)
    if look is None:
        written = " ".join("/".join(pair) for pair in genotype)
        raise DomainError("genotype", written, "one that a look rule fits")
    return look


def look_or_none(genotype: Genotype, model: TraitModel) -> str | None:
    """Return the look that a genotype shows, None when no rule fits."""
    for rule in model.looks:
        if _all_hold(rule.conditions, genotype, model):
            return rule.look
    return None
