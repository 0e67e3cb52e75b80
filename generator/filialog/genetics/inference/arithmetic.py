"""Products and sums of tables, on the plain scale or on that of logarithms.

The plain scale is fast. Every table on it is scaled so that its largest number is 1; where a
product still falls below the smallest number of the machine, `FloatingPointError` is raised
instead of a zero taken for impossible, and the same work is done on the scale of logarithms.
"""

from collections.abc import Sequence
from math import inf, log
from typing import TYPE_CHECKING, Protocol

from filialog.genetics.inference.tables import Table, aligned, axis_runs

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

__all__ = ["LOGARITHMS", "PLAIN", "Arithmetic"]


class Arithmetic(Protocol):
    """What passing messages needs to know of numbers."""

    def enter(self, array: "Array") -> "Array":
        """Return plain numbers on this scale."""

    def leave(self, array: "Array") -> "Array":
        """Return numbers of this scale as plain shares of their sum."""

    def times(self, scope: Sequence[int], tables: Sequence[Table[int]]) -> "Array":
        """Return the product of tables whose scopes together are the scope."""

    def summed(self, table: Table[int], kept: Sequence[int]) -> "Array":
        """Return the sums over all axes but those that are kept."""

    def without(self, array: "Array", divisor: "Array") -> "Array":
        """Return the quotient of two arrays, impossible where the divisor is."""

    def scaled(self, array: "Array") -> tuple["Array", float]:
        """Return the array with 1 as its largest number, and the logarithm of the scale."""


class _PlainScale:
    """Numbers as they are."""

    def enter(self, array: "Array") -> "Array":
        return array

    def leave(self, array: "Array") -> "Array":
        shares: Array = array / array.sum()
        return shares

    def times(self, scope: Sequence[int], tables: Sequence[Table[int]]) -> "Array":
        import numpy as np  # noqa: PLC0415

        with np.errstate(under="raise"):
            return _product(scope, tables, np.multiply, 1.0)

    def summed(self, table: Table[int], kept: Sequence[int]) -> "Array":
        array = table.array
        keep = [name in kept for name in table.scope]
        for before, middle, after, shape in axis_runs(array.shape, keep):
            array = array.reshape(before, middle, after).sum(axis=1).reshape(shape)
        return array

    def without(self, array: "Array", divisor: "Array") -> "Array":
        import numpy as np  # noqa: PLC0415

        with np.errstate(under="raise"):
            return np.divide(array, divisor, out=np.zeros_like(array), where=divisor > 0)

    def scaled(self, array: "Array") -> tuple["Array", float]:
        import numpy as np  # noqa: PLC0415

        most = float(array.max())
        if most == 0:
            return array, -inf
        with np.errstate(under="raise"):
            return array / most, log(most)


class _LogScale:
    """Logarithms of the numbers; impossible is minus infinity."""

    def enter(self, array: "Array") -> "Array":
        import numpy as np  # noqa: PLC0415

        with np.errstate(divide="ignore"):
            return np.log(array)

    def leave(self, array: "Array") -> "Array":
        import numpy as np  # noqa: PLC0415

        plain = np.exp(array - array.max())
        shares: Array = plain / plain.sum()
        return shares

    def times(self, scope: Sequence[int], tables: Sequence[Table[int]]) -> "Array":
        import numpy as np  # noqa: PLC0415

        return _product(scope, tables, np.add, 0.0)

    def summed(self, table: Table[int], kept: Sequence[int]) -> "Array":
        import numpy as np  # noqa: PLC0415

        array = table.array
        keep = [name in kept for name in table.scope]
        for before, middle, after, shape in axis_runs(array.shape, keep):
            parts = array.reshape(before, middle, after)
            most = parts.max(axis=1, keepdims=True)
            finite = np.where(np.isfinite(most), most, 0.0)
            with np.errstate(divide="ignore"):
                logs = np.log(np.exp(parts - finite).sum(axis=1)) + finite[:, 0]
            array = logs.reshape(shape)
        return array

    def without(self, array: "Array", divisor: "Array") -> "Array":
        import numpy as np  # noqa: PLC0415

        nothing = np.full_like(array, -np.inf)
        return np.subtract(array, divisor, out=nothing, where=divisor > -np.inf)

    def scaled(self, array: "Array") -> tuple["Array", float]:
        most = float(array.max())
        return (array, most) if most == -inf else (array - most, most)


def _product(
    scope: Sequence[int], tables: Sequence[Table[int]], combine: "np.ufunc", one: float
) -> "Array":
    """Combine the small tables first, so that few steps are of the size of the result."""
    import numpy as np  # noqa: PLC0415

    waiting = sorted(tables, key=lambda table: table.array.size)
    if not waiting:
        return np.full((1,) * len(scope), one)
    together = aligned(waiting[0], scope)
    for table in waiting[1:]:
        together = combine(together, aligned(table, scope))
    return np.ascontiguousarray(together)


PLAIN: Arithmetic = _PlainScale()
LOGARITHMS: Arithmetic = _LogScale()
