"""The laws of some scopes of a network, each connected part by the best way that fits."""

from collections.abc import Mapping, Sequence
from itertools import product
from math import exp, inf, log, prod
from typing import TYPE_CHECKING, NamedTuple

from filialog.genetics.inference.elimination import (
    Elimination,
    best_elimination,
    elimination_within,
    moral_graph,
)
from filialog.genetics.inference.junction_tree import laws_by_tree, tree_of
from filialog.genetics.inference.limits import Limits, Method, TooLargeError
from filialog.genetics.inference.loopy import laws_by_loops
from filialog.genetics.inference.reduction import Reduced, reduced
from filialog.genetics.inference.tables import Table, placed

if TYPE_CHECKING:
    import networkx as nx
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

__all__ = ["Solution", "solve"]

Scope = tuple[str, ...]

_CANDIDATES = 3
"""Variables tried at each step of choosing what to condition on."""


class Solution(NamedTuple):
    """Laws and how they were found."""

    log_evidence: float
    """Logarithm of the sum of the product of all tables over all joint states."""
    laws: Mapping[Scope, "Array"]
    method: Method
    error: float


def solve(
    tables: Sequence[Table[str]],
    states: Mapping[str, int],
    wanted: Sequence[Scope],
    limits: Limits | None,
) -> Solution | None:
    """Return the law of each wanted scope; None where the tables cannot hold together.

    Without limits one tree is made for each part, however large.

    Raises
    ------
    TooLargeError
        If only trees are allowed and those of some parts do not fit.
    """
    import networkx as nx  # noqa: PLC0415
    import numpy as np  # noqa: PLC0415

    names = list(dict.fromkeys(name for scope in wanted for name in scope))
    smaller = reduced(tables, states, frozenset(names))
    if smaller is None:
        return None
    left = {name: int(possible.sum()) for name, possible in smaller.possible.items()}
    cut = {scope: tuple(name for name in scope if left[name] > 1) for scope in wanted}
    joins = [scope for scope in dict.fromkeys(cut.values()) if len(scope) > 1]
    bound = [
        *smaller.tables,
        # A table of ones brings the variables of a wanted scope into one clique.
        *(Table(scope, np.ones([left[name] for name in scope])) for scope in joins),
    ]
    graph = moral_graph([table.scope for table in bound])
    part_of = {
        name: number for number, part in enumerate(nx.connected_components(graph)) for name in part
    }
    shares: dict[int, tuple[list[Table[str]], list[Scope]]] = {}
    for table in bound:
        shares.setdefault(part_of[table.scope[0]], ([], []))[0].append(table)
    laws: dict[Scope, Array] = {}
    log_evidence = smaller.log_scale
    for scope in dict.fromkeys(cut.values()):
        if scope and scope[0] in part_of:
            shares[part_of[scope[0]]][1].append(scope)
        elif scope:
            log_evidence += log(left[scope[0]])
            laws[scope] = np.full(left[scope[0]], 1 / left[scope[0]])
        else:
            laws[scope] = np.array(1.0)
    method, error = Method.JUNCTION_TREE, 0.0
    parts = [(part, scopes, _eliminated(part, left, limits)) for part, scopes in shares.values()]
    too_large = [part for part, _, elimination in parts if elimination is None]
    if too_large:
        raise TooLargeError(frozenset(n for part in too_large for t in part for n in t.scope))
    for part, scopes, elimination in parts:
        assert elimination is not None
        found = _solve_part(part, left, scopes, limits, elimination)
        if found is None:
            return None
        log_evidence += found.log_evidence
        laws.update(found.laws)
        method = max(method, found.method, key=list(Method).index)
        error = max(error, found.error)
    full = {scope: _expanded(laws[cut[scope]], scope, smaller) for scope in wanted}
    return Solution(log_evidence, full, method, error)


def _expanded(law: "Array", scope: Scope, smaller: Reduced) -> "Array":
    """Give the states that were cut away their zeros back."""
    import numpy as np  # noqa: PLC0415

    possible = [smaller.possible[name] for name in scope]
    full = np.zeros([len(states) for states in possible])
    full[np.ix_(*possible)] = law.reshape([int(states.sum()) for states in possible])
    return full


def _eliminated(
    tables: Sequence[Table[str]], states: Mapping[str, int], limits: Limits | None
) -> Elimination | None:
    """Return the order for one part; None where only trees are allowed and it does not fit."""
    graph = moral_graph([table.scope for table in tables])
    if limits is None or not limits.only_trees:
        return best_elimination(graph, states)
    found = elimination_within(graph, states, limits.cells)
    return found if found is not None and _fits(found, limits) else None


