"""Changing what is on a disk so that neither a power cut nor a second run leaves it by halves."""

from __future__ import annotations

import ctypes
import errno
import os
import stat
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

MOST_BYTES = 256 * 2**20
"""The largest file of a set that is read whole: hundreds of times what the largest drawn so far has."""

_SWAP_ON_LINUX = 2  # RENAME_EXCHANGE of renameat2(2)
_SWAP_ON_MACOS = 2  # RENAME_SWAP of renamex_np(2)
_HERE = -100  # AT_FDCWD: paths are seen from the current folder


def read_plain(path: Path, most: int = MOST_BYTES) -> bytes:
    """Return what a plain file holds. Raises OSError, also for a pipe, a device, or more than `most` bytes.

    A pipe is not waited for: it is opened without blocking and refused.
    """
    handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_CLOEXEC", 0))
    with os.fdopen(handle, "rb") as file:
        if not stat.S_ISREG(os.fstat(handle).st_mode):
            raise OSError(errno.EINVAL, "is not a plain file")
        data = file.read(most + 1)
    if len(data) > most:
        raise OSError(errno.EFBIG, f"holds more than {most // 2**20} MB")
    return data


def write_through(path: Path, data: bytes) -> None:
    """Write a new file and wait until the disk has it. Raises OSError, also if it is there already."""
    with open(path, "xb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


def write_over(path: Path, data: bytes) -> None:
    """Write a file in place of the one that is there, which stands whole until then. Raises OSError.

    A link is followed; the mode of the file that was there is kept. Under the lock of the file's folder: what
    lies aside there is then of dead runs, and is deleted.
    """
    target = Path(os.path.realpath(path))
    sweep_beside(target)
    handle, name = tempfile.mkstemp(dir=target.parent, prefix=aside_prefix(target.name))
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(name, stat.S_IMODE(target.stat().st_mode) if target.exists() else 0o666 & ~_umask())
        os.replace(name, target)
    except BaseException:
        with suppress(OSError):
            os.unlink(name)
        raise
    with suppress(OSError):
        flush_folder(target.parent)


def sweep_beside(path: Path) -> tuple[str, ...]:
    """Delete what a dead run of `write_over` left beside a file, and return the names. Under the lock."""
    left = left_beside(path)
    for one in left:
        with suppress(OSError):
            one.unlink()
    return tuple(one.name for one in left)


def left_beside(path: Path) -> tuple[Path, ...]:
    """Return what lies aside beside a file: a dead run left it, or another run is at work."""
    prefix = aside_prefix(path.name)
    return tuple(sorted(p for p in path.parent.iterdir() if p.name.startswith(prefix) and p.is_file()))


def aside_prefix(name: str) -> str:
    """Return how the name of what is written aside begins; as long as a name may be, it leaves room."""
    return f".{os.fsdecode(os.fsencode(name)[:200])}.aside-"


def flush_folder(folder: Path) -> None:
    """Wait until the disk has a folder's list of names, where the system can. Raises OSError."""
    flags = getattr(os, "O_DIRECTORY", None)
    if flags is None:
        return
    handle = os.open(folder, os.O_RDONLY | flags)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


@contextmanager
def alone_in(folder: Path) -> Iterator[None]:
    """Hold the lock of a folder: one run at a time changes what is in it. Raises OSError.

    The lock is the folder itself, so that no file stands for it; the system lets go of it when a run dies.
    Where the system has no such lock, nothing is held.
    """
    try:
        import fcntl
    except ImportError:
        yield
        return
    handle = os.open(folder, os.O_RDONLY | os.O_CLOEXEC)
    try:
        with suppress(OSError):  # some network disks lock no folders
            fcntl.flock(handle, fcntl.LOCK_EX)
        yield
    finally:
        os.close(handle)


def exchange(one: Path, other: Path) -> bool:
    """Let two folders change places in one step: at every instant both names stand for a whole folder.

    Returns False, with nothing changed, where the system or the disk cannot. Raises other OSErrors.
    """
    names = [ctypes.c_char_p(os.fsencode(path)) for path in (one, other)]
    library = ctypes.CDLL(None, use_errno=True) if os.name == "posix" else None
    if sys.platform.startswith("linux") and hasattr(library, "renameat2"):
        assert library is not None
        failed = library.renameat2(_HERE, names[0], _HERE, names[1], ctypes.c_uint(_SWAP_ON_LINUX))
    elif sys.platform == "darwin" and hasattr(library, "renamex_np"):
        assert library is not None
        failed = library.renamex_np(names[0], names[1], ctypes.c_uint(_SWAP_ON_MACOS))
    else:
        return False
    if not failed:
        return True
    code = ctypes.get_errno()
    if code in (errno.ENOSYS, errno.EINVAL, errno.ENOTSUP, errno.EOPNOTSUPP, errno.EPERM):
        return False
    raise OSError(code, os.strerror(code), str(other))


def _umask() -> int:
    held = os.umask(0)
    os.umask(held)
    return held
