"""The species of the journal is in the shipped catalogue."""

from collections.abc import Iterator

from filialog.findings import Finding
from filialog.findings.finding import Place
from filialog.journal.rules.context import Context

__all__ = ["check"]


def check(context: Context) -> Iterator[Finding]:
    """Report a species the catalogue lacks (N108): ages and hatching dates go unchecked."""
    named = context.journal.settings.species
    if named is not None and context.journal.species is None:
        yield Finding(
            code="N108",
            place=Place("journal.yaml"),
            message=f"species `{named}` is not in the catalogue",
            label="ages at breeding cannot be checked",
            helps=("use a name from the catalogue of species in the handbook, or leave it out",),
        )
