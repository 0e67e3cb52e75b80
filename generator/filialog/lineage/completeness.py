"""How much of a pedigree is known: complete generations, and known ancestors by generation."""

from dataclasses import dataclass

from filialog.lineage.pedigree import Blend, Brood, Founder, Part, Pedigree, Share

__all__ = ["GENERATIONS_OF_COMPLETENESS", "Completeness", "completeness"]

GENERATIONS_OF_COMPLETENESS = 5
"""Number of generations back for which the share of known ancestors is given."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Completeness:
    """How far back the ancestors of a member are known."""

    equivalent_generations: float
    """Sum over all known ancestors of (1/2) to the power of their generation, 0 or more."""
    known: tuple[float, ...]
    """Share of the ancestors known in generation 1 (the two parents), 2 (the four
    grandparents) and so on, each in [0, 1]."""
    index: float
    """Completeness of both sides together over these generations, in [0, 1]: 0 where
    nothing is known of one parent, 1 where every ancestor is known."""


def completeness(pedigree: Pedigree, pool: str) -> Completeness:
    """Say how complete the record of a pool's ancestors is.

    Parameters
    ----------
    pedigree
        The pedigree.
    pool
        Name of the pool.

    Returns
    -------
    Completeness
        Of one member of the pool at random.

    Raises
    ------
    DomainError
        If the pedigree has no pool of that name.

    Notes
    -----
    An ancestor counts as known where the record has a group or a set of groups for it;
    what lies behind a set is the mean by the weights. Splits add no generation, a joined
    pool is the mean of its parts by their weights. Founders are known themselves and
    have no known ancestors. The index is 4 D S / (D + S), where D and S are the means
    over the generations of the share known on the dam's and on the sire's side out of
    all ancestors, each at most 1/2.

    References
    ----------
    .. [1] Maignel L, Boichard D, Verrier E (1996) Genetic variability of French dairy
       breeds estimated from pedigree information. Interbull Bulletin 14:49-54
       (equivalent complete generations; from memory).
    .. [2] MacCluer JW et al. (1983) Inbreeding and pedigree structure in Standardbred
       horses. Journal of Heredity 74:394-399 (the index; from memory).

    Examples
    --------
    >>> from filialog.lineage.pedigree import Pool, equal_shares
    >>> old = Pool(name="old", origin=Founder(strain="blue"))
    >>> young = Pool(name="young", origin=Brood(dams=equal_shares("old")))
    >>> found = completeness(Pedigree(pools=(old, young)), "young")
    >>> found.equivalent_generations, found.known[:2], found.index
    (0.5, (0.5, 0.0), 0.0)
    """
    pedigree.pool(pool)
    return pedigree.once(_all)[pool]


def _all(pedigree: Pedigree) -> dict[str, Completeness]:
    found: dict[str, Completeness] = {}
    for pool in pedigree.ordered:
        match pool.origin:
            case Founder():
                found[pool.name] = _NONE
            case Part(of=of):
                found[pool.name] = found[of]
            case Blend(parts=parts):
                found[pool.name] = _mean(parts, found)
            case Brood(dams=dams, sires=sires):
                found[pool.name] = _of_brood(_side(dams, found), _side(sires, found))
    return found


_NONE = Completeness(
    equivalent_generations=0.0, known=(0.0,) * GENERATIONS_OF_COMPLETENESS, index=0.0
)


def _mean(shares: tuple[Share, ...], found: dict[str, Completeness]) -> Completeness:
    weighted = [(float(share.weight), found[share.pool]) for share in shares]
    return Completeness(
        equivalent_generations=sum(w * one.equivalent_generations for w, one in weighted),
        known=tuple(
            sum(w * one.known[generation] for w, one in weighted)
            for generation in range(GENERATIONS_OF_COMPLETENESS)
        ),
        index=sum(w * one.index for w, one in weighted),
    )


_Side = tuple[float, tuple[float, ...]]
"""What one parent adds: complete generations, and shares known by generation."""


def _side(shares: tuple[Share, ...], found: dict[str, Completeness]) -> _Side:
    if not shares:
        return 0.0, _NONE.known
    parent = _mean(shares, found)
    known = (1.0, *parent.known[:-1])
    return (1.0 + parent.equivalent_generations) / 2, tuple(share / 2 for share in known)


def _of_brood(dam: _Side, sire: _Side) -> Completeness:
    sides = [sum(side[1]) / GENERATIONS_OF_COMPLETENESS for side in (dam, sire)]
    product = sides[0] * sides[1]
    return Completeness(
        equivalent_generations=dam[0] + sire[0],
        known=tuple(a + b for a, b in zip(dam[1], sire[1], strict=True)),
        index=4 * product / sum(sides) if product else 0.0,
    )
