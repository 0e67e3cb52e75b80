"""In which order the things of each column stand, so that few lines cross.

Columns hold nodes and, where a line passes a column, a way for that line. Starting from a walk
through the pedigree, sweeps by barycentre (Sugiyama, Tagawa and Toda 1981, from memory) and
swaps of neighbours lower the number of crossings; the best order seen is kept. All ties are
broken by key, so that the same pedigree always gives the same order.
"""

import itertools
from bisect import bisect_right, insort
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from filialog.pages.drawing.pedigree_layers import Union
from filialog.pages.drawing.pedigree_node import Side

__all__ = ["Item", "Net", "Web", "crossings", "nets_of", "webs_of"]

_SWEEPS = 12
_SWAPS = 6


@dataclass(frozen=True, slots=True)
class Item:
    """A node in its column, or the way of one line through a column."""

    column: int
    """The column."""
    key: str
    """The node, or the parent whose line passes; the first child's for a line of descent."""
    way: str
    """Empty for a node; else what passes: a side; or, with the union's number, `descent` to the
    young of a mating or `part` to a set."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Net:
    """Lines that meet between two columns."""

    gutter: int
    """The net lies between this column and the next."""
    left: tuple[Item, ...]
    """Children, or the way on towards them."""
    right: tuple[tuple[Item, str], ...]
    """Parents, or the way on towards them, each with its side or `descent`."""
    union: Union | None
    """The mating or set whose lines join here; None where lines only pass."""


def nets_of(unions: Sequence[Union], column: Mapping[str, int]) -> tuple[Net, ...]:
    """Return all nets of a pedigree, by gutter."""
    nets: list[Net] = []
    trunks: dict[tuple[str, Side], int] = {}
    for index, union in enumerate(unions):
        name = "part" if union.is_part else "descent"
        way = f"{name} {index}"
        lead = union.children[0]
        for gutter in range(union.first, union.column + 1):
            left = [Item(gutter, child, "") for child in union.children if column[child] == gutter]
            if gutter > union.first:
                left.append(Item(gutter, lead, way))
            if gutter < union.column:
                right: tuple[tuple[Item, str], ...] = ((Item(gutter + 1, lead, way), name),)
                nets.append(Net(gutter=gutter, left=tuple(left), right=right, union=None))
                continue
            right = tuple(
                (Item(gutter + 1, parent, "" if column[parent] == gutter + 1 else side), side)
                for parent, side in union.parents
            )
            nets.append(Net(gutter=gutter, left=tuple(left), right=right, union=union))
        for parent, side in union.parents:
            if column[parent] > union.column + 1:
                start = trunks.get((parent, side), union.column + 1)
                trunks[parent, side] = min(start, union.column + 1)
    for (parent, side), start in sorted(trunks.items()):
        for gutter in range(start, column[parent]):
            end = Item(gutter + 1, parent, "" if column[parent] == gutter + 1 else side)
            left_way = (Item(gutter, parent, side),)
            nets.append(Net(gutter=gutter, left=left_way, right=((end, side),), union=None))
    return tuple(sorted(nets, key=lambda net: net.gutter))


@dataclass(frozen=True, slots=True, kw_only=True)
class Web:
    """Items that hang together, in order, with their neighbours."""

    columns: tuple[tuple[Item, ...], ...]
    """The items of every column from top to bottom; a column may be empty."""
    lefts: Mapping[Item, list[Item]]
    """Each item's neighbours in the column to the left."""
    rights: Mapping[Item, list[Item]]
    """Each item's neighbours in the column to the right."""


def webs_of(column: Mapping[str, int], nets: Sequence[Net]) -> tuple[Web, ...]:
    """Return each part of the pedigree that hangs together, by its first item, in order."""
    count = 1 + max(column.values())
    lefts: dict[Item, list[Item]] = {Item(place, key, ""): [] for key, place in column.items()}
    rights: dict[Item, list[Item]] = {item: [] for item in lefts}
    for net in nets:
        for child in net.left:
            for parent, _ in net.right:
                for end in (child, parent):
                    lefts.setdefault(end, [])
                    rights.setdefault(end, [])
                rights[child].append(parent)
                lefts[parent].append(child)
    waiting = sorted(lefts, key=lambda item: (item.column, item.key, item.way))
    seen: set[Item] = set()
    webs: list[Web] = []
    for start in waiting:
        if start in seen:
            continue
        reached = {start}
        stack = [start]
        while stack:
            item = stack.pop()
            fresh = [end for end in (*lefts[item], *rights[item]) if end not in reached]
            reached.update(fresh)
            stack.extend(fresh)
        seen |= reached
        ranked = [item for item in waiting if item in reached]
        webs.append(Web(columns=_ordered(ranked, lefts, rights, count), lefts=lefts, rights=rights))
    return tuple(webs)


