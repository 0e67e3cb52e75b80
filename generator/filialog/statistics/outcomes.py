"""Every way in which animals can fall into classes, with a score for each."""

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Numbers = NDArray[np.float64]
    Counts = NDArray[np.int64]

__all__ = [
    "log_probability_tables",
    "mixture_probabilities",
    "outcome_count",
    "outcome_counts",
    "outcome_scores",
]


def outcome_count(*, animals: int, classes: int) -> int:
    """Return in how many ways animals can fall into classes.

    Examples
    --------
    >>> outcome_count(animals=10, classes=3)
    66
    """
    return math.comb(animals + classes - 1, classes - 1)


def outcome_scores(animals: int, tables: Sequence["Numbers"]) -> "Numbers":
    """Return the score of every outcome, in an order set by the numbers alone.

    Parameters
    ----------
    animals
        Animals in all, 0 or more.
    tables
        For each class, at least one, its score by the number of animals in it, 0 to
        `animals`. The score of an outcome is the sum over the classes.

    Returns
    -------
    array
        `outcome_count` scores.
    """
    import numpy as np  # noqa: PLC0415 - a quick command should not load it

    scores: Numbers = np.zeros(1)
    rest: Counts = np.array([animals])
    for table in tables[:-1]:
        choices = rest + 1
        seen = _up_to(rest)
        scores = np.repeat(scores, choices) + table[seen]
        rest = np.repeat(rest, choices) - seen
    found: Numbers = scores + tables[-1][rest]
    return found


def outcome_counts(*, animals: int, classes: int) -> "Counts":
    """Return every outcome itself, one row each, in the order of `outcome_scores`.

    Examples
    --------
    >>> outcome_counts(animals=1, classes=3).tolist()
    [[0, 0, 1], [0, 1, 0], [1, 0, 0]]
    """
    import numpy as np  # noqa: PLC0415 - a quick command should not load it

    rest: Counts = np.array([animals])
    columns: list[Counts] = []
    for _ in range(classes - 1):
        choices = rest + 1
        seen = _up_to(rest)
        columns = [*(np.repeat(column, choices) for column in columns), seen]
        rest = np.repeat(rest, choices) - seen
    return np.column_stack([*columns, rest])


def _up_to(rest: "Counts") -> "Counts":
    """Return 0, 1, ... n for each n, one after the other."""
    import numpy as np  # noqa: PLC0415 - a quick command should not load it

    choices = rest + 1
    first = np.repeat(np.cumsum(choices) - choices, choices)
    return np.arange(first.size) - first


def log_probability_tables(animals: int, shares: Sequence[float]) -> list["Numbers"]:
    """Return scores that add up to the log of the multinomial probability.

    The logarithm of the factorial of `animals` is in the first class.
    """
    import numpy as np  # noqa: PLC0415 - a quick command should not load it

    numbers = np.arange(animals + 1)
    less = np.array([math.lgamma(number + 1) for number in range(animals + 1)])
    tables = []
    for share in shares:
        if share > 0.0:
            table = numbers * math.log(share) - less
        else:
            table = np.full(animals + 1, -math.inf)
            table[0] = 0.0
        tables.append(table)
    tables[0] = tables[0] + less[-1]
    return tables


def mixture_probabilities(
    animals: int, mixture: Sequence[tuple[float, Sequence[float]]]
) -> "Numbers":
    """Return the probability of every outcome under a checked mixture of multinomials."""
    import numpy as np  # noqa: PLC0415 - a quick command should not load it

    together: Numbers | None = None
    for weight, shares in mixture:
        part = weight * np.exp(outcome_scores(animals, log_probability_tables(animals, shares)))
        together = part if together is None else together + part
    assert together is not None
    return together
