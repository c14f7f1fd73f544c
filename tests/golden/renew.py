"""Draw the goldens anew: python tests/golden/renew.py

Each golden that has changed is replaced. Before and after are put side by side, with what differs, as
pictures in build/golden, and the change of a text is printed. Look at them before the goldens are committed.
"""

from __future__ import annotations

import difflib
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

import numpy as np  # noqa: E402
from PIL import Image  # noqa: E402

from tests.golden import kept  # noqa: E402

SHOWN = ROOT / "build" / "golden"


def main() -> None:
    """Renew what has changed, and say so."""
    kept.FOLDER.mkdir(exist_ok=True)
    changed = [*_texts(), *_pictures()]
    print("\n".join(changed) if changed else "No golden has changed.")


def _texts() -> list[str]:
    said = []
    for one in kept.TEXTS:
        path, after = kept.text_path(*one), kept.text_now(*one)
        before = path.read_text("utf-8") if path.exists() else ""
        if before != after:
            path.write_text(after, "utf-8")
            lines = difflib.unified_diff(before.splitlines(), after.splitlines(), "before", "after", n=0)
            said.append(f"{path.name}: " + ("\n".join(lines) if before else "new"))
    return said


def _pictures() -> list[str]:
    said = []
    for one in kept.PICTURES:
        path, after = kept.picture_path(*one), kept.picture_now(*one)
        if not path.exists():
            said.append(f"{path.name}: new")
        else:
            before = kept.picture_kept(*one)
            apart = kept.apart(before, after)
            if apart is None:
                continue
            SHOWN.mkdir(parents=True, exist_ok=True)
            kept.beside(before, after).save(SHOWN / path.name)
            said.append(f"{path.name}: {apart}\n  build/golden/{path.name}: before, after, the difference")
        # Sixteen greys, evenly spaced, take half the room.
        sixteen = Image.fromarray((after.astype(int) + 8).clip(0, 255).astype(np.uint8) // 17, "P")
        sixteen.putpalette([17 * k for k in range(16) for _ in "rgb"])
        sixteen.save(path, optimize=True, bits=4)
    return said


if __name__ == "__main__":
    main()
