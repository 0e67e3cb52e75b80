"""The value of a generation label: what P, F2 or BC1 says, without words for pages."""

from dataclasses import dataclass
from enum import Enum

__all__ = ["Generation", "GenerationKind"]


class GenerationKind(Enum):
    """What sort of cross a generation is, in the terms of genetics."""

    FOUNDER = "founder"
    """P: no recorded parents."""
    PURE = "pure line"
    """Bred within one strain, closed since its founders."""
    FILIAL = "filial"
    """F1, F2 …: a hybrid of two strains and its intercrosses."""
    BACKCROSS = "backcross"
    """BC1, BC2 … to one strain, and intercrosses of these: BC1F2."""
    THREE_WAY = "three-way cross"
    """An F1 put to a third strain."""
    FOUR_WAY = "four-way cross"
    """An F1 put to the F1 of two other strains."""
    OUTCROSS = "outcross"
    """Any other hybrid put to a strain that was not in it."""
    MIXED = "mixed"
    """Parents of different generations, or three and more strains further on."""
    UNKNOWN = "unknown"
    """A parent is unknown."""
    ALTERNATIVES = "alternatives"
    """One of several, as the parents are known as a set only."""


_Rank = tuple[int, int, int, tuple[str, ...], str]

_KINDS = list(GenerationKind)
_CODES = {
    GenerationKind.FOUNDER: "P",
    GenerationKind.THREE_WAY: "3-way",
    GenerationKind.FOUR_WAY: "4-way",
    GenerationKind.OUTCROSS: "outcross",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Generation:
    """A generation label."""

    kind: GenerationKind
    """What sort of generation."""
    strains: tuple[str, ...]
    """The strains known to have gone in, sorted."""
    n: int | None = None
    """Number of the filial generation (FILIAL), of backcrosses (BACKCROSS), of generations
    since the founders (PURE, None where lines of descent differ in it); else None."""
    then_filial: int | None = None
    """BACKCROSS only: the number of the filial generation after it, 1 for a plain BC1 and
    2 for BC1F2."""
    recurrent: str | None = None
    """BACKCROSS only: the strain to which the backcross was made."""
    parents: tuple["Generation", ...] = ()
    """MIXED: the labels of the two parents in a stable order, where both are simple;
    UNKNOWN: the label of the one parent that is known, if it is simple."""
    alternatives: tuple["Generation", ...] = ()
    """ALTERNATIVES only: two or more, in a stable order."""
    fewest: int | None = 0
    """Least number of generations back to a founder; None if a parent is unknown."""
    most: int | None = 0
    """Greatest number of generations back to a founder; None if a parent is unknown."""

    @property
    def is_simple(self) -> bool:
        """Whether the label stands without naming other labels."""
        return self.kind not in (
            GenerationKind.MIXED,
            GenerationKind.UNKNOWN,
            GenerationKind.ALTERNATIVES,
        )

    @property
    def code(self) -> str:
        """The label in the signs of genetics.

        P, F2, BC1, BC1F2; I3 for the third generation of a closed pure line; `3-way`,
        `4-way`, `outcross`; `F2 × F4` for unlike parents, `F1 × ?` where one is
        unknown, `mixed` and `?` where nothing simple can be said; `F2|BC1` for either.
        """
        match self.kind:
            case GenerationKind.PURE:
                code = f"I{self.fewest}" + (f"–{self.most}" if self.n is None else "")
            case GenerationKind.FILIAL:
                code = f"F{self.n}"
            case GenerationKind.BACKCROSS:
                code = f"BC{self.n}" + (f"F{self.then_filial}" if self.then_filial != 1 else "")
            case GenerationKind.MIXED:
                code = " × ".join(parent.code for parent in self.parents) or "mixed"
            case GenerationKind.UNKNOWN:
                code = " × ".join([*(parent.code for parent in self.parents), "?"])
            case GenerationKind.ALTERNATIVES:
                code = "|".join(dict.fromkeys(label.code for label in self.alternatives))
            case _:
                code = _CODES[self.kind]
        return code

    @property
    def order(self) -> tuple[_Rank, tuple[tuple[_Rank, str], ...]]:
        """Sort key that is equal for labels that agree, whatever lies further back.

        The generations back to a founder do not count, as an F1 stays an F1 whether its
        pure parents were founders or bred in their line.
        """
        return _rank(self), tuple((_rank(parent), parent.code) for parent in self.parents)


def _rank(label: Generation) -> _Rank:
    return (
        _KINDS.index(label.kind),
        0 if label.n is None or label.kind is GenerationKind.PURE else label.n,
        label.then_filial or 0,
        label.strains,
        label.recurrent or "",
    )
