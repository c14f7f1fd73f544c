"""A text file as a user hands it in: its text, or one complaint with its place. Never waited for."""

import os
import re
import stat
from dataclasses import replace
from pathlib import Path

from sheets.base.diagnostics import Diagnostic
from sheets.base.source import Source

MOST_BYTES = 5_000_000
LONGEST_NAME = 250
"""Bytes of a file's name: file systems take 255, and what is written aside is called a little longer."""

_LINE_END = re.compile("\r\n|[\n\r\x85\u2028\u2029]")
_NO_TEXT = re.compile(rb"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]")
_WORST_NAME = re.compile(r"[^\x20-\x7e\u00a0-\uffff]")


def shown_name(path: str | os.PathLike[str]) -> str:
    """Return a path as it can be printed."""
    return _WORST_NAME.sub("?", os.fspath(path))


def stem_of(path: Path) -> str:
    """Return what a spec's file is called, for the names in its set: bytes that are no text become U+FFFD."""
    return os.fsencode(path.stem).decode("utf-8", "replace")


def checks_file(stem: str) -> str:
    """Return what the file of the checks of a set is called: a stem that leaves it no room is cut."""
    ending = "-checks.pdf"
    kept = stem.encode("utf-8")[: LONGEST_NAME - len(ending)].decode("utf-8", "ignore")
    return f"{kept}{ending}"


def lines_of(text: str) -> tuple[str, ...]:
    """Return the lines of a text as YAML counts them, without their ends."""
    return tuple(_LINE_END.split(text))


def read_text(path: Path, name: str, kind: str) -> tuple[str | None, Diagnostic | None]:
    """Return the text of a file, or what is wrong with it: missing, unreadable, no file, too large, no UTF-8.

    name: what places call the file. kind: what it should be ("a spec"). Reads no more than it may.
    """
    data, complaint = _bytes(path, Source(name), kind)
    return (None, complaint) if data is None else decoded(data, name, kind)


def _bytes(path: Path, source: Source, kind: str) -> tuple[bytes | None, Diagnostic | None]:
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
        return None, _file_error("not-a-file", f"{source.file} is {what}; {kind} is a file", source)
    with os.fdopen(handle, "rb") as file:
        data = file.read(MOST_BYTES + 1) if status.st_size <= MOST_BYTES else b""
    if status.st_size > MOST_BYTES or len(data) > MOST_BYTES:
        size = max(status.st_size, len(data)) / 1e6
        return None, _file_error(
            "too-large", f"{source.file} has {size:.1f} MB; {kind} has at most 5 MB", source
        )
    return data, None


def decoded(data: bytes, file: str, kind: str) -> tuple[str | None, Diagnostic | None]:
    """Return the text of a file, or what is wrong with its bytes and where. Names as for `read_text`."""
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return None, _file_error("not-utf-8", f"{file} is text in UTF-16", Source(file), "Save it as UTF-8.")
    odd = _NO_TEXT.search(data)
    if odd:
        message = f"{file} is not text: it holds the byte {data[odd.start()]:02X} (hexadecimal)"
        return None, _byte_error("not-text", message, data, odd.start(), Source(file), kind)
    try:
        return data.decode("utf-8-sig"), None
    except UnicodeDecodeError as error:
        message = f"{file} is not UTF-8: the byte {data[error.start]:02X} (hexadecimal) has no meaning there"
        return None, _byte_error("not-utf-8", message, data, error.start, Source(file), kind)


def _byte_error(
    code: str, message: str, data: bytes, offset: int, source: Source, kind: str
) -> Diagnostic:
    before = data[:offset].decode("utf-8", "replace")
    lines = _LINE_END.split(before)
    source = Source(source.file, ("",) * (len(lines) - 1) + (lines[-1][:200],))
    complaint = _file_error(code, message, source, f"Save {kind.replace('a ', 'the ', 1)} as UTF-8 text.")
    return replace(complaint, place=source.at((len(lines) - 1, len(lines[-1]))))


def _file_error(code: str, message: str, source: Source, help_text: str = "") -> Diagnostic:
    return Diagnostic(code, "error", message, source.at((0, 0)), help_text)
