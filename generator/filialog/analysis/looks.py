"""Which trait model speaks of a group, and the genotypes its members can have by descent."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from filialog.analysis.composition import (
    COMPOSITION,
    Component,
    Composition,
    Way,
    look_of_group,
)
from filialog.analysis.nodes import NodeKind, Reader
from filialog.analysis.pedigrees import LINES_OF_GROUP, PEDIGREE
from filialog.analysis.rows import Assumption, Level
from filialog.analysis.sources import EVENTS_OF_GROUP, ORIGINS
from filialog.domain_error import DomainError
from filialog.genetics import (
    ContradictionError,
    Genotype,
    GenotypeLaw,
    Sex,
    ShownBy,
    TraitModel,
    as_parent,
    condition_on_genotypes,
    condition_on_look,
    cross,
    law_of,
    looks_in_class,
    looks_of_model,
    mixture,
    parse_genotype,
    pool_law,
)
from filialog.journal.events import EventId

__all__ = [
    "MODEL",
    "PRIOR_LAW",
    "Law",
    "genotypes_meant",
    "looks_meant",
    "parents_law",
    "united",
]


# --- which model ----------------------------------------------------------------------------


def _model(reader: Reader, group: str) -> str | None:
    """Name the trait model of a group: by its line, by the looks recorded, or the only one.

    Where several models know the looks, none is taken: nothing is guessed silently.
    """
    journal = reader.journal(f"trait model of {group}").journal
    lines = (journal.lines[line] for line in reader.get(LINES_OF_GROUP, group))
    by_line = {line.traits for line in lines if line.traits in journal.traits} - {None}
    if len(by_line) == 1:
        return by_line.pop()
    own = [name for name, page in sorted(journal.traits.items()) if not page.shipped]
    shipped = [name for name, page in sorted(journal.traits.items()) if page.shipped]
    looks = {
        line.look for event in reader.get(EVENTS_OF_GROUP, group) for line in event.look_counts()
    }
    seen = look_of_group(reader, group)
    if seen is not None and seen.whole is not None:
        looks.add(seen.whole)
    known = reader.get(_LOOKS_BY_MODEL)
    for candidates in [sorted(filter(None, by_line))] if by_line else [own, shipped]:
        fitting = [name for name in candidates if looks and looks <= known[name]]
        if fitting:
            return fitting[0] if len(fitting) == 1 else None
    return own[0] if len(own) == 1 else None


MODEL: NodeKind[str | None] = NodeKind("trait-model", _model)
"""Name of the trait model that speaks of a group; None where none does."""


def _looks_by_model(reader: Reader, _: str) -> Mapping[str, frozenset[str]]:
    return {
        name: frozenset(looks_of_model(page.model)) | {one.name for one in page.model.coarse}
        for name, page in reader.journal("trait models").journal.traits.items()
    }


_LOOKS_BY_MODEL: NodeKind[Mapping[str, frozenset[str]]] = NodeKind(
    "looks-by-model", _looks_by_model
)


# --- what is known of genotypes -------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class Law:
    """What genotypes a member of a group can have, and what that rests on."""

    law: GenotypeLaw | None
    """None where the evidence contradicts itself, or a parent's does."""
    level: Level = Level.INFERRED
    assumptions: tuple[Assumption, ...] = ()
    contradiction: tuple[EventId, ...] = ()
    """The events that cannot all be right."""

    @property
    def certain(self) -> bool:
        """True where every member has the same genotype."""
        return self.law is not None and len(self.law.probabilities) == 1


def _law(reader: Reader, subject: str) -> Law:
    model_name, _, group = subject.partition("/")
    composition = reader.get(COMPOSITION, group)
    parts = [
        (one.share, _component_law(reader, model_name, group, composition, one))
        for one in composition.components
    ]
    found = _mixed(parts)
    more = []
    if not composition.numbers_known:
        more.append(Assumption.PARTS_ALIKE)
    if composition.returned:
        more.append(Assumption.RETURNED_LEFT_OUT)
    if not found.certain and reader.get(PEDIGREE).pool(group).size == 1:
        more.append(Assumption.ONE_BY_ONE)
    return replace(found, assumptions=united(found.assumptions, tuple(more)))


PRIOR_LAW: NodeKind[Law] = NodeKind("genotypes-by-descent", _law)
"""Genotypes of a member of a group by its parents, looks and claims as recorded, before any
count of young; subject `model/group`."""


def parents_law(
    reader: Reader,
    model_name: str,
    groups: Sequence[str],
    sex: Sex,
    *,
    by: NodeKind[Law] | None = None,
) -> Law:
    """Return what one parent, a dam or a sire drawn from a set, can be; by default by descent."""
    model = reader.journal(f"trait model {model_name}").journal.traits[model_name].model
    if not groups:
        any_animal = as_parent(pool_law(model), model, sex)
        return Law(law=any_animal, assumptions=(Assumption.FOUNDER_UNKNOWN,))
    share = Fraction(1, len(groups))
    kind = PRIOR_LAW if by is None else by
    found = _mixed([(share, reader.get(kind, f"{model_name}/{group}")) for group in groups])
    if len(groups) > 1:
        found = replace(
            found, assumptions=united(found.assumptions, (Assumption.PARENTS_EQUALLY_LIKELY,))
        )
    law = as_parent(found.law, model, sex) if found.law is not None else None
    return replace(found, law=law, level=Level.INFERRED)


