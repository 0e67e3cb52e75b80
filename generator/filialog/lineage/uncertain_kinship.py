"""Kinship of single animals whose parents are known only as candidates with chances."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from filialog.domain_error import DomainError

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

__all__ = ["Candidate", "CandidateParents", "expected_kinship_matrix"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """One animal that may be the parent."""

    animal: int
    """Place of the animal, which stands before its young."""
    chance: float
    """Probability that it is the parent, in [0, 1]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CandidateParents:
    """The possible parents of one animal."""

    dams: tuple[Candidate, ...] = ()
    """Candidates, each once; what their chances lack to 1 is a dam from outside."""
    sires: tuple[Candidate, ...] = ()
    """Candidates, each once; what their chances lack to 1 is a sire from outside."""
    brood: str | None = None
    """Animals that name the same brood share one dam and one sire, whoever they are; None
    means that the animal's parents are independent of those of all others."""


def expected_kinship_matrix(animals: Sequence[CandidateParents]) -> "Floats":
    """Give the expected kinship of all pairs, over all ways the parents may be assigned.

    Parameters
    ----------
    animals
        Possible parents of each animal, parents before young. Those of one brood have
        the same candidates with the same chances.

    Returns
    -------
    numpy.ndarray
        Symmetric, in the order given; values in [0, 1], on the diagonal (1 + F) / 2 with
        the expected F.

    Raises
    ------
    DomainError
        If a candidate is no earlier animal or stands twice, a chance is outside [0, 1],
        chances add up to more than 1, or brood mates have different candidates.

    Notes
    -----
    Each candidate's row counts by its chance. For animals without a brood this is the
    weighted table of Henderson (1988), which takes every assignment as independent: two
    young of one dam with two equally likely, unrelated sires have relationship 0.375.
    Brood mates of one unknown sire have 0.5 whichever it is; so each brood gets one
    stand-in for its dam and one for its sire, which is drawn once. Dam and sire are drawn
    independently. Founders and parents from outside are unrelated and not inbred.

    References
    ----------
    .. [1] Henderson CR (1988) Use of an average numerator relationship matrix for
       multiple-sire joining. Journal of Animal Science 66:1614-1621.
    .. [2] Lynch M, Walsh B (1998) Genetics and Analysis of Quantitative Traits.
       Sinauer, p. 775 (each of k equally likely sires counts 1/(2k)).

    Examples
    --------
    >>> dam = (Candidate(animal=0, chance=1.0),)
    >>> sires = (Candidate(animal=1, chance=0.5), Candidate(animal=2, chance=0.5))
    >>> founders = [CandidateParents()] * 3
    >>> apart = CandidateParents(dams=dam, sires=sires)
    >>> mates = CandidateParents(dams=dam, sires=sires, brood="first")
    >>> 2 * float(expected_kinship_matrix([*founders, apart, apart])[3, 4])
    0.375
    >>> 2 * float(expected_kinship_matrix([*founders, mates, mates])[3, 4])
    0.5
    """
    import numpy as np  # noqa: PLC0415 - a quick command should not load it

    table = _Table(len(animals) + 2 * len({a.brood for a in animals} - {None}))
    row_of: list[int] = []  # of each animal: its row in the table, among those of stand-ins
    broods: dict[str, tuple[int, CandidateParents, list[int]]] = {}
    for place, animal in enumerate(animals):
        _check(place, animal)
        if animal.brood is None:
            sides = [_draws(side, row_of) for side in (animal.dams, animal.sires)]
        else:
            if animal.brood not in broods:
                stand_ins = [
                    table.add_stand_in(_draws(side, row_of)) for side in (animal.dams, animal.sires)
                ]
                broods[animal.brood] = (place, animal, stand_ins)
            first, parents, stand_ins = broods[animal.brood]
            if _candidates(parents) != _candidates(animal):
                raise DomainError(
                    f"parents of animal {place}",
                    _candidates(animal),
                    f"those of brood mate {first}",
                )
            sides = [[(1.0, row)] for row in stand_ins]
        row_of.append(table.add_young(*sides))
    rows = np.array(row_of, dtype=np.int64)
    return table.kinship[np.ix_(rows, rows)]


def _check(place: int, animal: CandidateParents) -> None:
    for role, side in (("dam", animal.dams), ("sire", animal.sires)):
        if len({candidate.animal for candidate in side}) != len(side):
            raise DomainError(f"candidate {role}s of animal {place}", side, "each of them once")
        for candidate in side:
            if type(candidate.animal) is not int or not 0 <= candidate.animal < place:
                raise DomainError(
                    f"candidate {role} of animal {place}", candidate.animal, "an earlier animal"
                )
            if not candidate.chance >= 0.0:  # written so that NaN fails too
                raise DomainError(f"chance of a {role}", candidate.chance, "0 or more")
        total = sum(candidate.chance for candidate in side)
        if total > 1.0 + 1e-9:
            raise DomainError(
                f"sum of chances of the {role}s of animal {place}", total, "at most 1"
            )


def _candidates(animal: CandidateParents) -> tuple[tuple[tuple[int, float], ...], ...]:
    return tuple(
        tuple(sorted((candidate.animal, candidate.chance) for candidate in side))
        for side in (animal.dams, animal.sires)
    )


_Draws = list[tuple[float, int]]


def _draws(side: Iterable[Candidate], row_of: Sequence[int]) -> _Draws:
    return [(candidate.chance, row_of[candidate.animal]) for candidate in side]


class _Table:
    """Kinships of the animals and stand-ins added so far."""

    def __init__(self, most: int) -> None:
        import numpy as np  # noqa: PLC0415

        self.kinship: Floats = np.zeros((most, most))
        self._filled = 0

    def add_young(self, dams: _Draws, sires: _Draws) -> int:
        """Add an animal with a parent from each side; return its row."""
        row = 0.5 * (self._mean_row(dams) + self._mean_row(sires))
        inbred = sum(w * v * self.kinship[d, s] for w, d in dams for v, s in sires)
        return self._add(row, 0.5 + 0.5 * float(inbred))

    def add_stand_in(self, candidates: _Draws) -> int:
        """Add an animal that is one of the candidates, or else from outside."""
        outside = 1.0 - sum(chance for chance, _ in candidates)
        own = sum(chance * self.kinship[row, row] for chance, row in candidates)
        return self._add(self._mean_row(candidates), 0.5 * outside + float(own))

    def _mean_row(self, draws: _Draws) -> "Floats":
        import numpy as np  # noqa: PLC0415

        mean: Floats = np.zeros(self._filled)
        for chance, row in draws:
            mean += chance * self.kinship[row, : self._filled]
        return mean

    def _add(self, row: "Floats", own: float) -> int:
        place = self._filled
        self.kinship[place, :place] = self.kinship[:place, place] = row
        self.kinship[place, place] = own
        self._filled += 1
        return place
