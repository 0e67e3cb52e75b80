"""Which animals of its pools a family's broods descend from: draws that may be one animal."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from filialog.genetics.carriers.histories import Kind, Part, State, TooManyError

__all__ = ["Draw", "DrawnFrom", "Role", "Slot", "SlotLaw", "drawings", "drawn_alone", "drawn_apart"]

Role = str
"""`dam`, `sire`, or nothing."""


class Slot(NamedTuple):
    """One animal that evidence or a forecast refers to."""

    kind: Kind
    role: Role
    pools: tuple[str, ...]
    """The pools whose member it is; empty for one of a pool of unknown size."""
    number: str
    mixed: tuple[tuple[Kind, Fraction], ...] = ()
    """The kinds that it may be, with their shares, where `kind` is not one of them."""


SlotLaw = tuple[tuple[Slot, Fraction], ...]
"""The animals that one can be, with their probabilities."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Draw:
    """A parent of a brood, drawn from one pool."""

    name: str
    """Unique."""
    brood: str
    """The brood."""
    pool: str
    """The pool."""
    role: Role
    """Whether it is a dam or a sire."""
    other_than: frozenset[str] = frozenset()
    """Names of draws that are other animals."""
    sure: bool = True
    """Whether the parent comes from this pool for certain. A dam and a sire are different
    animals; where one of them may come from elsewhere, numbers are not reduced for it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnFrom:
    """What draws need of a pool."""

    size: int | None
    """Number of animals; None: draws never coincide."""
    of_role: Mapping[Role, int]
    """Number of females and of males, where known."""
    parts: tuple[Part, ...]
    """Kinds by share, for a pool of unknown size."""


class _Block(NamedTuple):
    slot: Slot
    draws: tuple[str, ...]


def drawings(
    state: State, draws: Sequence[Draw], pools: Mapping[str, DrawnFrom], *, most: int
) -> dict[tuple[Slot, ...], Fraction]:
    """Return which slot each draw takes, with its probability, given the counts.

    Draws are made in order: each takes any of the animals that it can be, with equal
    chances, whatever later ones take.
    """
    by_name = {draw.name: draw for draw in draws}
    found: dict[tuple[Slot, ...], Fraction] = defaultdict(Fraction)

    def grow(
        place: int,
        blocks: tuple[_Block, ...],
        slots: tuple[Slot, ...],
        weight: Fraction,
    ) -> None:
        if place == len(draws):
            found[slots] += weight
            if len(found) > most:
                raise TooManyError
            return
        draw = draws[place]
        for after, slot, share in _options(draw, state, pools[draw.pool], blocks, by_name):
            grow(place + 1, after, (*slots, slot), weight * share)

    grow(0, (), (), Fraction(1))
    return dict(found)


def drawn_alone(
    draw: Draw,
    state: State,
    pools: Mapping[str, DrawnFrom],
    before: Sequence[tuple[Draw, Slot]],
) -> SlotLaw:
    """Return which slot one more draw takes, given the slots of others."""
    blocks: dict[Slot, _Block] = {}
    for other, slot in before:
        if slot.pools:
            had = blocks.get(slot, _Block(slot, ()))
            blocks[slot] = _Block(slot, (*had.draws, other.name))
    by_name = {other.name: other for other, _ in before}
    found: dict[Slot, Fraction] = defaultdict(Fraction)
    for _, slot, share in _options(draw, state, pools[draw.pool], tuple(blocks.values()), by_name):
        found[slot] += share
    return tuple(found.items())


def drawn_apart(draw: Draw, state: State, size: int, *, only: bool) -> SlotLaw:
    """Return which slot a draw takes that no other takes, one for each origin.

    In the only state of a family it is of the kinds in their shares, in one of several of
    any kind.
    """
    kinds: dict[str, dict[Kind, int]] = {}
    for atom, count in state:
        if draw.pool in atom.pools:
            of_base = kinds.setdefault(atom.kind.base, {})
            of_base[atom.kind] = of_base.get(atom.kind, 0) + count
    found = []
    for base, counts in kinds.items():
        whole = sum(counts.values())
        kind = next(iter(counts))
        mixed: tuple[tuple[Kind, Fraction], ...] = ()
        if len(counts) > 1:
            kind = Kind(base)
            shares = tuple((one, Fraction(count, whole)) for one, count in counts.items())
            mixed = shares if only else ()
        found.append((Slot(kind, draw.role, (), draw.name, mixed), Fraction(whole, size)))
    return tuple(found)


def _options(
    draw: Draw,
    state: State,
    source: DrawnFrom,
    blocks: tuple[_Block, ...],
    by_name: Mapping[str, Draw],
) -> list[tuple[tuple[_Block, ...], Slot, Fraction]]:
    """Return what a draw can be: the blocks after it, its slot, and its probability."""
    if source.size is None:
        return [
            (blocks, Slot(part.kind, draw.role, (), draw.name), part.weight)
            for part in source.parts
        ]
    options: list[tuple[tuple[_Block, ...], Slot, Fraction]] = []
    for at, block in enumerate(blocks):
        if draw.pool in block.slot.pools and _may_be_one(draw, block, by_name, source.size):
            joined = block._replace(draws=(*block.draws, draw.name))
            options.append(((*blocks[:at], joined, *blocks[at + 1 :]), block.slot, Fraction(1)))
    for block, left in _new_blocks(draw, state, source, blocks, by_name):
        options.append(((*blocks, block), block.slot, left))
    whole = sum((share for _, _, share in options), Fraction(0))
    return [(after, slot, share / whole) for after, slot, share in options]


def _may_be_one(draw: Draw, block: _Block, by_name: Mapping[str, Draw], size: int) -> bool:
    if draw.other_than & set(block.draws):
        return False
    # One animal that is named as dam and as sire is taken at the keeper's word.
    return all(
        by_name[name].role == draw.role or (size == 1 and by_name[name].pool == draw.pool)
        for name in block.draws
    )


def _sure(block: _Block, by_name: Mapping[str, Draw]) -> bool:
    return any(by_name[name].sure for name in block.draws)


def _new_blocks(
    draw: Draw,
    state: State,
    source: DrawnFrom,
    blocks: Sequence[_Block],
    by_name: Mapping[str, Draw],
) -> Iterator[tuple[_Block, Fraction]]:
    assert source.size is not None
    share = Fraction(source.of_role.get(draw.role, source.size), source.size)
    for atom, count in state:
        if draw.pool not in atom.pools:
            continue
        pools = tuple(sorted(atom.pools))
        same = [b for b in blocks if b.slot.pools == pools and b.slot.kind == atom.kind]
        rivals = [b for b in same if b.slot.role == draw.role or (share == 1 and _sure(b, by_name))]
        rivals = rivals if draw.sure else [b for b in same if b.slot.role == draw.role]
        left = count * share - len(rivals)
        if left > 0:
            slot = Slot(atom.kind, draw.role, pools, str(len(same)))
            yield _Block(slot, (draw.name,)), left
