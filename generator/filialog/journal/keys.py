"""How a key of the journal is declared: its name, the shape of its value, what it says."""

from dataclasses import dataclass
from enum import Enum, auto

__all__ = ["Key", "Shape"]


class Shape(Enum):
    """What a value may look like; the reader has one converter for each."""

    TEXT = auto()
    """Free words on one line or several -> `str`."""
    FLAG = auto()
    """`true` or `false` -> `bool`."""
    NUMBER = auto()
    """A decimal number, zero or more -> `float`."""
    COUNT = auto()
    """A number of animals with bounds -> `Count`."""
    DAY = auto()
    """A day with bounds: ISO 8601, EDTF, a week or a window -> `When`."""
    CLOCK = auto()
    """A time of day `HH:MM` -> `str`."""
    AGE = auto()
    """A length of time: `45 d`, `6 weeks` -> `Age`."""
    CHOICE = auto()
    """One of the words in `Key.choices` -> `str`."""
    CHOICES = auto()
    """One or several of the words in `Key.choices` -> `tuple[str, ...]`."""
    GROUP = auto()
    """The name of a group, brood or named animal that exists -> `str`."""
    GROUPS = auto()
    """One such name or a list of them -> `tuple[str, ...]`."""
    NEW_GROUP = auto()
    """A name that this event brings into being (or adds animals to) -> `str`."""
    TANK = auto()
    """The name of a tank -> `str`."""
    PLACE = auto()
    """A tank or a group -> `str`."""
    PARENTS = auto()
    """A group, a list of groups, or `{of: groups, count: n}` -> `Parents`."""
    PARTS = auto()
    """`{group: count}` or a list of groups, whole or in part -> `tuple[Part, ...]`."""
    SORTED_INTO = auto()
    """`{new group: {count, look, females, males}}` or `{new group: count}` -> `Sorting` each."""
    LOOK = auto()
    """A look, or `{left: look, right: look}` for a half-sided animal -> `LookSeen`."""
    LOOKS = auto()
    """`{look: count}` -> `tuple[LookCount, ...]`."""
    OTHERS = auto()
    """Animals no look fits: `[{count, note}]` -> `tuple[Other, ...]`."""
    GENOTYPE = auto()
    """A genotype as genetics writes it: `A/a`, `A/-`, loci separated by spaces -> `str`."""
    SCORES = auto()
    """`{score: count}` -> `tuple[Score, ...]`."""
    READING = auto()
    """A measured value with its unit, of the quantity the key names -> `Reading`."""
    AMOUNT = auto()
    """A number with a unit, or free words (`a pinch`) -> `str`."""
    TEXTS = auto()
    """One text or a list of texts -> `tuple[str, ...]`."""
    TABLE = auto()
    """`{name: text}` -> `tuple[tuple[str, str], ...]`."""
    GOAL = auto()
    """A look, or `{look, number, by}` -> `tuple[Goal]`."""
    SCALES = auto()
    """`{scale: {order: [worst, …, best]}}` -> `tuple[Scale, ...]`."""
    RANGES = auto()
    """`{quantity: low-high}` with the quantity's unit -> `tuple[tuple[str, Reading], ...]`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Key:
    """One key that may stand in an event or at the head of a page."""

    name: str
    """As written in the journal."""
    shape: Shape
    """What its value may look like."""
    says: str
    """What it means, one sentence for the handbook."""
    choices: tuple[str, ...] = ()
    """The words allowed, for `Shape.CHOICE` and `Shape.CHOICES`."""
    always_private: bool = False
    """True where the value never enters the public edition, whatever is written."""
