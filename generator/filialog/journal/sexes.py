"""Which sexes a group can hold, as far as it was recorded."""

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

    females: bool
    """False where the record rules females out."""
    males: bool
    """False where the record rules males out."""
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
                found[name] = _sexes(event.place, females, males, whole=event.count())
    for name, page in journal.groups.items():
        if page.sex is not None and name in names.groups:
            found[name] = Sexes(
                females=page.sex != "male",
                males=page.sex != "female",
                female_count=None,
                male_count=None,
                place=page.places.get("sex", page.place),
            )
    return found


_SAYS_SEX = frozenset({"present", "bought", "sorted", "sexed", "chosen", "joined", "moved"})


def _sexes(
    place: Place, females: Count | None, males: Count | None, *, whole: Count | None
) -> Sexes:
    """Read a record: what is not written is ruled out only where the other sex is all there is."""
    all_female = males is None and females is not None and _covers(females, whole)
    all_male = females is None and males is not None and _covers(males, whole)
    return Sexes(
        females=not (all_male or (females is not None and females.high == 0)),
        males=not (all_female or (males is not None and males.high == 0)),
        female_count=females,
        male_count=males,
        place=place,
    )


def _covers(part: Count, whole: Count | None) -> bool:
    return whole is None or (whole.exact is not None and part.exact == whole.exact)
