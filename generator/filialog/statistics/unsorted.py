"""The best and the worst that animals without a class can make of a count."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from filialog.domain_error import DomainError
from filialog.statistics.counts import Components, checked_components, checked_counts
from filialog.statistics.exact_test import TIE
from filialog.statistics.goodness_of_fit import Method, williams_factor
from filialog.statistics.intervals import Interval
from filialog.statistics.judgement import EXACT_OUTCOMES
from filialog.statistics.outcomes import (
    log_probability_tables,
    mixture_probabilities,
    outcome_count,
    outcome_counts,
)

if TYPE_CHECKING:
    from filialog.statistics.outcomes import Counts, Numbers

__all__ = ["MAX_ALLOCATIONS", "Unsorted", "UnsortedBounds", "unsorted_bounds"]

MAX_ALLOCATIONS = 1_000_000
"""More ways to sort the rest than this are not tried."""

Unsorted = tuple[int, Sequence[int]]
"""Animals, and the places of the classes each of them can belong to."""

_Mixture = tuple[tuple[float, tuple[float, ...]], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class UnsortedBounds:
    """What a count can say at most and at least, however the rest is sorted."""

    p_low: float
    """Smallest p value of any way to sort the rest."""

    p_high: float
    """Largest p value of any way to sort the rest."""

    counts_at_p_low: tuple[int, ...]
    """A count that gives `p_low`, the rest sorted in."""

    counts_at_p_high: tuple[int, ...]
    """A count that gives `p_high`, the rest sorted in."""

    shares: tuple[Interval | None, ...]
    """Lowest and highest observed share of each class; None when there is no animal."""

    method: Method
    """EXACT or G_WILLIAMS, as `judge` chooses for so many animals."""

    allocations: int
    """Different counts that were tried: all there are."""


def unsorted_bounds(
    observed: Sequence[int], unsorted: Sequence[Unsorted], components: Components
) -> UnsortedBounds:
    """Find the range of p value and shares over all ways to sort the unsorted.

    Parameters
    ----------
    observed
        Animals sorted into each class.
    unsorted
        (animals, classes) pairs: each of these animals belongs to one of the classes,
        given by their places. Several pairs may name the same classes.
    components
        The expectation as (weight, shares) pairs over whole broods, see `log_likelihood`.

    Returns
    -------
    UnsortedBounds
        Exact over all ways; with nothing unsorted both ends are the same.

    Raises
    ------
    DomainError
        If counts, places, weights or shares are not valid, or there are more than
        1,000,000 ways.

    Notes
    -----
    The p value of each way is that of `judge`: exact by probability up to 200,000
    outcomes, above it that of G with Williams' correction, for each component by itself.

    The two ends do not assume that unsorted animals resemble the sorted ones. They are
    bounds, no interval with a confidence.

    Examples
    --------
    Three to one was expected; two of the young hid before their eyes were seen.

    >>> bounds = unsorted_bounds([12, 8], [(2, (0, 1))], [(1, (0.75, 0.25))])
    >>> round(bounds.p_low, 4), round(bounds.p_high, 4)
    (0.0444, 0.2222)
    >>> bounds.counts_at_p_low, bounds.counts_at_p_high
    ((12, 10), (14, 8))
    """
    counts = checked_counts(observed)
    mixture = checked_components(components, classes=len(counts))
    groups = _checked_groups(unsorted, classes=len(counts))
    ways = _allocations(counts, groups)
    animals = sum(counts) + sum(groups.values())
    method, p_values = _p_values(ways, animals, mixture)
    lowest, highest = int(p_values.argmin()), int(p_values.argmax())
    return UnsortedBounds(
        p_low=float(p_values[lowest]),
        p_high=float(p_values[highest]),
        counts_at_p_low=tuple(ways[lowest].tolist()),
        counts_at_p_high=tuple(ways[highest].tolist()),
        shares=tuple(
            Interval(low=low / animals, high=high / animals) if animals else None
            for low, high in zip(ways.min(axis=0).tolist(), ways.max(axis=0).tolist(), strict=True)
        ),
        method=method,
        allocations=len(ways),
    )


def _checked_groups(unsorted: Sequence[Unsorted], *, classes: int) -> dict[tuple[int, ...], int]:
    """Return the unsorted animals by the classes they can belong to."""
    groups: dict[tuple[int, ...], int] = {}
    for number, places in unsorted:
        (animals,) = checked_counts([number])
        where = tuple(sorted(set(places)))
        if not where:
            raise DomainError("classes of unsorted animals", 0, "1 or more")
        if not 0 <= where[0] <= where[-1] < classes:
            raise DomainError("place of a class", where, f"between 0 and {classes - 1}")
        groups[where] = groups.get(where, 0) + animals
    return groups


def _allocations(counts: tuple[int, ...], groups: dict[tuple[int, ...], int]) -> "Counts":
    """Return every count that sorting the rest can give, one row each, without repeats."""
    import numpy as np  # noqa: PLC0415 - a quick command should not load it

    ways: Counts = np.array([counts], dtype=np.int64)
    for places, animals in sorted(groups.items()):
        number = len(ways) * outcome_count(animals=animals, classes=len(places))
        if number > MAX_ALLOCATIONS:
            raise DomainError("ways to sort the rest", number, f"at most {MAX_ALLOCATIONS}")
        added = np.zeros((number // len(ways), len(counts)), dtype=np.int64)
        added[:, list(places)] = outcome_counts(animals=animals, classes=len(places))
        sums = (ways[:, None, :] + added[None, :, :]).reshape(number, len(counts))
        ways = sums if len(ways) == 1 else np.unique(sums, axis=0)
    return ways


def _p_values(ways: "Counts", animals: int, mixture: _Mixture) -> tuple[Method, "Numbers"]:
    import numpy as np  # noqa: PLC0415 - a quick command should not load it

    possible = [i for i in range(ways.shape[1]) if any(s[i] > 0.0 for _, s in mixture)]
    can_be = ways[:, possible].sum(axis=1) == animals
    narrow = tuple((weight, tuple(shares[i] for i in possible)) for weight, shares in mixture)
    if outcome_count(animals=animals, classes=len(possible)) <= EXACT_OUTCOMES:
        method, p_values = Method.EXACT, _exact(ways[:, possible], animals, narrow)
    else:
        method, p_values = Method.G_WILLIAMS, _corrected_g(ways[:, possible], animals, narrow)
    return method, np.where(can_be, p_values, 0.0)


def _exact(ways: "Counts", animals: int, mixture: _Mixture) -> "Numbers":
    """Return the p value of every count, from one enumeration for all of them."""
    import numpy as np  # noqa: PLC0415 - a quick command should not load it

    chances = np.sort(mixture_probabilities(animals, mixture))
    together = np.concatenate([[0.0], np.minimum(1.0, np.cumsum(chances))])
    together[-1] = 1.0
    own: Numbers = np.zeros(len(ways))
    for weight, shares in mixture:
        tables = log_probability_tables(animals, shares)
        # A count that cannot be may name more animals than there are in the classes left.
        logs = sum(table[column] for table, column in zip(tables, ways.T, strict=True))
        own = own + weight * np.exp(logs)
    places = np.searchsorted(chances, own * (1.0 + TIE), side="right")
    found: Numbers = together[places]
    return np.where(own > 0.0, found, 0.0)


def _corrected_g(ways: "Counts", animals: int, mixture: _Mixture) -> "Numbers":
    """Return the p value of every count by G with Williams' correction, best component."""
    import numpy as np  # noqa: PLC0415 - a quick command should not load it
    from scipy.special import gammaincc, xlogy  # noqa: PLC0415 - as above

    best: Numbers = np.zeros(len(ways))
    for _, shares in mixture:
        kept = [i for i, share in enumerate(shares) if share > 0.0]
        expected = animals * np.array([shares[i] for i in kept])
        seen = ways[:, kept]
        plain = np.maximum(0.0, 2.0 * xlogy(seen, seen / expected).sum(axis=1))
        statistic = plain / williams_factor(animals, len(kept))
        if len(kept) > 1:
            p_values = gammaincc((len(kept) - 1) / 2.0, statistic / 2.0)
        else:
            p_values = np.ones(len(ways))
        best = np.maximum(best, np.where(seen.sum(axis=1) == animals, p_values, 0.0))
    return best
