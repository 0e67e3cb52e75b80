"""In how many ways counts by look can have come about: animals of a family, kind by kind."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from math import comb, factorial, prod
from typing import NamedTuple

from filialog.genetics.trait_model import Genotype

__all__ = ["Atom", "Cell", "Histories", "Kind", "Norm", "Part", "State", "TooManyError"]


class TooManyError(Exception):
    """There are more ways than can be listed."""


class Kind(NamedTuple):
    """What is known of an animal: its origin, and what was seen of it."""

    base: str
    """The brood or founder pool it comes from."""
    looks: frozenset[str] | None = None
    """It shows one of these looks; None: nothing was seen."""
    genotypes: frozenset[Genotype] | None = None
    """It has one of these genotypes; None: nothing is declared."""

    def seen(self, looks: frozenset[str] | None) -> "Kind | None":
        """Return the kind of such an animal that shows one of the looks; None: there is none."""
        if looks is None:
            return self
        both = looks if self.looks is None else self.looks & looks
        return self._replace(looks=both) if both else None

    def declared(self, genotypes: frozenset[Genotype]) -> "Kind":
        """Return the kind of such an animal that has one of the genotypes."""
        both = genotypes if self.genotypes is None else self.genotypes & genotypes
        return self._replace(genotypes=both)


class Atom(NamedTuple):
    """Animals that cannot be told apart: of one kind, and members of the same pools."""

    kind: Kind
    pools: frozenset[str]


class Cell(NamedTuple):
    """A class of a count."""

    looks: frozenset[str] | None
    """None: nothing was seen of them."""
    number: int
    pool: str = ""
    """Where animals go that are drawn from a pool of unknown size."""


class Part(NamedTuple):
    """A kind in a pool of unknown size, and its share there."""

    given: Kind
    """The kind whose share `weight` is."""
    kind: Kind
    """That of the members: perhaps sorted since."""
    weight: Fraction


class Norm(NamedTuple):
    """The chance of a draw from a pool of unknown size, which counts must be divided by."""

    terms: tuple[tuple[Kind, Kind, Fraction], ...]
    """(given, kind, weight): together weight · P(kind) / P(given)."""
    power: int


State = tuple[tuple[Atom, int], ...]


@dataclass(slots=True, kw_only=True)
class Histories:
    """The numbers of animals of each atom that evidence leaves possible."""

    most: int
    """States that are kept; more raise `TooManyError`."""
    states: dict[State, Fraction] = field(default_factory=lambda: {(): Fraction(1)})
    """Each with its weight, to be multiplied by P(kind)^count for every atom."""
    norms: list[Norm] = field(default_factory=list)

    def appear(self, atoms: Iterable[tuple[Atom, int]]) -> None:
        """Add animals from nowhere."""
        new = tuple(atoms)
        self._set((_plus(state, new), weight) for state, weight in self.states.items())

    def drawn(self, cells: Sequence[Cell], parts: Sequence[Part], *, complete: bool) -> None:
        """Add animals counted by look that were drawn from a pool of unknown size.

        Where the count is not complete (animals of other looks may have been left behind)
        it is the probability among those that could be drawn.
        """
        total = sum(cell.number for cell in cells)
        found: list[tuple[list[tuple[Atom, int]], Fraction]] = [([], Fraction(factorial(total)))]
        for cell in cells:
            kinds = [(part, part.kind.seen(cell.looks)) for part in parts]
            fits = [(part, kind) for part, kind in kinds if kind is not None]
            found = [
                (
                    [
                        *atoms,
                        *(
                            (Atom(kind, frozenset({cell.pool})), n)
                            for (_, kind), n in zip(fits, counts, strict=True)
                        ),
                    ],
                    weight
                    * prod(
                        part.weight**n * Fraction(1, factorial(n))
                        for (part, _), n in zip(fits, counts, strict=True)
                    ),
                )
                for atoms, weight in found
                for counts in _splits(cell.number, [cell.number] * len(fits))
            ]
        self._set(
            (_plus(state, atoms), weight * more)
            for state, weight in self.states.items()
            for atoms, more in found
        )
        if total and not complete:
            terms = [
                (part.given, kind, part.weight)
                for cell in cells
                for part in parts
                if (kind := part.kind.seen(cell.looks)) is not None
            ]
            self.norms.append(Norm(tuple(terms), total))

    def counted(self, pool: str, cells: Sequence[Cell], *, without: frozenset[str]) -> None:
        """Sort animals of a pool by look; those that are in none of `without` count."""
        self._set(
            (new, weight * more)
            for state, weight in self.states.items()
            for new, more in self._counted(state, pool, cells, without)
        )

    def _counted(
        self, state: State, pool: str, cells: Sequence[Cell], without: frozenset[str]
    ) -> Iterator[tuple[State, Fraction]]:
        atoms = [(a, n) for a, n in state if pool in a.pools and not a.pools & without]
        ways: list[tuple[tuple[int, ...], list[tuple[Atom, int]], Fraction]] = [
            (tuple(n for _, n in atoms), [], Fraction(1))
        ]
        for cell in cells:
            grown = []
            for left, placed, weight in ways:
                kinds = [atom.kind.seen(cell.looks) for atom, _ in atoms]
                room = [n if kind is not None else 0 for n, kind in zip(left, kinds, strict=True)]
                for counts in _splits(cell.number, room):
                    more = prod(map(comb, left, counts))
                    new = [
                        (Atom(kind, atom.pools), n)
                        for (atom, _), kind, n in zip(atoms, kinds, counts, strict=True)
                        if kind is not None
                    ]
                    rest = tuple(n - taken for n, taken in zip(left, counts, strict=True))
                    grown.append((rest, [*placed, *new], weight * more))
            if len(grown) * len(self.states) > 50 * self.most:
                raise TooManyError
            ways = grown
        total, counted = sum(n for _, n in atoms), sum(cell.number for cell in cells)
        samples = comb(total, counted)
        outside = [(a, n) for a, n in state if not (pool in a.pools and not a.pools & without)]
        for left, placed, weight in ways:
            others = [(atom, n) for (atom, _), n in zip(atoms, left, strict=True)]
            yield _plus((), [*outside, *placed, *others]), weight / samples

    def taken(
        self,
        pool: str,
        into: str,
        count: int,
        looks: frozenset[str] | None,
        without: frozenset[str],
    ) -> None:
        """Move animals of a pool into another; those already seen to fit go first."""
        self._set(
            (new, weight * more)
            for state, weight in self.states.items()
            for new, more in self._taken(state, (pool, into), count, looks, without)
        )

    def _taken(
        self,
        state: State,
        way: tuple[str, str],
        count: int,
        looks: frozenset[str] | None,
        without: frozenset[str],
    ) -> Iterator[tuple[State, Fraction]]:
        pool, into = way
        inside = [(a, n) for a, n in state if pool in a.pools and not a.pools & without]
        if looks is not None:
            known = [
                (a, n) for a, n in inside if a.kind.looks is not None and a.kind.looks <= looks
            ]
            if sum(n for _, n in known) >= count:
                inside = known
            else:
                inside = [(a, n) for a, n in inside if a.kind.seen(looks) is not None]
        total = sum(n for _, n in inside)
        if total < count:
            return
        chosen = {atom for atom, _ in inside}
        outside = [(atom, n) for atom, n in state if atom not in chosen]
        for counts in _splits(count, [n for _, n in inside]):
            weight = Fraction(prod(map(comb, (n for _, n in inside), counts)), comb(total, count))
            moved = []
            for (atom, n), going in zip(inside, counts, strict=True):
                kind = atom.kind.seen(looks)
                assert kind is not None
                moved += [(Atom(kind, atom.pools | {into}), going), (atom, n - going)]
            yield _plus((), [*outside, *moved]), weight

    def joined(
        self, parts: Iterable[str], into: str, without: Mapping[str, frozenset[str]]
    ) -> None:
        """Make what is left in some pools a pool."""
        names = tuple(parts)

        def moved(atom: Atom) -> Atom:
            here = any(p in atom.pools and not atom.pools & without[p] for p in names)
            return Atom(atom.kind, atom.pools | {into}) if here else atom

        self._set(
            (_plus((), [(moved(atom), n) for atom, n in state]), weight)
            for state, weight in self.states.items()
        )

    def all_are(
        self, pool: str, looks: frozenset[str] | None, genotypes: frozenset[Genotype] | None
    ) -> None:
        """Let all animals of a pool show one of some looks, or have one of some genotypes."""

        def seen(atom: Atom) -> Atom | None:
            kind = atom.kind.seen(looks)
            if kind is not None and genotypes is not None:
                kind = kind.declared(genotypes)
            return None if kind is None else Atom(kind, atom.pools)

        found = []
        for state, weight in self.states.items():
            new = [(seen(a) if pool in a.pools else a, n) for a, n in state]
            kept = [(atom, n) for atom, n in new if atom is not None]
            if len(kept) == len(new):
                found.append((_plus((), kept), weight))
        self._set(found)

    def _set(self, states: Iterable[tuple[State, Fraction]]) -> None:
        together: dict[State, Fraction] = defaultdict(Fraction)
        for state, weight in states:
            together[state] += weight
            if len(together) > self.most:
                raise TooManyError
        self.states = dict(together)


def _plus(state: State, atoms: Iterable[tuple[Atom, int]]) -> State:
    together: dict[Atom, int] = defaultdict(int)
    for atom, count in (*state, *atoms):
        together[atom] += count
    return tuple(sorted(((a, n) for a, n in together.items() if n), key=_order))


def _order(item: tuple[Atom, int]) -> tuple[object, ...]:
    atom = item[0]
    kind = atom.kind
    return (
        kind.base,
        sorted(kind.looks or ()),
        kind.looks is None,
        sorted(kind.genotypes or ()),
        kind.genotypes is None,
        sorted(atom.pools),
    )


def _splits(count: int, room: Sequence[int]) -> Iterator[tuple[int, ...]]:
    """Return the ways to place a count in some places, each with room for so many."""
    if not room:
        if count == 0:
            yield ()
        return
    after = sum(room[1:])
    for here in range(max(0, count - after), min(room[0], count) + 1):
        for rest in _splits(count - here, room[1:]):
            yield (here, *rest)
