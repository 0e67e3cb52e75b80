"""Where a site may be written: never where a keeper's own files could be lost."""

import contextlib
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from filialog.build.files import Files, Kind
from filialog.build.refusals import OutputRefused, Refusal

__all__ = ["Place", "find_place"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """The output folder and our hidden names beside it."""

    output: Path
    """The folder of the published site, absolute and without links."""

    def beside(self, what: str) -> Path:
        """Give the hidden name of this kind beside the output folder."""
        return self.output.parent / f".{self.output.name}.filialog-{what}"


def find_place(files: Files, *, output: Path, journal: Path) -> Place:
    """Give the place of a site, or raise OutputRefused where a site must not lie.

    What the folder holds is not looked at here.
    """
    if output.name in {"", ".."}:
        output = files.resolve(output)
    target = files.resolve(output.parent) / output.name
    if target.parent == target:
        raise OutputRefused(Refusal.ROOT, str(output))
    with contextlib.suppress(FileNotFoundError, NotADirectoryError):
        kind = files.stat(target).kind
        if kind is Kind.LINK:
            raise OutputRefused(Refusal.LINK, target.name)
        if kind is not Kind.FOLDER:
            raise OutputRefused(Refusal.NOT_A_FOLDER, target.name)
    _check_journal(files, target, files.resolve(journal))
    with contextlib.suppress(RuntimeError):  # a user without a home
        home = files.resolve(Path.home())
        if any(_same(files, folder, target) for folder in _upwards(home)):
            raise OutputRefused(Refusal.HOME, target.name)
    return Place(output=target)


def _check_journal(files: Files, target: Path, journal: Path) -> None:
    if _same(files, target, journal):
        raise OutputRefused(Refusal.JOURNAL, target.name)
    if any(_same(files, folder, journal) for folder in _upwards(target.parent)):
        raise OutputRefused(Refusal.INSIDE_JOURNAL, target.name)
    if any(_same(files, folder, target) for folder in _upwards(journal.parent)):
        raise OutputRefused(Refusal.AROUND_JOURNAL, target.name)


def _upwards(path: Path) -> Iterator[Path]:
    yield path
    yield from path.parents


def _same(files: Files, one: Path, other: Path) -> bool:
    """Tell whether two paths are one folder, also where case does not count."""
    if one == other:
        return True
    try:
        first, second = files.stat(one), files.stat(other)
    except OSError:
        return False
    if first.inode == 0:
        return False
    return (first.device, first.inode) == (second.device, second.inode)
