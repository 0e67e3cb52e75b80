"""Measure the laws of all pools of a journal, from pools and tallies to posterior laws.

Prints a table and writes the same figures as JSON to the file that is named::

    .venv/bin/python tests/benchmarks/carriers.py figures.json

- 1,000 groups of an ordinary branching journal: each pool is mated once or twice, half of the
  broods have a tally, half are sorted by look;
- 202 pools of which any may be mated again, some of them dozens of times;
- 200 animals, each from two of the 6 before it, with two unlinked loci that one look asks for;
- a closed line of 8 breeders over 40 generations, the sire of every brood known;
- the same line, every brood of one sire among the 4 males.

Each journal has a process of its own; libraries are imported before the clock starts.
Memory is counted above that of the imports.
"""

import argparse
import json
import random
import resource
import subprocess
import sys
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from time import perf_counter

import networkx  # noqa: F401 - not measured
import numpy  # noqa: F401 - not measured
import scipy.special
import scipy.stats  # noqa: F401 - not measured

sys.path.insert(0, str(Path(__file__).parents[1]))

import filialog.genetics.inference  # noqa: F401 - not measured
from filialog.genetics import (
    Condition,
    ConditionKind,
    Locus,
    LookRule,
    TraitModel,
    pool_law,
)
from filialog.genetics.carriers import (
    BroodOf,
    CarrierPool,
    Evidence,
    FounderPool,
    FrequencyPoint,
    PoolShare,
    SeenLook,
    TakenFrom,
    TallyEvidence,
    posterior,
)

_SEED = 20_261_125

Journal = tuple[TraitModel, list[CarrierPool], list[Evidence]]


def _recessive(locus: str) -> Condition:
    return Condition(locus=locus, kind=ConditionKind.HOM, alleles=("a",))


ONE = TraitModel(
    name="one",
    loci=(Locus(name="gene", alleles=("A", "a")),),
    looks=(LookRule(look="pale", conditions=(_recessive("gene"),)), LookRule(look="plain")),
)
TWO = TraitModel(
    name="two",
    loci=(Locus(name="gene", alleles=("A", "a")), Locus(name="other", alleles=("A", "a"))),
    looks=(
        LookRule(look="white", conditions=(_recessive("gene"), _recessive("other"))),
        LookRule(look="plain"),
    ),
)


def _founders(model: TraitModel, name: str, size: int) -> CarrierPool:
    law = pool_law(
        model, {locus.name: {"A": Fraction(1, 2), "a": Fraction(1, 2)} for locus in model.loci}
    )
    points = (FrequencyPoint(weight=Fraction(1), law=law),)
    return CarrierPool(name=name, origin=FounderPool(points=points), size=size)


def _brood(name: str, dam: str, *sires: str, size: int | None = None) -> CarrierPool:
    origin = BroodOf(
        dams=(PoolShare(pool=dam),), sires=tuple(PoolShare(pool=sire) for sire in sires)
    )
    return CarrierPool(name=name, origin=origin, size=size)


def _tally(name: str, pale: int, plain: int) -> TallyEvidence:
    return TallyEvidence(label=name, pool=name, looks=(("pale", pale), ("plain", plain)))


