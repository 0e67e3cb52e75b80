"""The pedigree of all groups, and what lineage computes on it."""

from collections.abc import Mapping
from fractions import Fraction

from filialog.analysis.composition import COMPOSITION, Composition, Way, look_of_group
from filialog.analysis.nodes import NodeKind, Reader
from filialog.analysis.rows import AncestorRow, FounderShareRow
from filialog.lineage import (
    Blend,
    Brood,
    Founder,
    Generation,
    Part,
    Pedigree,
    Pool,
    Share,
    SourceRole,
    ancestors,
    equal_shares,
    founder_shares,
    generation_label,
    inbreeding,
)

__all__ = [
    "ANCESTORS",
    "FOUNDER_SHARES",
    "GENERATION",
    "INBREEDING",
    "LINES_OF_GROUP",
    "PEDIGREE",
]

_DEPTH = 5
"""Generations back that a page lists."""

_OWN = ", own"
"""Ending of the pool that stands for what was bought or hatched under a group's name, where the
group gained animals from others as well; names of groups hold no comma."""


def _pedigree(reader: Reader, _: str) -> Pedigree:
    pools: list[Pool] = []
    for group in reader.journal("all groups").names.origins:
        composition = reader.get(COMPOSITION, group)
        shares = _shares_of_pools(group, composition)
        own = _own_origin(reader, group, composition)
        size = _size(reader, group)
        if own is not None and len(shares) == 1:
            pools.append(Pool(name=group, origin=own, size=size))
        elif len(shares) == 1:
            pools.append(Pool(name=group, origin=Part(of=shares[0].pool), size=size))
        else:
            pools.append(Pool(name=group, origin=Blend(parts=shares), size=size))
            if own is not None:
                pools.append(Pool(name=f"{group}{_OWN}", origin=own))
    return Pedigree(pools=tuple(pools))


def _shares_of_pools(group: str, composition: Composition) -> tuple[Share, ...]:
    """Return the share of each pool, whatever the looks animals were taken by."""
    shares: dict[str, Fraction] = {}
    for one in composition.components:
        pool = one.source or f"{group}{_OWN}"
        shares[pool] = shares.get(pool, Fraction(0)) + one.share
    return tuple(Share(pool=pool, weight=weight) for pool, weight in shares.items())


def _own_origin(reader: Reader, group: str, composition: Composition) -> Founder | Brood | None:
    """Return where animals come from that were taken from no other group."""
    ways = {one.way for one in composition.components}
    if Way.HATCHED in ways:
        return Brood(dams=equal_shares(*composition.dams), sires=equal_shares(*composition.sires))
    return Founder(strain=_strain(reader, group)) if Way.FOUNDED in ways else None


def _strain(reader: Reader, group: str) -> str:
    """Name the pure line that bought stock belongs to."""
    journal = reader.journal(f"strain of {group}").journal
    page = journal.groups.get(group)
    if page is not None and page.strain is not None:
        return page.strain
    lines = [line for line in journal.lines.values() if group in line.founders]
    if len(lines) == 1:
        return lines[0].name
    look = look_of_group(reader, group)
    for line in lines:
        if look is not None and line.goal is not None and line.goal == look.whole:
            return line.name
    return group


def _size(reader: Reader, group: str) -> int | None:
    """Return 1 for a group that never was more than one animal, else None."""
    book = reader.journal(f"book of {group}").book
    numbers = [book.count(posting.after).high for posting in book.postings.get(group, ())]
    ever = [number for number in numbers if number != 0]
    return 1 if ever and all(number == 1 for number in ever) else None


PEDIGREE: NodeKind[Pedigree] = NodeKind("pedigree", _pedigree)
"""All groups with their origins."""


def _generation(reader: Reader, group: str) -> Generation:
    return generation_label(reader.get(PEDIGREE), group)


GENERATION: NodeKind[Generation] = NodeKind("generation", _generation)
"""The generation label of a group."""


def _founder_shares(reader: Reader, group: str) -> tuple[FounderShareRow, ...]:
    return tuple(
        FounderShareRow(
            founder=founder.removesuffix(_OWN) if founder is not None else None,
            share=float(share),
        )
        for founder, share in founder_shares(reader.get(PEDIGREE), group)
    )


