"""A run of the program that issues one revision, for tests that kill it: python issuing.py FOLDER NUMBER
SIZE."""

from __future__ import annotations

import sys
from pathlib import Path

from sheets.revisions.keeping.issues import publish


def files(number: str, size: int) -> dict[str, bytes]:
    """Files as an issue has them; each says which issue it is of."""
    return {f"sheet {k}.pdf": (f"{number} {k} ".encode() * size) for k in range(6)}


if __name__ == "__main__":
    home, number, size = Path(sys.argv[1]), sys.argv[2], int(sys.argv[3])
    print("ready", flush=True)
    publish(home / number, files(number, size))
    print("done", flush=True)
