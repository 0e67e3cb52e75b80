"""The broods of a line put together as generations, few enough to be drawn and read."""

from collections.abc import Sequence
from dataclasses import dataclass

from filialog.analysis.line_rows import BandKind
from filialog.lineage import Generation

__all__ = ["MOST_BANDS", "Band", "bands_of"]

MOST_BANDS = 6
"""With more labels than this, broods stand together by how many generations they are from
founders; with more generations, several of them share a band."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """Broods that stand together."""

    kind: BandKind
    low: int | None
    """Least number of generations from the founders."""
    high: int | None
    labels: tuple[Generation, ...]
    """Each once."""
    broods: tuple[str, ...]


def bands_of(broods: Sequence[tuple[str, Generation]]) -> tuple[Band, ...]:
    """Put broods, given by day, into bands; these stand by the generations they are from founders.

    Bands of labels stand by the first brood of each.
    """
    by_code: dict[str, list[tuple[str, Generation]]] = {}
    for brood, generation in broods:
        by_code.setdefault(generation.code, []).append((brood, generation))
    if len(by_code) <= MOST_BANDS:
        return tuple(
            _band(BandKind.LABEL, members[0][1].fewest, members[0][1].most, members)
            for members in by_code.values()
        )
    known = [one.most for _, one in broods if one.most is not None]
    width = -(-max(known, default=1) // MOST_BANDS)
    by_place: dict[int | None, list[tuple[str, Generation]]] = {}
    for brood, generation in broods:
        most = generation.most
        place = None if most is None else max(most - 1, 0) // width
        by_place.setdefault(place, []).append((brood, generation))
    found = []
    for place, members in sorted(by_place.items(), key=lambda one: (one[0] is None, one[0] or 0)):
        if place is None:
            found.append(_band(BandKind.UNKNOWN, None, None, members))
        elif width == 1:
            found.append(_band(BandKind.GENERATION, place + 1, place + 1, members))
        else:
            low = place * width + 1
            found.append(_band(BandKind.GENERATIONS, low, low + width - 1, members))
    return tuple(found)


def _band(
    kind: BandKind,
    low: int | None,
    high: int | None,
    members: Sequence[tuple[str, Generation]],
) -> Band:
    labels = {generation.code: generation for _, generation in reversed(members)}
    return Band(
        kind=kind,
        low=low,
        high=high,
        labels=tuple(reversed(labels.values())),
        broods=tuple(brood for brood, _ in members),
    )
