"""The one layer through which a journal is read and a site is written.

The operations are small, so that a test can let any one of them fail; nothing here follows a
symbolic link in the last part of a path.
"""

import contextlib
import errno
import os
import stat as stat_module
from collections.abc import Iterable
from contextlib import AbstractContextManager
from enum import Enum
from operator import attrgetter
from pathlib import Path
from typing import NamedTuple, Protocol

from filialog.build.locks import take_lock
from filialog.build.system_calls import exchange_names, sync_file_system

__all__ = ["Entry", "Files", "Kind", "RealFiles", "Stat", "exists", "write_aside"]


class Kind(Enum):
    """What a name in a folder stands for."""

    FILE = "file"
    FOLDER = "folder"
    LINK = "link"
    OTHER = "other"
    """A device, a pipe or a socket."""


class Stat(NamedTuple):
    """What the file system knows of a name, of the link itself where it is one.

    A named tuple like Entry, since a compile makes tens of thousands of them.
    """

    kind: Kind
    """File, folder, link or something else."""
    size: int
    """Length in bytes."""
    mtime_ns: int
    """Last change of the content, in nanoseconds; for an index, never for output."""
    ctime_ns: int
    """Last change of the content or its attributes, in nanoseconds."""
    inode: int
    """Number within the file system; 0 where a listing does not tell it (Windows)."""
    device: int
    """Number of the file system."""
    mode: int
    """Permission bits."""


class Entry(NamedTuple):
    """One name in a folder."""

    name: str
    """The name alone, without a folder."""
    stat: Stat
    """What it stands for."""


class Files(Protocol):
    """What the program may do to a file system; every method may raise OSError."""

    def stat(self, path: Path) -> Stat:
        """Tell about a path, about the link itself where it is one."""

    def resolve(self, path: Path) -> Path:
        """Give the absolute path without links; parts that do not exist are kept."""

    def list_folder(self, path: Path) -> tuple[Entry, ...]:
        """List a folder, sorted by name."""

    def read(self, path: Path, *, at_most: int | None = None) -> bytes:
        """Read a plain file, or only its first bytes; refuses links and devices."""

    def write(self, path: Path, data: bytes, *, sync: bool = False) -> None:
        """Create a file that does not exist yet; `sync` waits until it is on the disk."""

    def replace(self, source: Path, target: Path) -> None:
        """Rename a file or folder; a file at the target is replaced in one step."""

    def link(self, source: Path, target: Path) -> None:
        """Give a file a second name."""

    def exchange(self, one: Path, other: Path) -> bool:
        """Swap two names in one step; False where the file system cannot."""

    def make_folder(self, path: Path) -> None:
        """Make a folder and the missing ones above it; an existing folder is left as it is."""

    def set_mode(self, path: Path, mode: int) -> None:
        """Set the permission bits."""

    def remove_file(self, path: Path) -> None:
        """Remove a file or a link."""

    def remove_folder(self, path: Path) -> None:
        """Remove an empty folder."""

    def sync(self, folder: Path) -> None:
        """Wait until all that was written on this folder's file system is on the disk."""

    def lock(self, path: Path) -> AbstractContextManager[None] | None:
        """Take the lock file of this path; None where another process holds it."""


