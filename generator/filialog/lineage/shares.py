"""Which part of a group's genes is expected to come from which founder."""

from collections import defaultdict
from fractions import Fraction

from filialog.lineage.pedigree import Blend, Brood, Founder, Part, Pedigree, Pool, Share

__all__ = ["founder_shares", "strain_shares"]

_Shares = dict[str | None, Fraction]


def founder_shares(pedigree: Pedigree, pool: str) -> tuple[tuple[str | None, Fraction], ...]:
    """Give the expected share of each founder pool in the genes of a member.

    Parameters
    ----------
    pedigree
        The pedigree.
    pool
        Name of the pool.

    Returns
    -------
    tuple of (str or None, Fraction)
        Founder pools by name with their shares, exact, above 0, with sum 1; last,
        under None, what comes from unknown parents.

    Raises
    ------
    DomainError
        If the pedigree has no pool of that name.

    Notes
    -----
    Half comes from the dam and half from the sire: this is an expectation before any
    sorting by look, over autosomal loci. Sets count by their declared weights.

    References
    ----------
    .. [1] Arithmetic of halving; "75 %, 87.5 %" after backcrosses is common practice,
       no source.

    Examples
    --------
    >>> from filialog.lineage.pedigree import equal_shares
    >>> blue = Pool(name="blue", origin=Founder(strain="blue"))
    >>> wild = Pool(name="wild", origin=Founder(strain="wild"))
    >>> first = Brood(dams=equal_shares("wild"), sires=equal_shares("blue"))
    >>> back = Brood(dams=equal_shares("first"), sires=equal_shares("blue"))
    >>> pools = blue, wild, Pool(name="first", origin=first), Pool(name="back", origin=back)
    >>> [(name, str(share)) for name, share in founder_shares(Pedigree(pools=pools), "back")]
    [('blue', '3/4'), ('wild', '1/4')]
    """
    pedigree.pool(pool)
    return _sorted(pedigree.once(_all_shares)[pool])


def strain_shares(pedigree: Pedigree, pool: str) -> tuple[tuple[str | None, Fraction], ...]:
    """Give the expected share of each strain in the genes of a member.

    Parameters
    ----------
    pedigree
        The pedigree.
    pool
        Name of the pool.

    Returns
    -------
    tuple of (str or None, Fraction)
        As `founder_shares`, with the founders of one strain added up.

    Raises
    ------
    DomainError
        If the pedigree has no pool of that name.

    Notes
    -----
    As `founder_shares`.

    References
    ----------
    .. [1] As `founder_shares`.

    Examples
    --------
    >>> from filialog.lineage.pedigree import equal_shares
    >>> one = Pool(name="blue 1", origin=Founder(strain="blue"))
    >>> two = Pool(name="blue 2", origin=Founder(strain="blue"))
    >>> young = Brood(dams=equal_shares("blue 1", "blue 2"))
    >>> pedigree = Pedigree(pools=(one, two, Pool(name="young", origin=young)))
    >>> [(name, str(share)) for name, share in strain_shares(pedigree, "young")]
    [('blue', '1/2'), (None, '1/2')]
    """
    by_strain: _Shares = defaultdict(Fraction)
    for name, share in founder_shares(pedigree, pool):
        by_strain[None if name is None else _strain(pedigree.pool(name))] += share
    return _sorted(by_strain)


def _strain(pool: Pool) -> str:
    assert isinstance(pool.origin, Founder)
    return pool.origin.strain


def _sorted(shares: _Shares) -> tuple[tuple[str | None, Fraction], ...]:
    return tuple(sorted(shares.items(), key=lambda item: (item[0] is None, item[0] or "")))


def _all_shares(pedigree: Pedigree) -> dict[str, _Shares]:
    found: dict[str, _Shares] = {}
    for pool in pedigree.ordered:
        match pool.origin:
            case Founder():
                shares: _Shares = {pool.name: Fraction(1)}
            case Brood(dams=dams, sires=sires):
                shares = defaultdict(Fraction)
                for parents in (dams, sires):
                    for key, share in _mean(parents, found).items():
                        shares[key] += share / 2
            case Part(of=of):
                shares = found[of]
            case Blend(parts=parts):
                shares = _mean(parts, found)
        found[pool.name] = shares
    return found


def _mean(draws: tuple[Share, ...], found: dict[str, _Shares]) -> _Shares:
    if not draws:
        return {None: Fraction(1)}
    mean: _Shares = defaultdict(Fraction)
    for draw in draws:
        for key, share in found[draw.pool].items():
            mean[key] += draw.weight * share
    return mean
