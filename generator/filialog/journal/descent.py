"""Who came from whom: the graph of groups without loops, and the loops that cannot be.

Two kinds of edges lead back from a group: to the groups it was taken or joined from, and to
the parents of its brood. Animals that go back into a group they were taken from, or young that
are put with their parents, make a loop that is no contradiction: the later edge is left out. Any
other loop would make an animal its own ancestor.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from graphlib import CycleError, TopologicalSorter
from itertools import pairwise

from filialog.journal.events import Event
from filialog.journal.names import Names
from filialog.journal.parents import NamedParents

__all__ = ["Descent", "Step", "descent_of"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step back from a group."""

    source: str
    event: Event
    parent: bool
    """True where the source is a parent, false where animals were taken or joined from it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Descent:
    """The steps back from every group, free of loops."""

    steps: Mapping[str, tuple[Step, ...]]
    order: tuple[str, ...]
    """All groups, sources before what came from them."""
    impossible: tuple[tuple[Step, ...], ...]
    """Loops through parents, each as its steps."""


def descent_of(names: Names, parents: Mapping[str, NamedParents]) -> Descent:
    """Build the graph of descent from what the journal names."""
    steps: dict[str, list[Step]] = {group: [] for group in names.origins}
    for group, origins in names.origins.items():
        for origin in origins:
            # What joins one of its own parts makes no loop worth looking for.
            steps[group].extend(
                Step(source=source, event=origin.event, parent=False)
                for source in origin.sources
                if source in steps and source != group
            )
    for brood, named in parents.items():
        for source in dict.fromkeys((*named.dams, *named.sires)):
            if source in steps:
                steps[brood].append(Step(source=source, event=named.events[-1], parent=True))
    impossible: list[tuple[Step, ...]] = []
    try:
        order = _order(steps, steps)
    except CycleError:
        for groups in _entangled(steps):
            impossible.extend(_without_loops(steps, groups, parents))
        order = _order(steps, steps)
    return Descent(
        steps={group: tuple(back) for group, back in steps.items()},
        order=order,
        impossible=tuple(impossible),
    )


def _order(steps: Mapping[str, list[Step]], groups: Iterable[str]) -> tuple[str, ...]:
    """Return some groups, sources before what came from them; CycleError where there is a loop."""
    among = frozenset(groups)
    back = {
        group: sorted({step.source for step in steps[group]} & among)
        for group in steps
        if group in among
    }
    return tuple(TopologicalSorter(back).static_order())


def _entangled(steps: Mapping[str, list[Step]]) -> list[list[str]]:
    """Divide the groups that are in loops into those that share them: most loops are small."""
    import networkx as nx  # noqa: PLC0415 - slow to load, and few journals have loops

    graph = nx.DiGraph((step.source, group) for group, back in steps.items() for step in back)
    position = {group: number for number, group in enumerate(steps)}
    found = [
        sorted(part, key=position.__getitem__)
        for part in nx.strongly_connected_components(graph)
        if len(part) > 1 or graph.has_edge(*part, *part)
    ]
    return sorted(found, key=lambda part: position[part[0]])


def _without_loops(
    steps: dict[str, list[Step]], groups: Sequence[str], parents: Mapping[str, NamedParents]
) -> Iterator[tuple[Step, ...]]:
    """Leave out of every loop its latest step; give the loops that cannot be."""
    while True:
        try:
            _order(steps, groups)
        except CycleError as error:
            loop = _steps_of_loop(steps, error.args[1])
        else:
            return
        births = [parents[group].hatched.when.earliest for group, step in loop if step.parent]
        # Young put back with their parents change the parents' group from then on; they do
        # not make it older.
        put_back = [
            (group, step)
            for group, step in loop
            if not step.parent and all(step.event.when.latest >= birth for birth in births)
        ]
        if not put_back:
            yield tuple(step for _, step in loop)
        group, worst = max(
            put_back or loop,
            key=lambda item: (item[1].parent, item[1].event.when.latest, item[1].event.id),
        )
        steps[group].remove(worst)


def _steps_of_loop(
    steps: Mapping[str, list[Step]], loop: list[str]
) -> tuple[tuple[str, Step], ...]:
    """Return the steps of a loop given as nodes, each before the one that came from it."""
    found = []
    for source, group in pairwise(loop):
        found.append((group, next(step for step in steps[group] if step.source == source)))
    return tuple(found)
