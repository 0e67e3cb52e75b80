"""What the journal says of hidden carriers: pools of animals, and the evidence about them.

Groups that descend from each other, or share an ancestor, are a kindred, but no further than
animals that have one and the same genotype by descent: what is seen on one side of them tells
nothing of the other side. Evidence of one kindred cannot contradict that of another.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction

from filialog.analysis.composition import COMPOSITION, Component, Composition, Way
from filialog.analysis.looks import MODEL, PRIOR_LAW, genotypes_meant, looks_meant
from filialog.analysis.nodes import NodeKind, Reader
from filialog.analysis.parentage import BROOD
from filialog.analysis.pedigrees import PEDIGREE
from filialog.analysis.sources import EVENTS, ORIGINS
from filialog.analysis.tallies import CLASSIFIED
from filialog.genetics import (
    ContradictionError,
    Genotype,
    GenotypeLaw,
    ShownBy,
    TraitModel,
    condition_on_genotypes,
    condition_on_look,
    pool_law,
)
from filialog.genetics.carriers import (
    BroodOf,
    CarrierPool,
    Declared,
    Evidence,
    FounderPool,
    FrequencyPoint,
    JoinedOf,
    Parents,
    PoolShare,
    SeenLook,
    TakenFrom,
    TallyEvidence,
)
from filialog.journal.events import EventId
from filialog.lineage import Brood
from filialog.lineage import Pool as LineagePool

__all__ = ["CARRIER_RECORD", "KINDREDS", "CarrierRecord", "Piece", "PieceKind"]


class PieceKind(StrEnum):
    """What a piece of evidence is."""

    TALLY = "tally"
    LOOK = "look"
    GENOTYPE = "genotype"
    SORT = "sort"
    DESCENT = "descent"
    """All that is recorded behind a group leaves one genotype only."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """What a label stands for."""

    kind: PieceKind
    group: str
    """The group that was counted, seen, claimed or sorted out."""
    events: tuple[EventId, ...]
    """Where it is written; none for what stands on the page of a group only."""
    counts: tuple[tuple[str, int], ...] = ()
    """Looks seen in a tally, each with its count above 0."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CarrierRecord:
    """The pools and the evidence of one kindred under one model."""

    pools: tuple[CarrierPool, ...]
    evidence: tuple[Evidence, ...]
    cut: bool
    """Whether it is a part of a larger kindred, from which only laws by descent are taken."""
    pieces: Mapping[str, Piece]
    """By label of evidence, and by name of a pool that was sorted by look."""


_MOST_GROUPS = 120
"""Groups of a kindred; a larger one is cut in the order of days, to bound the work."""


# --- kindreds -------------------------------------------------------------------------------


def _kindreds(reader: Reader, model_name: str) -> Mapping[str, tuple[str, ...]]:
    groups = tuple(reader.journal("all groups").names.origins)
    links: dict[str, list[str]] = {group: [] for group in groups}
    for group in groups:
        for other in reader.get(COMPOSITION, group).behind:
            if not reader.get(PRIOR_LAW, f"{model_name}/{other}").certain:
                links[group].append(other)
                links[other].append(group)
    found: dict[str, tuple[str, ...]] = {}
    place = {group: number for number, group in enumerate(groups)}
    for first in groups:
        if first in found:
            continue
        seen = {first}
        stack = [first]
        while stack:
            new = [one for one in links[stack.pop()] if one not in seen]
            seen.update(new)
            stack.extend(new)
        kindred = tuple(sorted(seen, key=place.__getitem__)) if len(seen) > 1 else (first,)
        for start in range(0, len(kindred), _MOST_GROUPS):
            near = kindred[start : start + _MOST_GROUPS]
            found.update(dict.fromkeys(near, near))
    return found


KINDREDS: NodeKind[Mapping[str, tuple[str, ...]]] = NodeKind("kindreds", _kindreds)
"""The kindred of every group, itself among them, subject `model`; its first names it."""


# --- pools and evidence ---------------------------------------------------------------------


def _carrier_record(reader: Reader, subject: str) -> CarrierRecord:
    model_name, _, first = subject.partition("/")
    model = reader.journal(f"trait model {model_name}").journal.traits[model_name].model
    kindred = reader.get(KINDREDS, model_name)[first]
    maker = _Maker(reader, model_name, model, frozenset(kindred))
    for group in kindred:
        maker.group(group)
    return CarrierRecord(
        pools=tuple(_singles_once(maker.pools)),
        evidence=tuple(maker.evidence),
        cut=maker.cut,
        pieces=maker.pieces,
    )


