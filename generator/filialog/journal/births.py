"""The first day on which each group's animals can have hatched."""

from collections.abc import Mapping
from datetime import date

from filialog.journal.descent import Descent
from filialog.journal.events import Event
from filialog.journal.names import Names

__all__ = ["first_births"]


def first_births(names: Names, descent: Descent) -> Mapping[str, tuple[date, Event] | None]:
    """Return the first possible hatching of each group's animals, and the event that says so.

    None where not all of them hatched here: bought and opening stock has an unknown age.
    """
    births: dict[str, tuple[date, Event] | None] = {}
    for group in descent.order:
        found: list[tuple[date, Event] | None] = []
        for origin in names.origins[group]:
            if origin.event.kind_name == "hatched":
                found.append((origin.event.when.earliest, origin.event))
            elif origin.sources:
                found.extend(births.get(source) for source in origin.sources)
            else:
                found.append(None)
        known = [one for one in found if one is not None]
        births[group] = (
            min(known, key=lambda one: one[0]) if known and len(known) == len(found) else None
        )
    return births
