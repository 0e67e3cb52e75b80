"""Laws written in few words: `A/-` where several genotypes of one look share a line."""

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import combinations_with_replacement, product

from filialog.domain_error import DomainError
from filialog.genetics.genotype_law import GenotypeLaw
from filialog.genetics.genotype_text import ANY_ALLELE, format_genotype, parse_genotype
from filialog.genetics.model_tables import all_genotypes, tables_of
from filialog.genetics.showing import is_lethal, sure_look
from filialog.genetics.trait_model import Genotype, TraitModel

__all__ = ["LawRow", "genotype_rows", "summarise"]


@dataclass(frozen=True, slots=True, kw_only=True)
class LawRow:
    """One line of a law."""

    text: str
    """A genotype such as `a/a`, or several of one look such as `A/-`."""

    probability: Fraction
    """Probability of all genotypes that the text means, together."""

    look: str | None
    """The look that they show; None where it is not certain, because penetrance is
    incomplete or because the dam's genotype gives it."""


def genotype_rows(law: GenotypeLaw, model: TraitModel) -> tuple[LawRow, ...]:
    """Return a law with one row for each possible genotype, in declared order.

    Examples
    --------
    >>> from filialog.genetics.pools import pool_law
    >>> from filialog.genetics.trait_model import Locus, LookRule
    >>> gene = Locus(name="gene", alleles=("A", "a"))
    >>> model = TraitModel(name="one", loci=(gene,), looks=(LookRule(look="plain"),))
    >>> [(row.text, str(row.probability)) for row in genotype_rows(pool_law(model), model)]
    [('A/A', '1/4'), ('A/a', '1/2'), ('a/a', '1/4')]
    """
    probabilities = dict(law.probabilities)
    return tuple(
        LawRow(
            text=format_genotype(genotype, model),
            probability=probabilities[genotype],
            look=sure_look(genotype, model),
        )
        for genotype in all_genotypes(model)
        if genotype in probabilities
    )


@lru_cache(maxsize=16)
def _patterns(model: TraitModel) -> tuple[tuple[str, frozenset[Genotype]], ...]:
    """Return the ways to write genotypes, most exact first, with the living ones meant."""
    living = frozenset(g for g in all_genotypes(model) if not is_lethal(g, model))
    meant_by: dict[str, frozenset[Genotype]] = {
        format_genotype(genotype, model): frozenset({genotype})
        for genotype in all_genotypes(model)
        if genotype in living
    }
    by_locus = []
    for locus in model.loci:
        carried = (*locus.alleles, *locus.absent_from)
        exact = ["/".join(pair) for pair in combinations_with_replacement(carried, 2)]
        by_locus.append([*exact, *(f"{allele}/{ANY_ALLELE}" for allele in locus.alleles), ""])
    of_part: dict[str, frozenset[Genotype]] = {"": living}
    for text in {part for parts in by_locus for part in parts} - {""}:
        of_part[text] = _living_meant(text, model, living)
    for parts in product(*by_locus):
        text = " ".join(part for part in parts if part)
        meant = frozenset.intersection(*(of_part[part] for part in parts))
        if text and meant:
            meant_by.setdefault(text, meant)
    return tuple(meant_by.items())


def _living_meant(text: str, model: TraitModel, living: frozenset[Genotype]) -> frozenset[Genotype]:
    try:
        return frozenset(parse_genotype(text, model)) & living
    except DomainError:  # two chromosomes that lack the locus
        return frozenset()


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
    >>> from filialog.genetics.pools import pool_law
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
    by_chances: dict[tuple[tuple[str, Fraction], ...], set[Genotype]] = {}
    for genotype in sorted(probabilities, key=order.__getitem__):
        by_chances.setdefault(tables_of(model).chances(genotype), set()).add(genotype)
    rows: list[tuple[int, LawRow]] = []
    for showing in by_chances.values():
        left = frozenset(showing)
        while left:
            # The first of the longest: the exact text where a shorter one says no more.
            text, meant = max(
                ((t, m) for t, m in _patterns(model) if m <= left), key=lambda item: len(item[1])
            )
            row = LawRow(
                text=text,
                probability=sum((probabilities[genotype] for genotype in meant), Fraction(0)),
                look=sure_look(min(meant, key=order.__getitem__), model),
            )
            rows.append((min(order[genotype] for genotype in meant), row))
            left -= meant
    return tuple(row for _, row in sorted(rows, key=lambda item: item[0]))
