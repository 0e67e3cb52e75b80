"""Laws of discrete networks by pgmpy: a JSON question on standard input, the answer on output.

Asked: a list of networks, each with `states`, the number of states of every variable,
`factors`, pairs of variables and the numbers of the table in C order, and `wanted`, the
variables whose laws are asked. Answered: for each network the law of each wanted variable, by
variable elimination on the Markov network of the factors.

Runs in the environment of the reference libraries, `.ci/oracles/venv`.
"""

import json
import logging
import sys
import warnings
from typing import Any


def laws(network: dict[str, Any]) -> dict[str, list[float]]:
    from pgmpy.factors.discrete import DiscreteFactor  # noqa: PLC0415 - pytest reads this file
    from pgmpy.inference import VariableElimination  # noqa: PLC0415
    from pgmpy.models import DiscreteMarkovNetwork  # noqa: PLC0415

    states = network["states"]
    model = DiscreteMarkovNetwork()
    model.add_nodes_from(states)
    for variables, numbers in network["factors"]:
        model.add_edges_from(
            (one, other) for place, one in enumerate(variables) for other in variables[place + 1 :]
        )
        lengths = [states[name] for name in variables]
        model.add_factors(DiscreteFactor(variables, lengths, numbers))
    asked = VariableElimination(model)
    found = {}
    for name in network["wanted"]:
        numbers = asked.query([name], show_progress=False).values
        # Where the network is in several parts pgmpy 1.1.2 gives numbers of another scale.
        found[name] = (numbers / numbers.sum()).tolist()
    return found


def answer(question: dict[str, Any]) -> list[dict[str, list[float]]]:
    return [laws(network) for network in question["networks"]]


if __name__ == "__main__":
    warnings.simplefilter("ignore")
    logging.disable(logging.WARNING)
    json.dump(answer(json.load(sys.stdin)), sys.stdout)
