"""Reading a spec: file to text, text to tree, tree to Spec, each with what is wrong with it.

A stage that finds errors ends the reading, since what follows would only repeat them; within a stage all are
told.
"""

import os
import re
import stat
from dataclasses import replace
from pathlib import Path

from pydantic import ValidationError

from sheets.base.diagnostics import Diagnostic, has_errors, in_order
from sheets.spec.events import read_tree
from sheets.spec.faults import diagnostics_of
from sheets.spec.inherit import inherited
from sheets.spec.rules import broken_rules
from sheets.spec.schema import Spec
from sheets.spec.source import Source

MOST_BYTES = 5_000_000

_LINE_END = re.compile("\r\n|[\n\r\x85\u2028\u2029]")
_NO_TEXT = re.compile(rb"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]")
_WORST_NAME = re.compile(r"[^\x20-\x7e\u00a0-\uffff]")

Reading = tuple[Spec | None, Source, tuple[Diagnostic, ...]]


def read_spec(path: str | os.PathLike[str]) -> Reading:
    """Read the spec in a file. Returns (spec, source, diagnostics); the spec is None when there is any error.

    Lengths in the spec are exact millimetres. Never raises for what is in the file, or for a file that is
    missing, unreadable, too large, no text or no spec: each is one diagnostic.
    """
    name = _WORST_NAME.sub("?", os.fspath(path))
    data, complaint = _bytes(Path(path), Source(name))
    if data is None:
        assert complaint is not None
        return None, Source(name), (complaint,)
    text, complaint = _decoded(data, name)
    if text is None:
        assert complaint is not None
        return None, Source(name), (complaint,)
    return read_spec_text(text, name)


def read_spec_text(text: str, file: str = "spec.yaml") -> Reading:
    """Read a spec from its text. file: the name that places carry. Returns what read_spec returns."""
    tree, source, faults = read_tree(text, Source(file, tuple(_LINE_END.split(text))))
    if tree is None:
        return None, source, in_order(faults)
    unit = "mm" if tree.get("units") == "mm" else "inch"
    try:
        spec = Spec.model_validate(inherited(tree), context={"unit": unit})
    except ValidationError as error:
        return None, source, in_order(diagnostics_of(error, source))
    found = in_order(broken_rules(spec, source))
    return (None if has_errors(found) else spec), source, found


def _bytes(path: Path, source: Source) -> tuple[bytes | None, Diagnostic | None]:
    try:
        # Without O_NONBLOCK opening a named pipe would wait for a writer.
        handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
    except FileNotFoundError:
        return None, _file_error("no-file", f"there is no file {source.file}", source)
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "its name cannot be used"
        return None, _file_error("unreadable", f"{source.file} cannot be read: {reason}", source)
    status = os.fstat(handle)
    if not stat.S_ISREG(status.st_mode):
        os.close(handle)
        what = "a folder" if stat.S_ISDIR(status.st_mode) else "not a file"
        return None, _file_error("not-a-file", f"{source.file} is {what}; a spec is a file", source)
    with os.fdopen(handle, "rb") as file:
        data = file.read(MOST_BYTES + 1) if status.st_size <= MOST_BYTES else b""
    if status.st_size > MOST_BYTES or len(data) > MOST_BYTES:
        size = max(status.st_size, len(data)) / 1e6
        return None, _file_error(
            "too-large", f"{source.file} has {size:.1f} MB; a spec has at most 5 MB", source
        )
    return data, None


def _decoded(data: bytes, file: str) -> tuple[str | None, Diagnostic | None]:
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return None, _file_error("not-utf-8", f"{file} is text in UTF-16", Source(file), "Save it as UTF-8.")
    odd = _NO_TEXT.search(data)
    if odd:
        message = f"{file} is not text: it holds the byte {data[odd.start()]:02X} (hexadecimal)"
        return None, _byte_error("not-text", message, data, odd.start(), file)
    try:
        return data.decode("utf-8-sig"), None
    except UnicodeDecodeError as error:
        message = f"{file} is not UTF-8: the byte {data[error.start]:02X} (hexadecimal) has no meaning there"
        return None, _byte_error("not-utf-8", message, data, error.start, file)


def _byte_error(code: str, message: str, data: bytes, offset: int, file: str) -> Diagnostic:
    before = data[:offset].decode("utf-8", "replace")
    lines = _LINE_END.split(before)
    source = Source(file, ("",) * (len(lines) - 1) + (lines[-1][:200],))
    complaint = _file_error(code, message, source, "Save the spec as UTF-8 text.")
    return replace(complaint, place=source.at((len(lines) - 1, len(lines[-1]))))


def _file_error(code: str, message: str, source: Source, help_text: str = "") -> Diagnostic:
    return Diagnostic(code, "error", message, source.at((0, 0)), help_text)
