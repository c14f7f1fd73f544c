"""Writing that a power cut cannot undo by halves: files reach the disk before their folder is moved."""

from __future__ import annotations

import os
from pathlib import Path


def write_through(path: Path, data: bytes) -> None:
    """Write a new file and wait until the disk has it. Raises OSError, also if it is there already."""
    with open(path, "xb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


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
