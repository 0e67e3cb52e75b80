"""A trait model that is named exists."""

from collections.abc import Iterator

from filialog.findings import Finding, did_you_mean
from filialog.journal.rules.context import Context

__all__ = ["check"]


def check(context: Context) -> Iterator[Finding]:
    """Report lines that name a trait model there is not (T102)."""
    known = context.journal.traits
    for line in context.journal.lines.values():
        if line.traits is not None and line.traits not in known:
            yield Finding(
                code="T102",
                place=line.places.get("traits", line.place),
                message=f"trait model `{line.traits}` is not known",
                label="neither in `traits/` nor in the shipped catalogue",
                helps=did_you_mean(line.traits, known, kind="trait model"),
            )
