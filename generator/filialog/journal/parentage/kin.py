"""Under which other names the animals of a group can be: groups split from it, and its sources."""

from collections.abc import Iterable, Mapping

from filialog.journal.descent import Descent
from filialog.journal.names import Names

__all__ = ["Kin"]


class Kin:
    """Groups that can hold animals of each other."""

    def __init__(self, names: Names, descent: Descent) -> None:
        self._sources: dict[str, list[str]] = {}
        self._parts: dict[str, list[str]] = {}
        for group, steps in descent.steps.items():
            for step in steps:
                if not step.parent:
                    self._sources.setdefault(group, []).append(step.source)
                    self._parts.setdefault(step.source, []).append(group)
        # Netted from a tank without a name: they can be of any group.
        self._netted = frozenset(
            group
            for group, origins in names.origins.items()
            if any(origin.from_tank is not None for origin in origins)
        )

    def of(self, groups: Iterable[str]) -> frozenset[str]:
        """Return some groups, what they were taken from, and what was taken from them."""
        wanted = tuple(groups)
        return self.before(wanted) | _reach(wanted, self._parts) | self._netted

    def before(self, groups: Iterable[str]) -> frozenset[str]:
        """Return some groups and what their animals were taken from, under whatever name."""
        return _reach(groups, self._sources)


def _reach(groups: Iterable[str], edges: Mapping[str, list[str]]) -> frozenset[str]:
    found: set[str] = set()
    waiting = list(groups)
    while waiting:
        group = waiting.pop()
        if group not in found:
            found.add(group)
            waiting.extend(edges.get(group, ()))
    return frozenset(found)
