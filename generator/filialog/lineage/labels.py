"""Generation labels, computed from parentage."""

from collections.abc import Iterable

from filialog.lineage.generation import Generation, GenerationKind
from filialog.lineage.pedigree import Blend, Brood, Founder, Part, Pedigree, Share

__all__ = ["MOST_ALTERNATIVES", "generation_label"]

MOST_ALTERNATIVES = 6
"""With more alternatives than this a label no longer lists them and is MIXED."""

_PURE = (GenerationKind.FOUNDER, GenerationKind.PURE)


def generation_label(pedigree: Pedigree, pool: str) -> Generation:
    """Give the generation of a pool as genetics names it.

    Parameters
    ----------
    pedigree
        The pedigree.
    pool
        Name of the pool.

    Returns
    -------
    Generation
        The label. It follows from strains and parentage alone and does not change when
        dams and sires change places.

    Raises
    ------
    DomainError
        If the pedigree has no pool of that name.

    Notes
    -----
    Founders are P. Within one strain a brood is a generation of a pure line. Pure by
    pure of another strain is F1, Fn by Fn of the same strains F(n+1); F1 by one of its
    pure strains is BC1, BCn by the same pure strain BC(n+1); BCn by BCn is BCnF2, and
    so on. F1 by a third pure strain is a three-way cross, F1 by the F1 of two other
    strains a four-way cross, any other hybrid by a new pure strain an outcross. All
    else, such as F2 by F4, is mixed. Where parents are sets, or pools were joined, the
    label of each combination is taken: if all agree that is the label, else all are
    given. Brood mates count as having the same parents here, animals of different
    broods as independent, which can list a combination that did not occur.

    References
    ----------
    .. [1] P, F and BC as in any textbook of genetics, for instance Lynch M, Walsh B
       (1998) Genetics and Analysis of Quantitative Traits (from memory); "I" for the
       generations of an intercross in a closed line likewise. BCnFm: common practice
       of plant breeding, no source.

    Examples
    --------
    >>> from filialog.lineage.pedigree import Pool, equal_shares
    >>> blue = Pool(name="blue", origin=Founder(strain="blue"))
    >>> wild = Pool(name="wild", origin=Founder(strain="wild"))
    >>> first = Brood(dams=equal_shares("wild"), sires=equal_shares("blue"))
    >>> back = Brood(dams=equal_shares("first"), sires=equal_shares("blue"))
    >>> pools = blue, wild, Pool(name="first", origin=first), Pool(name="back", origin=back)
    >>> label = generation_label(Pedigree(pools=pools), "back")
    >>> label.code, label.recurrent
    ('BC1', 'blue')
    """
    pedigree.pool(pool)
    return pedigree.once(_all_labels)[pool]


def _all_labels(pedigree: Pedigree) -> dict[str, Generation]:
    labels: dict[str, Generation] = {}
    brood_of: dict[str, str] = {}
    for pool in pedigree.ordered:
        match pool.origin:
            case Founder(strain=strain):
                label = Generation(kind=GenerationKind.FOUNDER, strains=(strain,))
            case Brood(dams=dams, sires=sires):
                label = _any_of(
                    _cross(*pair)
                    for dam in _names(dams)
                    for sire in _names(sires)
                    for pair in _pairs(dam, sire, labels=labels, brood_of=brood_of)
                )
                brood_of[pool.name] = pool.name
            case Part(of=of):
                label = labels[of]
                if of in brood_of:
                    brood_of[pool.name] = brood_of[of]
            case Blend(parts=parts):
                label = _any_of(labels[share.pool] for share in parts)
        labels[pool.name] = label
    return labels


def _names(shares: tuple[Share, ...]) -> tuple[str | None, ...]:
    return tuple(share.pool for share in shares) or (None,)


def _pairs(
    dam: str | None,
    sire: str | None,
    *,
    labels: dict[str, Generation],
    brood_of: dict[str, str],
) -> list[tuple[Generation | None, Generation | None]]:
    """Combine the labels of two parents; brood mates have the same one, whichever it is."""
    dams = (None,) if dam is None else _distinct([labels[dam]])
    sires = (None,) if sire is None else _distinct([labels[sire]])
    if dam in brood_of and sire in brood_of and brood_of[dam] == brood_of[sire]:
        return list(zip(dams, sires, strict=True))
    return [(a, b) for a in dams for b in sires]


def _distinct(labels: Iterable[Generation]) -> tuple[Generation, ...]:
    merged: dict[object, Generation] = {}
    for label in labels:
        for simple in label.alternatives or (label,):
            known = merged.get(simple.order)
            merged[simple.order] = simple if known is None else _merge(known, simple)
    return tuple(sorted(merged.values(), key=lambda label: label.order))


