"""Which part of the founders' genes is still there, and how many founders that is worth."""

import math
from collections import defaultdict
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from filialog.domain_error import DomainError
from filialog.lineage.animal_pedigree import AnimalPedigree
from filialog.lineage.founders import FounderContribution, founder_contributions
from filialog.lineage.living_ancestry import LivingAncestry, living_ancestry

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = [
    "MOST_EXACT_STEPS",
    "FounderGenomes",
    "FounderRetention",
    "founder_genome_equivalents",
]

MOST_EXACT_STEPS = 100_000
"""Transmissions looked at, all founders together, above which genes are dropped at random."""

_DROPS_AT_ONCE = 512

_State = tuple[tuple[int, int], ...]
"""Animals that carry the gene and may still pass it on, each with its copies (1 or 2)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FounderRetention:
    """What is left of one founder."""

    founder: FounderContribution
    """The founder and its share."""

    retention: float
    """Expected share of its two genes of a locus of which a living animal has a copy, 0 to 1."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FounderGenomes:
    """The founder genome equivalents of the living animals, and from what they are computed."""

    number: float
    """Founders that would bring as many genes, each once and equally, when taken afresh."""

    standard_error: float
    """Standard error of `number` from the random drops; 0 where it is exact."""

    drops: int
    """Random drops made; 0 where every transmission was followed exactly."""

    founders: tuple[FounderRetention, ...]
    """Founders by place."""


def founder_genome_equivalents(
    pedigree: AnimalPedigree,
    living: Collection[int],
    *,
    generator: "np.random.Generator | None" = None,
    drops: int = 10_000,
    most_steps: int = MOST_EXACT_STEPS,
) -> FounderGenomes:
    """Give the founder genome equivalents by the retention of founder genes.

    Parameters
    ----------
    pedigree
        The parents of every animal.
    living
        Places of the living animals, each once, at least one.
    generator
        Source of random numbers, used only where the exact way takes too many steps.
    drops
        Random drops to make then, 2 or more.
    most_steps
        Steps after which the exact way is given up, 0 or more.

    Returns
    -------
    FounderGenomes
        fge = 1 / sum of p^2 / r, with share p and retention r of each founder.

    Raises
    ------
    DomainError
        As `founder_contributions`; or if the pedigree is too large for the exact way and no
        generator is given, or `drops` or `most_steps` is out of range.

    Notes
    -----
    Exact: for one gene of each founder, the law of its carriers is followed down the
    pedigree; animals without further young are forgotten, so that few sets of carriers
    remain. Random: both genes of every founder are dropped down the pedigree, `drops` times;
    the standard error is that of the first-order expansion. A retention cannot be below p/2
    (an allele still there has at most all 2n copies), which bounds an estimate of 0.

    This is not 1 / (2 x mean kinship): see `founder_genome_equivalents_by_kinship`.

    References
    ----------
    .. [1] Lacy R.C. (1989) Zoo Biology 8:111-123.
    .. [2] MacCluer J.W., VandeBerg J.L., Read B. & Ryder O.A. (1986) Pedigree analysis by
       computer simulation, Zoo Biology 5:147-160 (gene drop).

    Examples
    --------
    A founder pair with two young: each of the four genes is lost with chance 1/4.

    >>> pair = AnimalPedigree(dams=(None, None, 0, 0), sires=(None, None, 1, 1))
    >>> founder_genome_equivalents(pair, [2, 3]).number
    1.5
    """
    if not most_steps >= 0:
        raise DomainError("exact steps", most_steps, "0 or more")
    if not 2 <= drops < math.inf:
        raise DomainError("number of drops", drops, "2 or more")
    contributions = founder_contributions(pedigree, living)
    ancestry = living_ancestry(pedigree, living)
    exact = _exact_retention(ancestry, most_steps)
    if exact is not None:
        return _genomes(contributions, exact, standard_error=0.0, drops=0)
    if generator is None:
        raise DomainError("source of random numbers", None, "a generator for a large pedigree")
    kept = _dropped_retention(ancestry, generator, drops)
    bounded = [
        max(float(mean), found.share / 2.0)
        for mean, found in zip(kept.mean(axis=1), contributions, strict=True)
    ]
    plain = _genomes(contributions, bounded, standard_error=0.0, drops=drops)
    slopes = [f.share**2 / r**2 for f, r in zip(contributions, bounded, strict=True)]
    error = plain.number**2 * float((slopes @ kept).std(ddof=1)) / math.sqrt(drops)
    return _genomes(contributions, bounded, standard_error=error, drops=drops)


