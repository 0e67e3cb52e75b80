"""Genotypes as text, written as genetics writes them: `A/a B/b`, `A b/a B`, `w/Y`."""

from functools import lru_cache

from filialog.domain_error import DomainError
from filialog.genetics.chromosomes import Chromosome
from filialog.genetics.model_tables import all_genotypes, tables_of
from filialog.genetics.trait_model import Genotype, TraitModel

__all__ = ["ANY_ALLELE", "format_genotype", "parse_genotype"]

ANY_ALLELE = "-"
"""Stands for any allele of the locus, as in `A/-`, and for none where a sex chromosome
lacks the locus."""

_Asked = dict[int, tuple[str, str]]
"""By place of the locus the pair that is asked for, one of them perhaps any allele."""


def format_genotype(genotype: Genotype, model: TraitModel) -> str:
    """Write a genotype of a model.

    Where two or more linked loci are heterozygous the two chromosomes are written
    whole, with a slash between them: `A b/a B` is repulsion. A sex chromosome that
    lacks a locus stands in the place of the allele, `w/Y`, and the sex chromosomes are
    not written a second time where that tells them.

    Examples
    --------
    >>> from fractions import Fraction
    >>> from filialog.genetics.trait_model import LinkageGroup, Locus
    >>> half = (Fraction(1, 2),)
    >>> a, b = Locus(name="a", alleles=("A", "a")), Locus(name="b", alleles=("B", "b"))
    >>> apart = TraitModel(name="two", loci=(a, b), looks=())
    >>> format_genotype((("A", "a"), ("B", "b")), apart)
    'A/a B/b'
    >>> linked = LinkageGroup(loci=("a", "b"), dam_recombination=half, sire_recombination=half)
    >>> together = TraitModel(name="two", loci=(a, b), looks=(), linkage=(linked,))
    >>> format_genotype((("A", "a"), ("b", "B")), together)
    'A b/a B'
    """
    parts: list[tuple[int, str]] = []
    for chromosome in tables_of(model).chromosomes:
        lacking = {place: model.loci[place].absent_from for place in chromosome.places}
        nowhere = {p for p in chromosome.places if set(genotype[p]) <= set(lacking[p])}
        # Where neither chromosome has the locus, only the sex chromosomes can be told.
        untold = nowhere or _untold(chromosome, model)
        places = [place for place in chromosome.places if place not in untold]
        unlike = [place for place in places if genotype[place][0] != genotype[place][1]]
        plain = [place for place in unlike if not set(genotype[place]) & set(lacking[place])]
        if len(unlike) > 1 and plain:
            first = " ".join(genotype[place][0] for place in places)
            second = " ".join(genotype[place][1] for place in places)
            parts.append((min(places), f"{first}/{second}"))
        else:
            parts.extend((place, "/".join(genotype[place])) for place in places)
    return " ".join(text for _, text in sorted(parts))


def _untold(chromosome: Chromosome, model: TraitModel) -> set[int]:
    """Return the place of the sex chromosomes where other loci tell which they are."""
    if chromosome.sex_place is None:
        return set()
    place = chromosome.places[chromosome.sex_place]
    chromosomes = model.loci[place].alleles
    lacking = [set(model.loci[other].absent_from) for other in chromosome.places if other != place]
    # With two kinds of sex chromosome, a locus that one of them lacks tells both.
    return {place} if len(chromosomes) == 2 and any(len(one) == 1 for one in lacking) else set()


def parse_genotype(text: str, model: TraitModel) -> tuple[Genotype, ...]:
    """Return all genotypes that a written genotype can mean.

    Parameters
    ----------
    text
        Pairs of alleles such as `A/a`, loci separated by spaces, in any order.
        `A/-` means A and any allele; a locus that is left out can be anything. Linked
        loci may be written as two whole chromosomes, `A b/a B`; written locus by locus
        they can be in coupling or in repulsion. `w/Y` has one copy of w and a sex
        chromosome without the locus.
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
        alleles belong to different loci, a locus is named twice, chromosomes are of
        different length or join loci that are not linked, or no genotype fits.

    Examples
    --------
    >>> from filialog.genetics.trait_model import Locus
    >>> eye = Locus(name="eye", alleles=("O", "o"))
    >>> body = Locus(name="body", alleles=("B", "b"))
    >>> model = TraitModel(name="both", loci=(eye, body), looks=())
    >>> [format_genotype(genotype, model) for genotype in parse_genotype("b/b O/-", model)]
    ['O/O b/b', 'O/o b/b']
    """
    found = _meant(" ".join(text.split()), model)
    if isinstance(found, DomainError):
        raise DomainError(found.quantity, found.value, found.expected)
    return found


