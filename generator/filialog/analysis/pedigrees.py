"""The pedigree of all groups, and what lineage computes on it."""

from collections.abc import Mapping
from fractions import Fraction

from filialog.analysis.composition import COMPOSITION, Composition, Way, look_of_group
from filialog.analysis.nodes import NodeKind, Reader
from filialog.analysis.parentage import BROOD, SEXES
from filialog.analysis.rows import FounderShareRow
from filialog.journal.quantities import Count
from filialog.lineage import (
    Blend,
    Brood,
    Completeness,
    Founder,
    Generation,
    KinshipRange,
    Mating,
    Origin,
    Part,
    Pedigree,
    Pool,
    Share,
    completeness,
    equal_shares,
    founder_shares,
    generation_label,
    kinship_table,
)

__all__ = [
    "COMPLETENESS",
    "FOUNDER_SHARES",
    "GENERATION",
    "INBREEDING",
    "LINES_OF_GROUP",
    "PEDIGREE",
    "group_of_pool",
]


_OWN = ", own"
"""Ending of the pool that stands for what was bought or hatched under a group's name, where the
group gained animals from others as well; names of groups hold no comma."""


def _pedigree(reader: Reader, _: str) -> Pedigree:
    pools: list[Pool] = []
    for group in reader.journal("all groups").names.origins:
        composition = reader.get(COMPOSITION, group)
        shares = _shares_of_pools(group, composition)
        own = _own_origin(reader, group, composition)
        if own is not None and len(shares) == 1:
            pools.append(_pool(reader, group, own))
        elif len(shares) == 1:
            pools.append(_pool(reader, group, Part(of=shares[0].pool)))
        else:
            pools.append(_pool(reader, group, Blend(parts=shares)))
            if own is not None:
                pools.append(Pool(name=f"{group}{_OWN}", origin=own))
    return Pedigree(pools=tuple(pools))


def group_of_pool(pool: str) -> str:
    """Return the group that a pool of the pedigree stands for."""
    return pool.removesuffix(_OWN)


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
        row = reader.get(BROOD, group)
        return Brood(
            dams=equal_shares(*composition.dams),
            sires=equal_shares(*composition.sires),
            mating=Mating.ONE if row is None else Mating(row.mating),
            cloud=_cloud(reader, group),
        )
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


def _cloud(reader: Reader, group: str) -> Mating:
    """Say of how many females the young of a brood are, by the number the keeper wrote."""
    named = reader.journal(f"named parents of {group}").parents.get(group)
    dams = named.hatched.parents("dams") if named is not None else None
    if dams is None or dams.count is None or dams.count.high == 1:
        return Mating.ONE
    return Mating.SEVERAL if dams.count.low > 1 else Mating.UNKNOWN


def _pool(reader: Reader, group: str, origin: Origin) -> Pool:
    """Make the pool of a group, with the numbers its parents are drawn from where known."""
    size = _size(reader, group)
    if size == 1:
        return Pool(name=group, origin=origin, size=1)
    sexes = reader.get(SEXES).get(group)
    females = _exact(sexes.female_count) if sexes is not None else None
    males = _exact(sexes.male_count) if sexes is not None else None
    if size is not None and (females or 0) + (males or 0) > size:
        size = None  # the book lost count of animals that were sexed since
    return Pool(name=group, origin=origin, size=size, females=females, males=males)


def _exact(count: Count | None) -> int | None:
    """Return an exact number of animals; nothing is drawn from none."""
    return count.exact or None if count is not None else None


def _size(reader: Reader, group: str) -> int | None:
    """Return the most animals a group ever held, where the book knows each number exactly."""
    book = reader.journal(f"book of {group}").book
    numbers = [book.count(posting.after).exact for posting in book.postings.get(group, ())]
    known = [number for number in numbers if number is not None]
    return max(known) or None if known and len(known) == len(numbers) else None


PEDIGREE: NodeKind[Pedigree] = NodeKind("pedigree", _pedigree)
"""All groups with their origins."""


def _generation(reader: Reader, group: str) -> Generation:
    return generation_label(reader.get(PEDIGREE), group)


GENERATION: NodeKind[Generation] = NodeKind("generation", _generation)
"""The generation label of a group."""


def _founder_shares(reader: Reader, group: str) -> tuple[FounderShareRow, ...]:
    return tuple(
        FounderShareRow(
            founder=group_of_pool(founder) if founder is not None else None,
            share=float(share),
        )
        for founder, share in founder_shares(reader.get(PEDIGREE), group)
    )


FOUNDER_SHARES: NodeKind[tuple[FounderShareRow, ...]] = NodeKind("founder-shares", _founder_shares)
"""What part of a group's genes comes from each founder group."""


def _inbreeding(reader: Reader, group: str) -> KinshipRange | None:
    shares = reader.get(FOUNDER_SHARES, group)
    if any(row.founder is None for row in shares):
        return None
    return kinship_table(reader.get(PEDIGREE)).inbreeding(group)


INBREEDING: NodeKind[KinshipRange | None] = NodeKind("inbreeding", _inbreeding)
"""Expected inbreeding coefficient of a member; None where a parent is unknown."""


def _lines_by_group(reader: Reader, _: str) -> Mapping[str, tuple[str, ...]]:
    lines = reader.journal("lines").journal.lines
    found: dict[str, tuple[str, ...]] = {}
    for pool in reader.get(PEDIGREE).ordered:
        group = group_of_pool(pool.name)
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


def _completeness(reader: Reader, group: str) -> Completeness:
    return completeness(reader.get(PEDIGREE), group)


COMPLETENESS: NodeKind[Completeness] = NodeKind("completeness", _completeness)
"""How far back the ancestors of a group are known."""
