"""All laws of a network from two passes of messages over one tree of cliques.

Lauritzen and Spiegelhalter (1988), J. R. Statist. Soc. B 50:157-224, with the division of
Jensen, Lauritzen and Olesen (1990), Computational Statistics Quarterly 4:269-282 (both from
memory). Tables of cliques are made when they are needed; only messages are kept.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf, prod
from typing import TYPE_CHECKING, NamedTuple

from filialog.genetics.inference.arithmetic import LOGARITHMS, PLAIN, Arithmetic
from filialog.genetics.inference.elimination import Elimination, largest_cliques
from filialog.genetics.inference.tables import Table

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

__all__ = ["Tree", "TreeLaws", "laws_by_tree", "tree_of"]


class TreeLaws(NamedTuple):
    """What a tree gives."""

    log_evidence: float
    laws: tuple["Array", ...]
    """A table for each of the scopes that were asked for, adding up to 1."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tree:
    """Cliques joined so that a variable of two of them is in all between. Leaves come first."""

    scopes: tuple[tuple[int, ...], ...]
    """The variables of each clique, as places in the order of elimination, ascending."""
    parents: tuple[int | None, ...]
    """The clique that gets the message of each; None at the root."""
    separators: tuple[tuple[int, ...], ...]
    """The variables that each shares with its parent."""
    homes: tuple[int, ...]
    """For each variable the clique in which it is eliminated."""


def tree_of(elimination: Elimination) -> Tree:
    """Make the tree of the largest cliques of an elimination of joined variables."""
    cliques = elimination.cliques
    into = largest_cliques(cliques)
    last = {own: place for place, own in enumerate(into)}
    kept = sorted(last, key=lambda own: last[own])
    number = {own: rank for rank, own in enumerate(kept)}
    tops = [cliques[last[own]] for own in kept]
    return Tree(
        scopes=tuple(cliques[own] for own in kept),
        parents=tuple(number[into[top[1]]] if len(top) > 1 else None for top in tops),
        separators=tuple(top[1:] for top in tops),
        homes=tuple(number[own] for own in into),
    )


def laws_by_tree(
    tree: Tree,
    tables: Sequence[Table[int]],
    states: Sequence[int],
    wanted: Sequence[tuple[int, ...]],
) -> TreeLaws | None:
    """Return the laws of the wanted scopes; None where the tables cannot hold together.

    Each wanted scope is ascending and within one clique.
    """
    try:
        return _Passes(tree, tables, states, PLAIN).laws(wanted)
    except FloatingPointError:
        return _Passes(tree, tables, states, LOGARITHMS).laws(wanted)


class _Passes:
    """The messages of one tree, inward and then outward."""

    def __init__(
        self,
        tree: Tree,
        tables: Sequence[Table[int]],
        states: Sequence[int],
        arithmetic: Arithmetic,
    ) -> None:
        self.tree, self.states, self.arithmetic = tree, states, arithmetic
        self.own: list[list[Table[int]]] = [[] for _ in tree.scopes]
        self.log_evidence = 0.0
        for table in tables:
            entered = self.scaled(arithmetic.enter(table.array))
            self.own[tree.homes[min(table.scope)]].append(Table(table.scope, entered))
        self.children: list[list[int]] = [[] for _ in tree.scopes]
        for clique, parent in enumerate(tree.parents):
            if parent is not None:
                self.children[parent].append(clique)
        self.inward: dict[int, Table[int]] = {}

    def scaled(self, array: "Array") -> "Array":
        array, scale = self.arithmetic.scaled(array)
        self.log_evidence += scale
        return array

    def laws(self, wanted: Sequence[tuple[int, ...]]) -> TreeLaws | None:
        for clique, scope in enumerate(self.tree.scopes):
            product = self.product(clique, None)
            kept = self.tree.separators[clique]
            summed = self.arithmetic.summed(Table(scope, product), kept)
            self.inward[clique] = Table(kept, self.scaled(summed))
            if self.log_evidence == -inf:
                return None
        asked = self.sources(wanted)
        if not asked:
            return TreeLaws(self.log_evidence, ())
        laws: dict[tuple[int, ...], Array] = {}
        outward: dict[int, Table[int]] = {}
        for clique in reversed(range(len(self.tree.scopes))):
            product = self.product(clique, outward.pop(clique, None))
            belief = Table(self.tree.scopes[clique], product)
            self.read(belief, asked.get((clique, None), ()), laws)
            for child in self.children[clique]:
                kept = self.tree.separators[child]
                law = Table(kept, self.arithmetic.summed(belief, kept))
                self.read(law, asked.get((clique, child), ()), laws)
                message = self.arithmetic.without(law.array, self.inward.pop(child).array)
                outward[child] = Table(kept, self.arithmetic.scaled(message)[0])
        return TreeLaws(self.log_evidence, tuple(laws[scope] for scope in wanted))

    def product(self, clique: int, outward: Table[int] | None) -> "Array":
        parts = [*self.own[clique], *(self.inward[child] for child in self.children[clique])]
        if outward is not None:
            parts.append(outward)
        return self.arithmetic.times(self.tree.scopes[clique], parts)

    def read(
        self,
        table: Table[int],
        scopes: Sequence[tuple[int, ...]],
        laws: dict[tuple[int, ...], "Array"],
    ) -> None:
        for scope in scopes:
            laws[scope] = self.arithmetic.leave(self.arithmetic.summed(table, scope))

    def sources(
        self, wanted: Sequence[tuple[int, ...]]
    ) -> dict[tuple[int, int | None], list[tuple[int, ...]]]:
        """Give each scope the smallest table that has it: a clique's, or one to a child."""
        best: dict[int, tuple[int, int, int | None]] = {}
        for clique, scope in enumerate(self.tree.scopes):
            for kept, child in [
                (scope, None),
                *((self.tree.separators[one], one) for one in self.children[clique]),
            ]:
                cells = prod(self.states[place] for place in kept)
                for place in kept:
                    if place not in best or cells < best[place][0]:
                        best[place] = (cells, clique, child)
        asked: dict[tuple[int, int | None], list[tuple[int, ...]]] = {}
        for scope in dict.fromkeys(wanted):
            source = best[scope[0]][1:] if len(scope) == 1 else (self.tree.homes[min(scope)], None)
            asked.setdefault(source, []).append(scope)
        return asked
