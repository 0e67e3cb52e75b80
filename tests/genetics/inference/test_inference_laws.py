"""Laws against full enumeration, in other order and other names, and at the edges."""

from math import inf, log

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from filialog.domain_error import DomainError
from filialog.genetics.inference import (
    Factor,
    ImpossibleEvidenceError,
    Limits,
    Marginals,
    Method,
    Network,
    joint,
    marginals,
)

_ROOMY = Limits()
_NARROW = Limits(cells_in_clique=8, cells=50, branches=3**8)
_TOLERANCE = 1e-12


@st.composite
def networks(draw: st.DrawFn, *, zeros: bool = True) -> Network:
    count = draw(st.integers(1, 8))
    names = [f"v{place}" for place in range(count)]
    states = {name: draw(st.integers(1, 3)) for name in names}
    factors = []
    for number in range(draw(st.integers(0, 12))):
        scope = draw(st.permutations(names))[: draw(st.integers(0, min(4, count)))]
        draws = np.random.default_rng(draw(st.integers(0, 2**32)))
        table = draws.random([states[name] for name in scope])
        if zeros:
            table = table * (draws.random(table.shape) < draw(st.sampled_from([0.6, 0.9, 1.0])))
        factors.append(Factor(variables=tuple(scope), table=table, label=f"f{number}"))
    return Network(cardinalities=states, factors=tuple(factors))


def enumerate_all(network: Network) -> NDArray[np.float64]:
    """Return the product of all factors over every joint state."""
    names = list(network.cardinalities)
    whole = np.ones(list(network.cardinalities.values()))
    for joint_state in np.ndindex(whole.shape):
        for factor in network.factors:
            of_factor = tuple(joint_state[names.index(name)] for name in factor.variables)
            whole[joint_state] *= factor.table[of_factor]
    return whole


def summed_to(
    whole: NDArray[np.float64], network: Network, wanted: list[str]
) -> NDArray[np.float64]:
    names = list(network.cardinalities)
    axes = [names.index(name) for name in wanted]
    others = tuple(axis for axis in range(whole.ndim) if axis not in axes)
    ascending = sorted(axes)
    sums: NDArray[np.float64] = whole.sum(axis=others)
    return sums.transpose([ascending.index(axis) for axis in axes])


@pytest.mark.parametrize("limits", [_ROOMY, _NARROW], ids=["tree", "conditioning"])
@settings(max_examples=150, deadline=None)
@given(network=networks(), data=st.data())
def test_laws__are_those_of_enumeration(
    limits: Limits, network: Network, data: st.DataObject
) -> None:
    whole = enumerate_all(network)
    if whole.sum() == 0:
        with pytest.raises(ImpossibleEvidenceError):
            marginals(network, limits=limits)
        return
    whole_law = whole / whole.sum()
    names = data.draw(st.permutations(list(network.cardinalities)))
    few = names[: data.draw(st.integers(0, len(names)))]

    for found, wanted in (
        (marginals(network, limits=limits), names),
        (marginals(network, limits=limits, wanted=few), few),
    ):
        assert found.exact
        assert found.error == 0.0
        assert found.method is not Method.LOOPY
        assert found.log_evidence == pytest.approx(log(whole.sum()), abs=_TOLERANCE)
        assert set(found.laws) == set(wanted)
        for name in wanted:
            expected = summed_to(whole_law, network, [name])
            assert found.of(name) == pytest.approx(expected, abs=_TOLERANCE)

    pair = names[:2]
    law = joint(network, pair, limits=_ROOMY)
    assert law == pytest.approx(summed_to(whole_law, network, pair), abs=_TOLERANCE)


@settings(max_examples=100, deadline=None)
@given(network=networks())
def test_impossible_evidence__names_a_minimal_set(network: Network) -> None:
    if enumerate_all(network).sum() > 0:
        return
    with pytest.raises(ImpossibleEvidenceError) as caught:
        marginals(network)

    def total(labels: set[str]) -> float:
        factors = tuple(one for one in network.factors if one.label in labels)
        smaller = Network(cardinalities=network.cardinalities, factors=factors)
        return float(enumerate_all(smaller).sum())

    named = set(caught.value.labels)
    assert named
    assert total(named) == 0
    for label in named:
        assert total(named - {label}) > 0


