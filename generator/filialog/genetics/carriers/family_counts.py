"""Goes through the pools of one family: their sizes, kinds, and what counts leave possible."""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from filialog.genetics.carriers.drawings import DrawnFrom
from filialog.genetics.carriers.evidence import Declared, Evidence, SeenLook, TallyEvidence
from filialog.genetics.carriers.histories import Atom, Cell, Histories, Kind, Norm, Part
from filialog.genetics.carriers.pools import (
    BroodOf,
    CarrierPool,
    FounderPool,
    JoinedOf,
    TakenFrom,
)
from filialog.genetics.trait_model import TraitModel, looks_in_class, looks_of_model

__all__ = ["MOST_STATES", "AtLeast", "FamilyCounts"]

MOST_STATES = 4_000
"""Ways in which counts and draws can have come about that are gone through one by one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AtLeast:
    """So many animals of a kind, of a number, were seen to be of another kind."""

    given: Kind
    kind: Kind
    number: int | None
    """None: not known; then it says only that there can be some."""
    least: int


class FamilyCounts:
    """Goes through the pools of one family."""

    def __init__(
        self,
        pools: Mapping[str, CarrierPool],
        names: Sequence[str],
        evidence: Sequence[Evidence],
        sorted_pools: frozenset[str],
        model: TraitModel,
        *,
        loose: bool = False,
    ) -> None:
        self.loose = loose
        """Joined pools are taken as large: how counts fall on their parts is not listed."""
        self.pools = pools
        self.names = names
        self.model = model
        self.all_looks = frozenset(looks_of_model(model))
        self.sorted_pools = sorted_pools
        self.tallies: dict[str, list[TallyEvidence]] = defaultdict(list)
        self.marks: dict[str, list[SeenLook | Declared]] = defaultdict(list)
        for piece in evidence:
            if isinstance(piece, TallyEvidence):
                self.tallies[piece.pool].append(piece)
            else:
                self.marks[piece.pool].append(piece)
        self.children: dict[str, list[CarrierPool]] = defaultdict(list)
        for name in names:
            origin = pools[name].origin
            if isinstance(origin, TakenFrom):
                self.children[origin.pool].append(pools[name])
        self.size: dict[str, int | None] = {}
        self.parts: dict[str, tuple[Part, ...]] = {}
        self.histories = Histories(most=MOST_STATES)
        self.at_least: list[AtLeast] = []
        for name in names:
            self._pool(pools[name])

    def _looks(self, child: CarrierPool) -> frozenset[str] | None:
        origin = child.origin
        if not isinstance(origin, TakenFrom) or origin.look is None:
            return None
        if child.name not in self.sorted_pools:
            return None
        return frozenset(looks_in_class(origin.look, self.model))

    def _taken(self, name: str) -> frozenset[str]:
        return frozenset(child.name for child in self.children[name])

    def _pool(self, pool: CarrierPool) -> None:
        name = pool.name
        match pool.origin:
            case FounderPool() | BroodOf():
                kind = Kind(name)
                self.size[name] = pool.size
                self.parts[name] = (Part(kind, kind, Fraction(1)),)
                if pool.size is not None:
                    self.histories.appear([(Atom(kind, frozenset({name})), pool.size)])
            case TakenFrom():
                self._take(pool)
            case JoinedOf():
                self._join(pool, pool.origin)
        for mark in self.marks[name]:
            self._mark(name, mark)
        for tally in self.tallies[name]:
            self._tally(name, tally)
        self._sort_children(name)

    def _mark(self, name: str, mark: SeenLook | Declared) -> None:
        looks = genotypes = None
        if isinstance(mark, SeenLook):
            looks = frozenset(looks_in_class(mark.look, self.model))
        else:
            genotypes = frozenset(mark.genotypes)
        if self.size[name] is not None:
            self.histories.all_are(name, looks, genotypes)
        parts = []
        for part in self.parts[name]:
            kind = part.kind.seen(looks)
            if kind is not None:
                kind = kind if genotypes is None else kind.declared(genotypes)
                parts.append(Part(part.given, kind, part.weight))
        if self.size[name] is None and len(parts) == 1:
            self.at_least.append(
                AtLeast(given=parts[0].given, kind=parts[0].kind, number=None, least=1)
            )
        if not parts:
            self.histories.states = {}
        else:
            self.parts[name] = tuple(parts)

    def _tally(self, name: str, tally: TallyEvidence) -> None:
        cells = [
            Cell(frozenset(looks_in_class(look, self.model)), count, name)
            for look, count in tally.looks
        ]
        if self.size[name] is not None:
            self.histories.counted(name, cells, without=frozenset())
        else:
            self._drawn(cells, name, complete=True)

    def _drawn(self, cells: Sequence[Cell], name: str, *, complete: bool) -> None:
        """Add animals from a pool of unknown size; in a mixed one perhaps only their chance."""
        parts = self.parts[name]
        if not self.loose or len(parts) == 1:
            self.histories.drawn(cells, parts, complete=complete)
            return
        for cell in cells:
            terms = tuple(
                (part.given, kind, part.weight)
                for part in parts
                if (kind := part.kind.seen(cell.looks)) is not None
            )
            if cell.number and complete:
                self.histories.norms.append(Norm(terms, -cell.number))

    def _uncovered(self, name: str) -> list[Cell]:
        """Return what was sorted out of a pool with a count that no tally of it holds."""
        return [
            Cell(looks, child.size, child.name)
            for child in self.children[name]
            if child.size is not None
            and (looks := self._looks(child)) is not None
            and not (self.tallies[name] and self._tallied(name, child, looks))
        ]

    def _sort_children(self, name: str) -> None:
        """Let what was sorted out of a pool that no tally covers be its tally."""
        cells = self._uncovered(name)
        shown = frozenset(look for cell in cells for look in cell.looks or ())
        if cells and self.size[name] is None:
            self._drawn(cells, name, complete=shown == self.all_looks)
        elif cells:
            # Blind parts are split off first: they are not among what was sorted.
            blind = [child for child in self.children[name] if self._looks(child) is None]
            for child in blind:
                if child.size is not None:
                    self._move(child, None)
            rest = (self.size[name] or 0) - sum(child.size or 0 for child in blind)
            rest -= sum(cell.number for cell in cells)
            if all(child.size is not None for child in self.children[name]) and rest > 0:
                cells.append(Cell(self.all_looks - shown or self.all_looks, rest))
            self.histories.counted(name, cells, without=frozenset(child.name for child in blind))
        if not self.tallies[name]:
            self._at_least_some(name)

    def _at_least_some(self, name: str) -> None:
        """Note that what was sorted out of a pool, in no known number, was there."""
        by_look = [
            (child, looks)
            for child in self.children[name]
            if (looks := self._looks(child)) is not None
        ]
        for child, looks in by_look:
            if child.size is None and len(self.parts[name]) == 1:
                part = self.parts[name][0]
                kind = part.kind.seen(looks)
                origin = child.origin
                if kind is not None and isinstance(origin, TakenFrom):
                    number = self.size[name]
                    self.at_least.append(
                        AtLeast(given=part.kind, kind=kind, number=number, least=origin.least)
                    )

    def _move(self, child: CarrierPool, looks: frozenset[str] | None) -> None:
        origin = child.origin
        assert isinstance(origin, TakenFrom)
        assert child.size is not None
        without = self._taken(origin.pool)
        self.histories.taken(origin.pool, child.name, child.size, looks, without)

    def _take(self, child: CarrierPool) -> None:
        origin = child.origin
        assert isinstance(origin, TakenFrom)
        source, looks = origin.pool, self._looks(child)
        parts = [
            Part(part.given, kind, part.weight)
            for part in self.parts[source]
            if (kind := part.kind.seen(looks)) is not None
        ]
        if not parts:
            self.histories.states = {}
            parts = list(self.parts[source])
        if len(parts) == 1:
            parts = [Part(parts[0].kind, parts[0].kind, Fraction(1))]
        self.parts[child.name] = tuple(parts)
        mixed = self.loose and len(self.parts[source]) > 1
        self.size[child.name] = None if mixed else child.size
        if child.size is None or mixed:
            return
        if self.size[source] is not None:
            moved_before = looks is None and bool(self._uncovered(source))
            if not moved_before:
                self._move(child, looks)
        elif looks is None or (self.tallies[source] and not self._tallied(source, child, looks)):
            cell = Cell(looks, child.size, child.name)
            self._drawn([cell], source, complete=looks is None)
        elif self.tallies[source]:
            self._move(child, looks)

    def _tallied(self, source: str, child: CarrierPool, looks: frozenset[str]) -> bool:
        """Say whether the tally of a pool of unknown size holds enough animals of the looks."""
        there = sum(
            count
            for tally in self.tallies[source]
            for look, count in tally.looks
            if frozenset(looks_in_class(look, self.model)) <= looks
        )
        before = 0
        for other in self.children[source]:
            of_other = self._looks(other)
            if other.size is not None and of_other is not None and of_other & looks:
                before += other.size
            if other.name == child.name:
                break
        return before <= there

    def _join(self, pool: CarrierPool, origin: JoinedOf) -> None:
        sizes = [self._left(part.pool) for part in origin.parts]
        declared = [part.share for part in origin.parts if part.share is not None]
        known = [size for size in sizes if size is not None]
        if len(known) == len(sizes) and not declared and not self.loose:
            self.size[pool.name] = sum(known)
            without = {part.pool: self._taken(part.pool) for part in origin.parts}
            self.histories.joined([part.pool for part in origin.parts], pool.name, without)
            weights = [Fraction(max(size, 0), max(sum(known), 1)) for size in known]
        else:
            self.size[pool.name] = None
            weights = declared or [Fraction(1, len(sizes))] * len(sizes)
            if len(known) == len(sizes) and not declared:
                weights = [Fraction(max(size, 0), max(sum(known), 1)) for size in known]
        together: dict[tuple[Kind, Kind], Fraction] = defaultdict(Fraction)
        for weight, part in zip(weights, origin.parts, strict=True):
            for inner in self.parts[part.pool]:
                together[inner.given, inner.kind] += weight * inner.weight
        self.parts[pool.name] = tuple(
            Part(given, kind, weight) for (given, kind), weight in together.items() if weight
        )

    def _left(self, name: str) -> int | None:
        size = self.size[name]
        if size is None or any(child.size is None for child in self.children[name]):
            return None
        return size - sum(child.size or 0 for child in self.children[name])

    def drawn_from(self) -> dict[str, DrawnFrom]:
        """Return what draws need of each pool."""
        found = {}
        for name in self.names:
            pool = self.pools[name]
            of_role = {"dam": pool.females, "sire": pool.males}
            found[name] = DrawnFrom(
                size=self.size[name],
                of_role={role: n for role, n in of_role.items() if n is not None},
                parts=self.parts[name],
            )
        return found