def _genomes(
    contributions: Sequence[FounderContribution],
    retention: Sequence[float],
    *,
    standard_error: float,
    drops: int,
) -> FounderGenomes:
    pairs = tuple(zip(contributions, retention, strict=True))
    return FounderGenomes(
        number=1.0 / math.fsum(found.share**2 / kept for found, kept in pairs),
        standard_error=standard_error,
        drops=drops,
        founders=tuple(FounderRetention(founder=found, retention=kept) for found, kept in pairs),
    )


def _exact_retention(ancestry: LivingAncestry, most_steps: int) -> list[float] | None:
    last_young: dict[int, int] = {}
    for step, place in enumerate(ancestry.order):
        for parent in ancestry.parents[place] or ():
            last_young[parent] = step
    found: list[float] = []
    for founder in ancestry.founders():
        left = most_steps
        survival = 0.0
        for used, gained in _follow(ancestry, founder, last_young):
            left -= used
            survival += gained
            if left < 0:
                return None
        most_steps = left
        found.append(survival)
    return found


def _follow(
    ancestry: LivingAncestry, founder: int, last_young: dict[int, int]
) -> Iterator[tuple[int, float]]:
    """Follow one gene of a founder; yield steps made and chance gained that it is there."""
    living = frozenset(ancestry.living)
    if founder in living:
        yield 0, 1.0
        return
    descendants = {founder}
    states: dict[_State, float] = {((founder, 1),): 1.0}
    for step, place in enumerate(ancestry.order):
        above = ancestry.parents[place]
        if above is None or descendants.isdisjoint(above):
            continue
        descendants.add(place)
        after: dict[_State, float] = defaultdict(float)
        gained = 0.0
        for state, chance in states.items():
            copies = dict(state)
            kept = tuple(item for item in state if last_young[item[0]] > step)
            for count, part in _received(copies.get(above[0], 0), copies.get(above[1], 0)):
                if count and place in living:
                    gained += chance * part
                    continue
                passed = count and last_young.get(place, step) > step
                now = (*kept, (place, count)) if passed else kept
                if now:  # nobody left who could pass it on: lost
                    after[now] += chance * part
        yield len(states), gained
        states = after


def _received(from_dam: int, from_sire: int) -> tuple[tuple[int, float], ...]:
    """Give the copies that a young gets from parents with so many, with their chances."""
    dam, sire = from_dam / 2.0, from_sire / 2.0
    law = (
        (0, (1.0 - dam) * (1.0 - sire)),
        (1, dam * (1.0 - sire) + (1.0 - dam) * sire),
        (2, dam * sire),
    )
    return tuple(item for item in law if item[1])


def _dropped_retention(
    ancestry: LivingAncestry, generator: "np.random.Generator", drops: int
) -> "NDArray[np.float64]":
    """Drop genes at random; give the part of each founder's two genes kept in each drop."""
    import numpy as np  # noqa: PLC0415 - a quick command should not load it

    founders = ancestry.founders()
    row_of = {place: row for row, place in enumerate(ancestry.order)}
    gene_of = {place: 2 * number for number, place in enumerate(founders)}
    living = [row_of[place] for place in ancestry.living]
    kept = np.empty((len(founders), drops))
    for start in range(0, drops, _DROPS_AT_ONCE):
        width = min(_DROPS_AT_ONCE, drops - start)
        genes = np.empty((len(ancestry.order), 2, width), dtype=np.int32)
        columns = np.arange(width)
        for row, place in enumerate(ancestry.order):
            above = ancestry.parents[place]
            if above is None:
                genes[row] = [[gene_of[place]], [gene_of[place] + 1]]
                continue
            for side, parent in enumerate(above):
                which = generator.integers(0, 2, size=width)
                genes[row, side] = genes[row_of[parent], which, columns]
        there = np.zeros((2 * len(founders), width), dtype=bool)
        for row in living:
            there[genes[row], columns] = True
        kept[:, start : start + width] = (there[0::2].astype(np.float64) + there[1::2]) / 2.0
    return kept