def _ordered(
    ranked: Sequence[Item],
    lefts: Mapping[Item, list[Item]],
    rights: Mapping[Item, list[Item]],
    count: int,
) -> tuple[tuple[Item, ...], ...]:
    columns = _walk(ranked, lefts, rights, count)
    best, fewest = [list(items) for items in columns], crossings(columns, rights)
    for sweep in range(_SWEEPS):
        if fewest == 0:
            break
        near, places = (lefts, range(1, len(columns))) if sweep % 2 == 0 else (
            rights, range(len(columns) - 2, -1, -1))  # fmt: skip
        for place in places:
            beside = columns[place + (-1 if sweep % 2 == 0 else 1)]
            _sort_by_barycentre(columns[place], beside, near)
        _swap_neighbours(columns, lefts, rights)
        count = crossings(columns, rights)
        if count < fewest:
            best, fewest = [list(items) for items in columns], count
    return tuple(tuple(items) for items in best)


def _walk(
    ranked: Sequence[Item],
    lefts: Mapping[Item, list[Item]],
    rights: Mapping[Item, list[Item]],
    count: int,
) -> list[list[Item]]:
    """Return columns in the order of a walk from the young to their ancestors, sires first."""
    columns: list[list[Item]] = [[] for _ in range(count)]
    seen: set[Item] = set()
    starts = [item for item in ranked if not lefts[item]]
    for start in starts:
        stack = [start]
        while stack:
            item = stack.pop()
            if item in seen:
                continue
            seen.add(item)
            columns[item.column].append(item)
            stack.extend(reversed(rights[item]))
    return columns


def _sort_by_barycentre(
    items: list[Item], beside: Sequence[Item], near: Mapping[Item, list[Item]]
) -> None:
    place = {item: index for index, item in enumerate(beside)}
    stay = len(beside) / max(len(items), 1)
    centre = {
        item: sum(place[other] for other in near[item]) / len(near[item])
        if near[item]
        else (index + 0.5) * stay - 0.5
        for index, item in enumerate(items)
    }
    items.sort(key=centre.__getitem__)


def _between(
    upper: Item, lower: Item, near: Mapping[Item, list[Item]], place: Mapping[Item, int]
) -> int:
    """Return how much fewer crossings on one side the swap of two neighbours would leave."""
    above = sorted(place[item] for item in near[upper])
    below = sorted(place[item] for item in near[lower])
    now = sum(len(above) - bisect_right(above, spot) for spot in below)
    then = sum(len(below) - bisect_right(below, spot) for spot in above)
    return now - then


def _swap_neighbours(
    columns: list[list[Item]],
    lefts: Mapping[Item, list[Item]],
    rights: Mapping[Item, list[Item]],
) -> None:
    place = {item: index for items in columns for index, item in enumerate(items)}
    for _ in range(_SWAPS):
        swapped = False
        for items in columns:
            for index in range(len(items) - 1):
                upper, lower = items[index], items[index + 1]
                gain = _between(upper, lower, lefts, place) + _between(upper, lower, rights, place)
                if gain > 0:
                    items[index], items[index + 1] = lower, upper
                    place[lower], place[upper] = index, index + 1
                    swapped = True
        if not swapped:
            return


def crossings(columns: Sequence[Sequence[Item]], rights: Mapping[Item, list[Item]]) -> int:
    """Return how many pairs of lines cross, counting straight lines between neighbours."""
    total = 0
    for left, right in itertools.pairwise(columns):
        place = {item: index for index, item in enumerate(right)}
        passed: list[int] = []
        for item in left:
            ends = sorted(place[other] for other in rights[item])
            total += sum(len(passed) - bisect_right(passed, end) for end in ends)
            for end in ends:
                insort(passed, end)
    return total
