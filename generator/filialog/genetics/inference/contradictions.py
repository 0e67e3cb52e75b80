"""Which pieces of evidence cannot hold together."""

from collections.abc import Callable, Sequence

__all__ = ["ImpossibleEvidenceError", "smallest_contradiction"]


class ImpossibleEvidenceError(Exception):
    """Evidence that has probability 0.

    The labels are those of a minimal set of labelled factors: together they cannot hold,
    and without any one of them the others can. None are named where the structure alone is
    impossible.
    """

    def __init__(self, labels: tuple[str, ...]) -> None:
        named = ", ".join(labels) if labels else "the structure alone"
        super().__init__(f"evidence of probability 0: {named}")
        self.labels = labels


def smallest_contradiction(
    labels: Sequence[str], holds: Callable[[frozenset[str]], bool]
) -> tuple[str, ...]:
    """Return the labels left when each, in order, is deleted where the rest still fail.

    As less evidence can only hold better, the labels deleted in one stretch are found by
    halving, which leaves the same set as one by one.

    Parameters
    ----------
    labels
        All labels, in the order in which they are to be deleted; together they fail.
    holds
        Whether the evidence with some labels can hold together.

    Examples
    --------
    >>> smallest_contradiction("abcd", lambda kept: not {"b", "d"} <= kept)
    ('b', 'd')
    """
    needed: list[str] = []
    start = 0
    while holds(frozenset(needed)):
        low, high = start, len(labels)
        # The evidence fails with all from `low` on, and holds with those from `high` on.
        while high - low > 1:
            middle = (low + high) // 2
            if holds(frozenset([*needed, *labels[middle:]])):
                high = middle
            else:
                low = middle
        needed.append(labels[low])
        start = high
    return tuple(needed)
