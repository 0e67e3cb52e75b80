"""The file that says which files of a folder are ours.

It holds no clock and no absolute path, so that the same site has the same marker. A page whose
content is not known, since a run is changing it, is listed with null.
"""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from filialog.build.files import Files, write_aside

__all__ = [
    "ASIDE_NAME",
    "MARKER_NAME",
    "Known",
    "Marker",
    "MarkerUnreadable",
    "read_marker",
    "write_marker",
]

MARKER_NAME = ".filialog-site"
ASIDE_NAME = ".filialog-site-part"
"""The one name under which a file is written before it is renamed into place."""

_FORMAT = 1
_PROGRAM = "filialog"
_MAX_BYTES = 256 * 1024 * 1024


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What a page was when it was written."""

    digest: str
    """SHA-256 of the content, in hexadecimal digits."""
    size: int
    """Length in bytes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Marker:
    """The contents of the marker."""

    edition: str
    """Which edition of the journal the site is."""
    pages: Mapping[str, Known | None]
    """Every file of ours by its relative path; None where a run was changing it."""


class MarkerUnreadable(Exception):  # noqa: N818 - a refusal is no fault of the program
    """A marker is damaged or of a later format; the text says which."""


def write_marker(files: Files, folder: Path, marker: Marker) -> None:
    """Write the marker of a folder in one step."""
    pages = {
        path: None if (known := marker.pages[path]) is None else [known.digest, known.size]
        for path in sorted(marker.pages)
    }
    content = {
        "format": _FORMAT,
        "program": _PROGRAM,
        "edition": marker.edition,
        "pages": pages,
    }
    text = json.dumps(content, ensure_ascii=False, separators=(",", ":")) + "\n"
    write_aside(files, folder / MARKER_NAME, text.encode(), aside=folder / ASIDE_NAME)


def read_marker(files: Files, folder: Path) -> Marker:
    """Read the marker of a folder; raises MarkerUnreadable, or OSError where there is none."""
    data = files.read(folder / MARKER_NAME, at_most=_MAX_BYTES)
    try:
        content = json.loads(data.decode())
    except (ValueError, RecursionError) as error:
        raise MarkerUnreadable("not JSON") from error
    if not isinstance(content, dict) or content.get("program") != _PROGRAM:
        raise MarkerUnreadable("not of this program")
    if content.get("format") != _FORMAT:
        raise MarkerUnreadable(f"format {content.get('format')!r}")
    edition, pages = content.get("edition"), content.get("pages")
    if not isinstance(edition, str) or not isinstance(pages, dict):
        raise MarkerUnreadable("edition or pages missing")
    # The paths need no check: only files found in this folder and listed here are ever touched.
    return Marker(edition=edition, pages={path: _known(pages[path]) for path in pages})


def _known(value: object) -> Known | None:
    if value is None:
        return None
    if isinstance(value, list) and [type(part) for part in value] == [str, int]:
        return Known(digest=value[0], size=value[1])
    raise MarkerUnreadable("a page without digest and size")
