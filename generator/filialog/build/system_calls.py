"""Two calls of the operating system that Python does not offer.

`renameat2` with RENAME_EXCHANGE and `syncfs` are described in rename(2) and sync(2) of the
Linux man-pages; the numbers are those of linux/fs.h and fcntl.h, from memory, and the tests try
them on the running kernel.
"""

import errno
import os
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ctypes import CDLL

__all__ = ["exchange_names", "sync_file_system"]

_AT_FDCWD = -100
_RENAME_EXCHANGE = 2
_NOT_POSSIBLE = frozenset(
    {
        errno.ENOSYS,  # a kernel without the call
        errno.EINVAL,  # a file system without the flag
        errno.ENOTSUP,
        errno.EOPNOTSUPP,
        errno.EXDEV,  # a mount point, or a layer of an overlay
        errno.EBUSY,  # a mount point
    }
)


def exchange_names(one: Path, other: Path) -> bool:
    """Swap two names in one step; False where platform or file system cannot."""
    library = _c_library()
    if library is None or not hasattr(library, "renameat2"):
        return False
    import ctypes  # noqa: PLC0415 - costs milliseconds, an idle run does not need it

    result = library.renameat2(
        _AT_FDCWD,
        ctypes.c_char_p(os.fsencode(one)),
        _AT_FDCWD,
        ctypes.c_char_p(os.fsencode(other)),
        ctypes.c_uint(_RENAME_EXCHANGE),
    )
    if result == 0:
        return True
    number = ctypes.get_errno()
    if number in _NOT_POSSIBLE:
        return False
    raise OSError(number, os.strerror(number), str(one), None, str(other))


def sync_file_system(folder: Path) -> None:
    """Wait until all that was written on this folder's file system is on the disk."""
    library = _c_library()
    if library is None or not hasattr(library, "syncfs"):
        if hasattr(os, "sync"):
            os.sync()
        return
    import ctypes  # noqa: PLC0415 - costs milliseconds, an idle run does not need it

    handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
    try:
        if library.syncfs(handle) != 0:
            number = ctypes.get_errno()
            raise OSError(number, os.strerror(number), str(folder))
    finally:
        os.close(handle)


def _c_library() -> "CDLL | None":
    """Give the C library of Linux, None elsewhere."""
    if os.uname().sysname != "Linux" if hasattr(os, "uname") else True:
        return None
    import ctypes  # noqa: PLC0415 - costs milliseconds, an idle run does not need it

    return ctypes.CDLL(None, use_errno=True)