def _component_law(
    reader: Reader, model_name: str, group: str, composition: Composition, component: Component
) -> Law:
    """Return what animals that came in one way can be: by descent, look and claim."""
    model = reader.journal(f"trait model {model_name}").journal.traits[model_name].model
    page = reader.journal(f"page of {group}").journal.groups.get(group)
    look = component.look or (page.look if page is not None else None)
    looks = looks_meant(look, model) if look is not None else ()
    of_dam: tuple[str, ...] = ()
    if model.shown_by is ShownBy.DAM:
        # The look of a brood speaks of its dam; sorting by it tells nothing of the young.
        looks, of_dam = (), looks
    claim = (page.genotype if page is not None else None) or component.genotype
    claimed = genotypes_meant(claim, model) if claim is not None else ()
    if component.way is Way.FOUNDED:
        before = Law(law=pool_law(model))
        if claimed:
            assumptions: tuple[Assumption, ...] = ()
        else:
            assumptions = (Assumption.FOUNDER_LOOK_ONLY if looks else Assumption.FOUNDER_UNKNOWN,)
    elif component.source is not None:
        before = reader.get(PRIOR_LAW, f"{model_name}/{component.source}")
        # Sorting by look is the very opposite of a blind split.
        assumptions = () if looks else (Assumption.BLIND_SPLIT,)
    else:
        before = _brood_law(reader, model_name, composition, component, of_dam)
        assumptions = ()
    if claimed:
        assumptions = (*assumptions, Assumption.FOUNDER_GENOTYPE_CLAIMED)
    found = Law(
        law=before.law,
        level=Level.CLAIMED if claimed else Level.INFERRED,
        assumptions=united(before.assumptions, assumptions),
        contradiction=before.contradiction,
    )
    if found.law is None:
        return found
    try:
        law = condition_on_look(found.law, model, looks) if looks else found.law
        law = condition_on_genotypes(law, claimed) if claimed else law
    except ContradictionError:
        made = reader.get(ORIGINS, component.source) if component.source is not None else ()
        events = dict.fromkeys((*(origin.event.id for origin in made), *component.events))
        return replace(found, law=None, contradiction=tuple(events))
    if component.way is Way.FOUNDED and _either_phase(law):
        found = replace(found, assumptions=united(found.assumptions, (Assumption.EITHER_PHASE,)))
    return replace(found, law=_to_grid(law))


def _either_phase(law: GenotypeLaw) -> bool:
    """Say whether genotypes are possible that differ in their phase only."""
    seen = {tuple(tuple(sorted(pair)) for pair in genotype) for genotype in law.genotypes()}
    return len(seen) < len(law.probabilities)


def _brood_law(
    reader: Reader,
    model_name: str,
    composition: Composition,
    component: Component,
    looks_of_dam: tuple[str, ...],
) -> Law:
    model = reader.journal(f"trait model {model_name}").journal.traits[model_name].model
    dam = parents_law(reader, model_name, composition.dams, Sex.FEMALE)
    sire = parents_law(reader, model_name, composition.sires, Sex.MALE)
    assumptions = united(dam.assumptions, sire.assumptions)
    if not (dam.certain and sire.certain):
        # Brood mates share their parents, so each of them tells something of the others.
        assumptions = united(assumptions, (Assumption.ONE_BY_ONE,))
    contradiction = dam.contradiction or sire.contradiction
    law = None
    if dam.law is not None and sire.law is not None:
        try:
            of_dam = dam.law
            if looks_of_dam:
                of_dam = condition_on_look(of_dam, model, looks_of_dam)
            law = cross(of_dam, sire.law, model).young
        except ContradictionError:
            contradiction = component.events
    return Law(law=law, assumptions=assumptions, contradiction=contradiction)


def _mixed(parts: Sequence[tuple[Fraction, Law]]) -> Law:
    """Return the law of one animal drawn from several by their shares."""
    laws = [law for _, law in parts]
    known = [(share, one.law) for share, one in parts if one.law is not None]
    return Law(
        law=mixture(known) if len(known) == len(parts) else None,
        level=Level.CLAIMED if all(one.level is Level.CLAIMED for one in laws) else Level.INFERRED,
        assumptions=united(*(one.assumptions for one in laws)),
        contradiction=next((one.contradiction for one in laws if one.law is None), ()),
    )


def looks_meant(name: str, model: TraitModel) -> tuple[str, ...]:
    """Return the looks a name stands for; none where the model does not know it."""
    try:
        return looks_in_class(name, model)
    except DomainError:
        return ()


def genotypes_meant(text: str, model: TraitModel) -> tuple[Genotype, ...]:
    """Return the genotypes a claim stands for; none where the model cannot read it."""
    try:
        return tuple(parse_genotype(text, model))
    except DomainError:
        return ()


_GRID = 2**192
"""Probabilities are kept exact up to this denominator. Beyond it they are rounded, which changes
them by less than any float can hold: over many generations of two loci the digits of an exact
fraction double with every generation."""


def _to_grid(law: GenotypeLaw) -> GenotypeLaw:
    if all(share.denominator <= _GRID for _, share in law.probabilities):
        return law
    cells = {genotype: max(1, round(share * _GRID)) for genotype, share in law.probabilities}
    largest = max(cells, key=lambda genotype: cells[genotype])
    cells[largest] += _GRID - sum(cells.values())
    return law_of({genotype: Fraction(number, _GRID) for genotype, number in cells.items()})


def united(*sets: tuple[Assumption, ...]) -> tuple[Assumption, ...]:
    """Return what several results take for granted, each once."""
    return tuple(dict.fromkeys(one for found in sets for one in found))