def _merge(a: Generation, b: Generation) -> Generation:
    fewest, most = _span((a, b))
    same = fewest == most or a.kind is not GenerationKind.PURE
    return Generation(
        kind=a.kind,
        strains=a.strains,
        n=a.n if same else None,
        then_filial=a.then_filial,
        recurrent=a.recurrent,
        parents=a.parents,
        fewest=fewest,
        most=most,
    )


def _any_of(labels: Iterable[Generation]) -> Generation:
    found = _distinct(labels)
    if len(found) == 1:
        return found[0]
    fewest, most = _span(found)
    strains = _strains(*found)
    if len(found) <= MOST_ALTERNATIVES:
        kind = GenerationKind.ALTERNATIVES
    else:
        kind = GenerationKind.UNKNOWN if fewest is None else GenerationKind.MIXED
    return Generation(
        kind=kind,
        strains=strains,
        alternatives=found if kind is GenerationKind.ALTERNATIVES else (),
        fewest=fewest,
        most=most,
    )


def _strains(*labels: Generation) -> tuple[str, ...]:
    return tuple(sorted({strain for label in labels for strain in label.strains}))


def _span(labels: Iterable[Generation]) -> tuple[int | None, int | None]:
    fewest: list[int] = []
    most: list[int] = []
    for label in labels:
        if label.fewest is None or label.most is None:
            return None, None
        fewest.append(label.fewest)
        most.append(label.most)
    return min(fewest), max(most)


def _cross(a: Generation | None, b: Generation | None) -> Generation:
    """Label the young of two parents, none of which is ALTERNATIVES."""
    known = [parent for parent in (a, b) if parent is not None]
    unknown = GenerationKind.UNKNOWN
    if a is None or b is None or a.kind is unknown or b.kind is unknown:
        return Generation(
            kind=unknown,
            strains=_strains(*known),
            parents=tuple(parent for parent in known if parent.is_simple),
            fewest=None,
            most=None,
        )
    fewest, most = _span(known)
    assert fewest is not None
    assert most is not None
    first, second = sorted((a, b), key=lambda label: (label.order, label.code))
    strains = _strains(first, second)
    kind, n, then_filial, recurrent = _rule(first, second, strains=strains)
    if kind is GenerationKind.PURE and fewest == most:
        n = most + 1
    mixed = kind is GenerationKind.MIXED and first.is_simple and second.is_simple
    return Generation(
        kind=kind,
        strains=strains,
        n=n,
        then_filial=then_filial,
        recurrent=recurrent,
        parents=(first, second) if mixed else (),
        fewest=fewest + 1,
        most=most + 1,
    )


_Rule = tuple[GenerationKind, int | None, int | None, str | None]


def _rule(first: Generation, second: Generation, *, strains: tuple[str, ...]) -> _Rule:
    """Find kind, n, later filial number and recurrent strain; `first` sorts before `second`."""
    if len(strains) == 1:
        return GenerationKind.PURE, None, None, None
    if first.kind in _PURE:
        return _with_pure(first.strains[0], second)
    if first.order == second.order and first.n is not None:
        if first.kind is GenerationKind.FILIAL:
            return GenerationKind.FILIAL, first.n + 1, None, None
        if first.kind is GenerationKind.BACKCROSS and first.then_filial is not None:
            return GenerationKind.BACKCROSS, first.n, first.then_filial + 1, first.recurrent
    if _is_f1(first) and _is_f1(second) and len(strains) == 4:
        return GenerationKind.FOUR_WAY, None, None, None
    return GenerationKind.MIXED, None, None, None


def _with_pure(strain: str, other: Generation) -> _Rule:
    """Apply the rules for a pure parent; `other` has a strain that is not `strain`."""
    if other.kind in _PURE:
        return GenerationKind.FILIAL, 1, None, None
    if strain not in other.strains:
        kind = GenerationKind.THREE_WAY if _is_f1(other) else GenerationKind.OUTCROSS
        return kind, None, None, None
    if _is_f1(other):
        return GenerationKind.BACKCROSS, 1, 1, strain
    repeated = other.recurrent == strain and other.then_filial == 1
    if repeated and other.n is not None:
        return GenerationKind.BACKCROSS, other.n + 1, 1, strain
    return GenerationKind.MIXED, None, None, None


def _is_f1(label: Generation) -> bool:
    return label.kind is GenerationKind.FILIAL and label.n == 1
