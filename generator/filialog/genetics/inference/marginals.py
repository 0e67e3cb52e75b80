"""Exact laws of the variables of a network, or approximate ones that say so."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from filialog.domain_error import DomainError
from filialog.genetics.inference.contradictions import (
    ImpossibleEvidenceError,
    smallest_contradiction,
)
from filialog.genetics.inference.limits import Limits, Method
from filialog.genetics.inference.network import Factor, Network
from filialog.genetics.inference.solving import Solution, solve
from filialog.genetics.inference.tables import Table

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["Marginals", "joint", "marginals"]

_LIMITS = Limits()


@dataclass(frozen=True, slots=True, kw_only=True)
class Marginals:
    """The law of each wanted variable given all factors."""

    laws: Mapping[str, tuple[float, ...]]
    """For each variable the probability of every state, together 1."""
    log_evidence: float
    """Natural logarithm of the sum, over all joint states, of the product of all factors;
    approximate where the laws are."""
    exact: bool
    """Whether the numbers are exact but for rounding."""
    error: float
    """Where not exact, an estimate, no bound, of the largest error of a probability: four times
    the change of one when the clusters of the approximation may be 9 times larger, and 1 where
    that cannot be seen. Zero where exact."""
    method: Method
    """How the part that was hardest was computed."""

    def of(self, variable: str) -> tuple[float, ...]:
        """Return the probability of each state of a variable.

        Raises
        ------
        DomainError
            If the variable is none of those that were wanted.
        """
        if variable not in self.laws:
            raise DomainError("variable", variable, "one whose law was wanted")
        return self.laws[variable]


def marginals(
    network: Network, *, limits: Limits = _LIMITS, wanted: Iterable[str] | None = None
) -> Marginals:
    """Return the law of every variable, or of those wanted, given all factors.

    Parameters
    ----------
    network
        Variables and factors.
    limits
        What one tree may take. Beyond it variables are conditioned on, which is exact, and
        beyond the branches allowed the laws are approximate and say so.
    wanted
        The variables whose laws are needed, all by default; fewer are faster, for what they
        do not depend on is cut away.

    Returns
    -------
    Marginals
        The laws, with the evidence, the method and the error.

    Raises
    ------
    ImpossibleEvidenceError
        If the product of all factors is 0 everywhere. It names a minimal set of labels, found
        by deleting labels in the order of the factors where the rest still fail.
    DomainError
        If a wanted variable is not in the network.

    Notes
    -----
    Impossible states and barren variables go first; each connected part is then a tree of
    the cliques of a greedy elimination order, whose messages give all laws in two passes.

    References
    ----------
    .. [1] Lauritzen & Sheehan (2003) Graphical models for genetic analyses.
       Statistical Science 18:489-514.

    Examples
    --------
    A coin is one of two, the second with heads on both sides; it fell on heads twice:

    >>> import numpy as np
    >>> prior = Factor(variables=("coin",), table=np.array([0.5, 0.5]))
    >>> heads = Factor(variables=("coin",), table=np.array([0.25, 1.0]), label="two throws")
    >>> laws = marginals(Network(cardinalities={"coin": 2}, factors=(prior, heads)))
    >>> [round(share, 3) for share in laws.of("coin")]
    [0.2, 0.8]
    """
    names = tuple(network.cardinalities) if wanted is None else tuple(dict.fromkeys(wanted))
    _check_known(network, names)
    found = _solve(network, [(name,) for name in names], limits)
    return Marginals(
        laws={name: tuple(found.laws[name,].tolist()) for name in names},
        log_evidence=float(found.log_evidence),
        exact=found.method is not Method.LOOPY,
        error=float(found.error),
        method=found.method,
    )


def joint(
    network: Network, variables: Sequence[str], *, limits: Limits = _LIMITS
) -> "NDArray[np.float64]":
    """Return the exact joint law of a few variables given all factors.

    Parameters
    ----------
    network
        Variables and factors.
    variables
        The variables, each once, in the order of the axes of the result.
    limits
        What one tree may take, as for `marginals`.

    Returns
    -------
    numpy.ndarray
        The probability of every joint state, together 1.

    Raises
    ------
    ImpossibleEvidenceError
        If the product of all factors is 0 everywhere.
    DomainError
        If a variable is unknown or stands twice, or if the law does not fit the limits: there
        is no approximate joint law.

    Examples
    --------
    >>> import numpy as np
    >>> same = Factor(variables=("one", "other"), table=np.eye(2))
    >>> joint(Network(cardinalities={"one": 2, "other": 2}, factors=(same,)), ("one", "other"))
    array([[0.5, 0. ],
           [0. , 0.5]])
    """
    scope = tuple(variables)
    _check_known(network, scope)
    if len(set(scope)) != len(scope):
        raise DomainError("variables of a joint law", scope, "each of them once")
    found = _solve(network, [scope], limits)
    if found.method is Method.LOOPY:
        raise DomainError("variables of a joint law", scope, "ones whose law fits the limits")
    return found.laws[scope]


def _check_known(network: Network, names: Sequence[str]) -> None:
    for name in names:
        if name not in network.cardinalities:
            raise DomainError("variable", name, "one of the network")


def _solve(network: Network, wanted: Sequence[tuple[str, ...]], limits: Limits) -> Solution:
    found = _answer(network.factors, network, wanted, limits)
    if found is not None:
        return found
    labels = tuple(dict.fromkeys(one.label for one in network.factors if one.label is not None))

    def holds(kept: frozenset[str]) -> bool:
        factors = [one for one in network.factors if one.label is None or one.label in kept]
        return _answer(factors, network, (), limits) is not None

    raise ImpossibleEvidenceError(smallest_contradiction(labels, holds))


def _answer(
    factors: Iterable[Factor],
    network: Network,
    wanted: Sequence[tuple[str, ...]],
    limits: Limits,
) -> Solution | None:
    tables = [Table(factor.variables, factor.table) for factor in factors]
    return solve(tables, network.cardinalities, wanted, limits)
