"""Families: pools that share animals, with the states that counts and draws leave possible."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from filialog.genetics.carriers.drawings import Draw, DrawnFrom, Slot, drawings
from filialog.genetics.carriers.evidence import Evidence
from filialog.genetics.carriers.family_counts import MOST_STATES, AtLeast, FamilyCounts
from filialog.genetics.carriers.histories import Kind, Norm, Part, State, TooManyError
from filialog.genetics.carriers.pools import CarrierPool, JoinedOf, TakenFrom
from filialog.genetics.trait_model import TraitModel

__all__ = ["Family", "FamilyState", "families_of"]

_EXACT_DRAWS = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class FamilyState:
    """One way in which counts and draws of a family can have come about."""

    weight: Fraction
    """To be multiplied by P(kind)^power for each kind."""
    powers: tuple[tuple[Kind, int], ...]
    slots: tuple[Slot, ...]
    """The animal of each draw of the family."""
    members: tuple[tuple[tuple[Slot, Fraction], ...], ...]
    """For each pool of the family what a member at random is, with its probability."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Family:
    """Pools that have animals in common, by splits, sorts and joins."""

    pools: tuple[str, ...]
    draws: tuple[Draw, ...]
    states: tuple[FamilyState, ...]
    """None at all: the evidence is impossible whatever the genotypes."""
    shares: Mapping[str, tuple[Part, ...]]
    """Kinds in each pool of unknown size."""
    norms: tuple[Norm, ...]
    at_least: tuple[AtLeast, ...]
    exact: bool
    """Whether draws beyond the fifth may coincide as they do."""


def _powers(state: State, since: Iterable[tuple[Kind, Kind]]) -> tuple[tuple[Kind, int], ...]:
    together: dict[Kind, int] = defaultdict(int)
    for atom, count in state:
        together[atom.kind] += count
    for given, kind in since:
        together[kind] += 1
        together[given] -= 1
    return tuple(
        (kind, power)
        for kind, power in together.items()
        if power and (kind.looks is not None or kind.genotypes is not None)
    )


def _members(
    state: State, pool: str, source: DrawnFrom, slots: Iterable[Slot]
) -> tuple[tuple[Slot, Fraction], ...]:
    """Return what a member of a pool at random is: one that was drawn, or a fresh one."""
    if source.size is None:
        return tuple((Slot(part.kind, "", (), "other"), part.weight) for part in source.parts)
    found: dict[Slot, Fraction] = defaultdict(Fraction)
    known = [slot for slot in dict.fromkeys(slots) if pool in slot.pools]
    for slot in known:
        found[slot] += Fraction(1, source.size)
    for atom, count in state:
        if pool in atom.pools:
            pools = tuple(sorted(atom.pools))
            left = count - sum(slot.kind == atom.kind and slot.pools == pools for slot in known)
            if left > 0:
                found[Slot(atom.kind, "", (), "other")] += Fraction(left, source.size)
    whole = sum(found.values(), Fraction(0))
    return tuple((slot, share / whole) for slot, share in found.items())


def _later_draws(maker: FamilyCounts, draws: Sequence[Draw]) -> list[tuple[int, Draw]]:
    """Return the draws that can be of several animals, with their places."""
    return [
        (place, draw)
        for place, draw in enumerate(draws)
        if maker.size[draw.pool] is not None and maker.size[draw.pool] != 1
    ]


def _states(maker: FamilyCounts, draws: Sequence[Draw], *, exact: bool) -> tuple[FamilyState, ...]:
    sources = maker.drawn_from()
    few = list(draws)
    if not exact:
        for place, draw in _later_draws(maker, draws)[_EXACT_DRAWS:]:
            sources[draw.name] = replace(sources[draw.pool], size=None)
            few[place] = replace(draw, pool=draw.name)
    found = []
    for state, weight in maker.histories.states.items():
        for (slots, since), share in drawings(state, few, sources, most=MOST_STATES).items():
            found.append(
                FamilyState(
                    weight=weight * share,
                    powers=_powers(state, since),
                    slots=slots,
                    members=tuple(
                        _members(state, name, sources[name], slots) for name in maker.names
                    ),
                )
            )
            if len(found) > MOST_STATES:
                raise TooManyError
    return tuple(found)


def families_of(
    model: TraitModel,
    pools: Mapping[str, CarrierPool],
    order: Sequence[str],
    *,
    evidence: Sequence[Evidence],
    draws: Sequence[Draw],
    sorted_pools: frozenset[str],
) -> tuple[Family, ...]:
    """Return the families of some pools, each with its states."""
    key_of = _keys(pools, order)
    members: dict[str, list[str]] = {}
    for name in order:
        members.setdefault(key_of[name], []).append(name)
    of_family: dict[str, list[Evidence]] = defaultdict(list)
    for piece in evidence:
        of_family[key_of[piece.pool]].append(piece)
    drawn: dict[str, list[Draw]] = defaultdict(list)
    for draw in draws:
        drawn[key_of[draw.pool]].append(draw)
    found = []
    for key, names in members.items():
        given = (pools, names, of_family[key], sorted_pools, model)
        exact = True
        try:
            maker = FamilyCounts(*given)
        except TooManyError:
            exact = False
            maker = FamilyCounts(*given, loose=True)
        try:
            if len(_later_draws(maker, drawn[key])) > _EXACT_DRAWS:
                raise TooManyError
            states = _states(maker, drawn[key], exact=True)
        except TooManyError:
            exact = False
            states = _states(maker, drawn[key], exact=False)
        found.append(
            Family(
                pools=tuple(names),
                draws=tuple(drawn[key]),
                states=states,
                shares={n: maker.parts[n] for n in names if maker.size[n] is None},
                norms=(*maker.histories.norms, *_norms_of_draws(maker, drawn[key])),
                at_least=tuple(maker.at_least),
                exact=exact,
            )
        )
    return tuple(found)


def _keys(pools: Mapping[str, CarrierPool], order: Sequence[str]) -> dict[str, str]:
    """Return for each pool one name that all pools of its family share."""
    root = {name: name for name in order}

    def find(name: str) -> str:
        while root[name] != name:
            root[name] = root[root[name]]
            name = root[name]
        return name

    for name in order:
        origin = pools[name].origin
        sources = [origin.pool] if isinstance(origin, TakenFrom) else []
        if isinstance(origin, JoinedOf):
            sources = [part.pool for part in origin.parts]
        for source in sources:
            root[find(source)] = find(name)
    return {name: find(name) for name in order}


def _norms_of_draws(maker: FamilyCounts, draws: Sequence[Draw]) -> list[Norm]:
    """Return what divides the chance of draws from sorted mixtures of unknown size."""
    norms = []
    for draw in draws:
        parts = maker.parts[draw.pool]
        if maker.size[draw.pool] is None and any(part.given != part.kind for part in parts):
            terms = tuple((part.given, part.kind, part.weight) for part in parts)
            if len(parts) > 1:
                norms.append(Norm(terms, 1))
    return norms
