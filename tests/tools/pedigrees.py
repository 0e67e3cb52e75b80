"""Small pedigrees for tests, and slow, plain ways to compute what they lead to."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import prod

from hypothesis import assume
from hypothesis import strategies as st

from filialog.lineage import (
    Blend,
    Brood,
    Founder,
    Mating,
    Origin,
    Part,
    Pedigree,
    Pool,
    Share,
    equal_shares,
)

Rows = Sequence[tuple[str, str | None, str | None]]
"""One animal a row, parents first: its name, one parent, the other."""


def brood(dams: str | None, sires: str | None) -> Brood:
    """Make a brood; several candidates are separated by blanks."""
    return Brood(
        dams=equal_shares(*(dams or "").split()), sires=equal_shares(*(sires or "").split())
    )


def pedigree(
    origins: Mapping[str, Origin | str], sizes: Mapping[str, int] | None = None
) -> Pedigree:
    """Make a pedigree; a text stands for a founder of that strain."""
    return Pedigree(
        pools=tuple(
            Pool(
                name=name,
                origin=Founder(strain=origin) if isinstance(origin, str) else origin,
                size=(sizes or {}).get(name),
            )
            for name, origin in origins.items()
        )
    )


def animals(rows: Rows) -> Pedigree:
    """Make a pedigree in which each pool is one animal."""
    return pedigree(
        {name: brood(dam, sire) if dam or sire else name for name, sire, dam in rows},
        {name: 1 for name, _, _ in rows},
    )


def tabular_kinship(rows: Rows) -> dict[tuple[str, str], Fraction]:
    """Fill the table of kinships row by row (Emik & Terrill 1949), exactly."""
    table: dict[tuple[str, str], Fraction] = {}
    names: list[str] = []
    for name, *parents in rows:
        for other in names:
            mean = sum(
                (table[parent, other] for parent in parents if parent is not None), Fraction(0)
            )
            table[name, other] = table[other, name] = mean / 2
        first, second = parents
        f = Fraction(0) if first is None or second is None else table[first, second]
        table[name, name] = (1 + f) / 2
        names.append(name)
    return table


@st.composite
def animal_rows(draw: st.DrawFn) -> Rows:
    """Draw animals with any earlier animals as parents, selfing and unknown included."""
    rows: list[tuple[str, str | None, str | None]] = []
    for number in range(draw(st.integers(1, 10))):
        parent = st.sampled_from([None, *(name for name, _, _ in rows)])
        rows.append((f"a{number}", draw(parent), draw(parent)))
    return rows


_MATINGS = st.sampled_from([Mating.ONE, Mating.ONE, Mating.SEVERAL, Mating.UNKNOWN])


@st.composite
def pedigrees(draw: st.DrawFn) -> Pedigree:
    """Draw pools of every origin, sets and known sizes included."""
    origins: dict[str, Origin | str] = {"f0": draw(st.sampled_from("ABC"))}
    sizes: dict[str, int] = {}
    for number in range(1, draw(st.integers(1, 9))):
        names = list(origins)
        name = f"p{number}"
        kind = draw(st.sampled_from(["founder", "brood", "brood", "brood", "part", "blend"]))
        if kind == "founder":
            origins[name] = draw(st.sampled_from("ABC"))
        elif kind == "brood":
            origins[name] = Brood(
                dams=_shares(draw, names, least=0),
                sires=_shares(draw, names, least=0),
                mating=draw(_MATINGS),
                cloud=draw(_MATINGS),
            )
        elif kind == "part":
            origins[name] = Part(of=draw(st.sampled_from(names)))
        else:
            origins[name] = Blend(parts=_shares(draw, names, least=1))
        size = draw(st.sampled_from([None, None, 1, 2, 7]))
        if size is not None:
            sizes[name] = size
    return pedigree(origins, sizes)


def _shares(draw: st.DrawFn, names: Sequence[str], *, least: int) -> tuple[Share, ...]:
    chosen = draw(
        st.lists(st.sampled_from(names), unique=True, min_size=least, max_size=min(2, len(names)))
    )
    counts = [draw(st.integers(1, 3)) for _ in chosen]
    return tuple(
        Share(pool=name, weight=Fraction(count, sum(counts)))
        for name, count in zip(chosen, counts, strict=True)
    )


@st.composite
def enumerable_pedigrees(draw: st.DrawFn) -> Pedigree:
    """Draw pedigrees small enough for `expected_kinship`, of a kind it can follow.

    Splits and joins have no size of their own, no pool is split twice, the parts of a
    blend do not overlap and count by their sizes, and a dam set and a sire set share
    an animal only by naming the same pool. Where there can be several parents, the
    candidates of a set are all counted or all uncounted, count alike one by one, and
    the dam is no candidate for the sire.
    """
    origins: dict[str, Origin | str] = {"p0": "A", "p1": "B"}
    sizes = {
        name: size for name in origins if (size := draw(st.sampled_from([None, 1, 2]))) is not None
    }
    roots = {name: frozenset({name}) for name in origins}
    split: set[str] = set()
    broods = 0
    for number in range(2, draw(st.integers(3, 7))):
        names, name = list(origins), f"p{number}"
        kind = draw(st.sampled_from(["brood", "brood", "part", "blend"]))
        if kind == "brood" and broods < 3:
            broods += 1
            mating, cloud = draw(_MATINGS), draw(_MATINGS)
            one_couple = mating is cloud is Mating.ONE
            dams, sires = (_shares(draw, names, least=0) for _ in range(2))
            if not one_couple:
                dams, sires = (_by_number(shares, roots, sizes) for shares in (dams, sires))
            assume(
                all(
                    (dam.pool == sire.pool and one_couple) or not roots[dam.pool] & roots[sire.pool]
                    for dam in dams
                    for sire in sires
                )
            )
            origins[name] = Brood(dams=dams, sires=sires, mating=mating, cloud=cloud)
            roots[name] = frozenset({name})
            size = draw(st.sampled_from([None, 1, 2]))
            if size is not None:
                sizes[name] = size
        elif kind == "part":
            of = draw(st.sampled_from(names))
            assume(of not in split)
            split.add(of)
            origins[name] = Part(of=of)
            roots[name] = roots[of]
        else:
            simple = [other for other in names if len(roots[other]) == 1]
            one, two = draw(st.permutations(simple))[:2]
            both = _by_number(equal_shares(one, two), roots, sizes)
            origins[name] = Blend(parts=both)
            roots[name] = roots[one] | roots[two]
    return pedigree(origins, sizes)


def _by_number(
    shares: tuple[Share, ...], roots: Mapping[str, frozenset[str]], sizes: Mapping[str, int]
) -> tuple[Share, ...]:
    """Weigh pools by their numbers of animals, all of which or none must be known."""
    within = [root for share in shares for root in roots[share.pool]]
    assume(len(set(within)) == len(within))
    assume(len({root in sizes for root in within}) <= 1)
    counts = [sum(sizes.get(root, 1) for root in roots[share.pool]) for share in shares]
    return tuple(
        Share(pool=share.pool, weight=Fraction(count, sum(counts)))
        for share, count in zip(shares, counts, strict=True)
    )


@dataclass(frozen=True)
class _Animal:
    pool: int
    number: int


_Couple = tuple[_Animal, _Animal]
_World = dict[int | _Animal, _Couple]
"""The parents of a brood, or of one animal where its brood has several couples."""
_Drawn = list[tuple[Fraction, _Animal]]


def expected_kinship(
    lines: Pedigree, pool_a: str, pool_b: str, *, unknown: Mating = Mating.ONE
) -> Fraction:
    """Average the kinship of explicit animals over every way the draws can fall."""
    worlds = _Worlds(lines, unknown)
    total = Fraction(0)
    for chance, world in worlds.all():
        for weight, a, b in worlds.different(pool_a, pool_b):
            for part, whole in worlds.with_parents(world, (a, b)):
                total += chance * weight * part * _explicit_kinship(whole, a, b)
    return total


class _Worlds:
    """All outcomes of the draws of dams and sires."""

    def __init__(self, lines: Pedigree, unknown: Mating) -> None:
        self._lines = lines
        self._unknown = unknown
        self._place = {pool.name: place for place, pool in enumerate(lines.ordered)}
        self._fresh = 0

    def all(self) -> Iterator[tuple[Fraction, _World]]:
        worlds: list[tuple[Fraction, _World]] = [(Fraction(1), {})]
        for pool in self._lines.ordered:
            if isinstance(pool.origin, Brood) and not self._several(pool.origin):
                place = self._place[pool.name]
                worlds = [
                    (chance * weight, {**world, place: (dam, sire)})
                    for chance, world in worlds
                    for weight, dam, sire in self._couples(pool.origin)
                ]
                assume(len(worlds) <= 2000)
        yield from worlds

    def with_parents(
        self, world: _World, asked: tuple[_Animal, ...]
    ) -> list[tuple[Fraction, _World]]:
        """Give parents to each animal that matters and is of a brood with several couples."""
        worlds = [(Fraction(1), world)]
        for place, pool in reversed(list(enumerate(self._lines.ordered))):
            if isinstance(pool.origin, Brood) and self._several(pool.origin):
                worlds = [
                    (chance * part, {**one, **young})
                    for chance, one in worlds
                    for part, young in self._assigned(
                        pool.origin,
                        sorted(
                            {
                                animal
                                for animal in (*asked, *(a for pair in one.values() for a in pair))
                                if animal.pool == place
                            },
                            key=lambda animal: animal.number,
                        ),
                    )
                ]
                assume(len(worlds) <= 500)
        return worlds

    def _several(self, origin: Brood) -> tuple[bool, ...]:
        """Say of which sexes a brood has several parents: dams, sires; empty for none."""
        found = tuple(
            (self._unknown if one is Mating.UNKNOWN else one) is Mating.SEVERAL
            for one in (origin.cloud, origin.mating)
        )
        return found if any(found) else ()

    def _assigned(
        self, origin: Brood, young: Sequence[_Animal]
    ) -> Iterator[tuple[Fraction, _World]]:
        """Give the young parents by shares that are uniform over all ways to divide them.

        The chance of given parents in a row is the Dirichlet integral of their shares:
        (N - 1)! prod(times!) / (N - 1 + young)! for N candidates.
        """
        dams_vary, sires_vary = self._several(origin)
        fixed = [
            (w * v, dam, sire)
            for w, dam in ([(Fraction(1), None)] if dams_vary else self._parents(origin.dams))
            for v, sire in ([(Fraction(1), None)] if sires_vary else self._parents(origin.sires))
        ]
        counted = all(
            _candidate_numbers_known(self._lines, shares)
            for vary, shares in ((dams_vary, origin.dams), (sires_vary, origin.sires))
            if vary
        )
        for chance, dam, sire in fixed:
            rows: list[tuple[Fraction, tuple[_Couple, ...]]] = [(chance, ())]
            for _ in young:
                rows = [
                    (
                        total if counted else total * w * v,
                        (*row, (a, b)),
                    )
                    for total, row in rows
                    for w, a in ([(Fraction(1), dam)] if dam else self._parents(origin.dams))
                    for v, b in ([(Fraction(1), sire)] if sire else self._parents(origin.sires))
                ]
                assume(len(rows) <= 500)
            n = len(self._parents(origin.dams)) if dams_vary else 1
            n *= len(self._parents(origin.sires)) if sires_vary else 1
            for total, row in rows:
                if counted:
                    times = [row.count(couple) for couple in set(row)]
                    total *= Fraction(  # noqa: PLW2901 - the weight of this row
                        _factorial(n - 1) * prod(map(_factorial, times)),
                        _factorial(n - 1 + len(young)),
                    )
                yield total, dict(zip(young, row, strict=True))

    def _parents(self, shares: Sequence[Share]) -> _Drawn:
        return [
            (weight * w, animal)
            for pool, weight in _candidates(shares)
            for w, animal in self._draws(pool)
        ]

    def _couples(self, origin: Brood) -> Iterator[tuple[Fraction, _Animal, _Animal]]:
        for dam, dam_weight in _candidates(origin.dams):
            for sire, sire_weight in _candidates(origin.sires):
                for weight, a, b in self.different(dam, sire):
                    yield dam_weight * sire_weight * weight, a, b

    def different(
        self, pool_a: str | None, pool_b: str | None
    ) -> list[tuple[Fraction, _Animal, _Animal]]:
        """List two draws that are different animals, or the same where nothing else can be."""
        both = [(v * w, a, b) for v, a in self._draws(pool_a) for w, b in self._draws(pool_b)]
        apart = [(weight, a, b) for weight, a, b in both if a != b] or both
        total = sum(weight for weight, _, _ in apart)
        return [(weight / total, a, b) for weight, a, b in apart]

    def _draws(self, name: str | None) -> _Drawn:
        if name is None:
            return [(Fraction(1), self._new(-1))]
        pool = self._lines.pool(name)
        match pool.origin:
            case Part(of=of):
                return self._draws(of)
            case Blend(parts=parts):
                return [
                    (part.weight * w, animal)
                    for part in parts
                    for w, animal in self._draws(part.pool)
                ]
            case _:
                place = self._place[name]
                if pool.size is None:
                    return [(Fraction(1), self._new(place))]
                return [
                    (Fraction(1, pool.size), _Animal(pool=place, number=-number))
                    for number in range(1, pool.size + 1)
                ]

    def _new(self, place: int) -> _Animal:
        self._fresh += 1
        return _Animal(pool=place, number=self._fresh)


def _candidates(shares: Sequence[Share]) -> list[tuple[str | None, Fraction]]:
    return [(share.pool, share.weight) for share in shares] or [(None, Fraction(1))]


def _candidate_numbers_known(lines: Pedigree, shares: Sequence[Share]) -> bool:
    def known(name: str) -> bool:
        pool = lines.pool(name)
        match pool.origin:
            case Part(of=of):
                return known(of)
            case Blend(parts=parts):
                return all(known(part.pool) for part in parts)
            case _:
                return pool.size is not None

    return bool(shares) and all(known(share.pool) for share in shares)


def _factorial(number: int) -> int:
    return prod(range(1, number + 1))


def _explicit_kinship(world: _World, a: _Animal, b: _Animal) -> Fraction:
    if a == b:
        parents = _couple_of(world, a)
        return Fraction(1, 2) + (_explicit_kinship(world, *parents) / 2 if parents else 0)
    later, other = (a, b) if a.pool >= b.pool else (b, a)
    parents = _couple_of(world, later)
    if parents is None:  # a founder that is not younger than the other animal
        if _couple_of(world, other) is None:
            return Fraction(0)
        later, other = other, later
        parents = _couple_of(world, later)
        assert parents is not None
    return sum((_explicit_kinship(world, parent, other) for parent in parents), Fraction(0)) / 2


def _couple_of(world: _World, animal: _Animal) -> _Couple | None:
    return world.get(animal) or world.get(animal.pool)