@settings(max_examples=60, deadline=None)
@given(network=networks(zeros=False), data=st.data())
def test_laws__do_not_depend_on_names_or_order(network: Network, data: st.DataObject) -> None:
    names = list(network.cardinalities)
    other = dict(zip(names, data.draw(st.permutations([f"x{n}" for n in names])), strict=True))
    order = data.draw(st.permutations(names))
    factors = []
    for factor in data.draw(st.permutations(network.factors)):
        axes = data.draw(st.permutations(range(len(factor.variables))))
        scope = tuple(other[factor.variables[axis]] for axis in axes)
        factors.append(Factor(variables=scope, table=factor.table.transpose(axes)))
    again = Network(
        cardinalities={other[name]: network.cardinalities[name] for name in order},
        factors=tuple(factors),
    )

    one, two = marginals(network), marginals(again)
    assert two.log_evidence == pytest.approx(one.log_evidence, abs=_TOLERANCE)
    for name in names:
        assert two.of(other[name]) == pytest.approx(one.of(name), abs=_TOLERANCE)


def test_laws__are_the_same_numbers_each_time() -> None:
    assert marginals(_grid(5)).laws == marginals(_grid(5)).laws


def _grid(side: int, *, wild: float = 1.0) -> Network:
    """Build a square of variables, each bound to its neighbours: one large loop of loops."""
    draws = np.random.default_rng(5)
    factors = []
    for row in range(side):
        for column in range(side):
            for other in ((row + 1, column), (row, column + 1)):
                if max(other) < side:
                    scope = (f"{row}.{column}", f"{other[0]}.{other[1]}")
                    table = np.exp(wild * draws.normal(size=(2, 2)))
                    factors.append(Factor(variables=scope, table=table))
    states = {f"{row}.{column}": 2 for row in range(side) for column in range(side)}
    return Network(cardinalities=states, factors=tuple(factors))


def _largest_difference(one: Marginals, other: Marginals) -> float:
    return max(
        abs(here - there)
        for name, law in one.laws.items()
        for here, there in zip(law, other.of(name), strict=True)
    )


def test_method__conditions_where_a_tree_does_not_fit() -> None:
    exact = marginals(_grid(6))
    found = marginals(_grid(6), limits=Limits(cells_in_clique=32, branches=64))

    assert exact.method is Method.JUNCTION_TREE
    assert found.method is Method.CONDITIONING
    assert (found.exact, found.error) == (True, 0.0)
    assert _largest_difference(found, exact) < _TOLERANCE
    assert found.log_evidence == pytest.approx(exact.log_evidence, abs=_TOLERANCE)


@pytest.mark.parametrize("limits", [Limits(cells_in_clique=60), Limits(cells=700)])
def test_method__each_limit_counts(limits: Limits) -> None:
    found = marginals(_grid(6), limits=limits)

    assert found.method is Method.CONDITIONING


def test_method__approximates_beyond_the_branches_and_says_so() -> None:
    exact = marginals(_grid(7))
    found = marginals(_grid(7), limits=Limits(cells_in_clique=36, branches=2))

    assert found.method is Method.LOOPY
    assert not found.exact
    difference = _largest_difference(found, exact)
    assert 1e-9 < difference < 0.02
    assert difference <= found.error < 0.2
    assert found.log_evidence == pytest.approx(exact.log_evidence, abs=0.05)


def test_method__an_error_that_cannot_be_seen_is_one() -> None:
    found = marginals(_grid(5), limits=Limits(cells_in_clique=4, branches=1))

    assert (found.method, found.error) == (Method.LOOPY, 1.0)


@pytest.mark.parametrize("first", [True, False])
def test_method__of_parts_the_hardest_is_named(*, first: bool) -> None:
    grid = _grid(6)
    alone = Factor(variables=("alone",), table=np.array([0.2, 0.8]))
    factors = (alone, *grid.factors) if first else (*grid.factors, alone)
    both = Network(cardinalities={"alone": 2, **grid.cardinalities}, factors=factors)
    found = marginals(both, limits=Limits(cells_in_clique=32))

    assert found.method is Method.CONDITIONING
    assert found.of("alone") == pytest.approx((0.2, 0.8), abs=_TOLERANCE)


def test_method__only_what_is_wanted_must_fit() -> None:
    child = Factor(variables=("0.0", "young"), table=np.array([[0.3, 0.7], [0.6, 0.4]]))
    network = Network(cardinalities={"0.0": 2, "young": 2, "other": 2}, factors=(child,))
    found = marginals(network, wanted=["0.0"], limits=Limits(cells_in_clique=2, branches=1))

    assert found.method is Method.JUNCTION_TREE  # the young are barren
    assert found.of("0.0") == pytest.approx((0.5, 0.5), abs=_TOLERANCE)
    assert found.log_evidence == pytest.approx(log(4), abs=_TOLERANCE)


def test_joint__refuses_what_would_be_approximate() -> None:
    with pytest.raises(DomainError, match="fits the limits"):
        joint(_grid(7), ["0.0", "6.6"], limits=Limits(cells_in_clique=36, branches=2))


