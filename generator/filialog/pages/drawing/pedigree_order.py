"""In which order the things of each column stand, so that few lines cross.

Columns hold nodes and, where a line passes a column, a way for that line. Things are put in one
by one along a walk from the young to their ancestors, each where it crosses the fewest lines
already there; then each column is sifted: every thing goes to its best place among the others
(Matuszewski, Schönfeld and Molitor 1999, from memory). Four sweeps by barycentre (Sugiyama,
Tagawa and Toda 1981, from memory) are tried on top, and kept where lines cross less. More sweeps
would save a few crossings and cost the drawing its memory: one new group would reshuffle it.
All ties are broken by the walk and by key, so that the same pedigree always gives the same order.
"""

import itertools
from bisect import bisect_right, insort
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from filialog.pages.drawing.pedigree_layers import Union
from filialog.pages.drawing.pedigree_node import Side

__all__ = ["Item", "Net", "Web", "crossings", "nets_of", "webs_of"]

_SWEEPS = 4
_SIFTS = 8
"""Rounds over all columns at most; most drawings are settled after three."""
_SIFTS_AFTER_SWEEP = 3

_Places = tuple[list[int], list[int]]
"""Sorted places of the neighbours to the left and to the right."""


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
    columns = _put_in(_walk(ranked, lefts, rights), lefts, rights, count)
    _sift(columns, lefts, rights, rounds=_SIFTS)
    best, fewest = [list(items) for items in columns], crossings(columns, rights)
    for sweep in range(_SWEEPS):
        if fewest == 0:
            break
        near, places = (lefts, range(1, count)) if sweep % 2 == 0 else (
            rights, range(count - 2, -1, -1))  # fmt: skip
        for place in places:
            beside = columns[place + (-1 if sweep % 2 == 0 else 1)]
            _sort_by_barycentre(columns[place], beside, near)
        _sift(columns, lefts, rights, rounds=_SIFTS_AFTER_SWEEP)
        now = crossings(columns, rights)
        if now < fewest:
            best, fewest = [list(items) for items in columns], now
    return tuple(tuple(items) for items in best)


def _walk(
    ranked: Sequence[Item],
    lefts: Mapping[Item, list[Item]],
    rights: Mapping[Item, list[Item]],
) -> list[Item]:
    """Return items in the order of a walk from the young to their ancestors, sires first."""
    seen: dict[Item, None] = {}
    for start in ranked:
        stack = [] if lefts[start] else [start]
        while stack:
            item = stack.pop()
            if item not in seen:
                seen[item] = None
                stack.extend(reversed(rights[item]))
    return list(seen)


def _put_in(
    walked: Sequence[Item],
    lefts: Mapping[Item, list[Item]],
    rights: Mapping[Item, list[Item]],
    count: int,
) -> list[list[Item]]:
    """Return columns with each item put in where it crosses the fewest lines already there."""
    columns: list[list[Item]] = [[] for _ in range(count)]
    for item in walked:
        items = columns[item.column]
        beside = columns[max(item.column - 1, 0) : item.column + 2]
        place = {other: index for there in beside for index, other in enumerate(there)}
        own = _places(item, lefts, rights, place)
        gain, most, to = 0, 0, len(items)
        for index in range(len(items) - 1, -1, -1):
            gain += _gain(_places(items[index], lefts, rights, place), own)
            if gain > most:
                most, to = gain, index
        items.insert(to, item)
    return columns


def _places(
    item: Item,
    lefts: Mapping[Item, list[Item]],
    rights: Mapping[Item, list[Item]],
    place: Mapping[Item, int],
) -> _Places:
    return (
        sorted(place[other] for other in lefts[item] if other in place),
        sorted(place[other] for other in rights[item] if other in place),
    )


def _gain(upper: _Places, lower: _Places) -> int:
    """Return how many crossings fewer there are once the lower one stands above the upper."""
    gain = 0
    for above, below in zip(upper, lower, strict=True):
        if len(above) == len(below) == 1:
            gain += (above[0] > below[0]) - (above[0] < below[0])
            continue
        gain += sum(len(above) - bisect_right(above, spot) for spot in below)
        gain -= sum(len(below) - bisect_right(below, spot) for spot in above)
    return gain


def _sift(
    columns: Sequence[list[Item]],
    lefts: Mapping[Item, list[Item]],
    rights: Mapping[Item, list[Item]],
    *,
    rounds: int,
) -> None:
    place = {item: index for items in columns for index, item in enumerate(items)}
    unsettled = {index for index, items in enumerate(columns) if len(items) > 1}
    for _ in range(rounds):
        for index in sorted(unsettled):
            unsettled.discard(index)
            if _sift_column(columns[index], lefts, rights, place):
                place.update((item, at) for at, item in enumerate(columns[index]))
                near = range(max(index - 1, 0), min(index + 2, len(columns)))
                unsettled.update(other for other in near if len(columns[other]) > 1)
        if not unsettled:
            return


def _sift_column(
    items: list[Item],
    lefts: Mapping[Item, list[Item]],
    rights: Mapping[Item, list[Item]],
    place: Mapping[Item, int],
) -> bool:
    """Move each item to its best place in the column; tell whether any has moved."""
    ends = [_places(item, lefts, rights, place) for item in items]
    count = len(items)
    known: list[list[int | None]] = [[None] * count for _ in items]

    def gain_of(upper: int, lower: int) -> int:
        gain = known[upper][lower]
        if gain is None:
            gain = _gain(ends[upper], ends[lower])
            known[upper][lower], known[lower][upper] = gain, -gain
        return gain

    order = list(range(count))
    for one in range(count):
        at = order.index(one)
        most, to = 0, at
        gain = 0
        for index in range(at + 1, count):
            gain += gain_of(one, order[index])
            if gain > most:
                most, to = gain, index
        gain = 0
        for index in range(at - 1, -1, -1):
            gain += gain_of(order[index], one)
            if gain > most:
                most, to = gain, index
        if to != at:
            order.insert(to, order.pop(at))
    if order == list(range(count)):
        return False
    items[:] = [items[index] for index in order]
    return True


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
