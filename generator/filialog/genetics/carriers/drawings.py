"""Which animals of its pools a family's broods descend from: draws that may be one animal."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from filialog.genetics.carriers.histories import Kind, Part, State, TooManyError

__all__ = ["Draw", "DrawnFrom", "Role", "Slot", "drawings"]

Role = str
"""`dam`, `sire`, or nothing."""


class Slot(NamedTuple):
    """One animal that evidence or a forecast refers to."""

    kind: Kind
    role: Role
    pools: tuple[str, ...]
    """The pools whose member it is; empty for one of a pool of unknown size."""
    number: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Draw:
    """A parent of a brood, drawn from one pool."""

    name: str
    """Unique."""
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
) -> dict[tuple[tuple[Slot, ...], tuple[tuple[Kind, Kind], ...]], Fraction]:
    """Return which slot each draw takes, with its probability, given the counts.

    Draws are made in order: each takes any of the animals that it can be, with equal
    chances, whatever later ones take.

    With each goes what kinds were sorted since their share was known: (given, kind) of the
    draws from pools of unknown size.
    """
    by_name = {draw.name: draw for draw in draws}
    found: dict[tuple[tuple[Slot, ...], tuple[tuple[Kind, Kind], ...]], Fraction] = defaultdict(
        Fraction
    )

    def grow(
        place: int,
        blocks: tuple[_Block, ...],
        slots: tuple[Slot, ...],
        sorted_since: tuple[tuple[Kind, Kind], ...],
        weight: Fraction,
    ) -> None:
        if place == len(draws):
            found[slots, sorted_since] += weight
            if len(found) > most:
                raise TooManyError
            return
        draw = draws[place]
        source = pools[draw.pool]
        if source.size is None:
            for part in source.parts:
                slot = Slot(part.kind, draw.role, (), draw.name)
                more = ((part.given, part.kind),) if part.given != part.kind else ()
                tilt = sorted_since + (more if len(source.parts) > 1 else ())
                grow(place + 1, blocks, (*slots, slot), tilt, weight * part.weight)
            return
        options: list[tuple[tuple[_Block, ...], Slot, Fraction]] = []
        for at, block in enumerate(blocks):
            if draw.pool in block.slot.pools and _may_be_one(draw, block, by_name, source.size):
                joined = block._replace(draws=(*block.draws, draw.name))
                options.append(((*blocks[:at], joined, *blocks[at + 1 :]), block.slot, Fraction(1)))
        for block, left in _new_blocks(draw, state, source, blocks, by_name):
            options.append(((*blocks, block), block.slot, left))
        whole = sum((share for _, _, share in options), Fraction(0))
        for after, slot, share in options:
            grow(place + 1, after, (*slots, slot), sorted_since, weight * share / whole)

    grow(0, (), (), (), Fraction(1))
    return dict(found)


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