FOUNDER_SHARES: NodeKind[tuple[FounderShareRow, ...]] = NodeKind("founder-shares", _founder_shares)
"""What part of a group's genes comes from each founder group."""


def _inbreeding(reader: Reader, group: str) -> float | None:
    shares = reader.get(FOUNDER_SHARES, group)
    if any(row.founder is None for row in shares):
        return None
    return inbreeding(reader.get(PEDIGREE), group)


INBREEDING: NodeKind[float | None] = NodeKind("inbreeding", _inbreeding)
"""Expected inbreeding coefficient of a member; None where a parent is unknown."""


def _lines_by_group(reader: Reader, _: str) -> Mapping[str, tuple[str, ...]]:
    lines = reader.journal("lines").journal.lines
    found: dict[str, tuple[str, ...]] = {}
    for pool in reader.get(PEDIGREE).ordered:
        group = pool.name.removesuffix(_OWN)
        own = [name for name, line in lines.items() if group in line.founders]
        behind = (found.get(one, ()) for one in reader.get(COMPOSITION, group).behind)
        found[group] = tuple(sorted({*own, *(line for lines in behind for line in lines)}))
    return found


_LINES_BY_GROUP: NodeKind[Mapping[str, tuple[str, ...]]] = NodeKind(
    "lines-by-group", _lines_by_group
)


def _lines_of_group(reader: Reader, group: str) -> tuple[str, ...]:
    return reader.get(_LINES_BY_GROUP).get(group, ())


LINES_OF_GROUP: NodeKind[tuple[str, ...]] = NodeKind("lines-of-group", _lines_of_group)
"""Lines that began with the group or with one of its ancestors."""


_SIDES = {
    SourceRole.DAM: "dam",
    SourceRole.SIRE: "sire",
    SourceRole.WHOLE: "part",
    SourceRole.COMPONENT: "part",
}


def _ancestors(reader: Reader, group: str) -> tuple[AncestorRow, ...]:
    links = ancestors(reader.get(PEDIGREE), group, _DEPTH)
    keys = [""]
    path = [0]
    children: dict[str, list[str]] = {"": []}
    for number, link in enumerate(links):
        del path[link.level :]
        above = keys[path[-1]]
        path.append(number + 1)
        if link.name is not None and link.name.endswith(_OWN):
            # The group's own part is the group itself: its sources stand right below it.
            keys.append(above)
            continue
        # The same letter for two of a set would name one place twice.
        key = f"{above}{_SIDES[link.role][0]}{len(children[above]) or ''}."
        keys.append(key)
        children[above].append(key)
        children[key] = []
    rows = [_ancestor(reader, group, side="self", depth=0, key="", children=children[""])]
    for number, link in enumerate(links):
        if link.name is not None and link.name.endswith(_OWN):
            continue
        key = keys[number + 1]
        rows.append(
            _ancestor(
                reader,
                link.name,
                side=_SIDES[link.role],
                depth=link.distance,
                key=key,
                children=children[key],
                set_size=_set_size(reader, link.source_of, link.role),
            )
        )
    return tuple(rows)


def _set_size(reader: Reader, group: str, role: SourceRole) -> int:
    origin = reader.get(PEDIGREE).pool(group).origin
    if isinstance(origin, Brood):
        return max(1, len(origin.dams if role is SourceRole.DAM else origin.sires))
    return 1


def _ancestor(
    reader: Reader,
    group: str | None,
    *,
    side: str,
    depth: int,
    key: str,
    children: list[str],
    set_size: int = 1,
) -> AncestorRow:
    return AncestorRow(
        group=group,
        side=side,
        depth=depth,
        key=key,
        children=tuple(children),
        generation=reader.get(GENERATION, group).code if group is not None else "",
        look=_look(reader, group) if group is not None else None,
        set_size=set_size,
    )


def _look(reader: Reader, group: str) -> str | None:
    seen = look_of_group(reader, group)
    return seen.whole if seen is not None else None


ANCESTORS: NodeKind[tuple[AncestorRow, ...]] = NodeKind("ancestors", _ancestors)
"""A group and its ancestors, the group first."""
