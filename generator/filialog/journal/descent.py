"""Who came from whom: the graph of groups without loops, and the loops that cannot be.

Two kinds of edges lead back from a group: to the groups it was taken or joined from, and to
the parents of its brood. Animals that go back into a group they were taken from, or young that
are put with their parents, make a loop that is no contradiction: the later edge is left out. Any
other loop would make an animal its own ancestor.
"""

from collections.abc import Mapping
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
    while True:
        graph = {group: {step.source for step in back} for group, back in steps.items()}
        sorter = TopologicalSorter({group: sorted(back) for group, back in graph.items()})
        try:
            order = tuple(sorter.static_order())
        except CycleError as error:
            loop = _steps_of_loop(steps, error.args[1])
            births = [parents[group].hatched.when.earliest for group, step in loop if step.parent]
            # Young put back with their parents change the parents' group from then on; they do
            # not make it older.
            put_back = [
                (group, step)
                for group, step in loop
                if not step.parent and all(step.event.when.latest >= birth for birth in births)
            ]
            if not put_back:
                impossible.append(tuple(step for _, step in loop))
            group, worst = max(
                put_back or loop,
                key=lambda item: (item[1].parent, item[1].event.when.latest, item[1].event.id),
            )
            steps[group].remove(worst)
            continue
        return Descent(
            steps={group: tuple(back) for group, back in steps.items()},
            order=order,
            impossible=tuple(impossible),
        )


def _steps_of_loop(
    steps: Mapping[str, list[Step]], loop: list[str]
) -> tuple[tuple[str, Step], ...]:
    """Return the steps of a loop given as nodes, each before the one that came from it."""
    found = []
    for source, group in pairwise(loop):
        found.append((group, next(step for step in steps[group] if step.source == source)))
    return tuple(found)