@lru_cache(maxsize=1024)
def _meant(text: str, model: TraitModel) -> tuple[Genotype, ...] | DomainError:
    try:
        asked, phased = _asked(text, model)
    except DomainError as error:
        return error
    found = tuple(
        genotype
        for genotype in all_genotypes(model)
        if all(_fits(genotype[place], pair) for place, pair in asked.items())
        and all(_in_phase(genotype, places, asked) for places in phased)
    )
    if not found:
        return DomainError("genotype", text, "one that sex chromosomes allow")
    return found


def _fits(pair: tuple[str, str], asked: tuple[str, str]) -> bool:
    if ANY_ALLELE in asked:
        return all(allele in pair for allele in asked if allele != ANY_ALLELE)
    return pair in (asked, asked[::-1])


def _in_phase(genotype: Genotype, places: tuple[int, ...], asked: _Asked) -> bool:
    """Say whether the two chromosomes carry what was written, either one first."""
    return any(
        all(
            want in (ANY_ALLELE, has)
            for p in places
            for want, has in zip(asked[p], genotype[p][::way], strict=True)
        )
        for way in (1, -1)
    )


def _asked(text: str, model: TraitModel) -> tuple[_Asked, list[tuple[int, ...]]]:
    """Return what a written genotype asks of each locus, and which loci it puts in phase."""
    tokens = text.split()
    if not tokens:
        raise DomainError("genotype", text, "pairs of alleles such as `A/a`")
    asked: _Asked = {}
    phased: list[tuple[int, ...]] = []
    start = 0
    while start < len(tokens):
        middle = next((n for n in range(start, len(tokens)) if "/" in tokens[n]), None)
        if middle is None:
            raise DomainError(
                "part of a genotype", tokens[start], "a pair of alleles such as `A/a`"
            )
        before = middle - start
        end = middle + before + 1
        pairs = _paired(tokens[start:end], before)
        places = [_place(pair, model) for pair in pairs]
        for place, pair in zip(places, pairs, strict=True):
            if place in asked:
                name = model.loci[place].name
                raise DomainError("genotype", text, f"locus {name} named once only")
            asked[place] = pair
        if before:
            _check_linked(places, " ".join(tokens[start:end]), model)
            phased.append(tuple(places))
        start = end
    return asked, phased


def _paired(tokens: list[str], before: int) -> list[tuple[str, str]]:
    """Return the pairs of alleles of `A/a` or of two whole chromosomes `A b/a B`."""
    written = " ".join(tokens)
    sides = [side.split() for side in written.split("/")]
    lengths = {len(side) for side in sides}
    if len(sides) != 2 or lengths != {before + 1}:
        expected = (
            "two chromosomes with as many alleles, such as `A b/a B`"
            if before
            else "a pair of alleles such as `A/a`"
        )
        raise DomainError("part of a genotype", written, expected)
    return list(zip(*sides, strict=True))


def _place(pair: tuple[str, str], model: TraitModel) -> int:
    """Return the place of the locus that a written pair is of."""
    token = "/".join(pair)
    home = {a: number for number, locus in enumerate(model.loci) for a in locus.alleles}
    for allele in pair:
        if allele != ANY_ALLELE and allele not in home:
            known = "; ".join(f"{', '.join(one.alleles)} ({one.name})" for one in model.loci)
            raise DomainError(f"allele in `{token}`", allele, f"one of {known}")
    named = [allele for allele in pair if allele != ANY_ALLELE]
    if not named:
        raise DomainError(
            "part of a genotype",
            token,
            "at least one allele; a locus that is not known is left out",
        )
    places = {home[allele] for allele in named}
    if len(places) == 1:
        return places.pop()
    for place in sorted(places):
        lacking = model.loci[place].absent_from
        if all(home[allele] == place or allele in lacking for allele in named):
            return place
    raise DomainError("part of a genotype", token, "two alleles of the same locus")


def _check_linked(places: list[int], written: str, model: TraitModel) -> None:
    if any(set(places) <= set(one.places) for one in tables_of(model).chromosomes):
        return
    raise DomainError(
        "part of a genotype", written, "loci of one linkage group between two spaces and a slash"
    )
