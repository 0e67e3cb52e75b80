"""What lies in a marked folder: pages of ours, whether they are as written, and foreign files."""

import hashlib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from filialog.build.files import Files, Kind, Stat
from filialog.build.marker import (
    ASIDE_NAME,
    MARKER_NAME,
    Known,
    Marker,
    MarkerUnreadable,
    read_marker,
    write_marker,
)
from filialog.build.names import folders_above
from filialog.build.refusals import OutputRefused, Refusal

__all__ = ["Tree", "content_digest", "examine_tree"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Tree:
    """A folder with our marker, or one that is empty or missing."""

    root: Path
    """The folder."""
    stat: Stat | None
    """What the file system knows of it, None where it is missing."""
    marked: bool
    """Whether it carries the marker."""
    marker: Marker
    """The marker, without pages where there is none."""
    files: Mapping[str, Stat]
    """What lies at the paths of our pages, by relative path."""
    folders: frozenset[str]
    """The folders that hold pages of ours, or are to hold them."""
    foreign: tuple[str, ...]
    """Everything else, sorted; a folder with nothing of ours stands for all that is in it."""

    def as_written(self, path: str) -> Known | None:
        """Give what a page is, None unless its file has the size that it was written with."""
        known, found = self.marker.pages.get(path), self.files.get(path)
        if known is None or found is None:
            return None
        if found.kind is not Kind.FILE or found.size != known.size:
            return None
        return known

    def holds_foreign(self, folder: str) -> bool:
        """Tell whether a foreign file lies in this folder."""
        return any(path.startswith(folder + "/") for path in self.foreign)


def content_digest(data: bytes) -> str:
    """Give the SHA-256 of a page in hexadecimal digits."""
    return hashlib.sha256(data).hexdigest()


def examine_tree(
    files: Files,
    root: Path,
    *,
    edition: str,
    shared: Iterable[str],
    otherwise: Refusal,
    verify: bool,
) -> Tree:
    """Look at a folder of ours; raises OutputRefused where it is not ours.

    `shared` are folders that pages are to lie in, though files of others may lie there too.
    `otherwise` is the reason given where the folder holds files and no marker. With `verify`
    every page is read, and one that is not as it was written is marked as unknown on the disk,
    so that no later run trusts it.
    """
    try:
        stat = files.stat(root)
    except FileNotFoundError:
        marker = Marker(edition=edition, pages={})
        return Tree(
            root=root,
            stat=None,
            marked=False,
            marker=marker,
            files={},
            folders=frozenset(),
            foreign=(),
        )
    if stat.kind is not Kind.FOLDER:
        raise OutputRefused(otherwise, root.name)
    names = {entry.name for entry in files.list_folder(root)} - {ASIDE_NAME}
    if names and MARKER_NAME not in names:
        raise OutputRefused(otherwise, root.name)
    marker = _marker(files, root) if names else Marker(edition=edition, pages={})
    tree = _scan(files, root, stat=stat, marker=marker, marked=bool(names), shared=shared)
    return _distrust_damaged(files, tree) if verify else tree


def _marker(files: Files, root: Path) -> Marker:
    if files.stat(root / MARKER_NAME).kind is not Kind.FILE:
        raise OutputRefused(Refusal.MARKER_UNREADABLE, f"{root.name}: not a file")
    try:
        return read_marker(files, root)
    except MarkerUnreadable as error:
        raise OutputRefused(Refusal.MARKER_UNREADABLE, f"{root.name}: {error}") from error


def _scan(
    files: Files, root: Path, *, stat: Stat, marker: Marker, marked: bool, shared: Iterable[str]
) -> Tree:
    ours = folders_above(marker.pages) | frozenset(shared)
    found: dict[str, Stat] = {}
    folders: set[str] = set()
    foreign: list[str] = []
    waiting = [""]
    while waiting:
        folder = waiting.pop()
        for entry in files.list_folder(root / folder if folder else root):
            path = f"{folder}/{entry.name}" if folder else entry.name
            is_folder = entry.stat.kind is Kind.FOLDER
            if path in {MARKER_NAME, ASIDE_NAME} and not is_folder:
                continue
            if is_folder and path in ours:
                folders.add(path)
                waiting.append(path)
            elif not is_folder and path in marker.pages:
                found[path] = entry.stat
            else:
                foreign.append(path)
    return Tree(
        root=root,
        stat=stat,
        marked=marked,
        marker=marker,
        files=found,
        folders=frozenset(folders),
        foreign=tuple(sorted(foreign)),
    )


def _distrust_damaged(files: Files, tree: Tree) -> Tree:
    damaged = {
        path
        for path in sorted(tree.files)
        if (known := tree.as_written(path)) is not None
        and content_digest(files.read(tree.root / path)) != known.digest
    }
    if not damaged:
        return tree
    pages = {path: None if path in damaged else known for path, known in tree.marker.pages.items()}
    marker = replace(tree.marker, pages=pages)
    write_marker(files, tree.root, marker)
    return replace(tree, marker=marker)
