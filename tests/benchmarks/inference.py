"""Measure exact inference on one locus of three genotypes in three networks.

Prints a table and writes the same figures as JSON to the file that is named::

    .venv/bin/python tests/benchmarks/inference.py figures.json

- a closed line of 8 breeders over 40 generations, the sire of every brood known;
- the same line, every brood of one sire among the 4 males;
- 1,000 groups of a branching journal: each from a brood of two earlier groups, or founders.

In all of them a fifth of the animals have a tally of young with an affected animal. Each
network has a process of its own; libraries are imported before the clock starts, and every
run builds its network anew. Memory is counted above that of the imports.
"""

import argparse
import json
import resource
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from time import perf_counter

import networkx  # noqa: F401 - not measured
import numpy as np
from numpy.typing import NDArray

from filialog.genetics.inference import Factor, Limits, Network, marginals

_SEED = 20_261_125
_RUNS = 3
_BREEDERS, _GENERATIONS = 8, 40
_GROUPS = 1_000

Array = NDArray[np.float64]

FOUNDER = np.array([0.49, 0.42, 0.09])
"""Genotypes with 0, 1 and 2 copies of an allele of frequency 0.3."""


def mendelian() -> Array:
    """Return the share of each genotype of young, by those of dam and sire."""
    half = np.array([0.0, 0.5, 1.0])
    passes = np.stack([1 - half, half], axis=1)
    young = np.zeros((3, 3, 3))
    for one in (0, 1):
        for other in (0, 1):
            young[one + other] += np.outer(passes[:, one], passes[:, other])
    return young


def tally(draws: np.random.Generator) -> Array:
    """Return the likelihood of plain young only, from the animal and one with two copies."""
    return np.array([1.0, 0.5, 0.0]) ** int(draws.integers(1, 6)) + 1e-3


def closed_line(sires: int) -> Network:
    """Build the line; each animal has a dam and one of so many sires of the last generation."""
    draws = np.random.default_rng(_SEED)
    states: dict[str, int] = {}
    factors: list[Factor] = []
    table, half = mendelian(), _BREEDERS // 2
    for generation in range(_GENERATIONS):
        for place in range(_BREEDERS):
            animal = f"{generation}.{place}"
            states[animal] = 3
            if generation == 0:
                factors.append(Factor(variables=(animal,), table=FOUNDER))
                continue
            dam = f"{generation - 1}.{draws.integers(half)}"
            chosen = half + draws.permutation(half)[:sires]
            candidates = [f"{generation - 1}.{sire}" for sire in chosen]
            factors.extend(_brood(animal, dam, candidates, states, table))
            if draws.random() < 0.2:
                factors.append(Factor(variables=(animal,), table=tally(draws), label=animal))
    return Network(cardinalities=states, factors=tuple(factors))


def _brood(
    animal: str, dam: str, sires: list[str], states: dict[str, int], table: Array
) -> list[Factor]:
    """Bind an animal to its parents: with a switch and a factor for each sire, if several."""
    if len(sires) == 1:
        return [Factor(variables=(animal, dam, sires[0]), table=table)]
    switch = f"sire of {animal}"
    states[switch] = len(sires)
    factors = [Factor(variables=(switch,), table=np.full(len(sires), 1 / len(sires)))]
    for place, sire in enumerate(sires):
        chosen = np.ones((len(sires), 3, 3, 3))
        chosen[place] = table
        factors.append(Factor(variables=(switch, animal, dam, sire), table=chosen))
    return factors


def branching() -> Network:
    """Build groups of which each has two parents among those some way before it."""
    draws = np.random.default_rng(_SEED)
    states: dict[str, int] = {}
    factors: list[Factor] = []
    table = mendelian()
    for place in range(_GROUPS):
        group = str(place)
        states[group] = 3
        if place < 2 or draws.random() < 0.1:
            factors.append(Factor(variables=(group,), table=FOUNDER))
            continue
        dam, sire = draws.choice(np.arange(max(0, place - 12), place), 2, replace=place == 1)
        factors.append(Factor(variables=(group, str(dam), str(sire)), table=table))
        if draws.random() < 0.2:
            factors.append(Factor(variables=(group,), table=tally(draws), label=group))
    return Network(cardinalities=states, factors=tuple(factors))


NETWORKS: dict[str, Callable[[], Network]] = {
    "8 breeders, 40 generations, known sires": lambda: closed_line(1),
    "8 breeders, 40 generations, sire sets of 4": lambda: closed_line(4),
    "1 000 groups of a branching journal": branching,
}


def measure(name: str) -> dict[str, object]:
    """Compute all laws of one network several times."""
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    seconds = []
    for _ in range(_RUNS):
        network = NETWORKS[name]()
        start = perf_counter()
        found = marginals(network, limits=Limits())
        seconds.append(perf_counter() - start)
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    return {
        "seconds": seconds,
        "mib": peak - before,
        "variables": len(network.cardinalities),
        "factors": len(network.factors),
        "method": found.method.value,
        "log_evidence": found.log_evidence,
    }


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("figures", type=Path, help="the JSON file to write")
    parser.add_argument("--only", choices=NETWORKS, help=argparse.SUPPRESS)
    arguments = parser.parse_args()
    if arguments.only:
        arguments.figures.write_text(json.dumps(measure(arguments.only)), encoding="utf-8")
        return
    figures = {}
    print(f"{'':45}{'best s':>8}{'worst s':>9}{'MiB':>7}  method")
    for name in NETWORKS:
        call = [sys.executable, __file__, str(arguments.figures), "--only", name]
        subprocess.run(call, check=True)
        one = figures[name] = json.loads(arguments.figures.read_text(encoding="utf-8"))
        low, high = min(one["seconds"]), max(one["seconds"])
        print(f"{name:45}{low:8.2f}{high:9.2f}{one['mib']:7.0f}  {one['method']}")
    arguments.figures.write_text(json.dumps(figures, indent=2) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