def ordinary() -> Journal:
    """Build 1,000 groups; what is bred from is among the 14 latest that were bred once at most."""
    draw = random.Random(_SEED)
    pools: list[CarrierPool] = []
    evidence: list[Evidence] = []
    mated: dict[str, int] = {}
    while len(pools) < 1_000:
        free = [name for name, times in mated.items() if times < 2][-14:]
        if len(free) < 4 or draw.random() < 0.06:
            pools.append(_founders(ONE, f"founders {len(pools)}", draw.randint(2, 12)))
            mated[pools[-1].name] = 0
            continue
        dam, sire = draw.choice(free), draw.choice(free)
        if dam.startswith("pale") and sire.startswith("pale"):
            continue
        for parent in {dam, sire}:
            mated[parent] += 1
        name, size = f"brood {len(pools)}", draw.randint(8, 40)
        pale = draw.randint(1, size // 3)
        pools.append(_brood(name, dam, sire, size=size))
        if draw.random() < 0.5:
            evidence.append(_tally(name, pale, size - pale))
        if draw.random() < 0.5:
            for look, count in (("pale", pale), ("plain", size - pale)):
                origin = TakenFrom(pool=name, look=look)
                pools.append(CarrierPool(name=f"{look} of {name}", origin=origin, size=count))
                mated[pools[-1].name] = 0
        else:
            mated[name] = 0
    return ONE, pools, evidence


def much_mated() -> Journal:
    """Build pools of which every earlier one may have the dam of the next brood."""
    draw = random.Random(_SEED)
    pools = [_founders(ONE, "first", 4)]
    evidence: list[Evidence] = []
    while len(pools) < 202:
        dam = draw.choice([pool.name for pool in pools if not pool.name.startswith("males")])
        name = f"brood {len(pools)}"
        pools.append(_founders(ONE, f"males {len(pools)}", 2))
        pools.append(_brood(name, dam, pools[-1].name, size=20))
        pale = draw.randint(0, 6)
        evidence.append(_tally(name, pale, 20 - pale))
        if draw.random() < 0.5:
            origin = TakenFrom(pool=name, look="plain")
            size = 20 - pale
            pools.append(CarrierPool(name=f"plain of {name}", origin=origin, size=size))
    return ONE, pools, evidence


def two_loci() -> Journal:
    """Build 200 animals; each has two parents among the 6 before it, or is a founder."""
    draw = random.Random(_SEED)
    pools: list[CarrierPool] = []
    evidence: list[Evidence] = []
    for place in range(200):
        name = str(place)
        if place < 2 or draw.random() < 0.1:
            pools.append(_founders(TWO, name, 1))
            continue
        dam, sire = draw.sample(range(max(0, place - 6), place), 2)
        pools.append(_brood(name, str(dam), str(sire), size=1))
        if draw.random() < 0.2:
            pools.append(_brood(f"test {name}", name, str(sire), size=6))
            looks = (("white", 0), ("plain", 6))
            evidence.append(TallyEvidence(label=name, pool=f"test {name}", looks=looks))
    return TWO, pools, evidence


def closed_line(sires: int) -> Journal:
    """Build the line; each animal has a dam and one of so many sires of the last generation."""
    draw = random.Random(_SEED)
    pools: list[CarrierPool] = []
    evidence: list[Evidence] = []
    for generation in range(40):
        for place in range(8):
            name = f"{generation}.{place}"
            if generation == 0:
                pools.append(_founders(ONE, name, 1))
                continue
            dam = f"{generation - 1}.{draw.randrange(4)}"
            chosen = [f"{generation - 1}.{4 + one}" for one in draw.sample(range(4), sires)]
            pools.append(_brood(name, dam, *chosen, size=1))
            if draw.random() < 0.2:
                pools.append(_brood(f"test {name}", name, "tester", size=5))
                evidence.append(_tally(f"test {name}", 0, 5))
    pools.append(_founders(ONE, "tester", 1))
    evidence.append(SeenLook(label="tester", pool="tester", look="pale"))
    return ONE, pools, evidence


JOURNALS: dict[str, Callable[[], Journal]] = {
    "1 000 groups of an ordinary journal": ordinary,
    "202 pools, some mated dozens of times": much_mated,
    "200 animals, two loci and one look": two_loci,
    "8 breeders, 40 generations, known sires": lambda: closed_line(1),
    "8 breeders, 40 generations, sire sets of 4": lambda: closed_line(4),
}


def measure(name: str) -> dict[str, object]:
    """Compute the laws of all pools of one journal."""
    model, pools, evidence = JOURNALS[name]()
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    start = perf_counter()
    found = posterior(model, pools, evidence)
    for pool in pools:
        found.law_of(pool.name)
    seconds = perf_counter() - start
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    return {
        "seconds": seconds,
        "mib": peak - before,
        "pools": len(pools),
        "exact": found.exact,
        "error": found.error,
        "assumptions": [one.value for one in found.assumptions],
        "log_evidence": found.log_evidence,
    }


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("figures", type=Path, help="the JSON file to write")
    parser.add_argument("--only", choices=JOURNALS, help=argparse.SUPPRESS)
    arguments = parser.parse_args()
    if arguments.only:
        arguments.figures.write_text(json.dumps(measure(arguments.only)), encoding="utf-8")
        return
    figures = {}
    for name in JOURNALS:
        command = [sys.executable, __file__, str(arguments.figures), "--only", name]
        subprocess.run(command, check=True)
        found = figures[name] = json.loads(arguments.figures.read_text(encoding="utf-8"))
        how = "exact" if found["exact"] else f"error {found['error']:.3f}"
        print(f"{name:45} {found['seconds']:7.2f} s {found['mib']:6.0f} MiB  {how}", flush=True)
    arguments.figures.write_text(json.dumps(figures, indent=2) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
