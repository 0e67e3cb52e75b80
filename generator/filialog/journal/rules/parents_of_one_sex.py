"""A single animal is of one sex: in what is recorded of it, and as a parent."""

from collections.abc import Iterator

from filialog.findings import Finding
from filialog.findings.finding import Mark
from filialog.journal.events import Event
from filialog.journal.ledger import Book
from filialog.journal.quantities import Count
from filialog.journal.rules.context import Context

__all__ = ["check"]


def check(context: Context) -> Iterator[Finding]:
    """Report single animals that are of both sexes by the journal's own words (P105)."""
    yield from _as_parents(context)
    yield from _as_recorded(context)


def _as_parents(context: Context) -> Iterator[Finding]:
    roles: dict[str, dict[str, tuple[str, Event]]] = {}
    for brood, named in context.parents.items():
        for side, groups in (("dams", named.dams), ("sires", named.sires)):
            if len(groups) == 1 and not named.hatched.withheld:
                where = next((one for one in named.events if one.has(side)), named.hatched)
                roles.setdefault(groups[0], {}).setdefault(side, (brood, where))
    for group, found in roles.items():
        if len(found) < 2 or not is_one_animal(context.book, group) or _may_be_both(context, group):
            continue
        (dam_of, as_dam), (sire_of, as_sire) = found["dams"], found["sires"]
        if not (
            context.parentage.can_be(group, "dams", context.parents[dam_of].hatched)
            and context.parentage.can_be(group, "sires", context.parents[sire_of].hatched)
        ):
            continue  # told of as a parent of the wrong sex
        yield Finding(
            code="P105",
            place=as_sire.place_of("sires"),
            message=f"`{group}` is one animal, and named as dam of `{dam_of}` and as sire of"
            f" `{sire_of}`",
            label="named as sire here",
            related=(Mark(place=as_dam.place_of("dams"), says=f"named as dam of `{dam_of}` here"),),
            helps=("correct one of the names, or give two animals names of their own",),
        )


def _as_recorded(context: Context) -> Iterator[Finding]:
    """Compare records of one animal; a later `sexed` puts an earlier one right."""
    told: dict[str, tuple[str, Event]] = {}
    reported: set[str] = set()
    events = context.journal.events()
    for event in sorted(events, key=lambda event: (event.when.latest, event.id)):
        for group, sex in _sexes_said(event):
            if group not in context.names.groups or event.withheld:
                continue
            before = told.get(group)
            told[group] = (sex, event)
            if before is None or before[0] == sex or event.kind_name == "sexed":
                continue
            if group in reported or _may_be_both(context, group):
                continue
            if not is_one_animal(context.book, group):
                continue
            reported.add(group)
            yield Finding(
                code="P105",
                place=event.place,
                message=f"`{group}` is one animal, and recorded as {before[0]} and as {sex}",
                label=f"recorded as {sex} here",
                related=(
                    Mark(
                        place=before[1].place,
                        says=f"recorded as {before[0]} here, on {before[1].when.text}",
                    ),
                ),
                helps=(
                    "correct one of the two; where the sex was seen better later, write"
                    f" `sexed: {{group: {group}, {sex}s: 1}}` on that day",
                ),
            )


def _sexes_said(event: Event) -> Iterator[tuple[str, str]]:
    """Give the groups that an event says are of one sex, as far as it is about all of them."""
    females, males = event.count("females"), event.count("males")
    if event.kind_name == "sorted":
        for one in event.sortings():
            if (sex := _one_sex(one.females, one.males)) is not None:
                yield one.group, sex
        return
    sex = _one_sex(females, males)
    if sex is None:
        return
    key = {"chosen": "into", "moved": "as", "joined": "into"}.get(event.kind_name)
    group = event.text(key) if key is not None else None
    group = group or event.text("group")
    if group is not None and event.kind_name != "hatched":
        yield group, sex


def _one_sex(females: Count | None, males: Count | None) -> str | None:
    """Name the one sex that some animals are said to be of."""
    number_of_females = 0 if females is None else females.low
    number_of_males = 0 if males is None else males.low
    if (number_of_females > 0) == (number_of_males > 0):
        return None
    return "female" if number_of_females else "male"


def _may_be_both(context: Context, group: str) -> bool:
    """Say whether an animal is recorded as of both sexes, or as one of two halves."""
    page = context.journal.groups.get(group)
    if page is not None and page.sex == "both":
        return True
    looks = [
        look
        for origin in context.names.origins.get(group, ())
        for look in (
            origin.event.look(),
            *(one.look for one in origin.event.sortings() if one.group == group),
        )
    ]
    return any(look is not None and look.left is not None for look in looks)


def is_one_animal(book: Book, group: str) -> bool:
    """Say whether a group never was more than one animal."""
    numbers = [book.count(posting.after).high for posting in book.postings.get(group, ())]
    ever = [number for number in numbers if number != 0]
    return bool(ever) and all(number == 1 for number in ever)
