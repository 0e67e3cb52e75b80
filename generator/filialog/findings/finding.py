"""What a finding is: a fault or an oddity in a keeper's text, as a value."""

from dataclasses import dataclass
from enum import StrEnum

__all__ = ["Finding", "Mark", "Place", "Severity"]


class Severity(StrEnum):
    """How much a finding matters."""

    ERROR = "error"
    """Nothing is published until it is put right."""
    WARNING = "warning"
    """The site is compiled; the keeper should act."""
    NOTE = "note"
    """Worth knowing; nothing needs to be done."""


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """A stretch of one line in one file of the journal."""

    path: str
    """POSIX path relative to the journal folder."""
    line: int = 0
    """Line number from 1; 0 means the file as a whole."""
    column: int = 1
    """First character of the stretch, counted in characters from 1."""
    length: int = 1
    """Number of characters, at least 1."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """A second place that a finding points at, with what stands there."""

    place: Place
    """Where."""
    says: str
    """What stands there, in lower case without a full stop."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One fault or oddity, complete enough to be acted on without the program's help."""

    code: str
    """Key into the catalogue of codes; the severity stands there."""
    place: Place
    """Where the keeper's eye should go first."""
    message: str
    """The fault itself; stands alone, lower case, no full stop, author's words in backticks."""
    label: str = ""
    """A few words under the mark."""
    related: tuple[Mark, ...] = ()
    """Other places involved."""
    notes: tuple[str, ...] = ()
    """Facts that explain the fault."""
    helps: tuple[str, ...] = ()
    """Ways out."""
