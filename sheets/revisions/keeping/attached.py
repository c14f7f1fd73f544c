"""What a PDF of a set carries beside its spec: which program made it, and with which title block."""

from __future__ import annotations

import json

from sheets import __version__

NAME = "made-by.json"
AS_WRITTEN = "as-written.yaml"
"""The name under which an issue carries its spec as its author wrote it, beside the filled one."""
PROGRAM = "shopset"


def made_by(spec: str, titleblock: str, codes: str = "") -> bytes:
    """Return the note that goes into a set: the program and its version, the spec's file name, the title
    block, and the user's own table of clearances where there is one."""
    content = {"program": PROGRAM, "version": __version__, "spec": spec, "titleblock": titleblock}
    if codes:
        content["codes"] = codes
    return (json.dumps(content, indent=1, ensure_ascii=False) + "\n").encode("utf-8")


def read_note(note: bytes) -> dict[str, str]:
    """Return what such a note says, by name; empty when it is none."""
    try:
        content = json.loads(note.decode("utf-8"))
    except (ValueError, RecursionError):
        return {}
    return {str(k): str(v) for k, v in content.items()} if isinstance(content, dict) else {}


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
