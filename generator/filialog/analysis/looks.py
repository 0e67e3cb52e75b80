"""Which trait model speaks of a group, and the genotypes its members can have."""

from dataclasses import dataclass
from fractions import Fraction

from filialog.analysis.nodes import NodeKind, Reader
from filialog.analysis.parentage import BROOD
from filialog.analysis.pedigrees import FOUNDER_SHARES, SOURCES, look_of_group
from filialog.analysis.rows import Assumption, Level, ParentSet
from filialog.analysis.sources import EVENTS_OF_GROUP, ORIGINS
from filialog.domain_error import DomainError
from filialog.genetics import (
    ContradictionError,
    GenotypeLaw,
    TraitModel,
    condition_on_genotypes,
    condition_on_look,
    cross,
    looks_in_class,
    looks_of_model,
    mixture,
    parse_genotype,
    pool_law,
)
from filialog.journal.events import EventId

__all__ = ["LAW", "MODEL", "Law", "parents_law"]


def _model(reader: Reader, group: str) -> str | None:
    """Name the trait model of a group: by its line, by the looks counted, or the only one."""
    journal = reader.journal(f"trait model of {group}").journal
    own = [name for name, page in sorted(journal.traits.items()) if not page.shipped]
    founders = {row.founder for row in reader.get(FOUNDER_SHARES, group)}
    by_line = {
        line.traits
        for line in journal.lines.values()
        if line.traits in journal.traits and founders & set(line.founders)
    } - {None}
    if len(by_line) == 1:
        return by_line.pop()
    counted = {
        line.look for event in reader.get(EVENTS_OF_GROUP, group) for line in event.look_counts()
    }
    candidates = sorted(name for name in (by_line or journal.traits) if name is not None)
    for name in candidates:
        model = journal.traits[name].model
        looks = {*looks_of_model(model), *(coarse.name for coarse in model.coarse)}
        if counted and counted <= looks:
            return name
    return own[0] if len(own) == 1 else None


MODEL: NodeKind[str | None] = NodeKind("trait-model", _model)
"""Name of the trait model that speaks of a group; None where none does."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Law:
    """What genotypes a member of a group can have, and what that rests on."""

    law: GenotypeLaw | None
    """None where the evidence contradicts itself, or a parent's does."""
    level: Level
    assumptions: tuple[Assumption, ...]
    contradiction: tuple[EventId, ...] = ()
    """The events that cannot all be right."""


_UNKNOWN = (Assumption.FOUNDER_UNKNOWN,)


def _law(reader: Reader, subject: str) -> Law:
    model_name, _, group = subject.partition("/")
    model = reader.journal(f"trait model {model_name}").journal.traits[model_name].model
    found = _before_look(reader, model_name, model, group)
    if found.law is None:
        return found
    return _conditioned(reader, found, model, group)


LAW: NodeKind[Law] = NodeKind("genotypes", _law)
"""Genotypes of a member of a group, subject `model/group`."""


def _before_look(reader: Reader, model_name: str, model: TraitModel, group: str) -> Law:
    """Return what descent alone says."""
    row = reader.get(BROOD, group)
    if row is not None:
        dam = parents_law(reader, model_name, row.dams)
        sire = parents_law(reader, model_name, row.sires)
        assumptions = _united(dam.assumptions, sire.assumptions)
        if dam.law is None or sire.law is None:
            return Law(
                law=None,
                level=Level.INFERRED,
                assumptions=assumptions,
                contradiction=dam.contradiction or sire.contradiction,
            )
        try:
            young = cross(dam.law, sire.law, model).young
        except ContradictionError:
            return Law(
                law=None,
                level=Level.INFERRED,
                assumptions=assumptions,
                contradiction=(row.event,),
            )
        return Law(law=young, level=Level.INFERRED, assumptions=assumptions)
    sources = reader.get(SOURCES, group)
    if sources:
        laws = [(weight, reader.get(LAW, f"{model_name}/{name}")) for name, weight in sources]
        assumptions = _united(*(law.assumptions for _, law in laws), (Assumption.BLIND_SPLIT,))
        parts = [(weight, law.law) for weight, law in laws if law.law is not None]
        if len(parts) < len(laws):
            broken = next(law for _, law in laws if law.law is None)
            return Law(
                law=None,
                level=Level.INFERRED,
                assumptions=assumptions,
                contradiction=broken.contradiction,
            )
        return Law(law=mixture(parts), level=Level.INFERRED, assumptions=assumptions)
    return Law(law=pool_law(model), level=Level.INFERRED, assumptions=_UNKNOWN)


