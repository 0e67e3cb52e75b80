"""The pedigree of all groups, and what lineage computes on it."""

from fractions import Fraction

from filialog.analysis.nodes import NodeKind, Reader
from filialog.analysis.parentage import BROOD
from filialog.analysis.rows import AncestorRow, FounderShareRow
from filialog.analysis.sources import ORIGINS
from filialog.journal.events import LookSeen
from filialog.journal.ledger import Book
from filialog.journal.names import Origin
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
    parentage_cycle,
)

__all__ = [
    "ANCESTORS",
    "FOUNDER_SHARES",
    "GENERATION",
    "INBREEDING",
    "PEDIGREE",
    "SOURCES",
    "look_of_group",
]

_DEPTH = 5
"""Generations back that a page lists."""


def _sources(reader: Reader, group: str) -> tuple[tuple[str, Fraction], ...]:
    """Return the groups a group was taken or joined from, with their shares.

    Shares follow the numbers joined where the book knows them, else they are equal.
    """
    checked = reader.journal(f"sources of {group}")
    steps = [step.source for step in checked.descent.steps.get(group, ()) if not step.parent]
    netted = [
        name
        for origin in reader.get(ORIGINS, group)
        if origin.from_tank is not None
        for name in _groups_netted(checked.book, group, origin)
    ]
    names = tuple(dict.fromkeys((*steps, *netted)))
    if len(names) < 2:
        return tuple((name, Fraction(1)) for name in names)
    numbers = {name: _number_from(checked.book, name, group) for name in names}
    known = [number for number in numbers.values() if number is not None]
    if len(known) == len(names) and sum(known) > 0:
        whole = sum(known)
        return tuple(
            (name, Fraction(number, whole))
            for name, number in numbers.items()
            if number  # a source that gave none is none
        )
    return tuple((name, Fraction(1, len(names))) for name in names)


def _groups_netted(book: Book, group: str, origin: Origin) -> tuple[str, ...]:
    """Name the groups whose animals a net can have caught, where only a tank was named."""
    return tuple(
        name
        for name, postings in book.postings.items()
        for posting in postings
        if posting.event == origin.event.id and posting.other_group == group
    )


def _number_from(book: Book, source: str, group: str) -> int | None:
    """Return how many animals went from one group to another, where that is known exactly."""
    total = 0
    for posting in book.postings.get(source, ()):
        if posting.other_group == group and not posting.gained and posting.change is not None:
            number = book.count(posting.change).exact
            if number is None:
                return None
            total += number
    return total


SOURCES: NodeKind[tuple[tuple[str, Fraction], ...]] = NodeKind("sources", _sources)
"""Groups that a group was taken or joined from, with the share of each."""


def _strain(reader: Reader, group: str) -> str:
    """Name the pure line that bought stock belongs to."""
    journal = reader.journal(f"strain of {group}").journal
    page = journal.groups.get(group)
    if page is not None and page.strain is not None:
        return page.strain
    lines = [line for line in journal.lines.values() if group in line.founders]
    if len(lines) == 1:
        return lines[0].name
    look = page.look if page is not None else None
    for line in lines:
        if line.goal is not None and line.goal == look:
            return line.name
    return group


def _origin(reader: Reader, group: str) -> Founder | Brood | Part | Blend:
    row = reader.get(BROOD, group)
    if row is not None:
        return Brood(dams=equal_shares(*row.dams.groups), sires=equal_shares(*row.sires.groups))
    sources = reader.get(SOURCES, group)
    if not sources:
        return Founder(strain=_strain(reader, group))
    if len(sources) == 1:
        return Part(of=sources[0][0])
    return Blend(parts=tuple(Share(pool=name, weight=weight) for name, weight in sources))


def _pedigree(reader: Reader, _: str) -> Pedigree:
    checked = reader.journal("all groups")
    pools = {
        group: Pool(name=group, origin=_origin(reader, group), size=_size(reader, group))
        for group in checked.names.origins
    }
    # Parents taken from the book can close a loop that the keeper's own words do not.
    while loop := parentage_cycle(pools.values()):
        guessed = next(
            (
                name
                for name in loop
                if isinstance(pools[name].origin, Brood) and not _named(reader, name)
            ),
            loop[0],
        )
        pools[guessed] = Pool(name=guessed, origin=Brood(), size=pools[guessed].size)
    return Pedigree(pools=tuple(pools.values()))


def _named(reader: Reader, group: str) -> bool:
    row = reader.get(BROOD, group)
    return row is not None and row.dams.named and row.sires.named


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
        FounderShareRow(founder=founder, share=float(share))
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
        # The same letter for two of a set would name one place twice.
        key = f"{above}{_SIDES[link.role][0]}{len(children[above]) or ''}."
        keys.append(key)
        children[above].append(key)
        children[key] = []
        path.append(number + 1)
    set_sizes: dict[tuple[str, SourceRole], int] = {}
    for link in links:
        place = (link.source_of, link.role)
        if not link.listed_elsewhere or place not in set_sizes:
            set_sizes[place] = _set_size(reader, link.source_of, link.role)
    rows = [_ancestor(reader, group, side="self", depth=0, key="", children=children[""])]
    for number, link in enumerate(links):
        key = keys[number + 1]
        rows.append(
            _ancestor(
                reader,
                link.name,
                side=_SIDES[link.role],
                depth=link.distance,
                key=key,
                children=children[key],
                set_size=set_sizes[link.source_of, link.role],
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
    """Return the look a group was bought or sorted as."""
    page = reader.journal(f"page of {group}").journal.groups.get(group)
    if page is not None and page.look is not None:
        return page.look
    seen = look_of_group(reader, group)
    return seen.whole if seen is not None else None


def look_of_group(reader: Reader, group: str) -> LookSeen | None:
    """Return the look that the event which made a group gives it."""
    for origin in reader.get(ORIGINS, group):
        for sorting in origin.event.sortings():
            if sorting.group == group and sorting.look is not None:
                return sorting.look
        if origin.event.kind_name != "sorted" and (look := origin.event.look()) is not None:
            return look
    return None


ANCESTORS: NodeKind[tuple[AncestorRow, ...]] = NodeKind("ancestors", _ancestors)
"""A group and its ancestors, the group first."""
