"""Families: pools that share animals, with the states that counts and draws leave possible."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence, Set
from dataclasses import dataclass
from fractions import Fraction

from filialog.genetics.carriers.drawings import (
    Draw,
    DrawnFrom,
    Slot,
    SlotLaw,
    drawings,
    drawn_alone,
    drawn_apart,
)
from filialog.genetics.carriers.evidence import Evidence
from filialog.genetics.carriers.family_counts import MOST_STATES, AtLeast, FamilyCounts
from filialog.genetics.carriers.histories import Kind, Norm, Part, State, TooManyError
from filialog.genetics.carriers.pools import CarrierPool, JoinedOf, TakenFrom
from filialog.genetics.trait_model import TraitModel

__all__ = ["MOST_JOINED", "Family", "FamilyState", "families_of"]

MOST_JOINED = 5
"""Draws of a family that may be one animal as their numbers give."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FamilyState:
    """One way in which counts and draws of a family can have come about."""

    weight: Fraction
    """To be multiplied by P(kind)^power for each kind."""
    powers: tuple[tuple[Kind, int], ...]
    drawn: tuple[SlotLaw, ...]
    """The animal of each draw of the family; several where it is left open here."""
    members: tuple[SlotLaw, ...]
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
    parts: tuple[tuple[Part, ...], ...]
    """For each draw from a mixture of unknown size the kinds in it."""
    norms: tuple[Norm, ...]
    at_least: tuple[AtLeast, ...]
    exact: bool
    """Whether all draws can be one animal as they can."""
    joined: int
    """How many of the draws that can be of several animals are taken to coincide as they do."""
    error: float
    """Chance, before any count, that a draw taken as an animal apart is one that was drawn
    otherwise too, at most; 1 where more was left out, 0 where exact."""


def _powers(state: State) -> tuple[tuple[Kind, int], ...]:
    together: dict[Kind, int] = defaultdict(int)
    for atom, count in state:
        together[atom.kind] += count
    return tuple(
        (kind, power)
        for kind, power in together.items()
        if power and (kind.looks is not None or kind.genotypes is not None)
    )


def _members(
    state: State,
    pool: str,
    source: DrawnFrom,
    slots: Iterable[Slot],
    apart: Sequence[SlotLaw],
) -> SlotLaw:
    """Return what a member of a pool at random is: one that was drawn, or a fresh one.

    Draws apart are each one member more, even if together they are too many.
    """
    if source.size is None:
        return tuple((Slot(part.kind, "", (), "other"), part.weight) for part in source.parts)
    found: dict[Slot, Fraction] = defaultdict(Fraction)
    left: int | Fraction
    known = [slot for slot in dict.fromkeys(slots) if pool in slot.pools]
    for slot in known:
        found[slot] += Fraction(1, source.size)
    for law in apart:
        for slot, share in law:
            found[slot] += share / source.size
    for atom, count in state:
        if pool in atom.pools:
            pools = tuple(sorted(atom.pools))
            left = count - sum(slot.kind == atom.kind and slot.pools == pools for slot in known)
            left -= Fraction(len(apart) * count, source.size)
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


def _states(
    maker: FamilyCounts, draws: Sequence[Draw], *, joined: int, alone: Set[str]
) -> tuple[FamilyState, ...]:
    """Go through the ways in which so many draws can be; others are separate animals.

    Those `alone` are left open in every state, as are those from mixtures of unknown size.
    """
    sources = maker.drawn_from()
    later = [draw for _, draw in _later_draws(maker, draws) if draw.name not in alone]
    apart = {draw.name for draw in later[joined:]}
    by_state = [
        draw for draw in draws if draw.name not in alone | apart and not _mixed(sources[draw.pool])
    ]
    found = []
    for state, weight in maker.histories.states.items():
        for slots, share in drawings(state, by_state, sources, most=MOST_STATES).items():
            taken = list(zip(by_state, slots, strict=True))
            known: dict[str, SlotLaw] = {d.name: ((slot, Fraction(1)),) for d, slot in taken}
            for draw in later[joined:]:
                size, only = maker.size[draw.pool] or 1, len(maker.histories.states) == 1
                known[draw.name] = drawn_apart(draw, state, size, only=only)
            found.append(
                FamilyState(
                    weight=weight * share,
                    powers=_powers(state),
                    drawn=tuple(
                        known.get(draw.name) or drawn_alone(draw, state, sources, taken)
                        for draw in draws
                    ),
                    members=tuple(
                        _members(
                            state,
                            name,
                            sources[name],
                            slots,
                            [known[draw.name] for draw in later[joined:] if draw.pool == name],
                        )
                        for name in maker.names
                    ),
                )
            )
            if len(found) > MOST_STATES:
                raise TooManyError
    return tuple(found)