def _solve_part(
    tables: Sequence[Table[str]],
    states: Mapping[str, int],
    wanted: Sequence[Scope],
    limits: Limits | None,
    elimination: Elimination,
) -> Solution | None:
    here = set(elimination.order)
    own = {name: count for name, count in states.items() if name in here}
    if limits is None or _fits(elimination, limits):
        return _by_tree(elimination, tables, own, wanted)
    graph = moral_graph([table.scope for table in tables])
    chosen = _cutset(graph, own, elimination, limits)
    if chosen is not None:
        return _by_conditioning(chosen, tables, own, wanted)
    found = laws_by_loops(elimination, tables, own, wanted, cells_in_cluster=limits.cells_in_clique)
    if found is None:
        return None
    return Solution(found.log_evidence, found.laws, Method.LOOPY, found.error)


def _fits(elimination: Elimination, limits: Limits) -> bool:
    largest = max(elimination.log_cells, default=0.0)
    small = largest <= log(limits.cells_in_clique) + 1e-9
    return small and elimination.cells() <= limits.cells * (1 + 1e-9)


def _by_tree(
    elimination: Elimination,
    tables: Sequence[Table[str]],
    states: Mapping[str, int],
    wanted: Sequence[Scope],
) -> Solution | None:
    order = elimination.order
    place = {name: number for number, name in enumerate(order)}
    found = laws_by_tree(
        tree_of(elimination),
        [placed(table, place) for table in tables],
        [states[name] for name in order],
        [tuple(sorted(place[name] for name in scope)) for scope in wanted],
    )
    if found is None:
        return None
    laws = {}
    for scope, law in zip(wanted, found.laws, strict=True):
        ascending = sorted(scope, key=place.__getitem__)
        laws[scope] = law.transpose([ascending.index(name) for name in scope])
    return Solution(found.log_evidence, laws, Method.JUNCTION_TREE, 0.0)


def _cutset(
    graph: "nx.Graph[str]",
    states: Mapping[str, int],
    elimination: Elimination,
    limits: Limits,
) -> tuple[str, ...] | None:
    """Choose variables, one by one, until what is left fits; None where no few suffice.

    Of those in the largest cliques the one goes that leaves the fewest cells for each
    doubling of the branches.
    """
    rest = graph.copy()
    chosen: list[str] = []
    while not _fits(elimination, limits):
        budget = limits.branches // prod(states[name] for name in chosen)
        # A variable divides cells by its states at most, so that here none is enough.
        if elimination.cells() > limits.cells * budget:
            return None
        gain: dict[str, float] = {}
        for clique, size in zip(elimination.cliques, elimination.log_cells, strict=True):
            cells = exp(min(size, 700.0))
            for place in clique:
                name = elimination.order[place]
                if states[name] <= budget:
                    saved = cells * (1 - 1 / states[name]) / log(states[name])
                    gain[name] = gain.get(name, 0.0) + saved
        candidates = sorted(gain, key=lambda name: (-gain[name], elimination.order.index(name)))
        best: tuple[float, str, Elimination] | None = None
        for name in candidates[:_CANDIDATES]:
            smaller = rest.copy()
            smaller.remove_node(name)
            if not smaller:
                continue
            tried = best_elimination(smaller, states)
            cost = log(tried.cells()) - log(elimination.cells())
            if best is None or cost / log(states[name]) < best[0]:
                best = (cost / log(states[name]), name, tried)
        if best is None:
            return None
        chosen.append(best[1])
        rest.remove_node(best[1])
        elimination = best[2]
    return tuple(chosen)


def _by_conditioning(
    chosen: Sequence[str],
    tables: Sequence[Table[str]],
    states: Mapping[str, int],
    wanted: Sequence[Scope],
) -> Solution | None:
    """Add up, weighted by their evidence, the branches of every joint state of some variables."""
    import numpy as np  # noqa: PLC0415

    total = -inf
    laws: dict[Scope, Array] = {}
    for joint in product(*(range(states[name]) for name in chosen)):
        given = [
            Table((name,), np.eye(states[name])[state])
            for name, state in zip(chosen, joint, strict=True)
        ]
        branch = solve([*tables, *given], states, wanted, None)
        if branch is None:
            continue
        most = max(total, branch.log_evidence)
        before, new = exp(total - most), exp(branch.log_evidence - most)
        for scope in wanted:
            added = branch.laws[scope] * (new / (before + new))
            laws[scope] = (
                laws[scope] * (before / (before + new)) + added if scope in laws else added
            )
        total = most + log(before + new)
    return None if total == -inf else Solution(total, laws, Method.CONDITIONING, 0.0)
