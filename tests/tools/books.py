"""The book of a few events, and what to read of it."""

from collections.abc import Iterable, Sequence
from datetime import date

from filialog.findings import Finding
from filialog.journal.events import Event
from filialog.journal.ledger import Book, keep_book
from filialog.journal.names import names_of
from filialog.journal.records import Journal
from tools.journals import day, drawn, event, journal

__all__ = ["END", "X10", "Y3", "codes", "kept", "numbers", "told"]

END = date(2026, 12, 31)


def kept(*events: Event, as_of: date = END) -> tuple[Journal, Book, tuple[Finding, ...]]:
    named = [one.tank for one in events]
    named += [one.text(key) for one in events for key in ("from", "to")]
    tanks = sorted({name for name in named if name and len(name) == 1 and name < "f"})
    whole = journal(*events, tanks=tanks)
    book, findings = keep_book(whole, names_of(whole), as_of=as_of)
    return whole, book, findings


def numbers(book: Book, on: str = "2026-12-31") -> dict[str, str]:
    """Return who is where, as `x in a`."""
    return {f"{one.group} in {one.tank}": one.count.text for one in book.holdings(day(on))}


def codes(findings: Iterable[Finding]) -> list[str]:
    return [finding.code for finding in findings]


def told(whole: Journal, findings: Sequence[Finding]) -> str:
    return "\n\n".join(drawn(whole, finding) for finding in findings)


X10 = event("present", on="2026-01-01", tank="a", group="x", count=10)
Y3 = event("present", on="2026-01-02", tank="a", group="y", count=3)