def _mixed(source: DrawnFrom) -> bool:
    return source.size is None and len(source.parts) > 1


def _fewer_states(
    maker: FamilyCounts, draws: Sequence[Draw], joined: int, alone: Set[str]
) -> tuple[tuple[FamilyState, ...], int]:
    """Join as many draws, up to so many, as give states that can be listed."""
    while joined:
        try:
            return _states(maker, draws, joined=joined, alone=alone), joined
        except TooManyError:
            joined -= 1
    return _states(maker, draws, joined=0, alone=alone), 0


def families_of(
    model: TraitModel,
    pools: Mapping[str, CarrierPool],
    order: Sequence[str],
    *,
    evidence: Sequence[Evidence],
    draws: Sequence[Draw],
    sorted_pools: frozenset[str],
    joined: Mapping[str, int],
) -> tuple[Family, ...]:
    """Return the families of some pools, each with its states.

    `joined` tells for the first pool of a family how many draws may be one animal, where
    that is fewer than 5.
    """
    key_of = _keys(pools, order)
    barren = _barren(order, key_of, evidence, draws, sorted_pools)
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
        alone = _alone(maker, drawn[key], barren)
        loose = maker.loose
        later = len([1 for _, draw in _later_draws(maker, drawn[key]) if draw.name not in alone])
        # One draw alone coincides with none.
        most = joined.get(names[0], MOST_JOINED)
        together = min(later, most)
        exact = exact and later in (together, 1)
        states, left = _fewer_states(maker, drawn[key], together, alone)
        exact, together = exact and left == together, left
        found.append(
            Family(
                pools=tuple(names),
                draws=tuple(drawn[key]),
                states=states,
                shares={n: maker.parts[n] for n in names if maker.size[n] is None},
                parts=tuple(
                    maker.parts[draw.pool] if maker.size[draw.pool] is None else ()
                    for draw in drawn[key]
                ),
                norms=tuple(maker.histories.norms),
                at_least=tuple(maker.at_least),
                exact=exact,
                joined=together,
                error=1.0 if loose else 0.0 if exact else _left_out(maker, drawn[key], alone),
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


def _left_out(maker: FamilyCounts, draws: Sequence[Draw], alone: Set[str]) -> float:
    """Return how probable it is, at most, that a draw apart is of an animal drawn before."""
    later = [draw for _, draw in _later_draws(maker, draws) if draw.name not in alone]
    sources = maker.drawn_from()
    chances = [0.0]
    for draw in later:
        source = sources[draw.pool]
        number = source.of_role.get(draw.role, source.size) or 1
        others = sum(
            other.role == draw.role and other.name not in draw.other_than for other in later
        )
        chances.append(1 - (1 - 1 / number) ** (others - 1))
    return max(chances)


def _barren(
    order: Sequence[str],
    key_of: Mapping[str, str],
    evidence: Sequence[Evidence],
    draws: Sequence[Draw],
    sorted_pools: frozenset[str],
) -> dict[str, frozenset[str]]:
    """Return for the draws of which nothing below tells the families that descend from them."""
    told = {key_of[piece.pool] for piece in evidence}
    told |= {key_of[name] for name in order if name in sorted_pools}
    below: dict[str, set[str]] = {}
    for draw in draws:
        below.setdefault(key_of[draw.pool], set()).add(key_of[draw.brood])
    found: dict[str, frozenset[str]] = {}
    descendants: dict[str, frozenset[str]] = {}

    def all_below(key: str) -> frozenset[str]:
        seen = {key}
        ring = {key}
        while ring:
            ring = {more for one in ring for more in below.get(one, ())} - seen
            seen |= ring
        return frozenset(seen)

    for draw in draws:
        key = key_of[draw.brood]
        if key not in descendants:
            descendants[key] = all_below(key)
        if not descendants[key] & told:
            found[draw.name] = descendants[key]
    return found


def _alone(
    maker: FamilyCounts, draws: Sequence[Draw], barren: Mapping[str, frozenset[str]]
) -> frozenset[str]:
    """Return the draws whose coincidence among themselves no number depends on.

    Nothing tells of what descends from them, and nothing descends from two of them. They
    are then drawn after the others, which must make no difference: it does where animals
    of both sexes are taken from one number.
    """
    later = [draw for _, draw in _later_draws(maker, draws)]
    sources = maker.drawn_from()
    if any(draw.other_than for draw in later) or not (
        len({draw.role for draw in later}) == 1
        or all(draw.role in sources[draw.pool].of_role for draw in later)
    ):
        return frozenset()
    times: dict[str, int] = defaultdict(int)
    for draw in later:
        for key in barren.get(draw.name, ()):
            times[key] += 1
    return frozenset(
        draw.name
        for draw in later
        if draw.name in barren and all(times[key] == 1 for key in barren[draw.name])
    )
