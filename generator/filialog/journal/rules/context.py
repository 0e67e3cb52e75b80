"""What a rule is given."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from filialog.findings.finding import Finding
from filialog.journal.descent import Descent
from filialog.journal.ledger import Book
from filialog.journal.names import Names
from filialog.journal.parentage import Parentage
from filialog.journal.parents import NamedParents
from filialog.journal.records import Journal

__all__ = ["Context", "Rule"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Context:
    """A journal with its names, named parents, descent, book, and who can have been parents."""

    journal: Journal
    names: Names
    parents: Mapping[str, NamedParents]
    descent: Descent
    book: Book
    parentage: Parentage


Rule = Callable[[Context], Iterator[Finding]]
"""A rule yields the findings it makes."""
