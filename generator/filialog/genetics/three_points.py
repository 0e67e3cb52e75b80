"""The order of three linked loci, from a cross to triple recessives."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from filialog.domain_error import DomainError

__all__ = ["ThreePoints", "order_of_three"]

_Class = tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreePoints:
    """Three loci in their order, and how often they come apart."""

    order: tuple[str, str, str]
    """Names in their order on the chromosome; of the two ends the one given first leads."""

    counted: int
    """Young counted."""

    first_stretch: float
    """Recombination fraction between the first and the middle locus."""

    second_stretch: float
    """Recombination fraction between the middle and the last locus."""

    ends: float
    """Share of young in which the two ends came apart; double crossings-over do not show."""

    double: float
    """Share of double crossings-over."""

    coincidence: float | None
    """Doubles found for each one expected without interference; None where none are
    expected."""

    @property
    def interference(self) -> float | None:
        """Share of the expected doubles that is missing, 1 less the coincidence."""
        return None if self.coincidence is None else 1.0 - self.coincidence


def order_of_three(loci: Sequence[str], counts: Mapping[_Class, int]) -> ThreePoints:
    """Find the order of three loci and their recombination fractions.

    Parameters
    ----------
    loci
        Their names, in any order.
    counts
        Young by what they show: for each locus 1 or 0, one of its two alleles.

    Returns
    -------
    ThreePoints
        The middle locus is the one whose ends come apart most often.

    Raises
    ------
    DomainError
        If there are not three loci, a class is not three of 0 and 1, a count is
        negative, or nothing was counted.

    Notes
    -----
    The parental classes are the two opposite ones that are commonest together.

    References
    ----------
    .. [1] Sturtevant A.H. (1913) J. Exp. Zool. 14:43-59 (from memory).

    Examples
    --------
    >>> counts = {(1, 1, 1): 40, (0, 0, 0): 40, (1, 0, 0): 8, (0, 1, 1): 8,
    ...           (1, 0, 1): 2, (0, 1, 0): 2}
    >>> result = order_of_three(("a", "b", "c"), counts)
    >>> result.order, result.first_stretch, result.second_stretch
    (('a', 'c', 'b'), 0.16, 0.04)
    """
    if len(loci) != 3:
        raise DomainError("number of loci", len(loci), "3")
    for shown, count in counts.items():
        if len(shown) != 3 or not set(shown) <= {0, 1}:
            raise DomainError("class", shown, "three of 0 and 1")
        if count < 0:
            raise DomainError("count", count, "0 or more")
    total = sum(counts.values())
    if total == 0:
        raise DomainError("young counted", 0, "1 or more")

    def opposite(shown: _Class) -> _Class:
        return tuple(1 - one for one in shown)

    parental = max(sorted(counts), key=lambda shown: counts[shown] + counts.get(opposite(shown), 0))

    def apart(one: int, other: int) -> int:
        return sum(
            count
            for shown, count in counts.items()
            if (shown[one] == parental[one]) != (shown[other] == parental[other])
        )

    middle = max((2, 1, 0), key=lambda place: apart(*(p for p in range(3) if p != place)))
    first, last = (place for place in range(3) if place != middle)
    r_first, r_last = apart(first, middle) / total, apart(middle, last) / total
    doubles = sum(
        count
        for shown, count in counts.items()
        if (
            shown[first] == parental[first]
            and shown[last] == parental[last]
            and shown[middle] != parental[middle]
        )
        or (
            shown[first] != parental[first]
            and shown[last] != parental[last]
            and shown[middle] == parental[middle]
        )
    )
    expected = r_first * r_last
    return ThreePoints(
        order=(loci[first], loci[middle], loci[last]),
        counted=total,
        first_stretch=r_first,
        second_stretch=r_last,
        ends=apart(first, last) / total,
        double=doubles / total,
        coincidence=doubles / total / expected if expected > 0.0 else None,
    )
