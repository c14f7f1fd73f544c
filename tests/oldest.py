"""Prints the oldest version of each library that pyproject.toml allows, as constraints for pip.

python tests/oldest.py > oldest.txt && pip install -c oldest.txt .
"""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

PROJECT = Path(__file__).resolve().parents[1] / "pyproject.toml"


def oldest(dependencies: list[str]) -> list[str]:
    """Return each requirement at its lower bound; each must have one."""
    found = []
    for requirement in dependencies:
        bound = re.match(r"([A-Za-z0-9._-]+)(?:==|>=)([0-9.]+)", requirement)
        if bound is None:
            raise SystemExit(f"{requirement}: has no lower bound")
        found.append(f"{bound[1]}=={bound[2]}")
    return found


if __name__ == "__main__":
    print("\n".join(oldest(tomllib.loads(PROJECT.read_text("utf-8"))["project"]["dependencies"])))
