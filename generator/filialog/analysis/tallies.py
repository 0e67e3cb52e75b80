"""Tallies: what was counted, and which count of a brood enters its table."""

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
    model = _model(reader, group)
    candidates = [event for event in _counted(reader, group) if _why_not(event, model) is None]
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


def _why_not(event: Event, model: TraitModel | None) -> str | None:
    if event.values.get("use") is False:
        return "kept-out"
    if not event.look_counts():
        return "no-looks"
    if model is None:
        return "no-model"
    if any(line.count.exact is None for line in event.look_counts()):
        return "not-exact"
    return None


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
            why_not = _why_not(event, model) or "another-tally"
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
    if model is None or used is None:
        return None
    events = {event.id: event for event in _counted(reader, brood)}
    tally = events[used]
    counts = {line.look: line.count.low for line in tally.look_counts()}
    unsorted = tally.count("unsorted")
    number_unsorted = unsorted.low if unsorted is not None else 0
    rests_on = [tally.id]
    # Young culled before the count were of the brood too; left out they would bend the shares.
    for event in reader.get(EVENTS_OF_GROUP, brood):
        if event.kind_name != "culled" or event.when.latest >= tally.when.earliest:
            continue
        culled = event.count()
        if event.text("group") != brood or culled is None:
            continue
        look = event.look()
        if look is not None and look.whole is not None:
            counts[look.whole] = counts.get(look.whole, 0) + culled.low
        else:
            number_unsorted += culled.low
        rests_on.append(event.id)
    classes = classes_of_tally(tuple(counts), model)
    known = {name for name, _ in classes}
    unexplained = [
        *tally.others(),
        *(
            Other(count=Count.of(number), note=look)
            for look, number in counts.items()
            if look not in known and number
        ),
    ]
    return Classified(
        classes=classes,
        counts=tuple(counts.get(name, 0) for name, _ in classes),
        unsorted=number_unsorted,
        unexplained=tuple(unexplained),
        events=tuple(rests_on),
    )


CLASSIFIED: NodeKind[Classified | None] = NodeKind("classified", _classified)
"""The young of a brood by class, from the tally that is used; None where there is none."""
