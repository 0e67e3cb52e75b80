"""The parents a keeper names for a brood were where they had to be."""

from collections.abc import Iterator

from filialog.findings import Finding
from filialog.findings.finding import Mark
from filialog.journal.parentage import RuledOut
from filialog.journal.parents import NamedParents
from filialog.journal.rules.context import Context
from filialog.journal.rules.parents_adult import in_loop, too_young

__all__ = ["check"]


def check(context: Context) -> Iterator[Finding]:
    """Report named parents that the book rules out (P104)."""
    young = {(named.brood, side) for named, side, _, _ in too_young(context)}
    for brood, named in context.parents.items():
        for one in context.parentage.ruled_out(brood):
            if (brood, one.side) in young or in_loop(context, named, one.groups):
                continue  # told of already
            yield _finding(named, one)


def _finding(named: NamedParents, one: RuledOut) -> Finding:
    groups = " or ".join(f"`{group}`" for group in one.groups)
    where = next((event for event in named.events if event.has(one.side)), named.hatched)
    when = f"from {one.first.isoformat()} to {one.last.isoformat()}"
    tanks = " or ".join(f"`{tank}`" for tank in one.tanks)
    needed = f"in {tanks} {when}" if one.tanks else f"alive {when}"
    there = (
        f"the book has them in {' and '.join(f'`{tank}`' for tank in one.elsewhere)} then"
        if one.elsewhere
        else "the book has none of them then"
    )
    related = []
    if one.event is not None:
        says = "the last entry that took them away" if one.gone else "the entry that brought them"
        related.append(Mark(place=one.event.place, says=f"{says}, on {one.event.when.text}"))
    if where is not named.hatched:
        related.append(Mark(place=named.hatched.place, says=f"`{named.brood}` hatched here"))
    return Finding(
        code="P104",
        place=where.place_of(one.side),
        message=f"{one.side} {groups} of brood `{named.brood}` cannot have been there",
        label=f"named as {one.side} here",
        related=tuple(related),
        notes=(f"to be its {one.side}, one of them had to be {needed}; {there}",),
        helps=(
            "correct the name or a date, or write down the missing move; what was named is"
            " computed with meanwhile",
        ),
    )
