"""How many females and males were recorded of a group; who can be what is `Parentage.can_be`."""

from collections.abc import Mapping
from dataclasses import dataclass

from filialog.findings.finding import Place
from filialog.journal.names import Names
from filialog.journal.quantities import Count
from filialog.journal.records import Journal

__all__ = ["Sexes", "sexes_of"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sexes:
    """What is recorded of the sexes in a group."""

    female_count: Count | None
    male_count: Count | None
    place: Place | None
    """Where it was recorded."""


def sexes_of(journal: Journal, names: Names) -> Mapping[str, Sexes]:
    """Return the recorded sexes of each group; a later record replaces an earlier one."""
    found: dict[str, Sexes] = {}
    events = sorted(journal.events(), key=lambda event: (event.when.latest, event.id))
    for event in events:
        records: list[tuple[str, Count | None, Count | None]] = [
            (sorting.group, sorting.females, sorting.males) for sorting in event.sortings()
        ]
        group = {
            "chosen": event.text("into"),
            "joined": event.text("into"),
            "moved": event.text("as"),
            "hatched": None,
        }.get(event.kind_name, event.text("group"))
        if group is not None and event.kind_name in _SAYS_SEX and event.kind_name != "sorted":
            records.append((group, event.count("females"), event.count("males")))
        for name, females, males in records:
            if name in names.groups and (females is not None or males is not None):
                found[name] = Sexes(female_count=females, male_count=males, place=event.place)
    for name, page in journal.groups.items():
        if page.sex is not None and name in names.groups:
            found[name] = Sexes(
                female_count=None,
                male_count=None,
                place=page.places.get("sex", page.place),
            )
    return found


_SAYS_SEX = frozenset({"present", "bought", "sorted", "sexed", "chosen", "joined", "moved"})
