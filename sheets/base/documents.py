"""JSON documents that name their format and version, and the schema that the types of one make."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def schema_of(document: type, title: str) -> dict[str, Any]:
    """Return the JSON schema of a document from its TypedDict. What the types do not name is refused."""
    from pydantic import TypeAdapter

    made = TypeAdapter(document).json_schema(mode="serialization")
    for shape in (made, *made.get("$defs", {}).values()):
        _tidied(shape)
    return {"$schema": DIALECT, **made, "title": title}


def _tidied(shape: dict[str, Any]) -> None:
    # The titles that the library makes of names say nothing.
    shape.pop("title", None)
    properties = shape.get("properties")
    if isinstance(properties, dict):
        shape["additionalProperties"] = False
        for value in properties.values():
            value.pop("title", None)


def written(schema: Callable[[], dict[str, Any]]) -> str:
    """Return a schema as JSON text."""
    return json.dumps(schema(), indent=2, ensure_ascii=False) + "\n"
