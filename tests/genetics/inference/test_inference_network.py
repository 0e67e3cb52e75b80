"""What a factor, a network and limits accept."""

from collections.abc import Callable

import numpy as np
import pytest

from filialog.domain_error import DomainError
from filialog.genetics.inference import Factor, Limits, Network, joint, marginals

COIN = Factor(variables=("coin",), table=np.array([0.5, 0.5]))


@pytest.mark.parametrize(
    "wrong", [float("nan"), float("inf"), -float("inf"), -1e-300], ids=["nan", "inf", "-inf", "<0"]
)
def test_factor__refuses_a_number_that_is_no_likelihood(wrong: float) -> None:
    with pytest.raises(DomainError, match="number in a table"):
        Factor(variables=("coin",), table=np.array([0.5, wrong]))


@pytest.mark.parametrize(
    "variables", [(), ("coin",), ("coin", "die", "card")], ids=["none", "one", "three"]
)
def test_factor__refuses_another_number_of_axes(variables: tuple[str, ...]) -> None:
    with pytest.raises(DomainError, match="number of axes of a table is 2"):
        Factor(variables=variables, table=np.ones((2, 2)))


def test_factor__refuses_a_variable_twice() -> None:
    with pytest.raises(DomainError, match="each of them once"):
        Factor(variables=("coin", "coin"), table=np.ones((2, 2)))


def test_factor__keeps_a_copy_that_cannot_be_changed() -> None:
    numbers = np.array([0.25, 0.75])
    factor = Factor(variables=("coin",), table=numbers)
    numbers[0] = 9.0

    assert factor.table.tolist() == [0.25, 0.75]
    with pytest.raises(ValueError, match="read-only"):
        factor.table[0] = 9.0


def test_factor__takes_whole_numbers() -> None:
    assert Factor(variables=("coin",), table=np.array([1, 3])).table.dtype == np.float64


def test_network__refuses_an_unknown_variable() -> None:
    with pytest.raises(DomainError, match="variable of a factor is 'coin'"):
        Network(cardinalities={"die": 6}, factors=(COIN,))


def test_network__refuses_an_axis_of_another_length() -> None:
    with pytest.raises(DomainError, match="length of the axis of coin is 2"):
        Network(cardinalities={"coin": 3}, factors=(COIN,))


@pytest.mark.parametrize("states", [0, -1])
def test_network__refuses_a_variable_without_states(states: int) -> None:
    with pytest.raises(DomainError, match="number of states of coin"):
        Network(cardinalities={"coin": states}, factors=())


@pytest.mark.parametrize(
    ("quantity", "make"),
    [
        ("cells_in_clique", lambda: Limits(cells_in_clique=0)),
        ("cells", lambda: Limits(cells=0)),
        ("branches", lambda: Limits(branches=0)),
    ],
)
def test_limits__refuse_zero(quantity: str, make: Callable[[], Limits]) -> None:
    with pytest.raises(DomainError, match=f"limit of {quantity} is 0"):
        make()


def test_marginals__refuse_an_unknown_variable() -> None:
    network = Network(cardinalities={"coin": 2}, factors=(COIN,))

    with pytest.raises(DomainError, match="variable is 'die'"):
        marginals(network, wanted=["coin", "die"])
    with pytest.raises(DomainError, match="variable is 'die'"):
        joint(network, ["die"])


def test_marginals__have_no_law_of_what_was_not_wanted() -> None:
    network = Network(cardinalities={"coin": 2, "die": 6}, factors=(COIN,))

    with pytest.raises(DomainError, match="one whose law was wanted"):
        marginals(network, wanted=["coin"]).of("die")


def test_joint__refuses_a_variable_twice() -> None:
    with pytest.raises(DomainError, match="each of them once"):
        joint(Network(cardinalities={"coin": 2}, factors=(COIN,)), ["coin", "coin"])
