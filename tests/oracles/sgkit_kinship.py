"""Kinship and inbreeding by sgkit: a JSON question on standard input, the answer on output.

Asked: a list of pedigrees, each with `dams` and `sires` as places, null where unknown.
Answered: for each of them `kinship`, a table, and `inbreeding`, a list, which is null where
sgkit 0.10.0 gives up: on a few pedigrees with much selfing its own check for a stack overflow
fails. With `repeat` in the
question, a number of runs, the answer is instead the seconds of each run and the peak memory
in MiB, of which the first run also compiles.

Runs in the environment of the reference libraries, `.ci/oracles/venv`.
"""

import json
import resource
import sys
from time import perf_counter
from typing import Any

Parents = list[int | None]


def kinship_and_inbreeding(pedigree: dict[str, Parents]) -> dict[str, Any]:
    import sgkit  # noqa: PLC0415 - pytest reads this file without it

    data = _dataset(pedigree)
    options = {"method": "diploid", "allow_half_founders": True}
    kinship = sgkit.pedigree_kinship(data, **options).stat_pedigree_kinship
    try:
        found = sgkit.pedigree_inbreeding(data, **options).stat_pedigree_inbreeding
        inbreeding = found.values.tolist()
    except AssertionError:
        inbreeding = None
    return {"kinship": kinship.values.tolist(), "inbreeding": inbreeding}


def seconds_for_kinship(pedigree: dict[str, Parents], *, repeat: int) -> dict[str, Any]:
    import sgkit  # noqa: PLC0415

    data = _dataset(pedigree)
    seconds = []
    for _ in range(repeat):
        start = perf_counter()
        sgkit.pedigree_kinship(
            data, method="diploid", allow_half_founders=True
        ).stat_pedigree_kinship.compute()
        seconds.append(perf_counter() - start)
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    return {"seconds": seconds, "peak_mib": peak}


def _dataset(pedigree: dict[str, Parents]) -> Any:  # noqa: ANN401 - of a library without types
    import numpy as np  # noqa: PLC0415
    import xarray  # noqa: PLC0415

    pairs = list(zip(pedigree["dams"], pedigree["sires"], strict=True))
    known = [[-1 if parent is None else parent for parent in pair] for pair in pairs]
    return xarray.Dataset(
        {
            "parent": (("samples", "parents"), np.array(known).reshape(-1, 2)),
            "sample_id": ("samples", np.arange(len(pairs)).astype(str)),
        }
    )


def answer(question: dict[str, Any]) -> list[dict[str, Any]]:
    if "repeat" in question:
        return [
            seconds_for_kinship(pedigree, repeat=question["repeat"])
            for pedigree in question["pedigrees"]
        ]
    return [kinship_and_inbreeding(pedigree) for pedigree in question["pedigrees"]]


if __name__ == "__main__":
    json.dump(answer(json.load(sys.stdin)), sys.stdout)
