"""Which paths a page may have: those that every common file system can hold side by side.

The reserved names and characters are those of Microsoft's "Naming Files, Paths, and Namespaces",
from memory. Two names are the same when they are a canonical caseless match (The Unicode
Standard, section 3.13, D145).
"""

import re
import unicodedata
from collections.abc import Collection, Iterable
from functools import lru_cache

from filialog.build.refusals import NameFault, NameRefused

__all__ = ["check_names", "folders_above", "path_key"]

_MAX_PART_BYTES = 200
_MAX_PATH_BYTES = 1000
_BAD_CHARACTER = re.compile(r'[\x00-\x1f\x7f<>:"|?*\\\ud800-\udfff]')
_DEVICE = re.compile(r"(?:con|prn|aux|nul|conin\$|conout\$|(?:com|lpt)[0-9¹²³])", re.IGNORECASE)


def path_key(path: str) -> str:
    r"""Give the form in which paths are equal where case and Unicode form do not count.

    >>> path_key("Café/Tank.html") == path_key("cafe\u0301/TANK.html")
    True
    """
    if path.isascii():
        return path.lower()
    return unicodedata.normalize("NFC", unicodedata.normalize("NFD", path).casefold())


def folders_above(paths: Iterable[str]) -> frozenset[str]:
    """Give every folder that lies above one of these relative paths."""
    folders: set[str] = set()
    for path in paths:
        folder = path.rpartition("/")[0]
        while folder and folder not in folders:
            folders.add(folder)
            folder = folder.rpartition("/")[0]
    return frozenset(folders)


def check_names(paths: Collection[str], *, reserved: frozenset[str] = frozenset()) -> None:
    """Raise NameRefused at the first path, in sorted order, that cannot be written everywhere.

    `reserved` are keys of names in the top folder that pages may not have.
    """
    seen: dict[str, str] = {}
    for path in sorted(paths):
        _check_alone(path)
        key = path_key(path)
        if key.partition("/")[0] in reserved:
            raise NameRefused(NameFault.RESERVED, path)
        other = seen.setdefault(key, path)
        if other != path:
            raise NameRefused(NameFault.COLLISION, path, other)
    _check_folders(seen)


def _check_folders(pages: dict[str, str]) -> None:
    """Raise where a folder collides with a page or with a folder written otherwise."""
    example: dict[str, str] = {}
    for path in pages.values():
        example.setdefault(path.rpartition("/")[0], path)
    seen: dict[str, tuple[str, str]] = {}
    for folder, path in example.items():
        while folder:
            key = path_key(folder)
            if key in pages:
                raise NameRefused(NameFault.FILE_AND_FOLDER, pages[key], path)
            known, other = seen.setdefault(key, (folder, path))
            if known != folder:
                raise NameRefused(NameFault.COLLISION, path, other)
            folder = folder.rpartition("/")[0]  # noqa: PLW2901 - climbs to the top


def _check_alone(path: str) -> None:
    if _BAD_CHARACTER.search(path):
        # Half of a surrogate pair could not be printed in a message.
        shown = path.encode("utf-8", "backslashreplace").decode()
        raise NameRefused(NameFault.CHARACTER, shown)
    if len(path.encode()) > _MAX_PATH_BYTES:
        raise NameRefused(NameFault.TOO_LONG, path)
    for part in path.split("/"):
        if (fault := _part_fault(part)) is not None:
            raise NameRefused(fault, path)


@lru_cache(maxsize=4096)
def _part_fault(part: str) -> NameFault | None:
    if part in {"", ".", ".."}:
        return NameFault.NOT_RELATIVE
    if part[-1] in ". ":
        return NameFault.ENDING
    if _DEVICE.fullmatch(part.partition(".")[0].rstrip()):
        return NameFault.RESERVED
    if len(part.encode()) > _MAX_PART_BYTES:
        return NameFault.TOO_LONG
    return None
