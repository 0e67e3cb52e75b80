"""What pages ask of pictures: one protocol that whoever compiles a site, or a test, fulfils.

Without one a site has no pictures, and a page says calmly that one cannot be shown.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, Protocol

from filialog.journal.quantities import When

__all__ = ["NO_PICTURES", "PictureShown", "PictureSource", "Pictures"]


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureSource:
    """The copies of a picture in one file format."""

    format: Literal["avif", "jpeg"]
    copies: tuple[tuple[int, str], ...]
    """Width in pixels and address in the site of each, the narrowest first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureShown:
    """A picture that can be shown."""

    path: str
    """The picture in the journal; it identifies the picture and is never shown."""
    alt: str | None
    """The keeper's words in its place."""
    caption: str | None
    """The keeper's words below it."""
    when: When | None
    """The day it shows."""
    side: str | None
    """The side of the animal that is seen: `left`, `right`, `above`, `below` or `front`."""
    groups: tuple[str, ...]
    tank: str | None
    looks: tuple[str, ...]
    width: int
    """Pixels across; with the height it keeps the place free before the picture is there."""
    height: int
    """Pixels down."""
    sources: tuple[PictureSource, ...]
    """The preferred format first; one of them is `jpeg`."""


class Pictures(Protocol):
    """The pictures that may be shown, by what they show; the oldest first."""

    def of_entry(self, identifier: str) -> Sequence[PictureShown]:
        """Return the pictures an entry names, in its order."""

    def of_group(self, name: str) -> Sequence[PictureShown]:
        """Return the pictures of a group."""

    def of_tank(self, name: str) -> Sequence[PictureShown]:
        """Return the pictures of a tank."""

    def of_line(self, name: str) -> Sequence[PictureShown]:
        """Return the pictures of a line."""

    def of_look(self, name: str) -> Sequence[PictureShown]:
        """Return the pictures of a look."""

    def of_path(self, path: str) -> PictureShown | None:
        """Return a picture by its place in the journal; None where it cannot be shown."""


class _NoPictures:
    """What a site without pictures has."""

    def of_entry(self, identifier: str) -> Sequence[PictureShown]:  # noqa: ARG002
        return ()

    def of_group(self, name: str) -> Sequence[PictureShown]:  # noqa: ARG002
        return ()

    def of_tank(self, name: str) -> Sequence[PictureShown]:  # noqa: ARG002
        return ()

    def of_line(self, name: str) -> Sequence[PictureShown]:  # noqa: ARG002
        return ()

    def of_look(self, name: str) -> Sequence[PictureShown]:  # noqa: ARG002
        return ()

    def of_path(self, path: str) -> PictureShown | None:  # noqa: ARG002
        return None


NO_PICTURES: Pictures = _NoPictures()
