"""Where a number comes from, kept beside the number so that it is printed with it."""

from dataclasses import dataclass
from enum import StrEnum
from typing import Generic, TypeVar

__all__ = ["Basis", "Provenance", "Sourced"]

Value_co = TypeVar("Value_co", covariant=True)


class Basis(StrEnum):
    """How well a source was seen, from best to least."""

    PUBLISHED = "published"
    """The number was read in the publication or the text of the standard itself."""
    ARITHMETIC = "arithmetic"
    """The number follows from definitions or from the balance of masses alone."""
    ABSTRACT_READ = "abstract read"
    """The number was read in the abstract or on the official page, not in the full text."""
    SECONDARY = "secondary"
    """The number was read where somebody else quotes it."""
    FROM_MEMORY = "from memory"
    """The number was not looked up again."""
    COMMON_PRACTICE = "common practice, no source"
    """Keepers do it so; nobody is known to have measured it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Provenance:
    """The source of a number and how well it was seen."""

    source: str
    """Author, year and title or place of publication, or what is common practice."""
    basis: Basis
    """How well the source was seen."""

    def __str__(self) -> str:
        """Return source and basis as they are printed beside the number.

        Examples
        --------
        >>> print(Provenance(source="leak test of 24 to 48 hours", basis=Basis.COMMON_PRACTICE))
        leak test of 24 to 48 hours [common practice, no source]
        """
        return f"{self.source} [{self.basis}]"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sourced(Generic[Value_co]):
    """A value together with what it rests on."""

    value: Value_co
    """The value; its unit is in the name of whatever holds it."""
    sources: tuple[Provenance, ...]
    """Everything the value rests on, in the order in which it came in; at least one."""
