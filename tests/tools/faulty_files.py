"""A file system that fails at a chosen operation."""

import errno
import os
import signal
from contextlib import AbstractContextManager
from pathlib import Path

from filialog.build.files import Entry, Files, RealFiles, Stat

__all__ = ["FaultyFiles"]


class FaultyFiles:
    """Files that count their operations and fail at the n-th.

    Parameters
    ----------
    fail_at
        Number of the operation that fails, counted from 1; None for never.
    number
        Error number that is raised.
    for_good
        Whether every later operation that changes something fails as well, as on a full or
        read-only disk.
    can_exchange, can_link
        False for a file system that lacks the call.
    kill
        End the process by SIGKILL in place of raising, at the n-th operation.
    foreign_mount
        A folder that behaves as a file system of its own: renames into it raise EXDEV.
    """

    def __init__(
        self,
        *,
        fail_at: int | None = None,
        number: int = errno.ENOSPC,
        for_good: bool = False,
        can_exchange: bool = True,
        can_link: bool = True,
        kill: bool = False,
        foreign_mount: Path | None = None,
    ) -> None:
        self._inner: Files = RealFiles()
        self._fail_at = fail_at
        self._number = number
        self._for_good = for_good
        self._can_exchange = can_exchange
        self._can_link = can_link
        self._kill = kill
        self._foreign_mount = foreign_mount
        self.operations: list[str] = []

    @property
    def failed(self) -> bool:
        """Whether the chosen operation was reached."""
        return self._fail_at is not None and len(self.operations) >= self._fail_at

    def _due(self, operation: str, path: Path, *, changes: bool = True) -> bool:
        self.operations.append(f"{operation} {path.name}")
        if self._fail_at is None:
            return False
        count = len(self.operations)
        return count == self._fail_at or (self._for_good and changes and count > self._fail_at)

    def _fail(self, path: Path) -> OSError:
        if self._kill:
            os.kill(os.getpid(), signal.SIGKILL)
        return OSError(self._number, os.strerror(self._number), str(path))

    def _step(self, operation: str, path: Path, *, changes: bool = True) -> None:
        if self._due(operation, path, changes=changes):
            raise self._fail(path)

    def stat(self, path: Path) -> Stat:
        self._step("stat", path, changes=False)
        found = self._inner.stat(path)
        mount = self._foreign_mount
        if mount is not None and path.is_relative_to(mount):
            return found._replace(device=found.device + 1)
        return found

    def resolve(self, path: Path) -> Path:
        self._step("resolve", path, changes=False)
        return self._inner.resolve(path)

    def list_folder(self, path: Path) -> tuple[Entry, ...]:
        self._step("list", path, changes=False)
        return self._inner.list_folder(path)

    def read(self, path: Path, *, at_most: int | None = None) -> bytes:
        self._step("read", path, changes=False)
        return self._inner.read(path, at_most=at_most)

    def write(self, path: Path, data: bytes, *, sync: bool = False) -> None:  # noqa: ARG002
        if self._due("write", path):
            self._inner.write(path, data[: len(data) // 2])  # a disk fills up half-way
            raise self._fail(path)
        self._inner.write(path, data)  # not synced, see `sync` below

    def replace(self, source: Path, target: Path) -> None:
        self._step("replace", target)
        mount = self._foreign_mount
        if mount is not None and target.is_relative_to(mount) != source.is_relative_to(mount):
            raise OSError(errno.EXDEV, os.strerror(errno.EXDEV), str(target))
        self._inner.replace(source, target)

    def link(self, source: Path, target: Path) -> None:
        self._step("link", target)
        if not self._can_link:
            raise OSError(errno.EPERM, os.strerror(errno.EPERM), str(target))
        self._inner.link(source, target)

    def exchange(self, one: Path, other: Path) -> bool:
        self._step("exchange", other)
        return self._can_exchange and self._inner.exchange(one, other)

    def make_folder(self, path: Path) -> None:
        self._step("make_folder", path)
        self._inner.make_folder(path)

    def set_mode(self, path: Path, mode: int) -> None:
        self._step("set_mode", path)
        self._inner.set_mode(path, mode)

    def remove_file(self, path: Path) -> None:
        self._step("remove_file", path)
        self._inner.remove_file(path)

    def remove_folder(self, path: Path) -> None:
        self._step("remove_folder", path)
        self._inner.remove_folder(path)

    def sync(self, folder: Path) -> None:
        # Counted, not done: waiting for the disk of the whole machine makes the tests slow.
        self._step("sync", folder)

    def lock(self, path: Path) -> AbstractContextManager[None] | None:
        self._step("lock", path)
        return self._inner.lock(path)
