"""Which of a group's ancestors a page shows: the nearest ones, and where it stops."""

from dataclasses import dataclass

from filialog.analysis.pedigree_graph import KinRow
from filialog.pages.drawing import MAX_NODES
from filialog.pages.results import Results

__all__ = ["MOST_BESIDE", "MOST_DRAWN", "Walk", "has_more", "nearest_kin"]

MOST_BESIDE = 16
"""Groups drawn on a group's own page: three full generations, what a phone can show."""
MOST_DRAWN = 200
"""Groups drawn at most, on a page of their own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Walk:
    """A group and its nearest ancestors."""

    rows: tuple[KinRow, ...]
    """The group itself first, then by steps back; each group once."""
    cut: frozenset[str]
    """Groups among them with recorded parents that are not shown."""


def nearest_kin(results: Results, group: str, *, most: int) -> Walk:
    """Return a group and its nearest ancestors, parents together or not at all.

    The group's own parents are shown even where they are more than `most`, up to `MOST_DRAWN`.
    """
    rows = {group: results.kin(group)}
    waiting = [group]
    cut: list[str] = []
    nodes = 1
    for name in waiting:
        row = rows[name]
        fresh = [up for up in row.behind if up not in rows]
        places = len(fresh) + _without_group(row)
        limit = MOST_DRAWN if name == group else most
        if fresh and (len(rows) + len(fresh) > limit or nodes + places > MAX_NODES):
            cut.append(name)
            continue
        nodes += places
        rows.update((up, results.kin(up)) for up in fresh)
        waiting += fresh
    return Walk(
        rows=tuple(rows.values()),
        cut=frozenset(name for name in cut if not rows.keys() >= {*rows[name].behind}),
    )


def _without_group(row: KinRow) -> int:
    """Return how many places a row takes beside those of groups: sets, and unknown parents."""
    return sum(len(side) != 1 for side in (row.dams, row.sires)) if row.hatched else 0


def has_more(results: Results, group: str) -> bool:
    """Tell whether a group has more ancestors than its own page draws."""
    return bool(nearest_kin(results, group, most=MOST_BESIDE).cut)
