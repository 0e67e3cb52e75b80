"""How much a computation may take, and by which way it was done."""

from dataclasses import dataclass
from enum import Enum

from filialog.domain_error import DomainError

__all__ = ["Limits", "Method", "TooLargeError"]


class Method(Enum):
    """How laws were computed."""

    JUNCTION_TREE = "junction tree"
    """Exactly, in one tree of tables."""
    CONDITIONING = "conditioning"
    """Exactly, as the sum over the joint states of a few variables."""
    LOOPY = "loopy propagation"
    """Approximately, by messages on a graph of clusters that has loops."""


class TooLargeError(Exception):
    """No tree fits the limits, and no other way was allowed; `variables` are those concerned."""

    def __init__(self, variables: frozenset[str]) -> None:
        super().__init__(f"{len(variables)} variables in trees that are too large")
        self.variables = variables


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """The most that an exact computation may take before another way is gone.

    Raises
    ------
    DomainError
        If one of them is below 1.
    """

    cells_in_clique: int = 4_000_000
    """Numbers in one table."""
    cells: int = 50_000_000
    """Numbers in all tables of a tree together."""
    branches: int = 64
    """Joint states of the variables that are conditioned on."""
    only_trees: bool = False
    """Whether a network that does not fit raises `TooLargeError`, before any table is made,
    instead of being solved in another way."""

    def __post_init__(self) -> None:
        for quantity in ("cells_in_clique", "cells", "branches"):
            if not getattr(self, quantity) >= 1:
                raise DomainError(f"limit of {quantity}", getattr(self, quantity), "1 or more")
