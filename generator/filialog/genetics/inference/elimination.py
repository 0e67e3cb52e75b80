"""The order in which variables are summed out, and the cliques that it makes."""

from collections.abc import Iterator, Mapping, Sequence
from enum import Enum
from heapq import heapify, heappop, heappush
from math import exp, inf, log
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    import networkx as nx

__all__ = [
    "Elimination",
    "best_elimination",
    "elimination_within",
    "largest_cliques",
    "moral_graph",
]

_MOST_NEIGHBOURS = 200
"""Fill is weighed only where no variable has more: it takes their square."""
_FEW_CELLS = 200_000
"""With so few another order is not worth the search."""


class Elimination(NamedTuple):
    """Variables in the order of their elimination."""

    order: tuple[str, ...]
    cliques: tuple[tuple[int, ...], ...]
    """For each place of the order that place and those of the variables still joined with
    it, ascending."""
    log_cells: tuple[float, ...]
    """Logarithm of the numbers in the table of each clique."""

    def cells(self) -> float:
        """Return the numbers in the tables of the largest cliques together."""
        into = largest_cliques(self.cliques)
        own = [cells for place, cells in enumerate(self.log_cells) if into[place] == place]
        return sum(exp(min(cells, 700.0)) for cells in own)


def largest_cliques(cliques: Sequence[Sequence[int]]) -> list[int]:
    """Give for each clique the earlier one that contains it, or itself."""
    into = list(range(len(cliques)))
    for place, clique in enumerate(cliques):
        after = clique[1] if len(clique) > 1 else None
        if after is not None and into[after] == after and len(cliques[after]) == len(clique) - 1:
            into[after] = into[place]
    return into


class _Rule(Enum):
    FILL = "fewest new edges"
    WEIGHTED_FILL = "new edges with the fewest cells"
    CELLS = "smallest clique"


def moral_graph(scopes: Sequence[Sequence[str]]) -> "nx.Graph[str]":
    """Return the graph in which the variables of each table are joined with one another."""
    import networkx as nx  # noqa: PLC0415

    graph: nx.Graph[str] = nx.Graph()
    for scope in scopes:
        graph.add_nodes_from(scope)
        for place, one in enumerate(scope):
            graph.add_edges_from((one, other) for other in scope[place + 1 :])
    return graph


def best_elimination(graph: "nx.Graph[str]", states: Mapping[str, int]) -> Elimination:
    """Return the order, of those by several greedy rules, whose cliques have fewest cells.

    Ties go to the variable that stands first in `states`, so that neither the names nor the
    order of the tables decide.
    """
    found = elimination_within(graph, states, inf)
    assert found is not None
    return found


def elimination_within(
    graph: "nx.Graph[str]", states: Mapping[str, int], most_cells: float
) -> Elimination | None:
    """Return the best order as above, or None where each rule passes so many cells.

    An order is given up as soon as it must pass them, which is cheap.
    """
    names = [name for name in states if name in graph]
    rules = [_Rule.FILL, _Rule.CELLS]
    same = len({states[name] for name in names}) == 1
    if not same and max(degree for _, degree in graph.degree()) <= _MOST_NEIGHBOURS:
        rules.append(_Rule.WEIGHTED_FILL)
    best: Elimination | None = None
    for rule in rules:
        most = most_cells if best is None else best.cells()
        if best is None or most > _FEW_CELLS:
            found = _eliminate(graph, names, states, rule, most)
            if found is not None and (best is None or found.cells() < most):
                best = found
    return None if best is None or best.cells() > most_cells else best


def _eliminate(
    graph: "nx.Graph[str]",
    names: Sequence[str],
    states: Mapping[str, int],
    rule: _Rule,
    most_cells: float,
) -> Elimination | None:
    """Eliminate greedily; sets of variables are the bits of whole numbers."""
    places = {name: place for place, name in enumerate(names)}
    joined = [sum(1 << places[other] for other in graph[name]) for name in names]
    weights = [log(states[name]) for name in names]
    cells = [
        weight + sum(weights[other] for other in _bits(joined[place]))
        for place, weight in enumerate(weights)
    ]
    fill = [_fill(place, joined) for place in range(len(names))]

    def key(place: int) -> tuple[float, float, int]:
        size = round(cells[place], 9)
        if rule is _Rule.CELLS:
            return size, float(fill[place]), place
        if rule is _Rule.WEIGHTED_FILL and fill[place]:
            return round(_weighted_fill(place, joined, weights), 9), size, place
        return float(fill[place]), size, place

    best = {place: key(place) for place in range(len(names))}
    heap = list(best.values())
    heapify(heap)
    order: list[int] = []
    cliques: list[int] = []
    sizes: list[float] = []
    all_cells = 0.0
    while heap:
        found = heappop(heap)
        place = found[2]
        if best.get(place) != found:
            continue
        del best[place]
        order.append(place)
        cliques.append(joined[place])
        sizes.append(cells[place])
        all_cells += exp(min(cells[place], 700.0))
        # A clique within another has half its cells at most, so that all are twice what counts.
        if all_cells > 2 * most_cells:
            return None
        for other in _take_out(place, joined, weights, fill, cells):
            now = key(other)
            if best[other] != now:
                best[other] = now
                heappush(heap, now)
    rank = {place: number for number, place in enumerate(order)}
    scopes = tuple(
        (number, *sorted(rank[other] for other in _bits(cliques[number])))
        for number in range(len(order))
    )
    return Elimination(tuple(names[place] for place in order), scopes, tuple(sizes))


def _take_out(
    place: int, joined: list[int], weights: list[float], fill: list[int], cells: list[float]
) -> list[int]:
    """Join the neighbours of a variable with one another; return whose figures changed."""
    around = joined[place]
    neighbours = list(_bits(around))
    if not fill[place]:
        for other in neighbours:
            # Of the pairs not joined around `other` those with `place` in them are gone.
            fill[other] -= (joined[other] & ~around & ~(1 << other) & ~(1 << place)).bit_count()
            joined[other] &= ~(1 << place)
            cells[other] -= weights[place]
        return neighbours
    touched = around
    for other in neighbours:
        new = around & ~joined[other] & ~(1 << other)
        joined[other] = (joined[other] | new) & ~(1 << place)
        cells[other] += sum(weights[one] for one in _bits(new)) - weights[place]
    for other in neighbours:
        touched |= joined[other]
    changed = list(_bits(touched))
    for other in changed:
        fill[other] = _fill(other, joined)
    return changed


def _bits(number: int) -> Iterator[int]:
    while number:
        lowest = number & -number
        yield lowest.bit_length() - 1
        number ^= lowest


def _fill(place: int, joined: Sequence[int]) -> int:
    """Return how many pairs of neighbours are not joined."""
    around = joined[place]
    missing = sum((around & ~joined[other]).bit_count() - 1 for other in _bits(around))
    return missing // 2


def _weighted_fill(place: int, joined: Sequence[int], weights: Sequence[float]) -> float:
    """Return the sum over these pairs of the product of their weights."""
    around = joined[place]
    return sum(
        weights[one] * weights[other]
        for one in _bits(around)
        for other in _bits((around & ~joined[one]) >> (one + 1) << (one + 1))
    )
