"""Bringing a marked folder to a wanted set of pages, so that a killed run can be taken up again.

The marker claims every path before it is touched, and says null for each whose content is not
sure. So whatever moment a run dies at, the next one knows which files are ours, and which of
them it may trust.
"""

import contextlib
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

from filialog.build.files import Files
from filialog.build.marker import MARKER_NAME, Known, Marker, write_marker
from filialog.build.names import folders_above
from filialog.build.tree import Tree, content_digest

__all__ = [
    "Page",
    "claim_paths",
    "clear_tree",
    "make_folders",
    "remove_folders",
    "shape_tree",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """One file of the site: a page, a style, a script or a picture."""

    digest: str
    """`content_digest` of the content."""
    content: bytes | Callable[[], bytes]
    """The content, or a function that gives it; called only where the file must be written."""

    def data(self) -> bytes:
        """Give the content; raises ValueError if it is not the one of the digest."""
        data = self.content if isinstance(self.content, bytes) else self.content()
        if content_digest(data) != self.digest:
            raise ValueError("the content of a page is not the one of its digest")
        return data


def shape_tree(
    files: Files, tree: Tree, *, wanted: Mapping[str, Page], donor: Tree, edition: str
) -> Marker:
    """Make the folder hold exactly the wanted pages, beside what is foreign in it.

    The folder itself must exist. A page that it has is kept, one that the donor has is linked or
    copied from there, and the others are written. Gives the marker that was written last.
    """
    kept = _as_wanted(tree, wanted)
    pages: dict[str, Known | None] = {**kept}
    claim_paths(files, tree, wanted=wanted, trusted=kept, edition=edition)
    for path in sorted(tree.files):
        if path not in kept:
            files.remove_file(tree.root / path)
    needed = folders_above(wanted)
    remove_folders(files, tree, tree.folders - needed)
    make_folders(files, tree, needed)
    given = _as_wanted(donor, wanted)
    for path in sorted(wanted):
        if path in kept:
            continue
        if path in given:
            _link_or_copy(files, donor.root / path, tree.root / path)
            pages[path] = given[path]
        else:
            data = wanted[path].data()
            files.write(tree.root / path, data)
            pages[path] = Known(digest=wanted[path].digest, size=len(data))
    marker = Marker(edition=edition, pages=pages)
    write_marker(files, tree.root, marker)
    return marker


def claim_paths(
    files: Files,
    tree: Tree,
    *,
    wanted: Iterable[str],
    trusted: Mapping[str, Known],
    edition: str,
) -> None:
    """Write a marker that claims the old and the wanted paths, and trusts only the given ones."""
    paths = tree.marker.pages.keys() | set(wanted)
    pages = {path: trusted.get(path) for path in paths}
    write_marker(files, tree.root, Marker(edition=edition, pages=pages))


def make_folders(files: Files, tree: Tree, folders: Iterable[str]) -> None:
    """Make the folders that are missing."""
    for folder in sorted(set(folders) - tree.folders):
        files.make_folder(tree.root / folder)


def remove_folders(files: Files, tree: Tree, folders: Iterable[str]) -> None:
    """Remove folders that hold no page any more, except where a foreign file lies in them."""
    for folder in sorted(folders, reverse=True):  # what lies inside comes after its folder
        if not tree.holds_foreign(folder):
            files.remove_folder(tree.root / folder)


def clear_tree(files: Files, tree: Tree) -> None:
    """Remove a folder with all that is ours in it; it must hold nothing foreign."""
    for path in sorted(tree.files):
        files.remove_file(tree.root / path)
    remove_folders(files, tree, tree.folders)
    with contextlib.suppress(FileNotFoundError):
        files.remove_file(tree.root / MARKER_NAME)
    files.remove_folder(tree.root)


def _as_wanted(tree: Tree, wanted: Mapping[str, Page]) -> dict[str, Known]:
    return {
        path: known
        for path, page in wanted.items()
        if (known := tree.as_written(path)) is not None and known.digest == page.digest
    }


def _link_or_copy(files: Files, source: Path, target: Path) -> None:
    try:
        files.link(source, target)
    except OSError:  # many file systems have no links, each with an error of its own
        files.write(target, files.read(source))
