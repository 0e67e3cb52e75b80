"""The ancestors of a group, listed as they are written or drawn."""

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from filialog.domain_error import DomainError
from filialog.lineage.pedigree import Blend, Brood, Founder, Origin, Part, Pedigree, Share

__all__ = ["Ancestor", "SourceRole", "ancestors"]


class SourceRole(Enum):
    """In what way a pool comes from another."""

    DAM = "dam"
    SIRE = "sire"
    WHOLE = "whole"
    """The pool from which a part was taken."""
    COMPONENT = "component"
    """A pool that went into a blend."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ancestor:
    """One link from a pool to a source of it."""

    name: str | None
    """The source; None for an unknown parent."""
    source_of: str
    """The pool that comes from it."""
    role: SourceRole
    """In what way."""
    weight: Fraction
    """Probability that this source, and no other of its set, is the one; 1 if certain."""
    level: int
    """Number of links from the pool that was asked for, 1 or more: depth in a nested list."""
    distance: int
    """Number of generations back along this path; parts and blends add none."""
    listed_elsewhere: bool
    """Whether the source's own sources stand at another link to it."""


def ancestors(pedigree: Pedigree, pool: str, depth: int) -> tuple[Ancestor, ...]:
    """List the ancestors of a pool, each followed by its own ancestors.

    Parameters
    ----------
    pedigree
        The pedigree.
    pool
        Name of the pool.
    depth
        Number of generations to go back, 0 or more.

    Returns
    -------
    tuple of Ancestor
        Links in the order of a nested list: dams before sires, a set in its recorded
        order. A pool met repeatedly appears at each link, and its own sources only
        under the first of its nearest links, so that the list stays short.

    Raises
    ------
    DomainError
        If the pedigree has no pool of that name, or the depth is below 0.

    Notes
    -----
    A generation is one brood. Splitting and joining are links, but no generation.

    References
    ----------
    .. [1] Counting only; no source is needed.

    Examples
    --------
    >>> from filialog.lineage.pedigree import Pool, equal_shares
    >>> old = Pool(name="old", origin=Founder(strain="blue"))
    >>> young = Pool(name="young", origin=Brood(dams=equal_shares("old")))
    >>> pale = Pool(name="pale", origin=Part(of="young"))
    >>> for link in ancestors(Pedigree(pools=(old, young, pale)), "pale", 2):
    ...     print(link.level, link.distance, link.role.value, link.name)
    1 0 whole young
    2 1 dam old
    2 1 sire None
    """
    if depth < 0:
        raise DomainError("number of generations to go back", depth, "0 or more")
    nearest = _nearest(pedigree, pool, depth)
    links: list[Ancestor] = []
    expanded: set[str] = set()
    stack = _links(pedigree, pool, level=1, distance=0)[::-1]
    while stack:
        role, weight, name, child, level, distance = stack.pop()
        if distance > depth:
            continue
        opened = False
        if name is not None and distance == nearest[name] and name not in expanded:
            opened = True
            expanded.add(name)
            stack += _links(pedigree, name, level=level + 1, distance=distance)[::-1]
        links.append(
            Ancestor(
                name=name,
                source_of=child,
                role=role,
                weight=weight,
                level=level,
                distance=distance,
                listed_elsewhere=name is not None and not opened,
            )
        )
    return tuple(links)


_Link = tuple[SourceRole, Fraction, str | None, str, int, int]


def _links(pedigree: Pedigree, child: str, *, level: int, distance: int) -> list[_Link]:
    origin = pedigree.pool(child).origin
    distance += isinstance(origin, Brood)
    return [(role, weight, name, child, level, distance) for role, weight, name in _sources(origin)]


def _sources(origin: Origin) -> list[tuple[SourceRole, Fraction, str | None]]:
    match origin:
        case Founder():
            return []
        case Part(of=of):
            return [(SourceRole.WHOLE, Fraction(1), of)]
        case Blend(parts=parts):
            return _of_set(SourceRole.COMPONENT, parts)
        case Brood(dams=dams, sires=sires):
            return _of_set(SourceRole.DAM, dams) + _of_set(SourceRole.SIRE, sires)


def _of_set(
    role: SourceRole, shares: tuple[Share, ...]
) -> list[tuple[SourceRole, Fraction, str | None]]:
    if not shares:
        return [(role, Fraction(1), None)]
    return [(role, share.weight, share.pool) for share in shares]


def _nearest(pedigree: Pedigree, pool: str, depth: int) -> dict[str, int]:
    """Find the least number of generations back to each pool, up to the depth."""
    nearest: dict[str, int] = {}
    now = [pool]
    for distance in range(depth + 1):
        earlier: list[str] = []
        while now:
            name = now.pop()
            if name in nearest:
                continue
            nearest[name] = distance
            origin = pedigree.pool(name).origin
            target = earlier if isinstance(origin, Brood) else now
            target += [source for _, _, source in _sources(origin) if source is not None]
        now = earlier
    return nearest
