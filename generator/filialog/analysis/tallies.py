"""Tallies: what was counted, and which count of a brood enters its table."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from filialog.analysis.looks import MODEL
from filialog.analysis.nodes import NodeKind, Reader
from filialog.analysis.parentage import BROOD
from filialog.analysis.rows import TallyRow
from filialog.analysis.sources import EVENTS_OF_GROUP
from filialog.genetics import TraitModel, looks_of_model
from filialog.journal.events import Event, EventId, Other
from filialog.journal.ledger.compare import is_total, number_counted
from filialog.journal.quantities import Count

__all__ = ["CLASSIFIED", "TALLIES", "Classified", "classes_of_tally"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Classified:
    """The young of a brood put to classes, each animal once."""

    classes: tuple[tuple[str, tuple[str, ...]], ...]
    """Class and the looks it joins; together all looks of the model."""
    counts: tuple[int, ...]
    """Animals by class."""
    unsorted: int
    unexplained: tuple[Other, ...]
    """Animals that no look of the model fits."""
    events: tuple[EventId, ...]
    """The tally, and cullings before it."""


def classes_of_tally(
    looks: tuple[str, ...], model: TraitModel
) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Return the classes a tally uses: its coarser ones, and every look they leave over."""
    own = looks_of_model(model)
    coarse = [one for one in model.coarse if one.name in looks and one.name not in own]
    covered = {look for one in coarse for look in one.looks}
    classes = [(one.name, one.looks) for one in coarse]
    classes.extend((look, (look,)) for look in own if look not in covered)
    order = {look: number for number, look in enumerate(own)}
    return tuple(sorted(classes, key=lambda one: order.get(one[1][0], 0)))


def _model(reader: Reader, group: str) -> TraitModel | None:
    name = reader.get(MODEL, group)
    if name is None:
        return None
    return reader.journal(f"trait model {name}").journal.traits[name].model


def _counted(reader: Reader, group: str) -> tuple[Event, ...]:
    return tuple(
        event
        for event in reader.get(EVENTS_OF_GROUP, group)
        if event.kind_name == "counted" and group in (event.text("brood"), event.text("group"))
    )


def _used(reader: Reader, group: str) -> EventId | None:
    """Choose the tally of a brood that enters its table.

    The one marked, else the most complete (most animals put to a look, fewest left unsorted,
    a total rather than a `so many at least`), else the earliest: repeated counts of the same
    young are not independent, so only one may speak.
    """
    candidates = [event for event in _counted(reader, group) if not _why_not(reader, event, group)]
    if not candidates:
        return None
    best = min(
        candidates,
        key=lambda event: (
            not event.flag("use"),
            -sum(line.count.low for line in event.look_counts()),
            unsorted.low if (unsorted := event.count("unsorted")) is not None else 0,
            not is_total(event),
            event.when.earliest,
            event.id,
        ),
    )
    return best.id


def _why_not(reader: Reader, event: Event, group: str) -> str | None:
    if event.values.get("use") is False:
        return "kept-out"
    if event.withheld:
        return "claimed"
    if not event.look_counts():
        return "no-looks"
    if _model(reader, group) is None:
        return "no-model"
    if any(line.count.exact is None for line in event.look_counts()):
        return "not-exact"
    return None if reader.get(BROOD, group) is not None else "not-a-brood"


def _tallies(reader: Reader, group: str) -> tuple[TallyRow, ...]:
    model = _model(reader, group)
    used = _used(reader, group)
    brood = reader.get(BROOD, group)
    rows = []
    for event in _counted(reader, group):
        number = number_counted(event)
        if number is None:
            continue
        why_not = None
        if event.id != used:
            why_not = _why_not(reader, event, group) or "another-tally"
        days = None
        if brood is not None:
            days = (
                max(0, (event.when.earliest - brood.when.latest).days),
                max(0, (event.when.latest - brood.when.earliest).days),
            )
        rows.append(
            TallyRow(
                event=event.id,
                when=event.when,
                group=group,
                tank=event.tank,
                how=event.text("how"),
                total=is_total(event),
                age=event.age(),
                age_days_computed=days,
                looks=_looks(event, model),
                other=event.others(),
                unsorted=event.count("unsorted"),
                number=number,
                used=event.id == used,
                why_not_used=why_not,
            )
        )
    return tuple(rows)


