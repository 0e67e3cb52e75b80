"""Laws written in few words: `A/-` where several genotypes of one look share a line."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import product

from filialog.genetics.genotype_law import GenotypeLaw
from filialog.genetics.genotype_text import ANY_ALLELE, format_genotype, parse_genotype
from filialog.genetics.trait_model import (
    Genotype,
    TraitModel,
    all_genotypes,
    is_lethal,
    look_of,
    looks_of_model,
)

__all__ = ["LawRow", "genotype_rows", "summarise"]


@dataclass(frozen=True, slots=True, kw_only=True)
class LawRow:
    """One line of a law."""

    text: str
    """A genotype such as `a/a`, or several of one look such as `A/-`."""

    probability: Fraction
    """Probability of all genotypes that the text means, together."""

    look: str
    """The look that they show."""


def genotype_rows(law: GenotypeLaw, model: TraitModel) -> tuple[LawRow, ...]:
    """Return a law with one row for each possible genotype, in declared order.

    Examples
    --------
    >>> from filialog.genetics.genotype_law import pool_law
    >>> from filialog.genetics.trait_model import Locus, LookRule
    >>> gene = Locus(name="gene", alleles=("A", "a"))
    >>> model = TraitModel(name="one", loci=(gene,), looks=(LookRule(look="plain"),))
    >>> [(row.text, str(row.probability)) for row in genotype_rows(pool_law(model), model)]
    [('A/A', '1/4'), ('A/a', '1/2'), ('a/a', '1/4')]
    """
    probabilities = dict(law.probabilities)
    return tuple(
        LawRow(
            text=format_genotype(genotype),
            probability=probabilities[genotype],
            look=look_of(genotype, model),
        )
        for genotype in all_genotypes(model)
        if genotype in probabilities
    )


def _patterns(model: TraitModel) -> Iterator[tuple[str, frozenset[Genotype]]]:
    """Return every way to write genotypes, most exact first, with what it means."""
    by_locus = []
    for locus in model.loci:
        alleles = (*locus.alleles, ANY_ALLELE)
        pairs = [f"{one}/{other}" for i, one in enumerate(locus.alleles) for other in alleles[i:]]
        by_locus.append([*sorted(pairs, key=lambda pair: pair.endswith(ANY_ALLELE)), ""])
    for parts in product(*by_locus):
        text = " ".join(part for part in parts if part)
        if text:
            yield text, frozenset(parse_genotype(text, model))


def summarise(law: GenotypeLaw, model: TraitModel) -> tuple[LawRow, ...]:
    """Return a law in few rows: what could be written together is.

    Parameters
    ----------
    law
        Law of one living animal.
    model
        A model without problems.

    Returns
    -------
    tuple of LawRow
        Genotypes are joined only within one look, and only where the text means no
        other living genotype of probability 0. A locus that can be anything is left
        out. Rows come in declared order of their first genotype. How likely each of
        the joined genotypes is, `genotype_rows` tells.

    Examples
    --------
    >>> from filialog.genetics.genotype_law import pool_law
    >>> from filialog.genetics.trait_model import Condition, ConditionKind, Locus, LookRule
    >>> gene = Locus(name="gene", alleles=("A", "a"))
    >>> plain = Condition(locus="gene", kind=ConditionKind.HAS, alleles=("A",))
    >>> rules = (LookRule(look="plain", conditions=(plain,)), LookRule(look="fancy"))
    >>> model = TraitModel(name="one", loci=(gene,), looks=rules)
    >>> [(row.text, str(row.probability)) for row in summarise(pool_law(model), model)]
    [('A/-', '3/4'), ('a/a', '1/4')]
    """
    probabilities = dict(law.probabilities)
    order = {genotype: place for place, genotype in enumerate(all_genotypes(model))}
    living = frozenset(genotype for genotype in order if not is_lethal(genotype, model))
    patterns = [(text, meant & living) for text, meant in _patterns(model)]
    rows: list[tuple[int, LawRow]] = []
    for look in looks_of_model(model):
        left = frozenset(genotype for genotype in probabilities if look_of(genotype, model) == look)
        while left:
            # The first of the longest: the exact text where a shorter one says no more.
            text, meant = max(
                ((t, m) for t, m in patterns if m and m <= left), key=lambda item: len(item[1])
            )
            row = LawRow(
                text=text,
                probability=sum((probabilities[genotype] for genotype in meant), Fraction(0)),
                look=look,
            )
            rows.append((min(order[genotype] for genotype in meant), row))
            left -= meant
    return tuple(row for _, row in sorted(rows, key=lambda item: item[0]))
