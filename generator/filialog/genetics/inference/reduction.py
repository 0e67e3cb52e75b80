"""A smaller network of the same law: without impossible states and without barren parts."""

from collections import deque
from collections.abc import Collection, Iterable, Mapping, Sequence
from math import log, prod
from typing import TYPE_CHECKING, NamedTuple

from filialog.genetics.inference.tables import Table, aligned

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    States = NDArray[np.bool_]

__all__ = ["Reduced", "reduced"]

_MOST_TABLES, _MOST_CELLS = 12, 20_000
"""A product larger than that is left to the tree."""
_LEAST_SUM = 1e-280


class Reduced(NamedTuple):
    """What is left to compute."""

    tables: tuple[Table[str], ...]
    """Tables over the states left; variables with one such state are in none of them."""
    possible: Mapping[str, "States"]
    """For each variable which of its states are left."""
    log_scale: float
    """Logarithm of what was multiplied out."""


def reduced(
    tables: Sequence[Table[str]], cardinalities: Mapping[str, int], wanted: Collection[str]
) -> Reduced | None:
    """Cut away what the laws of the wanted variables do not need; None is impossible evidence.

    A state is impossible where some table has no number above zero for it beside states of
    the other variables that are possible. A variable that is not wanted is barren where the
    tables that hold it, multiplied and summed over it, are constant.
    """
    possible = _possible_states(tables, cardinalities)
    if possible is None:
        return None
    scale = 0.0
    left = []
    for table in tables:
        cut = _cut(table, possible)
        if cut.scope:
            left.append(cut)
        elif cut.array > 0:
            scale += log(float(cut.array))
        else:
            return None
    uncertain = {name: int(states.sum()) for name, states in possible.items()}
    unwanted = {name: count for name, count in uncertain.items() if name not in wanted}
    left, barren = _without_barren(left, unwanted)
    return Reduced(tuple(left), possible, scale + barren)


def _possible_states(
    tables: Sequence[Table[str]], cardinalities: Mapping[str, int]
) -> dict[str, "States"] | None:
    import numpy as np  # noqa: PLC0415

    possible = {name: np.ones(states, dtype=np.bool_) for name, states in cardinalities.items()}
    everywhere: dict[int, States] = {place: one.array > 0 for place, one in enumerate(tables)}
    positive = {place: states for place, states in everywhere.items() if not states.all()}
    holders: dict[str, list[int]] = {}
    for place in positive:
        for name in tables[place].scope:
            holders.setdefault(name, []).append(place)
    queue = deque(positive)
    queued = set(queue)
    while queue:
        place = queue.popleft()
        queued.discard(place)
        scope, states = tables[place].scope, positive[place]
        axes = range(len(scope))
        for axis in axes:
            if not possible[scope[axis]].all():
                line = [-1 if other == axis else 1 for other in axes]
                states = states & possible[scope[axis]].reshape(line)
        positive[place] = states
        if not states.any():
            return None
        for axis in axes:
            found = np.asarray(states.any(axis=tuple(other for other in axes if other != axis)))
            if (found != possible[scope[axis]]).any():
                possible[scope[axis]] = found
                again = [one for one in holders[scope[axis]] if one not in queued and one != place]
                queue.extend(again)
                queued.update(again)
    return possible


def _cut(table: Table[str], possible: Mapping[str, "States"]) -> Table[str]:
    array = table.array
    for axis, name in enumerate(table.scope):
        if not possible[name].all():
            array = array.compress(possible[name], axis=axis)
    if 1 in array.shape:
        kept = zip(table.scope, array.shape, strict=True)
        return Table(tuple(name for name, length in kept if length > 1), array.squeeze())
    return Table(table.scope, array)


def _without_barren(
    tables: Iterable[Table[str]], unwanted: Mapping[str, int]
) -> tuple[list[Table[str]], float]:
    left = dict(enumerate(tables))
    holders: dict[str, set[int]] = {name: set() for name in unwanted}
    for place, table in left.items():
        for name in table.scope:
            holders.setdefault(name, set()).add(place)
    scale = 0.0
    queue = deque(name for name, count in unwanted.items() if count > 1)
    queued = set(queue)
    gone: set[str] = set()
    while queue:
        name = queue.popleft()
        queued.discard(name)
        held = sorted(holders[name])
        constant = _constant_over(name, unwanted[name], [left[place] for place in held])
        if constant is None:
            continue
        gone.add(name)
        scale += log(constant)
        for place in held:
            for other in left.pop(place).scope:
                holders[other].discard(place)
                if other in unwanted and other not in gone and other not in queued:
                    queue.append(other)
                    queued.add(other)
    return [left[place] for place in sorted(left)], scale


def _constant_over(name: str, states: int, tables: Sequence[Table[str]]) -> float | None:
    """Return the sum of the product over the variable where it is the same everywhere."""
    import numpy as np  # noqa: PLC0415

    if not tables:
        return float(states)
    if len(tables) > _MOST_TABLES:
        return None
    lengths: dict[str, int] = {}
    for table in tables:
        lengths.update(zip(table.scope, table.array.shape, strict=True))
    if prod(lengths.values()) > _MOST_CELLS:
        return None
    scope = (name, *(other for other in lengths if other != name))
    product = aligned(tables[0], scope)
    for table in tables[1:]:
        product = product * aligned(table, scope)
    sums = product.sum(axis=0)
    least, most = float(sums.min()), float(sums.max())
    rounding = 8 * float(np.finfo(np.float64).eps)
    # A smaller sum may have lost parts of itself to the smallest number of the machine.
    constant = least > _LEAST_SUM and most - least <= rounding * most
    return most if constant else None
