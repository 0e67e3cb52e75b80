"""Measure inbreeding and kinship of single animals, beside sgkit on the same machine.

Prints a table and writes the same figures as JSON to the file that is named::

    .venv/bin/python tests/benchmarks/lineage.py figures.json

Each figure comes from a process of its own, so that peak memory is that of one computation.
sgkit's first run compiles and is left out. Besides times, which differ between machines, the
ratio to sgkit counts; a load of other programs distorts both.
"""

import argparse
import json
import resource
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from time import perf_counter

import numpy as np

sys.path.insert(0, str(Path(__file__).parents[1]))

from filialog.lineage import (
    AnimalPedigree,
    animal_inbreeding,
    animal_kinship_matrix,
    mean_kinship_of,
)
from tools.oracles import ask_oracle

_SEED = 20_261_125
_RUNS = 3
_RANDOM_MATED = 10_000
_ANIMALS, _MATINGS, _GENERATIONS = 1_000_000, 750, 30

Parents = tuple[list[int | None], list[int | None]]


def random_mated() -> Parents:
    """Draw both parents of each animal from all before it; the first hundred are founders."""
    draws = np.random.default_rng(_SEED)
    parents: Parents = ([None] * 100, [None] * 100)
    for place in range(100, _RANDOM_MATED):
        for side in parents:
            side.append(int(draws.integers(0, place)))
    return parents


def few_matings() -> Parents:
    """Draw 25 pairs in each of 30 generations, whose broods add up to a million animals."""
    draws = np.random.default_rng(_SEED)
    pairs = _MATINGS // _GENERATIONS
    parents: Parents = ([None] * (2 * pairs), [None] * (2 * pairs))
    oldest = 0
    sizes = [len(part) for part in np.array_split(np.arange(_ANIMALS - 2 * pairs), _MATINGS)]
    for generation in range(_GENERATIONS):
        newest = len(parents[0])
        chosen = draws.choice(np.arange(oldest, newest), 2 * pairs, replace=False).tolist()
        oldest = newest
        for pair in range(pairs):
            size = sizes[generation * pairs + pair]
            for side, parent in zip(parents, chosen[2 * pair : 2 * pair + 2], strict=True):
                side.extend([parent] * size)
    return parents


COMPUTATIONS: dict[str, tuple[Callable[[], Parents], Callable[[AnimalPedigree], object]]] = {
    "kinship matrix, 10 000 random-mated": (random_mated, animal_kinship_matrix),
    "inbreeding, 10 000 random-mated": (random_mated, animal_inbreeding),
    "inbreeding, 1 000 000 of 750 matings": (few_matings, animal_inbreeding),
    "mean kinship, 1 000 000 of 750 matings": (few_matings, mean_kinship_of),
}


def measure(name: str) -> dict[str, object]:
    """Run one computation several times, building the value included."""
    draw, compute = COMPUTATIONS[name]
    dams, sires = draw()
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    seconds = []
    for _ in range(_RUNS):
        start = perf_counter()
        result = compute(AnimalPedigree(dams=tuple(dams), sires=tuple(sires)))
        seconds.append(perf_counter() - start)
        del result
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    return {"seconds": seconds, "peak_mib": peak, "mib_before": before}


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("figures", type=Path, help="the JSON file to write")
    parser.add_argument("--only", choices=COMPUTATIONS, help=argparse.SUPPRESS)
    arguments = parser.parse_args()
    if arguments.only:
        arguments.figures.write_text(json.dumps(measure(arguments.only)), encoding="utf-8")
        return
    figures = {}
    for name in COMPUTATIONS:
        call = [sys.executable, __file__, str(arguments.figures), "--only", name]
        subprocess.run(call, check=True)
        figures[name] = json.loads(arguments.figures.read_text(encoding="utf-8"))
    dams, sires = random_mated()
    asked = {"pedigrees": [{"dams": dams, "sires": sires}], "repeat": _RUNS + 1}
    [answer] = ask_oracle("sgkit_kinship.py", asked)
    answer["seconds"] = answer["seconds"][1:]
    figures["sgkit: kinship matrix, 10 000 random-mated"] = answer
    ours, theirs = (
        min(figures[name]["seconds"]) for name in (next(iter(COMPUTATIONS)), [*figures][-1])
    )
    report = {"figures": figures, "kinship_matrix_to_sgkit": ours / theirs}
    arguments.figures.write_text(json.dumps(report, indent=2) + "\n", encoding="utf-8")
    print(f"{'':45}{'best s':>8}{'worst s':>9}{'peak MiB':>10}")
    for name, one in figures.items():
        low, high = min(one["seconds"]), max(one["seconds"])
        print(f"{name:45}{low:8.2f}{high:9.2f}{one['peak_mib']:10.0f}")
    print(f"kinship matrix: {ours / theirs:.2f} of sgkit's time")


if __name__ == "__main__":
    main()