CARRIER_RECORD: NodeKind[CarrierRecord] = NodeKind("carrier-record", _carrier_record)
"""Pools and evidence of a kindred, subject `model/first group of the kindred`."""


class _Maker:
    """Gathers the pools and the evidence of groups."""

    def __init__(
        self, reader: Reader, model_name: str, model: TraitModel, kindred: frozenset[str]
    ) -> None:
        self.reader, self.model_name, self.model = reader, model_name, model
        self.pools: list[CarrierPool] = []
        self.evidence: list[Evidence] = []
        self.pieces: dict[str, Piece] = {}
        self.kindred = kindred
        self.known: set[str] = set()
        self.cut = False
        self.days = reader.get(_DAYS)

    def group(self, group: str) -> None:
        """Add a group: one pool, or a pool for each way in which animals came into it."""
        composition = self.reader.get(COMPOSITION, group)
        drawn = self.reader.get(PEDIGREE).pool(group)
        if len(composition.components) == 1:
            self._component(group, group, composition, composition.components[0], drawn)
            self._tally(group, group)
            return
        parts = []
        for number, component in enumerate(composition.components, start=1):
            name = f"{group}, part {number}"
            self._component(name, group, composition, component, None)
            parts.append(PoolShare(pool=name, share=component.share))
            if component.way is Way.HATCHED:
                self._tally(name, group)
        sizes = {pool.name: pool.size for pool in self.pools}
        numbers = [sizes[part.pool] for part in parts]
        known = [number for number in numbers if number is not None]
        if len(known) == len(parts):
            # Of single animals all is known: one of them, not another like it, is drawn.
            parts = [PoolShare(pool=part.pool) for part in parts]
        size = sum(known) if len(known) == len(parts) else None
        self.pools.append(CarrierPool(name=group, origin=JoinedOf(parts=tuple(parts)), size=size))

    def _component(
        self,
        name: str,
        group: str,
        composition: Composition,
        component: Component,
        drawn: LineagePool | None,
    ) -> None:
        """Add the pool of what came in one way; its numbers are known if it is all there is."""
        size = drawn.size if drawn is not None else None
        page = self.reader.journal(f"page of {group}").journal.groups.get(group)
        look = component.look or (page.look if page is not None else None)
        if look is not None and not looks_meant(look, self.model):
            look = None
        seen = look
        claim = (page.genotype if page is not None else None) or component.genotype
        meant = genotypes_meant(claim, self.model) if claim is not None else ()
        part = drawn is None
        origin: FounderPool | BroodOf | TakenFrom
        if component.way is Way.FOUNDED:
            law = pool_law(self.model)
            if part:
                # A part must count by its share, not by how probable its look and claim are.
                law = self._founded(look, meant) or law
                seen, meant = None, ()
            origin = FounderPool(points=(FrequencyPoint(weight=Fraction(1), law=law),))
        elif component.source is None:
            origin = self._brood(group, composition)
            counted = self.reader.get(CLASSIFIED, group)
            if counted is not None and sum(counted.counts) + counted.unsorted > 1:
                size = None
        elif look is not None:
            # How many of that look were left is not known: a sort by look takes some of them.
            taken = f"{name}, as sorted"
            self.pools.append(
                CarrierPool(
                    name=taken,
                    origin=TakenFrom(pool=self._source(component.source, part=part), look=look),
                )
            )
            self.pieces[taken] = Piece(
                kind=PieceKind.SORT, group=group, events=self._sorting(component)
            )
            origin, seen = TakenFrom(pool=taken), None
        else:
            origin = TakenFrom(pool=self._source(component.source, part=part))
            if self._is_single(component.source):
                size = 1
        self.pools.append(CarrierPool(name=name, origin=origin, size=1 if size == 1 else None))
        if seen is not None:
            label = self._label(PieceKind.LOOK, name, group, component.events)
            self.evidence.append(SeenLook(label=label, pool=name, look=seen))
        if meant:
            label = self._label(PieceKind.GENOTYPE, name, group, component.events)
            self.evidence.append(Declared(label=label, pool=name, genotypes=meant))

    def _brood(self, group: str, composition: Composition) -> BroodOf:
        row = self.reader.get(BROOD, group)
        mating = Parents(row.mating) if row is not None else Parents.ONE
        own = self.reader.get(PEDIGREE).pool(group).origin
        cloud = Parents(own.cloud.value) if isinstance(own, Brood) else Parents.ONE
        return BroodOf(
            dams=self._shares(composition.dams, cloud),
            sires=self._shares(composition.sires, mating),
            mating=mating,
            cloud=cloud,
        )

    def _shares(self, groups: tuple[str, ...], number: Parents) -> tuple[PoolShare, ...]:
        """Return a parent set: one parent is of each group alike; shares of several are open."""
        share = Fraction(1, len(groups)) if groups and number is not Parents.SEVERAL else None
        return tuple(PoolShare(pool=self._source(group), share=share) for group in groups)

    def _founded(self, look: str | None, genotypes: tuple[Genotype, ...]) -> GenotypeLaw | None:
        """Return the law of founders of a look and a claim; None where they exclude each other."""
        law = pool_law(self.model)
        try:
            if look is not None and self.model.shown_by is not ShownBy.DAM:
                law = condition_on_look(law, self.model, looks_meant(look, self.model))
            return condition_on_genotypes(law, genotypes) if genotypes else law
        except ContradictionError:
            return None

    def _is_single(self, group: str) -> bool:
        return self.reader.get(PEDIGREE).pool(group).size == 1

    def _source(self, group: str, *, part: bool = False) -> str:
        """Return the pool of a group behind; one of its own where the kindred ends there."""
        law = self.reader.get(PRIOR_LAW, f"{self.model_name}/{group}")
        if not law.certain and group in self.kindred:
            return group
        name = f"{group}, part known" if part else f"{group}, known"
        if name not in self.known:
            self.known.add(name)
            by_descent = None if law.certain and not part else law.law
            point = FrequencyPoint(weight=Fraction(1), law=by_descent or pool_law(self.model))
            self.pools.append(
                CarrierPool(
                    name=name,
                    origin=FounderPool(points=(point,)),
                    size=1 if self._is_single(group) else None,
                )
            )
            if not law.certain or law.law is None or part:
                self.cut = self.cut or not law.certain
                return name
            made = tuple(origin.event.id for origin in self.reader.get(ORIGINS, group))
            label = self._label(PieceKind.DESCENT, name, group, made)
            genotypes = tuple(law.law.genotypes())
            self.evidence.append(Declared(label=label, pool=name, genotypes=genotypes))
        return name

    def _sorting(self, component: Component) -> tuple[EventId, ...]:
        """Return the sort, and what brought about the group it was sorted from."""
        made = self.reader.get(ORIGINS, component.source) if component.source is not None else ()
        return tuple(dict.fromkeys((*(one.event.id for one in made), *component.events)))

    def _tally(self, name: str, group: str) -> None:
        """Add the count of a brood by look, in which each of its young stands once."""
        if self.reader.get(MODEL, group) != self.model_name:
            return
        seen = self.reader.get(CLASSIFIED, group)
        if seen is None or not any(seen.counts):
            return
        counts = tuple(
            (label, number) for (label, _), number in zip(seen.classes, seen.counts, strict=True)
        )
        shown = tuple((look, number) for look, number in counts if number)
        label = self._label(PieceKind.TALLY, name, group, seen.events, counts=shown)
        self.evidence.append(
            TallyEvidence(label=label, pool=name, looks=counts, unsorted=seen.unsorted)
        )

    def _label(
        self,
        kind: PieceKind,
        name: str,
        group: str,
        events: tuple[EventId, ...],
        counts: tuple[tuple[str, int], ...] = (),
    ) -> str:
        """Label a piece of evidence so that labels stand in the order of days."""
        day = max((self.days[event] for event in events if event in self.days), default="")
        if kind is PieceKind.DESCENT:
            day = ""  # it is where all begins
        label = f"{day} {kind} {name}"
        self.pieces[label] = Piece(kind=kind, group=group, events=events, counts=counts)
        return label


def _days(reader: Reader, _: str) -> Mapping[EventId, str]:
    return {event.id: event.when.latest.isoformat() for event in reader.get(EVENTS)}


_DAYS: NodeKind[Mapping[EventId, str]] = NodeKind("days-of-events", _days)


def _singles_once(pools: list[CarrierPool]) -> Iterator[CarrierPool]:
    """Let one animal be taken once: a group of one that gave several is no single animal."""
    taken: dict[str, int] = {}
    for pool in pools:
        if isinstance(pool.origin, TakenFrom):
            taken[pool.origin.pool] = taken.get(pool.origin.pool, 0) + 1
    for pool in pools:
        several = pool.size == 1 and taken.get(pool.name, 0) > 1
        yield replace(pool, size=None) if several else pool
