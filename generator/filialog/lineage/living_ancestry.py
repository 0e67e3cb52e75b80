"""The living animals and their ancestors, every lone unknown parent filled in."""

from collections.abc import Collection
from dataclasses import dataclass

from filialog.domain_error import DomainError
from filialog.lineage.animal_pedigree import AnimalPedigree

__all__ = ["LivingAncestry", "living_ancestry"]


@dataclass(frozen=True, slots=True, kw_only=True)
class LivingAncestry:
    """A pedigree cut down to the living animals and their ancestors."""

    parents: tuple[tuple[int, int] | None, ...]
    """Dam and sire by place, None for a founder. Unrecorded parents stand behind the animals."""

    animals: int
    """Animals in the whole pedigree: the place of the first unrecorded parent."""

    young_of_unrecorded: tuple[int, ...]
    """The animal whose parent it is, for each unrecorded parent in their order."""

    living: tuple[int, ...]
    """Places of the living animals, ascending."""

    order: tuple[int, ...]
    """Places of the living animals and their ancestors, each behind both its parents."""

    def name_of(self, place: int) -> tuple[int, bool]:
        """Give the animal at a place and True, or for its unrecorded parent the young and False."""
        if place < self.animals:
            return place, True
        return self.young_of_unrecorded[place - self.animals], False

    def founders(self) -> tuple[int, ...]:
        """Give the places of founders, sorted by their names."""
        found = (place for place in self.order if self.parents[place] is None)
        return tuple(sorted(found, key=self.name_of))


def living_ancestry(pedigree: AnimalPedigree, living: Collection[int]) -> LivingAncestry:
    """Cut a pedigree down to the living animals and their ancestors.

    Parameters
    ----------
    pedigree
        The pedigree.
    living
        Places of the living animals, each once, at least one.

    Returns
    -------
    LivingAncestry
        An animal with one known parent gets an unrecorded one of its own as the other, a
        founder unrelated to all. An animal with none is a founder.

    Raises
    ------
    DomainError
        If a place is not in the pedigree, a living animal is named twice, or none is named.

    References
    ----------
    .. [1] Boichard D., Maignel L. & Verrier E. (1997) Genet Sel Evol 29:5-23 counts the
       missing parent of an animal with one known parent as a founder (from memory).

    Examples
    --------
    >>> half_known = AnimalPedigree(dams=(None, 0), sires=(None, None))
    >>> ancestry = living_ancestry(half_known, [1])
    >>> ancestry.order, [ancestry.name_of(place) for place in ancestry.founders()]
    ((2, 0, 1), [(0, True), (1, False)])
    """
    if not living:
        raise DomainError("number of living animals", 0, "1 or more")
    for animal in living:
        if not 0 <= animal < len(pedigree):
            raise DomainError("living animal", animal, f"the place of one of {len(pedigree)}")
    ends = sorted(living)
    if len(set(ends)) != len(ends):
        raise DomainError("living animals", ends, "each animal once")

    rows: list[tuple[int, int] | None] = []
    unrecorded: list[int] = []
    for animal, (dam, sire) in enumerate(zip(pedigree.dams, pedigree.sires, strict=True)):
        if dam is None and sire is None:
            rows.append(None)
            continue
        missing = len(pedigree) + len(unrecorded)
        if dam is None or sire is None:
            unrecorded.append(animal)
        rows.append((missing if dam is None else dam, missing if sire is None else sire))
    rows.extend(None for _ in unrecorded)

    needed = bytearray(len(rows))
    for animal in ends:
        needed[animal] = 1
    for animal in range(len(pedigree) - 1, -1, -1):  # young before their parents
        if needed[animal]:
            for parent in rows[animal] or ():
                needed[parent] = 1
    order = [*range(len(pedigree), len(rows)), *range(len(pedigree))]
    return LivingAncestry(
        parents=tuple(rows),
        animals=len(pedigree),
        young_of_unrecorded=tuple(unrecorded),
        living=tuple(ends),
        order=tuple(place for place in order if needed[place]),
    )
