"""No animal is its own ancestor."""

from collections.abc import Iterator

from filialog.findings import Finding
from filialog.findings.finding import Mark
from filialog.journal.rules.context import Context

__all__ = ["check"]


def check(context: Context) -> Iterator[Finding]:
    """Report loops through parents (P101)."""
    for loop in context.descent.impossible:
        first = next(step for step in loop if step.parent)
        names = [step.source for step in loop]
        chain = " from ".join(f"`{name}`" for name in [*reversed(names), names[-1]])
        yield Finding(
            code="P101",
            place=first.event.place_of("dams" if first.event.has("dams") else "sires"),
            message=f"`{first.source}` would be its own ancestor",
            label="this cross closes the loop",
            related=tuple(
                Mark(place=step.event.place, says=f"`{step.source}` goes in here")
                for step in loop
                if step is not first
            ),
            notes=(f"descent goes in a circle: {chain}",),
            helps=("give the later group a name of its own",),
        )
