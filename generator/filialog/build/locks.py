"""A lock file that only one process at a time can hold.

`flock` is given back by the system when its holder dies. Where it does not exist, the file
itself is the lock: made only if absent, with the holder's number inside, and taken over from a
holder that is dead.
"""

import contextlib
import errno
import os
import sys
from collections.abc import Iterator
from contextlib import AbstractContextManager
from pathlib import Path

if sys.platform != "win32":
    import fcntl

__all__ = ["take_lock"]

_NO_FOLLOW: int = getattr(os, "O_NOFOLLOW", 0)
_HELD = frozenset({errno.EAGAIN, errno.EWOULDBLOCK, errno.EACCES})
_NO_FLOCK = frozenset({errno.ENOLCK, errno.ENOSYS, errno.ENOTSUP, errno.EOPNOTSUPP})


def take_lock(path: Path) -> AbstractContextManager[None] | None:
    """Take the lock file of this path; None where another process holds it.

    The lock file is removed when the lock is given back.
    """
    if sys.platform == "win32":
        return _take_by_presence(path)
    while True:
        handle = os.open(path, os.O_RDWR | os.O_CREAT | _NO_FOLLOW, 0o666)
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
            still_named = _same_file(handle, path)
        except OSError as error:
            os.close(handle)
            if error.errno in _HELD:
                return None
            if error.errno in _NO_FLOCK:
                path.unlink(missing_ok=True)  # nobody can hold it
                return _take_by_presence(path.with_name(path.name + "-held"))
            raise
        if still_named:
            return _held(handle, path)
        # Its last holder removed the file between our opening and locking: the lock is void.
        os.close(handle)


@contextlib.contextmanager
def _held(handle: int, path: Path) -> Iterator[None]:
    try:
        yield
    finally:
        if os.name != "nt":
            path.unlink(missing_ok=True)  # before the lock is given back: nobody else has it yet
            os.close(handle)
        else:
            os.close(handle)  # there an open file cannot be removed
            path.unlink(missing_ok=True)


def _same_file(handle: int, path: Path) -> bool:
    try:
        named = path.lstat()
    except FileNotFoundError:
        return False
    opened = os.fstat(handle)
    return (named.st_dev, named.st_ino) == (opened.st_dev, opened.st_ino)


def _take_by_presence(path: Path) -> AbstractContextManager[None] | None:
    """Take the lock by creating the file; a dead holder's file is removed once."""
    for _ in range(2):
        try:
            handle = os.open(path, os.O_RDWR | os.O_CREAT | os.O_EXCL | _NO_FOLLOW, 0o666)
        except FileExistsError:
            if not _holder_is_dead(path):
                return None
            path.unlink(missing_ok=True)
            continue
        os.write(handle, str(os.getpid()).encode())
        return _held(handle, path)
    return None


def _holder_is_dead(path: Path) -> bool:
    """Tell whether the process named in the lock file is gone; any doubt means no."""
    if os.name == "nt":
        # There a file that is held open cannot be removed, and signal 0 would be sent for real.
        try:
            path.unlink()
        except PermissionError:
            return False
        except FileNotFoundError:
            pass
        return True
    try:
        os.kill(int(path.read_bytes()[:20]), 0)  # signal 0 only asks
    except ProcessLookupError:
        return True
    except (OSError, ValueError, OverflowError):
        return False
    return False
