"""A light node of front matter: text, and where it stands."""

from enum import Enum, auto
from typing import NamedTuple

__all__ = ["Kind", "Node"]


class Kind(Enum):
    """What a node is."""

    TEXT = auto()
    """Text or a number: told apart only by the key that asks."""
    FLAG = auto()
    """`true` or `false`."""
    EMPTY = auto()
    """Nothing, `~` or `null`."""
    LIST = auto()
    """A list."""
    MAP = auto()
    """A mapping with text keys."""
    REPORTED = auto()
    """What stood here has a finding already; readers pass it over in silence."""


class Node(NamedTuple):
    """One value, list or mapping, light enough to make by the hundred thousand."""

    kind: Kind
    text: str
    """The text of a scalar; empty for lists and mappings."""
    line: int
    """Line in the file, from 1."""
    column: int
    """Column in characters, from 1."""
    length: int
    """Characters on the first line, at least 1."""
    items: "tuple[Node, ...]" = ()
    """The items of a list."""
    pairs: "tuple[tuple[Node, Node], ...]" = ()
    """Keys and values of a mapping, each key once."""
    plain: bool = False
    """True for a scalar written without quotes."""
