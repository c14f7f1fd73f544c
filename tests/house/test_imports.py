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
_STAGES = set(MAY_SEE)
MAY_SEE |= {
    "pipeline": _STAGES,
    "commands": _STAGES | {"pipeline"},
    "cli": {"base", "commands", "grammar", "schedules", "writers"},
    "__init__": set(),
    "__main__": {"cli"},
}
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


def _name(path: Path) -> str:
    parts = path.relative_to(ROOT).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def _seen_by_file() -> dict[str, set[str]]:
    # Which of our files each imports, at its head or in a function.
    trees = {_name(path): tree for _, path, tree in modules()}
    seen: dict[str, set[str]] = {name: set() for name in trees}
    for name, tree in trees.items():
        for node in ast.walk(tree):
            if isinstance(node, ast.Import):
                seen[name] |= {alias.name for alias in node.names}
            elif isinstance(node, ast.ImportFrom):
                inner = {f"{node.module}.{alias.name}" for alias in node.names} & set(trees)
                seen[name] |= inner or {str(node.module)}
    return {name: {other for other in found if other in trees} for name, found in seen.items()}


def _circle(seen: dict[str, set[str]]) -> list[str]:
    # The files of circles, or none: what sees nothing that is left, or is not seen, is taken away.
    left = {name: set(others) for name, others in seen.items()}
    while True:
        looked_at = set().union(*left.values())
        loose = {name for name, others in left.items() if not others or name not in looked_at}
        if not loose:
            return sorted(f"{name} -> {', '.join(sorted(others))}" for name, others in left.items())
        left = {name: others - loose for name, others in left.items() if name not in loose}


def test_no_file_is_in_a_circle_of_imports() -> None:
    seen = _seen_by_file()
    assert sum(len(others) for others in seen.values()) > 600, "the test saw too few imports to mean anything"
    assert not _circle(seen), "\n".join(_circle(seen))


def test_a_circle_is_seen() -> None:
    assert _circle({"a": {"b"}, "b": {"c"}, "c": set()}) == []
    assert _circle({"a": {"b"}, "b": {"c"}, "c": {"b"}, "d": set()}) == ["b -> c", "c -> b"]


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
