"""Products with the relationship matrix of single animals, without building it.

The matrix is A = T D T' (Henderson 1976): T gives the share of an animal that comes from
each of its ancestors, D the variance that segregation adds in each animal. A product with A
is one sweep from young to parents (T'), a scaling (D) and one sweep back (T).
"""

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]
    Numbers = NDArray[np.int64]

__all__ = ["Breeders", "Sweeps", "find_breeders", "generation_depths", "segregation_variances"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Breeders:
    """A pedigree cut down to what kinship needs: animals with young, and distinct matings."""

    places: "Numbers"
    """Place in the whole pedigree of each animal that has young."""
    dams: "Numbers"
    """Dam of each distinct mating as a number among the breeders; -1 is unknown."""
    sires: "Numbers"
    """Sire of each distinct mating, likewise."""
    born_of: "Numbers"
    """The mating each breeder was born of."""
    mating_of: "Numbers"
    """The mating each animal of the whole pedigree was born of."""


def find_breeders(dams: "Numbers", sires: "Numbers") -> Breeders:
    """Find the animals with young and the pairs that have them; pairs are sorted."""
    import numpy as np  # noqa: PLC0415 - a quick command should not load it

    count = len(dams)
    is_breeder = np.zeros(count + 1, dtype=np.bool_)  # its last place stands for unknown
    is_breeder[dams] = True
    is_breeder[sires] = True
    is_breeder[count] = False
    places = np.flatnonzero(is_breeder)
    number = np.full(count + 1, -1, dtype=np.int64)
    number[places] = np.arange(len(places))
    width = len(places) + 1
    pairs = (number[dams] + 1) * width + number[sires] + 1
    distinct, mating_of = np.unique(pairs, return_inverse=True)
    return Breeders(
        places=places,
        dams=distinct // width - 1,
        sires=distinct % width - 1,
        born_of=mating_of[places],
        mating_of=mating_of,
    )


def generation_depths(dams: "Numbers", sires: "Numbers") -> "Numbers":
    """Give the most steps from each animal back to a founder; parents stand before young."""
    import numpy as np  # noqa: PLC0415

    depths = [-1] * (len(dams) + 1)  # the last place, which is also -1, stands for unknown
    for place, (dam, sire) in enumerate(zip(dams.tolist(), sires.tolist(), strict=True)):
        depths[place] = 1 + max(depths[dam], depths[sire])
    return np.array(depths[:-1], dtype=np.int64)


def segregation_variances(dams: "Numbers", sires: "Numbers", inbreeding: "Floats") -> "Floats":
    """Give the diagonal of D: 1/2 - (F dam + F sire) / 4, where -1 is the F of an unknown."""
    import numpy as np  # noqa: PLC0415

    with_unknown = np.append(inbreeding, -1.0)
    variances: Floats = 0.5 - 0.25 * (with_unknown[dams] + with_unknown[sires])
    return variances


class Sweeps:
    """The two sweeps over one pedigree, one step per generation, for columns side by side."""

    def __init__(self, dams: "Numbers", sires: "Numbers", depths: "Numbers") -> None:
        import numpy as np  # noqa: PLC0415
        from scipy.sparse import csr_matrix  # noqa: PLC0415

        order = np.argsort(depths, kind="stable")
        starts = np.searchsorted(depths[order], np.arange(1, int(depths.max(initial=0)) + 2))
        self._steps = []
        for start, end in zip(starts[:-1].tolist(), starts[1:].tolist(), strict=True):
            young = order[start:end]
            links = np.concatenate([dams[young], sires[young]])
            rows = np.tile(np.arange(len(young)), 2)[links >= 0]
            parents, columns = np.unique(links[links >= 0], return_inverse=True)
            halves = csr_matrix(
                (np.full(len(rows), 0.5), (rows, columns)), shape=(len(young), len(parents))
            )
            self._steps.append((young, parents, halves, halves.T.tocsr()))

    def to_ancestors(self, columns: "Floats", *, from_depth: int | None = None) -> None:
        """Replace X by T'X, where X has no entries in animals deeper than `from_depth`."""
        for young, parents, _, transposed in reversed(self._steps[:from_depth]):
            columns[parents] += transposed @ columns[young]

    def to_descendants(self, columns: "Floats", *, to_depth: int | None = None) -> None:
        """Replace X by TX, for animals down to `to_depth`."""
        for young, parents, halves, _ in self._steps[:to_depth]:
            columns[young] += halves @ columns[parents]
