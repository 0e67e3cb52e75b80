"""The parents of a brood were there, and of an age to breed, when it was conceived."""

from collections.abc import Iterator
from datetime import date, timedelta

from filialog.findings import Finding
from filialog.findings.finding import Mark
from filialog.journal.births import first_births
from filialog.journal.events import Event
from filialog.journal.parents import NamedParents
from filialog.journal.rules.context import Context

__all__ = ["check", "in_loop", "too_young"]


def check(context: Context) -> Iterator[Finding]:
    """Report broods hatched before a named parent can have been adult (P102)."""
    for named, side, groups, birth in too_young(context):
        yield _finding(
            context,
            named,
            side=side,
            groups=groups,
            birth=birth,
            least_days=_least_days(context),
        )


def too_young(
    context: Context,
) -> Iterator[tuple[NamedParents, str, tuple[str, ...], tuple[date, Event]]]:
    """Give the broods whose named parents of a side were all too young, with the first birth."""
    births = first_births(context.names, context.descent)
    least = timedelta(days=_least_days(context))
    for named in context.parents.values():
        for side, groups in (("dams", named.dams), ("sires", named.sires)):
            known = [births[group] for group in groups if births.get(group) is not None]
            if not groups or len(known) != len(groups):
                continue
            if in_loop(context, named, groups):
                continue  # told of as a loop
            birth = min((one for one in known if one is not None), key=lambda one: one[0])
            if named.hatched.when.latest < birth[0] + least:
                yield named, side, groups, birth


def in_loop(context: Context, named: NamedParents, groups: tuple[str, ...]) -> bool:
    """Say whether a brood and one of its parents are in a loop of descent."""
    loops = ({step.source for step in loop} for loop in context.descent.impossible)
    return any(named.brood in loop and loop.intersection(groups) for loop in loops)


def _least_days(context: Context) -> int:
    species = context.journal.species
    if species is None:
        return 0
    return species.earliest_maturity_days + species.incubation_low_days


def _finding(
    context: Context,
    named: NamedParents,
    *,
    side: str,
    groups: tuple[str, ...],
    birth: tuple[date, Event],
    least_days: int,
) -> Finding:
    days = (named.hatched.when.latest - birth[0]).days
    species = context.journal.species
    notes = (
        (
            f"{species.name} is {species.earliest_maturity_days} days old when it can first breed,"
            f" and its eggs take {species.incubation_low_days} days or more",
        )
        if species is not None
        else ()
    )
    where = named.events[-1] if named.events[-1].has(side) else named.hatched
    return Finding(
        code="P102",
        place=where.place_of(side),
        message=f"brood `{named.brood}` hatched before its {side}"
        f" {' or '.join(f'`{group}`' for group in groups)} can have been adult",
        label=(
            f"{days} days old at the hatching, at least {least_days} needed"
            if days >= 0
            else f"they hatched {-days} days after the brood"
        ),
        related=(
            *(
                (Mark(place=named.hatched.place, says=f"`{named.brood}` hatched here"),)
                if where is not named.hatched
                else ()
            ),
            Mark(
                place=birth[1].place,
                says=f"the first of these {side} can have hatched here, on {birth[1].when.text}",
            ),
        ),
        notes=notes,
        helps=("correct one of the dates, or the name of the parents",),
    )
