"""All that can be said of a journal's sense: names, book, descent, and every finding."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from filialog.findings.finding import Finding
from filialog.journal.descent import Descent, descent_of
from filialog.journal.events import EventId
from filialog.journal.ledger import Book, keep_book
from filialog.journal.names import Names, names_of, references_of
from filialog.journal.parentage import Parentage
from filialog.journal.parents import NamedParents, named_parents
from filialog.journal.records import Journal
from filialog.journal.rules import RULES, Context

__all__ = ["CheckedJournal", "check_journal"]


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckedJournal:
    """A journal with what was worked out of it on the way."""

    journal: Journal
    names: Names
    parents: Mapping[str, NamedParents]
    descent: Descent
    book: Book
    parentage: Parentage
    as_of: date
    """The day up to which the book is kept."""
    findings: tuple[Finding, ...]


def check_journal(journal: Journal, *, as_of: date | None = None) -> CheckedJournal:
    """Work out names, descent and book of a journal, and check them.

    The as-of day is that of the newest entry unless one is given.
    """
    day = as_of or max((entry.when.latest for entry in journal.entries), default=date.min)
    names = names_of(journal)
    parents = named_parents(journal, names)
    descent = descent_of(names, parents)
    book, more = keep_book(journal, names, as_of=day, skip=_reported(journal, names))
    parentage = Parentage(journal, names, parents, descent, book)
    context = Context(
        journal=journal,
        names=names,
        parents=parents,
        descent=descent,
        book=book,
        parentage=parentage,
    )
    findings = [finding for rule in RULES for finding in rule(context)]
    return CheckedJournal(
        journal=journal,
        names=names,
        parents=parents,
        descent=descent,
        book=book,
        parentage=parentage,
        as_of=day,
        findings=(*findings, *more),
    )


def _reported(journal: Journal, names: Names) -> frozenset[EventId]:
    """Events with an unknown name: reported as such, and not booked.

    What is withheld was found to be sound with its names, which not all may be published.
    """
    found = set()
    for event in journal.events():
        if event.withheld:
            continue
        unknown = any(name not in names.groups for name, _ in references_of(event))
        if event.kind_name == "moved":
            unknown = unknown or any(
                name not in names.groups and name not in names.tanks
                for key in ("from", "to")
                if (name := event.text(key)) is not None
            )
        if unknown or (event.tank is not None and event.tank not in names.tanks):
            found.add(event.id)
    return frozenset(found)