def test_joint__by_conditioning() -> None:
    found = joint(_grid(6), ["0.0", "5.5"], limits=Limits(cells_in_clique=32))

    assert found == pytest.approx(joint(_grid(6), ["0.0", "5.5"]), abs=_TOLERANCE)
    assert found.sum() == pytest.approx(1.0, abs=_TOLERANCE)


def test_no_variables__have_evidence_one() -> None:
    found = marginals(Network(cardinalities={}, factors=()))

    assert (found.laws, found.log_evidence, found.exact) == ({}, 0.0, True)
    assert joint(Network(cardinalities={}, factors=()), []).tolist() == 1.0


def test_no_factors__leave_variables_uniform() -> None:
    found = marginals(Network(cardinalities={"coin": 2, "die": 6, "sure": 1}, factors=()))

    assert found.of("coin") == (0.5, 0.5)
    assert found.of("die") == pytest.approx((1 / 6,) * 6, abs=_TOLERANCE)
    assert found.of("sure") == (1.0,)
    assert found.log_evidence == pytest.approx(log(12), abs=_TOLERANCE)


def test_one_variable__is_its_table_scaled() -> None:
    table = Factor(variables=("coin",), table=np.array([1.0, 3.0]))
    found = marginals(Network(cardinalities={"coin": 2}, factors=(table,)))

    assert found.of("coin") == pytest.approx((0.25, 0.75), abs=_TOLERANCE)
    assert all(type(share) is float for share in found.of("coin"))
    assert found.log_evidence == pytest.approx(log(4), abs=_TOLERANCE)


def test_impossible_states__have_probability_zero_exactly() -> None:
    table = np.array([[0.5, 0.5, 0.0], [0.2, 0.0, 0.0]])
    factor = Factor(variables=("a", "b"), table=table)
    seen = Factor(variables=("b",), table=np.array([0.0, 1.0, 1.0]))
    found = marginals(Network(cardinalities={"a": 2, "b": 3}, factors=(factor, seen)))

    assert found.of("a") == (1.0, 0.0)
    assert found.of("b") == (0.0, 1.0, 0.0)


def test_underflow__of_many_small_factors_keeps_the_evidence() -> None:
    small = tuple(
        Factor(variables=(f"v{place % 3}",), table=np.full(2, 1e-5)) for place in range(2000)
    )
    chain = Factor(variables=("v0", "v1", "v2"), table=np.ones((2, 2, 2)))
    found = marginals(
        Network(cardinalities=dict.fromkeys(("v0", "v1", "v2"), 2), factors=(*small, chain))
    )

    assert found.of("v1") == pytest.approx((0.5, 0.5), abs=_TOLERANCE)
    assert found.log_evidence == pytest.approx(2000 * log(1e-5) + log(8), rel=1e-12)


@pytest.mark.parametrize("limits", [_ROOMY, Limits(cells_in_clique=4)], ids=["tree", "branches"])
def test_underflow__of_one_state_is_not_taken_for_impossible(limits: Limits) -> None:
    """A thousand factors against a state, and as many for it: both ways below 1e-308."""
    names = ("a", "b", "c")
    near = np.array([[0.9, 0.1], [0.1, 0.9]])
    loop = [Factor(variables=pair, table=near) for pair in (("a", "b"), ("b", "c"), ("c", "a"))]
    against = [Factor(variables=("a",), table=np.array([1e-5, 1.0])) for _ in range(1000)]
    for_it = [Factor(variables=("b",), table=np.array([1.0, 1e-5])) for _ in range(1000)]
    network = Network(cardinalities=dict.fromkeys(names, 2), factors=(*loop, *against, *for_it))
    found = marginals(network, limits=limits)

    # Only unlike a and b remain (a 1, b 0); c is between them.
    assert found.of("a") == pytest.approx((0.0, 1.0), abs=_TOLERANCE)
    assert found.of("c") == pytest.approx((0.5, 0.5), abs=_TOLERANCE)
    assert found.log_evidence == pytest.approx(log(0.1 * 2 * 0.09), rel=1e-9)
    same = Factor(variables=("a", "b"), table=np.eye(2))
    both = Network(cardinalities=network.cardinalities, factors=(*network.factors, same))
    balanced = marginals(both, limits=limits)

    assert balanced.of("a") == pytest.approx((0.5, 0.5), abs=1e-9)
    assert balanced.log_evidence == pytest.approx(
        1000 * log(1e-5) + log(2 * 0.9 * (0.81 + 0.01)), rel=1e-12
    )
    assert balanced.log_evidence > -inf
