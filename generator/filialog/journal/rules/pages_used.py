"""A page of a group speaks of a group that the diary knows."""

from collections.abc import Iterator

from filialog.findings import Finding, did_you_mean
from filialog.journal.rules.context import Context

__all__ = ["check"]


def check(context: Context) -> Iterator[Finding]:
    """Report pages of groups that no entry brings into being (N105)."""
    for name, page in context.journal.groups.items():
        if name not in context.names.groups and name not in context.journal.reported:
            yield Finding(
                code="N105",
                place=page.place,
                message=f"the page of group `{name}` speaks of a group the diary does not know",
                label="no entry brings it into being",
                helps=did_you_mean(name, context.names.groups, kind="group"),
            )
