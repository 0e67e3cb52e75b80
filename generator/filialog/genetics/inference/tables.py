"""Arrays with named axes: their products and sums."""

from collections.abc import Iterable, Mapping, Sequence
from math import prod
from typing import TYPE_CHECKING, Generic, NamedTuple, TypeVar

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["Table", "aligned", "axis_runs", "placed"]

Name = TypeVar("Name", str, int)


class Table(NamedTuple, Generic[Name]):
    """An array and what its axes stand for."""

    scope: tuple[Name, ...]
    array: "NDArray[np.float64]"


def aligned(table: Table[Name], scope: Sequence[Name]) -> "NDArray[np.float64]":
    """Return the array with an axis for each name of the scope, of length 1 where it has none.

    The names of the table must be in the scope, in any order.
    """
    places = {name: place for place, name in enumerate(scope)}
    order = sorted(range(len(table.scope)), key=lambda axis: places[table.scope[axis]])
    shape = [1] * len(scope)
    for name, length in zip(table.scope, table.array.shape, strict=True):
        shape[places[name]] = length
    array = table.array
    if order != list(range(len(order))):
        array = array.transpose(order)
    return array.reshape(shape)


def placed(table: Table[str], places: Mapping[str, int]) -> Table[int]:
    """Return the table with its variables as places, in ascending order of its axes."""
    numbers = [places[name] for name in table.scope]
    order = sorted(range(len(numbers)), key=numbers.__getitem__)
    return Table(tuple(numbers[axis] for axis in order), table.array.transpose(order))


def axis_runs(
    shape: Sequence[int], kept: Iterable[bool]
) -> Iterable[tuple[int, int, int, tuple[int, ...]]]:
    """Give the steps by which the axes that are not kept are summed, first axes first.

    Neighbouring axes go in one step: the array, seen as (before, summed, after), is summed
    over its middle and becomes an array of the last shape.
    """
    rest = list(zip(shape, kept, strict=True))
    while not all(keep for _, keep in rest):
        start = next(place for place, (_, keep) in enumerate(rest) if not keep)
        stop = start
        while stop < len(rest) and not rest[stop][1]:
            stop += 1
        before = prod(length for length, _ in rest[:start])
        middle = prod(length for length, _ in rest[start:stop])
        after = prod(length for length, _ in rest[stop:])
        del rest[start:stop]
        yield before, middle, after, tuple(length for length, _ in rest)
