"""Evidence that cannot hold together is named by a minimal set of labels."""

from collections.abc import Sequence
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from filialog.genetics.inference import (
    Factor,
    ImpossibleEvidenceError,
    Limits,
    Network,
    joint,
    marginals,
)
from filialog.genetics.inference.contradictions import smallest_contradiction

_SAME = np.eye(2)


def _chain(length: int, evidence: Sequence[tuple[str, int, int]]) -> Network:
    """Make variables that are all the same, with labelled sightings of states."""
    names = [str(place) for place in range(length)]
    same = [Factor(variables=pair, table=_SAME) for pair in pairwise(names)]
    seen = [
        Factor(variables=(names[place],), table=np.eye(2)[state], label=label)
        for label, place, state in evidence
    ]
    return Network(cardinalities=dict.fromkeys(names, 2), factors=(*same, *seen))


def _labels(network: Network, limits: Limits | None = None) -> tuple[str, ...]:
    with pytest.raises(ImpossibleEvidenceError) as caught:
        marginals(network, limits=limits or Limits())
    return caught.value.labels


def test_impossible_evidence__names_the_only_pair() -> None:
    network = _chain(5, [("plain", 0, 0), ("fancy", 4, 1), ("plain too", 2, 0)])

    # "plain" is deleted first: the rest still fails without it.
    assert _labels(network) == ("fancy", "plain too")


def test_impossible_evidence__of_several_sets_names_that_of_the_last_labels() -> None:
    evidence = [("a", 0, 0), ("b", 1, 1), ("c", 2, 0), ("d", 3, 1)]

    assert _labels(_chain(4, evidence)) == ("c", "d")
    assert _labels(_chain(4, evidence[::-1])) == ("b", "a")


def test_impossible_evidence__needs_three_together() -> None:
    odd = np.array([[[0.0, 1.0], [1.0, 0.0]], [[1.0, 0.0], [0.0, 1.0]]])  # the sum is odd
    network = Network(
        cardinalities={"a": 2, "b": 2, "c": 2, "d": 2},
        factors=(
            Factor(variables=("a", "b", "c"), table=odd),
            *(
                Factor(variables=(name,), table=np.array([1.0, 0.0]), label=f"no {name}")
                for name in "dabc"
            ),
        ),
    )

    assert _labels(network) == ("no a", "no b", "no c")


def test_impossible_evidence__that_no_single_table_shows() -> None:
    """Three coins, each unlike both others: every pair of states is possible by itself."""
    unlike = 1.0 - _SAME
    network = Network(
        cardinalities={"a": 2, "b": 2, "c": 2},
        factors=tuple(
            Factor(variables=tuple(pair), table=unlike, label=pair) for pair in ("ab", "bc", "ca")
        ),
    )

    assert _labels(network) == ("ab", "bc", "ca")
    assert _labels(network, Limits(cells_in_clique=4)) == ("ab", "bc", "ca")


def test_impossible_evidence__one_label_on_two_factors_is_one_piece() -> None:
    network = _chain(2, [("entry 1", 0, 0), ("entry 1", 1, 1), ("entry 2", 1, 1)])

    assert _labels(network) == ("entry 1",)


def test_impossible_evidence__all_zero_table_names_itself() -> None:
    network = Network(
        cardinalities={"coin": 2},
        factors=(
            Factor(variables=("coin",), table=np.array([0.5, 0.5]), label="fair"),
            Factor(variables=("coin",), table=np.zeros(2), label="nothing"),
        ),
    )

    assert _labels(network) == ("nothing",)


def test_impossible_evidence__zero_without_axes_names_itself() -> None:
    network = Network(
        cardinalities={"coin": 2},
        factors=(Factor(variables=(), table=np.array(0.0), label="never"),),
    )

    assert _labels(network) == ("never",)


def test_impossible_evidence__of_structure_alone_names_nothing() -> None:
    network = _chain(2, [("fancy", 1, 1)])
    broken = Factor(variables=("0", "1"), table=np.zeros((2, 2)))

    with pytest.raises(ImpossibleEvidenceError, match="the structure alone") as caught:
        marginals(Network(cardinalities={"0": 2, "1": 2}, factors=(*network.factors, broken)))
    assert caught.value.labels == ()


def test_impossible_evidence__also_stops_a_joint_law() -> None:
    with pytest.raises(ImpossibleEvidenceError, match="probability 0: plain, fancy"):
        joint(_chain(2, [("plain", 0, 0), ("fancy", 1, 1)]), ["0"])


@given(
    st.integers(1, 9),
    st.lists(st.sets(st.integers(0, 8), min_size=1), min_size=1, max_size=5),
)
def test_smallest_contradiction__is_that_of_deletion_one_by_one(
    count: int, bad: list[set[int]]
) -> None:
    labels = [str(number) for number in range(count)]
    conflicts = [frozenset(str(number % count) for number in one) for one in bad]

    def holds(kept: frozenset[str]) -> bool:
        return not any(conflict <= kept for conflict in conflicts)

    left = list(labels)
    for label in labels:
        fewer = [one for one in left if one != label]
        if not holds(frozenset(fewer)):
            left = fewer

    assert smallest_contradiction(labels, holds) == tuple(left)