class RealFiles:
    """The file system of this machine."""

    def stat(self, path: Path) -> Stat:
        """Tell about a path, about the link itself where it is one."""
        return _stat(path.lstat())

    def resolve(self, path: Path) -> Path:
        """Give the absolute path without links; parts that do not exist are kept."""
        try:
            return path.resolve()
        except RuntimeError as error:  # pathlib's word for a circle of links
            raise OSError(errno.ELOOP, os.strerror(errno.ELOOP), str(path)) from error

    def list_folder(self, path: Path) -> tuple[Entry, ...]:
        """List a folder, sorted by name."""
        with os.scandir(path) as found:
            return tuple(sorted(_entries(found), key=attrgetter("name")))

    def read(self, path: Path, *, at_most: int | None = None) -> bytes:
        """Read a plain file, or only its first bytes; refuses links and devices."""
        # Without O_NONBLOCK the opening of a pipe would wait for a writer for ever.
        handle = os.open(path, os.O_RDONLY | _NO_FOLLOW | _NO_WAIT | _BINARY)
        with open(handle, "rb") as file:  # noqa: PTH123 - a descriptor, not a path
            if not stat_module.S_ISREG(os.fstat(handle).st_mode):
                raise OSError(errno.EINVAL, "not a plain file", str(path))
            return file.read() if at_most is None else file.read(at_most)

    def write(self, path: Path, data: bytes, *, sync: bool = False) -> None:
        """Create a file that does not exist yet; `sync` waits until it is on the disk."""
        flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | _NO_FOLLOW | _BINARY
        handle = os.open(path, flags, 0o666)
        with open(handle, "wb") as file:  # noqa: PTH123 - a descriptor, not a path
            file.write(data)
            if sync:
                file.flush()
                os.fsync(handle)

    def replace(self, source: Path, target: Path) -> None:
        """Rename a file or folder; a file at the target is replaced in one step."""
        source.replace(target)

    def link(self, source: Path, target: Path) -> None:
        """Give a file a second name."""
        os.link(source, target)

    def exchange(self, one: Path, other: Path) -> bool:
        """Swap two names in one step; False where the file system cannot."""
        return exchange_names(one, other)

    def make_folder(self, path: Path) -> None:
        """Make a folder and the missing ones above it; an existing folder is left as it is."""
        path.mkdir(parents=True, exist_ok=True)

    def set_mode(self, path: Path, mode: int) -> None:
        """Set the permission bits."""
        path.chmod(mode)

    def remove_file(self, path: Path) -> None:
        """Remove a file or a link."""
        path.unlink()

    def remove_folder(self, path: Path) -> None:
        """Remove an empty folder."""
        path.rmdir()

    def sync(self, folder: Path) -> None:
        """Wait until all that was written on this folder's file system is on the disk."""
        sync_file_system(folder)

    def lock(self, path: Path) -> AbstractContextManager[None] | None:
        """Take the lock file of this path; None where another process holds it."""
        return take_lock(path)


def exists(files: Files, path: Path) -> bool:
    """Tell whether anything, a broken link too, has this name."""
    try:
        files.stat(path)
    except (FileNotFoundError, NotADirectoryError):
        return False
    return True


def write_aside(files: Files, path: Path, data: bytes, *, aside: Path) -> None:
    """Write a file under another name on the same file system, then rename it into place.

    A reader sees the old content or the new, also after a loss of power. What a killed run left
    under the other name is overwritten.
    """
    with contextlib.suppress(FileNotFoundError):
        files.remove_file(aside)
    files.write(aside, data, sync=True)
    files.replace(aside, path)


def _entries(found: Iterable[os.DirEntry[str]]) -> Iterable[Entry]:
    for entry in found:
        try:
            stat = _stat(entry.stat(follow_symlinks=False))
        except FileNotFoundError:
            continue  # it went away since the folder was opened
        yield Entry(entry.name, stat)


def _stat(found: os.stat_result) -> Stat:
    return Stat(
        _KINDS.get(stat_module.S_IFMT(found.st_mode), Kind.OTHER),
        found.st_size,
        found.st_mtime_ns,
        found.st_ctime_ns,
        found.st_ino,
        found.st_dev,
        stat_module.S_IMODE(found.st_mode),
    )


_KINDS = {
    stat_module.S_IFREG: Kind.FILE,
    stat_module.S_IFDIR: Kind.FOLDER,
    stat_module.S_IFLNK: Kind.LINK,
}
# Absent on Windows, where the first two have no meaning and the last one matters.
_NO_FOLLOW: int = getattr(os, "O_NOFOLLOW", 0)
_NO_WAIT: int = getattr(os, "O_NONBLOCK", 0)
_BINARY: int = getattr(os, "O_BINARY", 0)
