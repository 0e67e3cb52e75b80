"""The greedy order against one that counts new edges afresh at every step."""

from itertools import combinations

import networkx as nx
import pytest

from filialog.genetics.inference.elimination import best_elimination


def _by_fewest_new_edges(graph: "nx.Graph[str]", names: list[str]) -> list[str]:
    rest, order = graph.copy(), []
    while rest:

        def missing(name: str, rest: "nx.Graph[str]" = rest) -> list[tuple[str, str]]:
            return [pair for pair in combinations(rest[name], 2) if not rest.has_edge(*pair)]

        best = min(rest, key=lambda one: (len(missing(one)), len(rest[one]), names.index(one)))
        rest.add_edges_from(missing(best))
        rest.remove_node(best)
        order.append(best)
    return order


@pytest.mark.parametrize("seed", range(20))
def test_elimination__takes_the_variable_with_fewest_new_edges(seed: int) -> None:
    numbered = nx.gnp_random_graph(16, 0.25, seed=seed)
    names = [f"v{place}" for place in range(16)]
    graph: nx.Graph[str] = nx.relabel_nodes(numbered, dict(enumerate(names)))

    found = best_elimination(graph, dict.fromkeys(names, 2))

    assert list(found.order) == _by_fewest_new_edges(graph, names)


def test_elimination__cliques_triangulate_the_graph() -> None:
    graph: nx.Graph[int] = nx.grid_2d_graph(4, 4)
    grid: nx.Graph[str] = nx.relabel_nodes(graph, {node: str(node) for node in graph})
    found = best_elimination(grid, dict.fromkeys(sorted(grid), 3))
    filled: nx.Graph[str] = nx.Graph()
    for clique in found.cliques:
        filled.add_edges_from(combinations([found.order[place] for place in clique], 2))

    assert nx.is_chordal(filled)
    assert all(filled.has_edge(*edge) for edge in grid.edges)
    assert max(map(len, found.cliques)) == 5  # the width of a square of 4 is 4
