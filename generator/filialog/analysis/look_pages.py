"""Looks: which genotypes show each, who shows it, how often it was seen; what no model knows."""

from collections.abc import Iterator, Mapping

from filialog.analysis.carriers import law_of_group
from filialog.analysis.composition import look_of_group
from filialog.analysis.looks import MODEL
from filialog.analysis.nodes import NodeKind, Reader
from filialog.analysis.parentage import BROODS_OF_CROSS, CROSSES
from filialog.analysis.rows import LookRow, LookSeenIn, UnexplainedRow
from filialog.analysis.sources import EVENTS
from filialog.analysis.tables import BROOD_TABLE
from filialog.analysis.tallies import CLASSIFIED
from filialog.genetics import (
    TraitModel,
    format_genotype,
    living_genotypes,
    look_chances,
    looks_of_model,
    sure_look,
)
from filialog.journal.events import Event, EventId, LookSeen
from filialog.journal.kinds import Books
from filialog.journal.quantities import Count
from filialog.statistics import wilson_interval

__all__ = ["LOOK", "LOOKS", "UNEXPLAINED"]

_SOME = Count(low=1, high=None, text="some")
_BRINGS_IN = frozenset({Books.APPEARS, Books.MOVES})


def _models(reader: Reader, _: str) -> Mapping[str, TraitModel]:
    """Return the trait models in use: the keeper's own, and shipped ones that speak of a group."""
    checked = reader.journal("trait models")
    used = {reader.get(MODEL, group) for group in checked.names.origins}
    used |= {page.traits for page in checked.journal.lines.values()}
    return {
        name: page.model
        for name, page in sorted(checked.journal.traits.items())
        if not page.shipped or name in used
    }


_MODELS: NodeKind[Mapping[str, TraitModel]] = NodeKind("models-in-use", _models)


def _looks(reader: Reader, _: str) -> tuple[str, ...]:
    found = dict.fromkeys(
        look for model in reader.get(_MODELS).values() for look in looks_of_model(model)
    )
    return tuple(found)


LOOKS: NodeKind[tuple[str, ...]] = NodeKind("looks", _looks)
"""Names of all looks of the models in use, in the order of their rules."""


def _look(reader: Reader, look: str) -> LookRow:
    models = {
        name: model for name, model in reader.get(_MODELS).items() if look in looks_of_model(model)
    }
    shown_by, must_show = [], []
    for group in reader.journal("all groups").names.origins:
        if reader.get(MODEL, group) not in models:
            continue
        recorded = look_of_group(reader, group)
        if recorded is not None:
            if recorded.whole == look:
                shown_by.append(group)
        elif _must_show(reader, group, look):
            must_show.append(group)
    return LookRow(
        look=look,
        models=tuple(models),
        genotypes=tuple(
            (name, format_genotype(genotype, model))
            for name, model in models.items()
            for genotype in living_genotypes(model)
            if look in dict(look_chances(genotype, model))
        ),
        shown_by=tuple(shown_by),
        must_show=tuple(must_show),
        seen_in=tuple(_seen_in(reader, look, models)),
    )


LOOK: NodeKind[LookRow] = NodeKind("look", _look)
"""All that is known of a look."""


def _must_show(reader: Reader, group: str, look: str) -> bool:
    name = reader.get(MODEL, group)
    if name is None:
        return False
    model = reader.get(_MODELS)[name]
    law = law_of_group(reader, name, group).law
    return law is not None and all(sure_look(one, model) == look for one, _ in law.probabilities)


def _seen_in(reader: Reader, look: str, models: Mapping[str, TraitModel]) -> Iterator[LookSeenIn]:
    for cross in reader.get(CROSSES):
        broods: list[str] = []
        events: list[EventId] = []
        shares: list[float | None] = []
        seen = counted = 0
        for brood in reader.get(BROODS_OF_CROSS, cross):
            classified = reader.get(CLASSIFIED, brood)
            if classified is None or reader.get(MODEL, brood) not in models:
                continue
            counts = dict(zip(classified.classes, classified.counts, strict=True))
            # A coarser class that joins this look with others does not say how many showed it.
            if (look, (look,)) not in counts or not sum(classified.counts):
                continue
            broods.append(brood)
            events.extend(classified.events)
            seen += counts[look, (look,)]
            counted += sum(classified.counts)
            shares.append(_expected(reader, brood, look))
        if counted:
            interval = wilson_interval(seen=seen, counted=counted)
            yield LookSeenIn(
                cross=cross,
                broods=tuple(broods),
                seen=seen,
                counted=counted,
                interval_low=interval.low,
                interval_high=interval.high,
                expected=shares[0] if len(set(shares)) == 1 else None,
                events=tuple(events),
            )


def _expected(reader: Reader, brood: str, look: str) -> float | None:
    for name, low, high in reader.get(BROOD_TABLE, brood).expected:
        if name == look and low == high:
            return low
    return None


def _unexplained(reader: Reader, _: str) -> tuple[UnexplainedRow, ...]:
    """Collect animals whose look is in no model; what may not be shown is left out."""
    known = {
        name
        for page in reader.journal("trait models").journal.traits.values()
        for name in (*looks_of_model(page.model), *(one.name for one in page.model.coarse))
    }
    rows: list[UnexplainedRow] = []
    for event in reader.get(EVENTS):
        if not event.withheld:
            rows.extend(_others(event))
            rows.extend(_strange_counts(event, known))
            rows.extend(_strange_groups(event, known))
    return tuple(rows)


UNEXPLAINED: NodeKind[tuple[UnexplainedRow, ...]] = NodeKind("unexplained", _unexplained)
"""Animals that no trait model explains, by day."""


def _row(
    event: Event, group: str | None, count: Count | None, note: str, look: LookSeen | None
) -> UnexplainedRow:
    return UnexplainedRow(
        event=event.id,
        when=event.when,
        tank=event.tank,
        groups=() if group is None else (group,),
        count=count or _SOME,
        note=note,
        look=look,
    )


def _subject(event: Event) -> str | None:
    return event.text("brood") or event.text("group")


def _others(event: Event) -> Iterator[UnexplainedRow]:
    for other in event.others():
        yield _row(event, _subject(event), other.count, other.note, None)


def _strange_counts(event: Event, known: set[str]) -> Iterator[UnexplainedRow]:
    for line in event.look_counts():
        if line.look not in known and line.count.high != 0:
            yield _row(event, _subject(event), line.count, "", LookSeen(whole=line.look))


def _strange_groups(event: Event, known: set[str]) -> Iterator[UnexplainedRow]:
    """Give groups that begin with a half-sided animal, or with a look no model knows."""
    look = event.look()
    if look is not None and event.kind.books in _BRINGS_IN and _odd(look, known):
        group = event.text("as") or event.text("group") or event.text("from")
        yield _row(event, group, event.count(), "", look)
    for sorting in event.sortings():
        if sorting.look is not None and _odd(sorting.look, known):
            yield _row(event, sorting.group, sorting.count, "", sorting.look)


def _odd(look: LookSeen, known: set[str]) -> bool:
    return look.whole is None or look.whole not in known
