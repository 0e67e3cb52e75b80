"""Inbreeding of single animals, once for each distinct mating."""

from typing import TYPE_CHECKING

from filialog.lineage.animal_pedigree import AnimalPedigree, parent_places
from filialog.lineage.animal_sweeps import (
    Breeders,
    Sweeps,
    find_breeders,
    generation_depths,
    segregation_variances,
)

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]
    Numbers = NDArray[np.int64]

__all__ = ["animal_inbreeding", "inbreeding_array"]

MOST_BREEDERS_IN_TABLE = 6000
"""Breeders used at the same time up to which their kinships are kept in a table (288 MB)."""

_NUMBERS_IN_BATCH = 2**23  # of a batch of sweeps: 64 MB


def animal_inbreeding(pedigree: AnimalPedigree) -> tuple[float, ...]:
    """Give the inbreeding coefficient F of each animal.

    Parameters
    ----------
    pedigree
        The animals.

    Returns
    -------
    tuple of float
        Wright's F in [0, 1], in the order of the pedigree: the kinship of the animal's
        dam and sire. 0 where a parent is unknown.

    Notes
    -----
    Brood mates have one F, so the work grows with the number of distinct matings. Up to
    6000 breeders that are in use at the same time, their kinships are kept in a table from
    generation to generation, and an animal leaves it after its last young. Beyond that,
    the kinships of each generation's parents come from sweeps over the pedigree.

    References
    ----------
    .. [1] Emik LO, Terrill CE (1949) Systematic procedures for calculating inbreeding
       coefficients. Journal of Heredity 40:51-55 (the table; from memory).
    .. [2] Colleau JJ (2002) An indirect approach to the extensive calculation of
       relationship coefficients. Genetics Selection Evolution 34:409-421 (the sweeps).
    .. [3] Sargolzaei M, Iwaisaki H, Colleau JJ (2005) A fast algorithm for computing
       inbreeding coefficients in large populations. Journal of Animal Breeding and
       Genetics 122:325-331 (generation by generation; abstract).

    Examples
    --------
    >>> sib_mating = AnimalPedigree(dams=(None, None, 0, 0, 2), sires=(None, None, 1, 1, 3))
    >>> animal_inbreeding(sib_mating)
    (0.0, 0.0, 0.0, 0.0, 0.25)
    """
    return tuple(inbreeding_array(*parent_places(pedigree)).tolist())


def inbreeding_array(dams: "Numbers", sires: "Numbers") -> "Floats":
    """Give F of each animal, from arrays of places in which -1 is unknown."""
    breeders = find_breeders(dams, sires)
    own_dams, own_sires = breeders.dams[breeders.born_of], breeders.sires[breeders.born_of]
    depths = generation_depths(own_dams, own_sires)
    plan = _Plan(breeders, depths)
    if plan.most_at_once <= MOST_BREEDERS_IN_TABLE:
        by_mating = _by_table(breeders, plan)
    else:
        by_mating = _by_sweeps(breeders, depths, plan)
    return by_mating[breeders.mating_of]


class _Plan:
    """When each mating takes place, and from when to when each breeder is needed."""

    def __init__(self, breeders: Breeders, depths: "Numbers") -> None:
        import numpy as np  # noqa: PLC0415 - a quick command should not load it

        known = np.append(depths, -1)  # the last place stands for unknown
        self.time = 1 + np.maximum(known[breeders.dams], known[breeders.sires])
        """Of each mating: the generation of its young."""
        count = len(depths)
        self.last = np.zeros(count + 1, dtype=np.int64)
        """Of each breeder: the time of its last young."""
        first = np.full(count + 1, np.iinfo(np.int64).max)
        for parents in (breeders.dams, breeders.sires):
            np.maximum.at(self.last, parents, self.time)
            np.minimum.at(first, parents, self.time)
        founder = (breeders.dams[breeders.born_of] < 0) & (breeders.sires[breeders.born_of] < 0)
        self.birth = np.where(founder, first[:-1] - 1, depths)
        """Of each breeder: when it comes in; a founder just before its first young."""
        self.end = int(self.time.max(initial=0))
        changes = np.zeros(self.end + 2, dtype=np.int64)
        np.add.at(changes, self.birth, 1)
        np.add.at(changes, self.last[:-1], -1)
        self.most_at_once = int(np.cumsum(changes).max())
        """The most breeders in use at the same time."""


def _groups(times: "Numbers", end: int) -> "list[Numbers]":
    """List what belongs to each time from 0 to the end."""
    import numpy as np  # noqa: PLC0415

    order = np.argsort(times, kind="stable")
    starts = np.searchsorted(times[order], np.arange(end + 2))
    return [order[starts[time] : starts[time + 1]] for time in range(end + 1)]


def _by_table(breeders: Breeders, plan: _Plan) -> "Floats":
    import numpy as np  # noqa: PLC0415

    found = np.zeros(len(breeders.dams))
    table = np.zeros((plan.most_at_once + 1, plan.most_at_once + 1))
    slot = np.zeros(len(breeders.places) + 1, dtype=np.int64)  # slot 0, all zero, is unknown
    free = list(range(plan.most_at_once, 0, -1))
    leaving = _groups(plan.last[:-1], plan.end)
    arriving = _groups(plan.birth, plan.end)
    for time, matings in enumerate(_groups(plan.time, plan.end)):
        found[matings] = table[slot[breeders.dams[matings]], slot[breeders.sires[matings]]]
        new = arriving[time]
        born_of = breeders.born_of[new]
        dams, sires = slot[breeders.dams[born_of]], slot[breeders.sires[born_of]]
        with_old = 0.5 * (table[dams] + table[sires])
        with_new = 0.5 * (with_old[:, dams] + with_old[:, sires])
        np.fill_diagonal(with_new, 0.5 + 0.5 * found[born_of])
        free.extend(slot[leaving[time]].tolist())
        own = np.array([free.pop() for _ in new], dtype=np.int64)
        slot[new] = own
        table[own] = with_old
        table[:, own] = with_old.T
        table[np.ix_(own, own)] = with_new
    return found


def _by_sweeps(breeders: Breeders, depths: "Numbers", plan: _Plan) -> "Floats":
    import numpy as np  # noqa: PLC0415

    count = len(breeders.places)
    own_dams, own_sires = breeders.dams[breeders.born_of], breeders.sires[breeders.born_of]
    sweeps = Sweeps(own_dams, own_sires, depths)
    found = np.zeros(len(breeders.dams))
    batch = max(1, _NUMBERS_IN_BATCH // count)
    both_known = (breeders.dams >= 0) & (breeders.sires >= 0)
    for time, at_time in enumerate(_groups(plan.time, plan.end)):
        matings = at_time[both_known[at_time]]
        variances = segregation_variances(own_dams, own_sires, found[breeders.born_of])
        sides = (breeders.dams[matings], breeders.sires[matings])
        swept, others = sorted(sides, key=lambda side: len(np.unique(side)))
        animals, column = np.unique(swept, return_inverse=True)
        for start in range(0, len(animals), batch):
            part = animals[start : start + batch]
            columns = np.zeros((count, len(part)))
            columns[part, np.arange(len(part))] = 1.0
            # The parents of this time's young are less deep than they, and their ancestors
            # less deep again, so that every variance that counts is known by now.
            sweeps.to_ancestors(columns, from_depth=time - 1)
            columns *= variances[:, np.newaxis]
            sweeps.to_descendants(columns, to_depth=time - 1)
            here = (column >= start) & (column < start + batch)
            found[matings[here]] = columns[others[here], column[here] - start] / 2
    return found
