"""Unknowns with a few states each, and the tables that bind them."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from filialog.domain_error import DomainError

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["Factor", "Network"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Factor:
    """One table of non-negative numbers over the states of some variables.

    Raises
    ------
    DomainError
        If a variable stands twice, the table has not one axis for each variable, or a
        number in it is negative, infinite or no number.

    Examples
    --------
    >>> import numpy as np
    >>> Factor(variables=("coin",), table=np.array([0.5, 0.5])).table.shape
    (2,)
    """

    variables: tuple[str, ...]
    """The variables, in the order of the axes of the table."""
    table: "NDArray[np.float64]"
    """A number for each joint state, zero or more: a probability or a likelihood, on any
    scale. The factor keeps a copy that cannot be changed."""
    label: str | None = None
    """The piece of evidence that the factor stands for; None where it is structure."""

    def __post_init__(self) -> None:
        import numpy as np  # noqa: PLC0415 - only computations pay for it

        table = np.array(self.table, dtype=np.float64)
        if len(set(self.variables)) != len(self.variables):
            raise DomainError("variables of a factor", self.variables, "each of them once")
        if table.ndim != len(self.variables):
            expected = f"{len(self.variables)}, one for each variable"
            raise DomainError("number of axes of a table", table.ndim, expected)
        if not (np.isfinite(table).all() and (table >= 0).all()):
            wrong = float(table[~(np.isfinite(table) & (table >= 0))][0])
            raise DomainError("number in a table", wrong, "0 or more and finite")
        table.setflags(write=False)
        object.__setattr__(self, "table", table)


@dataclass(frozen=True, slots=True, kw_only=True)
class Network:
    """Variables and the factors whose product, scaled to one, is their joint law.

    Raises
    ------
    DomainError
        If a variable has no state, a factor has an unknown variable, or the length of an
        axis is not the number of states.

    Examples
    --------
    >>> import numpy as np
    >>> fair = Factor(variables=("coin",), table=np.array([0.5, 0.5]))
    >>> Network(cardinalities={"coin": 2}, factors=(fair,)).cardinalities["coin"]
    2
    """

    cardinalities: Mapping[str, int]
    """The number of states of every variable, 1 or more."""
    factors: tuple[Factor, ...]
    """The tables; a variable that is in none of them is uniform."""

    def __post_init__(self) -> None:
        for variable, states in self.cardinalities.items():
            if not states >= 1:
                raise DomainError(f"number of states of {variable}", states, "1 or more")
        for factor in self.factors:
            for variable, length in zip(factor.variables, factor.table.shape, strict=True):
                states = self.cardinalities.get(variable, 0)
                if not states:
                    raise DomainError("variable of a factor", variable, "one of the network")
                if states != length:
                    raise DomainError(f"length of the axis of {variable}", length, f"{states}")
