"""Imports go one way: the table of DEVELOPERS.md, read with `ast`, held against every module."""

from __future__ import annotations

import ast
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]

# folder -> the folders of ours it may see (besides itself)
MAY_SEE: dict[str, set[str]] = {
    "base": set(),
    "geometry": {"base"},
    "drawing": {"base", "geometry"},
    "grammar": {"base"},
    "model": {"base", "geometry"},
    "tables": {"base"},
    "resolve": {"base", "geometry", "grammar", "model", "tables"},
    "schedules": {"base", "geometry", "model", "tables"},
    "checks": {"base", "geometry", "model", "tables", "schedules"},
    "views": {"base", "geometry", "model"},
    "annotate": {"base", "geometry", "model", "tables", "views"},
    "compose": {"base", "geometry", "drawing", "model", "tables", "views", "annotate", "schedules", "checks"},
    "audit": {"base", "geometry", "drawing", "compose"},
    "revisions": {"base", "geometry", "drawing", "grammar", "model", "schedules", "checks", "views",
                  "annotate", "compose"},
    "writers": {"base", "geometry", "drawing"},
}  # fmt: skip
TOP = {"pipeline", "cli", "commands", "__init__", "__main__"}  # see everything
HEAVY = {"shapely": {"geometry"}, "ezdxf": {"writers"}, "reportlab": {"writers", "drawing"},
         "matplotlib": {"writers"}, "openpyxl": {"schedules"}}


def modules() -> list[tuple[str, Path, ast.Module]]:
    found = []
    for path in sorted((ROOT / "sheets").rglob("*.py")):
        relative = path.relative_to(ROOT / "sheets")
        folder = relative.parts[0] if len(relative.parts) > 1 else relative.stem
        found.append((folder, path, ast.parse(path.read_text("utf-8"))))
    return found


def imports(tree: ast.Module) -> list[tuple[int, str]]:
    found = []
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            found += [(node.lineno, alias.name) for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"line {node.lineno}: imports are written in full"
            module = node.module or ""
            if module == "sheets":
                found += [(node.lineno, f"sheets.{alias.name}") for alias in node.names]
            else:
                found.append((node.lineno, module))
    return found


def test_imports_go_one_way() -> None:
    wrong, files, edges = [], 0, 0
    for folder, path, tree in modules():
        if folder in TOP:
            continue
        files += 1
        for line, name in imports(tree):
            if name.startswith("sheets."):
                edges += 1
                other = name.split(".")[1]
                if other != folder and other not in MAY_SEE[folder] and other != "__version__":
                    wrong.append(f"{path.relative_to(ROOT)}:{line}: {folder} may not see {other}")
    assert files > 30, "the test looked at too few files to mean anything"
    assert edges > 60, "the test saw too few imports to mean anything"
    assert not wrong, "\n".join(wrong)


def test_heavy_libraries_stay_in_their_folders() -> None:
    wrong, seen = [], set()
    for folder, path, tree in modules():
        for line, name in imports(tree):
            library = name.split(".")[0]
            if library in HEAVY:
                seen.add(library)
                if folder not in HEAVY[library]:
                    wrong.append(f"{path.relative_to(ROOT)}:{line}: {library} in {folder}")
    assert {"shapely", "ezdxf", "reportlab"} <= seen
    assert not wrong, "\n".join(wrong)


def test_no_import_is_for_type_checking_only() -> None:
    hits = [str(path.relative_to(ROOT)) for _, path, tree in modules()
            for node in ast.walk(tree) if isinstance(node, ast.Name) and node.id == "TYPE_CHECKING"]
    assert not hits, hits
