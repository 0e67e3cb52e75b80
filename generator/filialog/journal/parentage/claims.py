"""What can be said of the parents on one side, how well, and on which grounds."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from filialog.journal.events import EventId

__all__ = ["DOUBTS", "Claim", "Ground", "GroundKind", "ParentSet", "lowered"]


class Claim(StrEnum):
    """How well the parents on one side are known."""

    FIRM = "firm"
    """The keeper named them, or one animal is all there was; nothing speaks against it."""
    LIKELY = "likely"
    """One group; another parent is not ruled out, or which of its animals is open."""
    SET = "set"
    """Several can have been the parent."""
    UNKNOWN = "unknown"
    """Nothing is known."""


class GroundKind(StrEnum):
    """On what a set of parents rests, or what speaks against its being whole."""

    NAMED = "named"
    """The keeper named them."""
    IN_TANK = "in-tank"
    """Adult, and where the eggs were fertilised (sires) or the young hatched (dams)."""
    PUT_TOGETHER = "put-together"
    """The keeper put all of them together in the tank where the young hatched."""
    BY_TEMPERATURE = "by-temperature"
    """The window is the hatching less the days eggs take at the temperatures measured."""
    BY_SPECIES = "by-species"
    """The window is the hatching less the days eggs of the species take."""
    NOT_YET_BERRIED = "not-yet-berried"
    """The dam had no eggs yet on the first day of the window."""
    BERRIED = "berried"
    """The dam was first seen with eggs on the last day of the window."""
    MOULTED = "moulted"
    """The dam moulted or mated on the first day of the window."""
    MOVED_BERRIED = "moved-berried"
    """The dam was moved with her eggs: the sire is of the tank she came from."""
    MOVED_UNBERRIED = "moved-unberried"
    """The dam was moved before: males of the tank she left are not excluded."""
    STRAYED = "strayed"
    """An animal may have got in from elsewhere."""
    ITEM_MOVED = "item-moved"
    """Equipment from another tank may have brought young that have grown up since."""
    CAME_WITH_EGGS = "came-with-eggs"
    """The dam can have been fertilised before she came on the book."""
    PLACE_UNKNOWN = "place-unknown"
    """The book has animals of these groups without knowing in which tank."""
    AGAINST_BOOK = "against-book"
    """The book rules out what the keeper named."""


DOUBTS = frozenset(
    {
        GroundKind.STRAYED,
        GroundKind.ITEM_MOVED,
        GroundKind.CAME_WITH_EGGS,
        GroundKind.PLACE_UNKNOWN,
        GroundKind.AGAINST_BOOK,
    }
)
"""Grounds that lower a claim: somebody else may have been it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """One ground, with what it rests on."""

    kind: GroundKind
    groups: tuple[str, ...] = ()
    """The groups it is about; empty where it is about the whole set."""
    tanks: tuple[str, ...] = ()
    """The tanks it is about."""
    first: date | None = None
    """First day, for a window or a remark."""
    last: date | None = None
    """Last day, for a window."""
    days: tuple[int, int] | None = None
    """Fewest and most days eggs take."""
    events: tuple[EventId, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ParentSet:
    """The groups that can have been the parent on one side."""

    groups: tuple[str, ...]
    """Empty where nothing is known."""
    claim: Claim
    named: bool
    """True where the keeper named them, false where the book gave them."""
    events: tuple[EventId, ...]
    """All entries it rests on."""
    grounds: tuple[Ground, ...] = ()
    """Why these, and what speaks against the set being whole."""
    most: int | None = None
    """Most animals that can have been the parent; None where the book does not bound it."""
    not_excluded: tuple[str, ...] = ()
    """Those of the groups that can be the parent only through sperm from before a move."""


def lowered(claim: Claim) -> Claim:
    """Return the level one below: an outsider is not ruled out."""
    return {Claim.FIRM: Claim.LIKELY, Claim.LIKELY: Claim.SET}.get(claim, claim)
