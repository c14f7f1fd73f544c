"""What schedules and checks are set by, as plain values: mappings of text, counts, lengths (mm) and
tuples."""

from collections.abc import Mapping
from types import MappingProxyType

from pydantic import BaseModel

from sheets.grammar.schema import Spec

_SECTIONS = ("checks", "stock", "fasteners", "labels", "patterns")


def settings_of(spec: Spec) -> Mapping[str, object]:
    """Return the sections by name, and under `room` and `project` the values that no type of the model
    carries."""
    found: dict[str, object] = {name: _plain(getattr(spec, name)) for name in _SECTIONS}
    found["room"] = MappingProxyType({"out_of_plumb": spec.room.out_of_plumb})
    found["project"] = MappingProxyType({"owner": spec.project.owner})
    return MappingProxyType(found)


def _plain(value: object) -> object:
    if isinstance(value, BaseModel):
        return MappingProxyType({name: _plain(getattr(value, name)) for name in type(value).model_fields})
    if isinstance(value, (tuple, list)):
        return tuple(_plain(item) for item in value)
    return value
