"""The parents of single animals: a pedigree for computations on many of them."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from filialog.domain_error import DomainError

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Numbers = NDArray[np.int64]

__all__ = ["AnimalPedigree", "pedigree_of_animals"]


@dataclass(frozen=True, slots=True, kw_only=True)
class AnimalPedigree:
    """Single animals in an order in which parents stand before their young.

    An animal is known by its place in that order, counted from 0. One animal may be both
    dam and sire of another (selfing); either parent or both may be unknown.

    Raises
    ------
    DomainError
        If the fields differ in length, a parent is no place of an earlier animal, a name
        stands twice, or there are names but not one for each animal. `pedigree_of_animals`
        sorts animals that are known by name.

    Examples
    --------
    >>> pair_and_young = AnimalPedigree(dams=(None, None, 0), sires=(None, None, 1))
    >>> len(pair_and_young)
    3
    """

    dams: tuple[int | None, ...]
    """Place of each animal's dam; None is unknown."""
    sires: tuple[int | None, ...]
    """Place of each animal's sire; None is unknown."""
    names: tuple[str, ...] = ()
    """Name of each animal, each once; empty where animals are known by place alone."""
    _dams: "Numbers" = field(init=False, repr=False, compare=False)
    _sires: "Numbers" = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        if len(self.dams) != len(self.sires):
            raise DomainError("number of sires", len(self.sires), f"{len(self.dams)}, as of dams")
        if self.names and len(self.names) != len(self.dams):
            raise DomainError("number of names", len(self.names), f"{len(self.dams)}, or none")
        if len(set(self.names)) != len(self.names):
            twice = next(name for name in self.names if self.names.count(name) > 1)
            raise DomainError("name of an animal", twice, "a name that no other animal has")
        for name in ("dams", "sires", "names"):
            object.__setattr__(self, name, tuple(getattr(self, name)))
        object.__setattr__(self, "_dams", _places("dam", self.dams))
        object.__setattr__(self, "_sires", _places("sire", self.sires))

    def __len__(self) -> int:
        return len(self.dams)

    def place(self, name: str) -> int:
        """Give the place of the animal of that name; a DomainError if there is none."""
        try:
            return self.names.index(name)
        except ValueError:
            raise DomainError("name of an animal", name, "the name of one of them") from None


def pedigree_of_animals(parents: Mapping[str, tuple[str | None, str | None]]) -> AnimalPedigree:
    """Put named animals in order, parents before young.

    Parameters
    ----------
    parents
        For each animal's name its dam and its sire, None where unknown. Every parent
        is itself listed; founders have (None, None).

    Returns
    -------
    AnimalPedigree
        The animals with their names. The given order is kept, except that a parent
        that comes after its young is moved to just before the first of them.

    Raises
    ------
    DomainError
        If a parent is not listed, or an animal would be its own ancestor.

    Examples
    --------
    >>> pedigree_of_animals({"young": ("a", "b"), "a": (None, None), "b": (None, None)}).names
    ('a', 'b', 'young')
    """
    place: dict[str, int] = {}
    for name in _parents_first(parents):
        place[name] = len(place)
    pairs = [parents[name] for name in place]
    return AnimalPedigree(
        dams=tuple(None if dam is None else place[dam] for dam, _ in pairs),
        sires=tuple(None if sire is None else place[sire] for _, sire in pairs),
        names=tuple(place),
    )


def parent_places(pedigree: AnimalPedigree) -> "tuple[Numbers, Numbers]":
    """Give dams and sires as arrays, in which -1 is unknown; they must not be changed."""
    return pedigree._dams, pedigree._sires  # noqa: SLF001 - the rest of lineage computes on them


def _parents_first(parents: Mapping[str, tuple[str | None, str | None]]) -> Iterator[str]:
    finished: set[str] = set()
    for start in parents:
        path: dict[str, None] = {}  # ordered: each animal is a parent of the one before
        stack = [start]
        while stack:
            name = stack[-1]
            if name in finished:
                stack.pop()
                continue
            missing = [p for p in parents[name] if p is not None and p not in finished]
            if not missing:
                finished.add(name)
                path.pop(name, None)
                stack.pop()
                yield name
                continue
            path[name] = None
            for parent in missing:
                if parent not in parents:
                    raise DomainError(f"parent of {name}", parent, "an animal that is listed")
                if parent in path:
                    loop = [*path][[*path].index(parent) :]
                    loop.append(parent)
                    raise DomainError("line from young to parent", loop, "no animal twice in it")
            stack.extend(reversed(missing))


def _places(role: str, parents: Sequence[int | None]) -> "Numbers":
    """Check the places of one parent of all animals at once."""
    import numpy as np  # noqa: PLC0415 - a quick command should not load it

    if not set(map(type, parents)) <= {int, type(None)}:
        wrong = next(p for p in parents if p is not None and type(p) is not int)
        raise DomainError(f"place of a {role}", wrong, "a whole number or None")
    try:
        places = np.fromiter((-1 if p is None else p for p in parents), np.int64, len(parents))
    except OverflowError:
        wrong = max((p for p in parents if p is not None), key=abs)
        raise DomainError(f"place of a {role}", wrong, "the place of an earlier animal") from None
    bad = places >= np.arange(len(parents))
    if -1 in parents or (places < -1).any():  # -1 means unknown inside only
        bad |= np.fromiter((p is not None and p < 0 for p in parents), np.bool_, len(parents))
    if bad.any():
        young = int(np.argmax(bad))
        raise DomainError(
            f"place of the {role} of animal {young}",
            parents[young],
            "the place of an earlier animal, or None",
        )
    places.setflags(write=False)
    return places
