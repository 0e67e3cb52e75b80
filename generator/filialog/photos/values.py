"""What is known of a picture, and the smaller copies of it that a site shows."""

from dataclasses import dataclass
from datetime import date
from enum import Enum

__all__ = ["Picture", "PictureFacts", "PictureProblem", "ProblemKind", "Rendition"]


class ProblemKind(Enum):
    """Why a file cannot be shown as a picture."""

    EMPTY = "empty"
    """A file of no bytes."""
    UNREADABLE = "unreadable"
    """The file system did not let it be read."""
    NOT_A_PICTURE = "not a picture"
    """No picture of any kind that is known here."""
    OTHER_KIND = "other kind"
    """A picture or clip of a kind that is not taken: SVG, GIF, HEIC and others."""
    TOO_MANY_PIXELS = "too many pixels"
    """More pixels than a camera makes: opening it could use up the memory."""
    TOO_LONG = "too long"
    """A side longer than the file formats of the web can hold."""
    CUT_OFF = "cut off"
    """The end of the file is missing."""
    DAMAGED = "damaged"
    """It begins as a picture and cannot be decoded."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureProblem:
    """Why a file is not shown."""

    kind: ProblemKind
    """What is the case."""
    found: str = ""
    """What was found, where that helps: the kind of file, or its size in pixels."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureFacts:
    """A picture that can be shown."""

    kind: str
    """`jpeg`, `png`, `webp` or `avif`."""
    width: int
    """Pixels across, as shown: turned the way the camera was held."""
    height: int
    """Pixels down, as shown."""
    taken: date | None
    """The day its camera wrote into it, if any."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rendition:
    """A copy of a picture in one size and format."""

    width: int
    """Pixels across."""
    height: int
    """Pixels down."""
    format: str
    """`avif` or `jpeg`."""
    digest: str
    """SHA-256 of its bytes, in hexadecimal digits."""
    size: int
    """Length in bytes."""

    @property
    def path(self) -> str:
        """Where it lies in the site; its name says nothing of the keeper's file."""
        return f"pictures/{self.digest[:24]}.{'jpg' if self.format == 'jpeg' else self.format}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A picture of the journal with its renditions, or the reason why it has none."""

    source: str
    """Path relative to the journal."""
    digest: str
    """SHA-256 of the source's bytes, in hexadecimal digits; empty where it cannot be read."""
    width: int
    """Pixels across of the source as shown; 0 with a problem."""
    height: int
    """Pixels down of the source as shown; 0 with a problem."""
    taken: date | None
    """The day its camera wrote into it, if any."""
    renditions: tuple[Rendition, ...]
    """By format as asked for, then by width; empty with a problem."""
    problem: PictureProblem | None = None
    """Why it cannot be shown."""
