"""What a PDF of a set carries beside its spec: which program made it, and with which title block."""

from __future__ import annotations

import json

from sheets import __version__

NAME = "made-by.json"
PROGRAM = "shopset"


def made_by(titleblock: str) -> bytes:
    """Return the note that goes into a set: the program, its version, the title block's name or path."""
    content = {"program": PROGRAM, "version": __version__, "titleblock": titleblock}
    return (json.dumps(content, indent=1, ensure_ascii=False) + "\n").encode("utf-8")


def version_of(note: bytes) -> str:
    """Return the version that such a note names; empty when it names none."""
    try:
        content = json.loads(note.decode("utf-8"))
    except ValueError:
        return ""
    return str(content.get("version", "")) if isinstance(content, dict) else ""


def older_version_says(version: str) -> str:
    """Return what is said of a set that another version of the program made; empty for this one."""
    if version == __version__:
        return ""
    made = (
        f"by version {version} of the program" if version else "by a version of the program that is not named"
    )
    return (
        f"this set was made {made}; it is drawn here by version {__version__}, which may draw it differently"
    )
