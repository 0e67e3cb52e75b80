"""Genotypes as text, written as genetics writes them: `A/a B/b`."""

from itertools import combinations_with_replacement, product

from filialog.domain_error import DomainError
from filialog.genetics.trait_model import Genotype, Locus, TraitModel

__all__ = ["ANY_ALLELE", "format_genotype", "parse_genotype"]

ANY_ALLELE = "-"
"""Stands for any allele of the locus, as in `A/-`."""


def format_genotype(genotype: Genotype) -> str:
    """Write a genotype.

    Examples
    --------
    >>> format_genotype((("A", "a"), ("B", "B")))
    'A/a B/B'
    """
    return " ".join("/".join(pair) for pair in genotype)


def parse_genotype(text: str, model: TraitModel) -> tuple[Genotype, ...]:
    """Return all genotypes that a written genotype can mean.

    Parameters
    ----------
    text
        Pairs of alleles such as `A/a`, loci separated by spaces, in any order.
        `A/-` means A and any allele; a locus that is left out can be anything.
    model
        A model without problems.

    Returns
    -------
    tuple of Genotype
        In declared order, never empty. Lethal genotypes are among them.

    Raises
    ------
    DomainError
        If the text is empty, a part is not a pair, an allele is unknown, the two
        alleles belong to different loci, or a locus is named twice.

    Examples
    --------
    >>> eye = Locus(name="eye", alleles=("O", "o"))
    >>> body = Locus(name="body", alleles=("B", "b"))
    >>> model = TraitModel(name="both", loci=(eye, body), looks=())
    >>> [format_genotype(genotype) for genotype in parse_genotype("b/b O/-", model)]
    ['O/O b/b', 'O/o b/b']
    """
    tokens = text.split()
    if not tokens:
        raise DomainError("genotype", text, "pairs of alleles such as `A/a`")
    given: dict[str, tuple[tuple[str, str], ...]] = {}
    for token in tokens:
        locus, pairs = _parse_pair(token, model)
        if locus.name in given:
            raise DomainError("genotype", text, f"locus {locus.name} named once only")
        given[locus.name] = pairs
    return tuple(
        product(
            *(
                given.get(locus.name, tuple(combinations_with_replacement(locus.alleles, 2)))
                for locus in model.loci
            )
        )
    )


def _parse_pair(token: str, model: TraitModel) -> tuple[Locus, tuple[tuple[str, str], ...]]:
    """Return the locus of one written pair, and the pairs it can mean."""
    alleles = token.split("/")
    if len(alleles) != 2 or "" in alleles:
        raise DomainError("part of a genotype", token, "a pair of alleles such as `A/a`")
    home = {allele: locus for locus in model.loci for allele in locus.alleles}
    for allele in alleles:
        if allele != ANY_ALLELE and allele not in home:
            known = "; ".join(f"{', '.join(locus.alleles)} ({locus.name})" for locus in model.loci)
            raise DomainError(f"allele in `{token}`", allele, f"one of {known}")
    named = [allele for allele in alleles if allele != ANY_ALLELE]
    if not named:
        raise DomainError(
            "part of a genotype",
            token,
            "at least one allele; a locus that is not known is left out",
        )
    locus = home[named[0]]
    if any(home[allele] is not locus for allele in named):
        raise DomainError("part of a genotype", token, "two alleles of the same locus")
    if len(named) == 2:
        first, second = sorted(named, key=locus.alleles.index)
        return locus, ((first, second),)
    return locus, tuple(
        pair for pair in combinations_with_replacement(locus.alleles, 2) if named[0] in pair
    )
