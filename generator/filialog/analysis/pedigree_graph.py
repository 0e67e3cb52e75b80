"""Which groups stand one step behind a group: the graph that pedigrees are drawn from."""

from collections.abc import Mapping
from dataclasses import dataclass

from filialog.analysis.composition import COMPOSITION, Way
from filialog.analysis.nodes import NodeKind, Reader
from filialog.analysis.pedigrees import PEDIGREE

__all__ = ["KIN", "KinRow"]


@dataclass(frozen=True, slots=True, kw_only=True)
class KinRow:
    """A group with the groups one step behind it."""

    group: str
    sources: tuple[str, ...]
    """Groups that animals of it were taken from: sorted, moved, chosen or joined."""
    hatched: bool
    """Whether animals hatched under its name: a side without groups is then an unknown parent."""
    dams: tuple[str, ...]
    """The groups that can have been the dam; several are a set."""
    sires: tuple[str, ...]
    """The groups that can have been the sire; several are a set."""
    kin_parents: bool
    """Whether a dam and a sire can share an animal among their recorded ancestors."""

    @property
    def behind(self) -> tuple[str, ...]:
        """All groups one step back, each once."""
        return tuple(dict.fromkeys((*self.sources, *self.dams, *self.sires)))


def _kindred(reader: Reader, _: str) -> Mapping[str, int]:
    """Give each group a bit set of what makes its members kin to those of another.

    These are the broods it comes from, and the founders that are one animal. That two come from
    one founder group of many makes them no kin: its members are taken as unrelated.
    """
    names = reader.journal("all groups").names.origins
    pedigree = reader.get(PEDIGREE)
    order = [pool for pool in pedigree.ordered if pool.name in names]
    found: dict[str, int] = {}
    for number, pool in enumerate(order):
        composition = reader.get(COMPOSITION, pool.name)
        bits = 0
        for group in composition.behind:
            bits |= found[group]
        if pool.size == 1 or _hatched(reader, pool.name):
            bits |= 1 << number
        found[pool.name] = bits
    return found


_KINDRED: NodeKind[Mapping[str, int]] = NodeKind("kindred", _kindred)


def _hatched(reader: Reader, group: str) -> bool:
    return any(one.way is Way.HATCHED for one in reader.get(COMPOSITION, group).components)


def _kin(reader: Reader, group: str) -> KinRow:
    composition = reader.get(COMPOSITION, group)
    kindred = reader.get(_KINDRED)
    return KinRow(
        group=group,
        sources=composition.sources,
        hatched=_hatched(reader, group),
        dams=composition.dams,
        sires=composition.sires,
        kin_parents=any(
            kindred[dam] & kindred[sire] for dam in composition.dams for sire in composition.sires
        ),
    )


KIN: NodeKind[KinRow] = NodeKind("kin", _kin)
"""A group with the groups one step behind it."""
