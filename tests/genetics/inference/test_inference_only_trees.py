"""Where only trees are allowed a network that is too large is refused, with its variables."""

import networkx as nx
import numpy as np
import pytest

from filialog.genetics.inference import Factor, Limits, Network, TooLargeError, marginals
from filialog.genetics.inference.elimination import best_elimination, elimination_within


def grid(side: int) -> "nx.Graph[str]":
    square: nx.Graph[str] = nx.Graph()
    for row in range(side):
        for column in range(side):
            square.add_edge(f"{row},{column}", f"{(row + 1) % side},{column}")
            square.add_edge(f"{row},{column}", f"{row},{(column + 1) % side}")
    return square


def with_chain() -> Network:
    """Return a ring of rings, and beside it a chain of two."""
    draws = np.random.default_rng(7)
    pairs = [*grid(4).edges, ("one", "other")]
    factors = tuple(Factor(variables=pair, table=draws.random((3, 3)) + 0.1) for pair in pairs)
    states = dict.fromkeys(sorted({name for pair in pairs for name in pair}), 3)
    return Network(cardinalities=states, factors=factors)


def test_marginals__of_only_trees_name_the_variables_of_those_too_large() -> None:
    limits = Limits(cells=1_000, only_trees=True)

    with pytest.raises(TooLargeError) as caught:
        marginals(with_chain(), limits=limits)

    assert caught.value.variables == frozenset(grid(4))


def test_marginals__of_only_trees_that_fit_are_the_same() -> None:
    wanted = marginals(with_chain())

    found = marginals(with_chain(), limits=Limits(only_trees=True))

    assert found.laws == wanted.laws


@pytest.mark.parametrize("share", [0.999, 1.0])
def test_elimination_within__is_the_best_one_or_none(share: float) -> None:
    graph = grid(5)
    states = dict.fromkeys(sorted(graph), 3)
    best = best_elimination(graph, states)

    found = elimination_within(graph, states, best.cells() * share)

    assert found == (best if share == 1.0 else None)
