"""One animal, group or parent set of a pedigree drawing."""

from dataclasses import dataclass
from typing import Literal

from filialog.pages.drawing.swatches import Swatch

__all__ = ["PedigreeNode", "Sex", "Side"]

Sex = Literal["female", "male", "unknown"]
Side = Literal["dam", "sire", "part"]


@dataclass(frozen=True, slots=True, kw_only=True)
class PedigreeNode:
    """One animal, group or parent set of a pedigree drawing."""

    key: str
    """What `parents` of other nodes point at; unique in one drawing, never shown."""
    label: str
    """The name below the symbol."""
    lines: tuple[str, ...] = ()
    """Further short lines below the name."""
    href: str | None = None
    """Where the symbol leads, a checked address, or None."""
    sex: Sex = "unknown"
    """Square for male, circle for female, diamond for unknown or mixed."""
    number: str | None = None
    """What stands inside the symbol of several animals, such as `12`; None for one animal."""
    parents: tuple[tuple[str, Side], ...] = ()
    """Key and side of each parent; `part` for the members of a set. A key that is no node of
    the drawing is left out: it lies beyond the drawn generations."""
    is_set: bool = False
    """Whether this is a parent set, one of whose members is the parent: a dashed box."""
    deceased: bool = False
    """Whether the symbol is struck through."""
    kin_parents: bool = False
    """Whether its dam and its sire are kin: a double line joins them."""
    look: str | None = None
    """The look, on the last line."""
    swatch: Swatch | None = None
    """The mark of the look, before its name."""
    goes_on: bool = False
    """Whether parents of it are recorded but not drawn: three dots to the right. Such a node
    has none of its parents in the drawing."""
    is_subject: bool = False
    """Whether the drawing is about this one: an arrow points at it."""
    told: tuple[str, ...] = ()
    """Further words for whoever points at it or has it read, not drawn."""
