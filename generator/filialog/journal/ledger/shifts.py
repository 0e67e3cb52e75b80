"""Moving the witness a little: chains of shifts, each of which mends what the last one broke."""

from collections.abc import Iterable, Iterator, Mapping
from itertools import chain

from filialog.journal.ledger.constraints import Constraints, Terms, negative
from filialog.journal.ledger.programs import Row

__all__ = ["raise_by", "raise_once"]

Shift = tuple[tuple[int, int], ...]
"""Changes of unknowns by one that leave the total of their share-out within its bounds."""

_MOST_TRIED = 2_000
"""Shifts that are tried for one chain."""


def raise_by(terms: Terms, need: int, constraints: Constraints) -> bool:
    """Raise the value of terms in the witness by so much; False where shifts do not suffice.

    No constraint comes to be broken, nor broken worse.
    """
    while need > 0:
        gain = raise_once(terms, constraints)
        if not gain:
            return False
        need -= gain
    return True


def raise_once(terms: Terms, constraints: Constraints) -> int:
    """Raise the value of terms in the witness by the shortest chain of shifts that does.

    Returns by how much, 0 where no chain was found.
    """
    multiples = dict(terms)
    waiting: list[tuple[Terms, tuple[Shift, ...]]] = [(terms, ())]
    seen: set[tuple[int, int]] = set()
    tried = 0
    for wanted, before in waiting:  # grows while it is walked
        for unknown, multiple in wanted:
            for shift in _shifts(unknown, 1 if multiple > 0 else -1, constraints):
                tried += 1
                if tried > _MOST_TRIED:
                    return 0
                broken = _broken_by(shift, constraints)
                if not broken:
                    changes = _together((*before, shift))
                    gain = sum(multiples.get(one, 0) * step for one, step in changes.items())
                    if gain > 0 and _can_be(changes, constraints):
                        constraints.move_witness(changes.items())
                        return gain
                elif len(broken) == 1 and (key := (id(broken[0][0]), broken[0][1])) not in seen:
                    seen.add(key)
                    row, way = broken[0]
                    mended = row.terms if way > 0 else negative(row.terms)
                    waiting.append((mended, (*before, shift)))
    return 0


def _shifts(unknown: int, step: int, constraints: Constraints) -> Iterator[Shift]:
    """Give the ways to change an unknown, alone or with another of its share-out."""
    witness = constraints.witness
    one = constraints.share_outs[constraints.home[unknown]]
    if not _within(unknown, witness[unknown] + step, constraints):
        return
    total = sum(witness[one.first : one.first + one.number]) + step
    if one.low <= total and (one.high is None or total <= one.high):
        yield ((unknown, step),)
    for other in one.members:
        if other != unknown and _within(other, witness[other] - step, constraints):
            yield ((unknown, step), (other, -step))


def _within(unknown: int, value: int, constraints: Constraints) -> bool:
    cap = constraints.cap[unknown]
    return value >= 0 and (cap is None or value <= cap)


def _together(shifts: Iterable[Shift]) -> dict[int, int]:
    changes: dict[int, int] = {}
    for unknown, step in chain.from_iterable(shifts):
        changes[unknown] = changes.get(unknown, 0) + step
    return changes


def _can_be(changes: Mapping[int, int], constraints: Constraints) -> bool:
    """Say whether changes as a whole break nothing."""
    witness = constraints.witness
    for unknown, step in changes.items():
        if not _within(unknown, witness[unknown] + step, constraints):
            return False
    for home in {constraints.home[unknown] for unknown in changes}:
        one = constraints.share_outs[home]
        total = sum(witness[member] + changes.get(member, 0) for member in one.members)
        if total < one.low or (one.high is not None and total > one.high):
            return False
    return not _broken_by(tuple(changes.items()), constraints)


def _broken_by(changes: Shift, constraints: Constraints) -> list[tuple[Row, int]]:
    """Return the rows that changes would break, or break worse, and the way to mend each."""
    change_of: dict[int, int] = {}
    rows: list[Row] = []
    for unknown, step in changes:
        for row, multiple in constraints.rows_with.get(unknown, ()):
            key = id(row)
            if key in change_of:
                change_of[key] += multiple * step
            else:
                change_of[key] = multiple * step
                rows.append(row)
    broken = []
    for row in rows:
        change = change_of[id(row)]
        value = constraints.value_of[id(row)] + change
        if change < 0 and row.low is not None and value < row.low:
            broken.append((row, 1))
        elif change > 0 and row.high is not None and value > row.high:
            broken.append((row, -1))
    return broken
