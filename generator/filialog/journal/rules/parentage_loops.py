"""No animal is its own ancestor."""

from collections.abc import Iterator

from filialog.findings import Finding
from filialog.findings.finding import Mark, Place
from filialog.journal.descent import Step
from filialog.journal.rules.context import Context

__all__ = ["check"]


def check(context: Context) -> Iterator[Finding]:
    """Report loops through parents (P101)."""
    for loop in context.descent.impossible:
        closing = next(step for step in loop if step.parent)
        names = [step.source for step in loop]
        chain = " from ".join(f"`{name}`" for name in [*reversed(names), names[-1]])
        yield Finding(
            code="P101",
            place=_place(closing),
            message=f"`{closing.source}` would be its own ancestor",
            label="this cross closes the loop",
            related=tuple(
                Mark(
                    place=_place(step),
                    says=f"`{step.source}` is a parent here"
                    if step.parent
                    else f"animals of `{step.source}` are taken here",
                )
                for step in loop
                if step is not closing
            ),
            notes=(f"descent goes in a circle: {chain}",),
            helps=("correct the name of a parent, or give the later group a name of its own",),
        )


def _place(step: Step) -> Place:
    """Return where an event names the source of a step."""
    event = step.event
    for side in ("dams", "sires"):
        parents = event.parents(side)
        if step.parent and parents is not None and step.source in parents.groups:
            return event.places.get(f"{side}.{step.source}", event.place_of(side))
    return event.place