TALLIES: NodeKind[tuple[TallyRow, ...]] = NodeKind("tallies", _tallies)
"""Counts of a group, by day."""


def _looks(event: Event, model: TraitModel | None) -> tuple[tuple[str, Count], ...]:
    """Return a tally's looks in the model's order; a look left out was seen 0 times."""
    written = {line.look: line.count for line in event.look_counts()}
    if not written:
        return ()
    if model is None:
        return tuple(written.items())
    rows = [
        (name, written.pop(name, Count.of(0)))
        for name, _ in classes_of_tally(tuple(written), model)
    ]
    return (*rows, *written.items())


def _classified(reader: Reader, brood: str) -> Classified | None:
    model = _model(reader, brood)
    used = _used(reader, brood)
    tally = next((event for event in _counted(reader, brood) if event.id == used), None)
    taken = tuple(_taken_out(reader, brood, tally))
    if model is None or (tally is None and not _sorted_whole(reader, brood, taken)):
        return None
    counts: dict[str, int] = {}
    number_unsorted = 0
    others: tuple[Other, ...] = ()
    if tally is not None:
        counts = {line.look: line.count.low for line in tally.look_counts()}
        unsorted = tally.count("unsorted")
        number_unsorted = unsorted.low if unsorted is not None else 0
        others = tally.others()
    for _, look, count in taken:
        if look is None:
            number_unsorted += count.low
        else:
            counts[look] = counts.get(look, 0) + count.low
    classes = classes_of_tally(tuple(counts), model)
    known = {name for name, _ in classes}
    strange = (
        Other(count=Count.of(number), note=look)
        for look, number in counts.items()
        if look not in known and number
    )
    events = [tally.id] if tally is not None else []
    return Classified(
        classes=classes,
        counts=tuple(counts.get(name, 0) for name, _ in classes),
        unsorted=number_unsorted,
        unexplained=(*others, *strange),
        events=tuple(dict.fromkeys((*events, *(event.id for event, _, _ in taken)))),
    )


CLASSIFIED: NodeKind[Classified | None] = NodeKind("classified", _classified)
"""The young of a brood by class, from the tally that is used; None where there is none."""


def _taken_out(
    reader: Reader, brood: str, tally: Event | None
) -> Iterator[tuple[Event, str | None, Count]]:
    """Give young that were culled, or sorted out by look, before the count.

    They were of the brood too; left out they would bend the shares. Without a count, all.
    """
    for event in reader.get(EVENTS_OF_GROUP, brood):
        if tally is not None and event.when.latest >= tally.when.earliest:
            continue
        if event.kind_name == "culled" and event.text("group") == brood:
            look, count = event.look(), event.count()
            if count is not None:
                yield event, look.whole if look is not None else None, count
        elif event.kind_name == "sorted" and not event.withheld and _source(event) == brood:
            for one in event.sortings():
                if one.look is not None and one.look.whole is not None and one.count is not None:
                    yield event, one.look.whole, one.count


def _source(event: Event) -> str | None:
    return event.text("from") or event.text("group")


def _sorted_whole(
    reader: Reader, brood: str, taken: Sequence[tuple[Event, str | None, Count]]
) -> bool:
    """Say whether a brood was sorted by look until none was left: then the sorting is its count.

    Where some were left over, only the looks that were wanted were counted.
    """
    book = reader.journal(f"book of {brood}").book
    postings = book.postings.get(brood, ())
    sorts = [event.id for event, _, _ in taken if event.kind_name == "sorted"]
    return (
        reader.get(BROOD, brood) is not None
        and bool(sorts)
        and all(count.exact is not None for _, _, count in taken)
        and all(
            posting.other_group is None or posting.event in sorts
            for posting in postings
            if not posting.gained
        )
        and book.count(postings[-1].after).exact == 0
    )
