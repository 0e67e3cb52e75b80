"""Laws of genotypes on looped pedigrees against pgmpy 1.1.2, `VariableElimination`."""

from typing import Any

import networkx as nx
import numpy as np
import pytest

from filialog.genetics.inference import Factor, Limits, Method, Network, marginals
from tools.oracles import ask_oracle

_SEED = 20_261_125
_PEDIGREES = 240
_TOLERANCE = 1e-9


def _mendelian() -> np.ndarray[Any, np.dtype[np.float64]]:
    passes = np.array([[1.0, 0.0], [0.5, 0.5], [0.0, 1.0]])
    young = np.zeros((3, 3, 3))
    for one in (0, 1):
        for other in (0, 1):
            young[one + other] += np.outer(passes[:, one], passes[:, other])
    return young


def random_pedigree(draws: np.random.Generator) -> Network:
    """Draw 6 to 30 animals with parents from a window before them, looks and young of some."""
    count, window = int(draws.integers(6, 31)), int(draws.integers(3, 8))
    frequency = float(draws.uniform(0.05, 0.5))
    founder = np.array(
        [(1 - frequency) ** 2, 2 * frequency * (1 - frequency), frequency**2], dtype=np.float64
    )
    factors = []
    for place in range(count):
        if place < 3 or draws.random() < 0.1:
            factors.append(Factor(variables=(str(place),), table=founder))
        else:
            low = max(0, place - window)
            dam, sire = draws.choice(np.arange(low, place), 2, replace=False).tolist()
            scope = (str(place), str(dam), str(sire))
            factors.append(Factor(variables=scope, table=_mendelian()))
        if draws.random() < 0.4:
            plain, fancy = draws.integers(0, 12), draws.integers(0, 2)
            of_young = np.array([0.02, 0.25, 0.5])  # young of a mate that carries, and strays
            law = (1 - of_young) ** plain * of_young**fancy
            factors.append(Factor(variables=(str(place),), table=law, label=f"young of {place}"))
    return Network(cardinalities={str(place): 3 for place in range(count)}, factors=tuple(factors))


def _asked(network: Network) -> list[str]:
    """Name twelve animals, the first and last among them: pgmpy takes its time for each."""
    names = list(network.cardinalities)
    return [names[int(place)] for place in np.linspace(0, len(names) - 1, min(12, len(names)))]


def _loops(network: Network) -> int:
    graph: nx.Graph[str] = nx.Graph()
    for number, factor in enumerate(network.factors):
        graph.add_edges_from((f"factor {number}", name) for name in factor.variables)
    edges, nodes = graph.number_of_edges(), graph.number_of_nodes()
    return int(edges - nodes + nx.number_connected_components(graph))


@pytest.fixture(scope="module")
def pedigrees() -> list[Network]:
    draws = np.random.default_rng(_SEED)
    return [random_pedigree(draws) for _ in range(_PEDIGREES)]


@pytest.fixture(scope="module")
def answers(pedigrees: list[Network]) -> list[dict[str, list[float]]]:
    asked = [
        {
            "states": dict(network.cardinalities),
            "factors": [
                [factor.variables, factor.table.ravel().tolist()] for factor in network.factors
            ],
            "wanted": _asked(network),
        }
        for network in pedigrees
    ]
    found: list[dict[str, list[float]]] = ask_oracle("pgmpy_elimination.py", {"networks": asked})
    return found


def test_random_pedigrees__have_loops_and_evidence(pedigrees: list[Network]) -> None:
    looped = [network for network in pedigrees if _loops(network) > 0]
    sizes = [len(network.cardinalities) for network in pedigrees]

    assert len(looped) >= 200
    assert max(sizes) == 30
    assert sum(any(f.label for f in network.factors) for network in looped) >= 200


@pytest.mark.parametrize(
    ("limits", "method"),
    [
        pytest.param(Limits(), Method.JUNCTION_TREE, id="tree"),
        pytest.param(
            Limits(cells_in_clique=3**4, branches=3**12), Method.CONDITIONING, id="conditioning"
        ),
    ],
)
def test_laws_of_genotypes__are_those_of_pgmpy(
    pedigrees: list[Network],
    answers: list[dict[str, list[float]]],
    limits: Limits,
    method: Method,
) -> None:
    assert len(answers) == _PEDIGREES
    by_method = 0
    for network, answer in zip(pedigrees, answers, strict=True):
        found = marginals(network, limits=limits)
        by_method += found.method is method
        assert found.exact
        for name in _asked(network):
            assert found.of(name) == pytest.approx(answer[name], abs=_TOLERANCE, rel=0)
    assert by_method >= 20
