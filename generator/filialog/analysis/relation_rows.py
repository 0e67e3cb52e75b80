"""Rows on how groups are related."""

from dataclasses import dataclass

from filialog.lineage import RelationshipKind

__all__ = ["RelationRow", "RelativesRow"]


@dataclass(frozen=True, slots=True, kw_only=True)
class RelationRow:
    """How another group is related to the group asked for."""

    other: str
    kind: RelationshipKind
    """The nearest that can be."""
    possible: bool
    """True where the animals can also be less related than that."""
    generations_here: int | None
    """From the group asked for back to the nearest common ancestor; None where there is none."""
    generations_there: int | None
    """The same from the other group."""
    through: tuple[str, ...]
    """The nearest groups that both come from, other than the two themselves."""
    kinship_low: float
    """Coefficient of kinship in [0, 1] if each brood of unknown mating has several sires."""
    kinship_high: float
    """The same if each has one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RelativesRow:
    """A group's relatives."""

    group: str
    mates_low: float | None
    """Kinship of two different animals of the group if each brood of unknown mating has several
    sires; None for a single animal."""
    mates_high: float | None
    """The same if each has one."""
    relatives: tuple[RelationRow, ...]
    """The nearest ones, most related first."""
    further: tuple[tuple[str, float, float], ...]
    """The others, each with the bounds of its kinship."""
    unrelated: tuple[str, ...]
    """Groups without a common ancestor, back to founders on all sides."""
    unknown: tuple[str, ...]
    """Groups without a recorded common ancestor, where a parent is not known."""
