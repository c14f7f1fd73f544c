"""The types of a manifest, and the JSON schema that they make."""

from __future__ import annotations

from typing import (
    Any,
    Literal,
    NotRequired,  # those of 3.11's own library make no schema
)

from typing_extensions import TypedDict

from sheets.base.documents import schema_of


class ListedSpec(TypedDict):
    """The spec: its file's name, and the SHA-256 of the filled spec that the PDF carries."""

    name: str
    sha256: str


class ListedFile(TypedDict):
    """A file. spec: SHA-256 of the filled spec it was made from, where that is not the manifest's own."""

    spec: NotRequired[str]
    name: str
    bytes: int
    sha256: str


class ListedPicture(TypedDict):
    """A kind of picture that was asked for."""

    kind: Literal["png", "svg"]
    dots_per_inch: NotRequired[int]


class ListedSheet(TypedDict):
    """A sheet. sha256: of what it shows, whichever format shows it."""

    number: str
    title: str
    revision: str
    sha256: str


class Head(TypedDict):
    """What every manifest says. drawn_with: the version of the program and of each library that bytes may
    depend on."""

    format: Literal["shopset manifest"]
    version: Literal[1]
    program: Literal["shopset"]
    title: str
    number: str
    date: str
    drawn_with: dict[str, str]
    spec: ListedSpec
    files: list[ListedFile]


class Draft(TypedDict):
    """How a set stands to its last issue, and the sheets that are not as issued."""

    says: str
    sheets: list[str]


class Document(Head):
    """A manifest. What follows the files is there for a set of sheets, not for schedules, patterns, labels.

    checks: how many findings of each severity. audit: the defects that were seen on the sheets. draft: how
    the set stands to the issue that it is not.
    """

    pictures: NotRequired[list[ListedPicture]]
    sheets: NotRequired[list[ListedSheet]]
    checks: NotRequired[dict[str, int]]
    audit: NotRequired[list[str]]
    draft: NotRequired[Draft]


def schema() -> dict[str, Any]:
    """Return the JSON schema of a manifest."""
    return schema_of(Document, "What a folder of shopset holds")
