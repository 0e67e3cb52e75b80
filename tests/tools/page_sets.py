"""Small sets of pages, and folders as plain values, for tests of the writer."""

import os
from collections.abc import Mapping
from pathlib import Path

from filialog.build.files import Files, RealFiles
from filialog.build.marker import MARKER_NAME
from filialog.build.trees import Page, Written, content_digest, write_site

__all__ = ["clean_tree", "names_in", "page_set", "pages_in", "publish", "tree_in"]


def page_set(texts: Mapping[str, str]) -> dict[str, Page]:
    """Make pages of texts by path; half of them give their content by a function."""
    pages: dict[str, Page] = {}
    for number, (path, text) in enumerate(sorted(texts.items())):
        data = text.encode()
        content = data if number % 2 else _later(data)
        pages[path] = Page(digest=content_digest(data), content=content)
    return pages


class _later:  # noqa: N801 - used as a function
    def __init__(self, data: bytes) -> None:
        self._data = data

    def __call__(self) -> bytes:
        return self._data


def publish(
    folder: Path,
    texts: Mapping[str, str],
    *,
    files: Files | None = None,
    edition: str = "public",
    verify: bool = False,
) -> Written:
    """Write texts as the site of `folder`, in `folder/site`."""
    return write_site(
        files or RealFiles(),
        pages=page_set(texts),
        output=folder / "site",
        journal=folder / "journal",
        edition=edition,
        verify=verify,
    )


def tree_in(folder: Path) -> dict[str, bytes]:
    """Give every file below a folder by relative path; a folder without files ends in `/`."""
    found: dict[str, bytes] = {}
    for root, folders, names in os.walk(folder):
        here = Path(root)
        if not folders and not names and here != folder:
            found[here.relative_to(folder).as_posix() + "/"] = b""
        for name in [*names, *(name for name in folders if (here / name).is_symlink())]:
            path = here / name
            content = bytes(path.readlink()) if path.is_symlink() else path.read_bytes()
            found[path.relative_to(folder).as_posix()] = content
    return found


def names_in(folder: Path) -> list[str]:
    """Give the names in a folder, sorted."""
    return sorted(path.name for path in folder.iterdir())


def pages_in(folder: Path) -> dict[str, str]:
    """Give every file below a folder except the marker, as text."""
    return {path: data.decode() for path, data in tree_in(folder).items() if path != MARKER_NAME}


def clean_tree(folder: Path, texts: Mapping[str, str]) -> dict[str, bytes]:
    """Give the tree that a first run makes of these texts; `folder` must be unused."""
    publish(folder, texts)
    return tree_in(folder / "site")
