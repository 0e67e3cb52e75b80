"""Results as nodes: each has a kind and a subject, and records what it was computed from.

Everything is computed at most once per compile. A node fetches what it needs through the
`Reader` it is given, which notes every read; a store that keeps nodes between compiles can
tell from the reads which of them a changed entry touches.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Generic, TypeVar, cast

from filialog.journal import CheckedJournal

__all__ = ["Evaluator", "NodeKey", "NodeKind", "Reader"]

T_co = TypeVar("T_co", covariant=True)

NodeKey = tuple[str, str]
"""Name of the kind, and the subject."""


@dataclass(frozen=True, slots=True)
class NodeKind(Generic[T_co]):
    """One kind of result."""

    name: str
    """Unique among kinds."""
    compute: Callable[["Reader", str], T_co]
    """From a reader and the subject to the result."""


@dataclass(slots=True)
class Evaluator:
    """Computes nodes on demand, each once, and knows what each has read."""

    checked: CheckedJournal
    reads: dict[NodeKey, tuple[NodeKey, ...]] = field(default_factory=dict)
    """What each computed node has read, in the order of the first reads."""
    _results: dict[NodeKey, object] = field(default_factory=dict)

    def get(self, kind: NodeKind[T_co], subject: str) -> T_co:
        """Return a result, computing it if need be."""
        key = (kind.name, subject)
        if key not in self._results:
            reader = Reader(self)
            self._results[key] = kind.compute(reader, subject)
            self.reads[key] = tuple(reader.seen)
        return cast("T_co", self._results[key])


@dataclass(slots=True)
class Reader:
    """What one node sees: other nodes, and the journal; every look is noted."""

    _evaluator: Evaluator
    seen: dict[NodeKey, None] = field(default_factory=dict)
    """Everything read so far, in order."""

    def get(self, kind: NodeKind[T_co], subject: str = "") -> T_co:
        """Read another node."""
        self.seen[kind.name, subject] = None
        return self._evaluator.get(kind, subject)

    def journal(self, facet: str) -> CheckedJournal:
        """Read the journal itself; the facet says which part of it is looked at."""
        self.seen["journal", facet] = None
        return self._evaluator.checked
