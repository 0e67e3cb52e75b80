"""A name in double brackets is that of a group, a tank or a line."""

from collections.abc import Iterator

from filialog.findings import Finding, did_you_mean
from filialog.journal.records import LinkTarget, Prose
from filialog.journal.rules.context import Context
from filialog.journal.rules.mentions import told_once

__all__ = ["check"]


def check(context: Context) -> Iterator[Finding]:
    """Report links to names that nothing has (N107)."""
    yield from told_once(_findings(context))


def _findings(context: Context) -> Iterator[Finding]:
    known = context.names.groups | context.names.tanks | context.names.lines
    quiet = known | context.journal.reported
    for prose in _all_prose(context):
        for link in prose.links:
            if link.target is LinkTarget.NAME and link.name not in quiet:
                yield Finding(
                    code="N107",
                    place=link.place,
                    message=f"nothing is named `{link.name}`",
                    label="this link leads nowhere",
                    helps=did_you_mean(link.name, known, kind="name"),
                )


def _all_prose(context: Context) -> Iterator[Prose]:
    journal = context.journal
    for entry in journal.entries:
        for section in entry.sections:
            yield section.prose
    for pages in (journal.tanks, journal.groups, journal.lines):
        for page in pages.values():
            yield page.prose