def _conditioned(reader: Reader, before: Law, model: TraitModel, group: str) -> Law:
    """Narrow a law by the look the group was sorted or bought as, and by a genotype claimed."""
    law, level, assumptions = before.law, before.level, before.assumptions
    assert law is not None
    origins = reader.get(ORIGINS, group)
    events = tuple(origin.event.id for origin in origins)
    look = look_of_group(reader, group)
    page = reader.journal(f"page of {group}").journal.groups.get(group)
    whole = (look.whole if look is not None else None) or (page.look if page else None)
    founder = assumptions == _UNKNOWN
    try:
        if whole is not None and (looks := _looks_meant(whole, model)):
            law = condition_on_look(law, model, looks)
            # Sorting by look is the very opposite of a blind split.
            assumptions = (
                (Assumption.FOUNDER_LOOK_ONLY,)
                if founder
                else tuple(one for one in assumptions if one is not Assumption.BLIND_SPLIT)
            )
        claimed = _genotype_claimed(reader, group)
        if claimed is not None:
            try:
                genotypes = parse_genotype(claimed, model)
            except DomainError:
                genotypes = ()
            if genotypes:
                law = condition_on_genotypes(law, genotypes)
                level = Level.CLAIMED
                assumptions = (
                    (Assumption.FOUNDER_GENOTYPE_CLAIMED,)
                    if founder
                    else _united(assumptions, (Assumption.FOUNDER_GENOTYPE_CLAIMED,))
                )
    except ContradictionError:
        return Law(law=None, level=level, assumptions=assumptions, contradiction=events)
    return Law(law=law, level=level, assumptions=assumptions)


def _looks_meant(name: str, model: TraitModel) -> tuple[str, ...]:
    """Return the looks a name stands for; none where the model does not know it."""
    try:
        return looks_in_class(name, model)
    except DomainError:
        return ()


def _genotype_claimed(reader: Reader, group: str) -> str | None:
    page = reader.journal(f"page of {group}").journal.groups.get(group)
    if page is not None and page.genotype is not None:
        return page.genotype
    for origin in reader.get(ORIGINS, group):
        if (text := origin.event.text("genotype")) is not None:
            return text
    return None


def parents_law(reader: Reader, model_name: str, parents: ParentSet) -> Law:
    """Return what one parent, drawn from a set, can be."""
    model = reader.journal(f"trait model {model_name}").journal.traits[model_name].model
    if not parents.groups:
        return Law(law=pool_law(model), level=Level.INFERRED, assumptions=_UNKNOWN)
    laws = [reader.get(LAW, f"{model_name}/{group}") for group in parents.groups]
    assumptions = _united(*(law.assumptions for law in laws))
    if len(laws) > 1:
        assumptions = _united(assumptions, (Assumption.PARENTS_EQUALLY_LIKELY,))
    known = [law.law for law in laws if law.law is not None]
    if len(known) < len(laws):
        broken = next(law for law in laws if law.law is None)
        return Law(
            law=None,
            level=Level.INFERRED,
            assumptions=assumptions,
            contradiction=broken.contradiction,
        )
    weight = Fraction(1, len(known))
    return Law(
        law=mixture([(weight, law) for law in known]),
        level=Level.INFERRED,
        assumptions=assumptions,
    )


def _united(*sets: tuple[Assumption, ...]) -> tuple[Assumption, ...]:
    return tuple(dict.fromkeys(one for found in sets for one in found))
