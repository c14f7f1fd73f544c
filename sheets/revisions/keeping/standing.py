"""How a spec stands to its issues: which row was issued last, and whether what the spec draws is that issue.

With the record of the issue at hand the sheets tell, one by one. Without it the row does, by the digest of
what was issued: so a spec that travels alone still knows that it was changed since.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import partial
from hashlib import sha256

from sheets.compose.draft import Draft, every_sheet
from sheets.drawing.items import Sheet
from sheets.grammar.defaults import canonical
from sheets.grammar.schema import Spec
from sheets.model.wall import Revision
from sheets.revisions.keeping.record import Record
from sheets.revisions.marking.difference import bare_hash

_DIGITS = 12

RecordOf = Callable[[str], Record | None]
"""The record of an issue by its number; None where it is not at hand."""


@dataclass(frozen=True, slots=True)
class Standing:
    """Of a spec's rows those that were issued, the record of the last in use, and what is a draft since.

    record: None where it is not at hand, or nothing was issued. draft: None where all is as issued, or its
    author keeps the rows by hand and issued none.
    """

    rows: tuple[Revision, ...]
    record: Record | None = None
    draft: Draft | None = None


def digest_of(spec: Spec, *others: bytes) -> str:
    """Return the digest of what a spec draws: the filled spec less its revisions, and the files it names.

    Comments, the order of keys and other ways to write a length leave it as it is.
    """
    found = sha256()
    for piece in (canonical(spec.model_copy(update={"revisions": ()})).encode("utf-8"), *others):
        found.update(len(piece).to_bytes(8, "big") + piece)
    return found.hexdigest()[:_DIGITS]


def standing(rows: Sequence[Revision], digest: str, record_of: RecordOf) -> Standing:
    """Return how a spec of that digest stands to the issues of its rows."""
    issued = [k for k, row in enumerate(rows) if row.digest or record_of(row.number) is not None]
    if not issued:
        return Standing(tuple(rows))
    in_use = [k for k in issued if rows[k].void is None]
    kept, waiting = tuple(rows[: issued[-1] + 1]), rows[issued[-1] + 1 :]
    if not in_use:
        return Standing(kept, None, Draft("", f"{kept[-1].number} is void; not issued", every_sheet))
    row = rows[in_use[-1]]
    record = record_of(row.number)
    says = f"for {waiting[-1].number}, not issued" if waiting else f"after {row.number}, not issued"
    if record is not None:
        if row.digest == digest and not waiting and not record.only:
            says = f"as {row.number}, drawn anew"  # by another version of the program, or with a void told
        draft = Draft(row.number, says, partial(_unlike, record))
        return Standing(kept, less_void(record, kept, record_of), draft)
    if row.digest == digest and not waiting:
        if in_use[-1] == 0:  # a first issue has nothing that its spec does not say
            return Standing(kept)
        says = f"as {row.number}, without its record"
    return Standing(kept, None, Draft(row.number, says, every_sheet))


def _unlike(record: Record, sheets: Sequence[Sheet]) -> frozenset[str]:
    found = {
        sheet.number
        for sheet in sheets
        if (was := record.sheet(sheet.number)) is None or was.bare != bare_hash(sheet)
    }
    there = {sheet.number for sheet in sheets}
    if sheets and (found or any(was.number not in there for was in record.sheets)):
        found.add(sheets[0].number)  # its index says which revision each sheet carries
    return frozenset(found)


def less_void(record: Record, rows: Sequence[Revision], record_of: RecordOf) -> Record:
    """Return a record as it holds with some issues void: their marks are retired, their sheets not issued."""
    gone = set(record.retired)
    numbers = {row.number for row in rows if row.void is not None}
    for row in rows:
        void = record_of(row.number) if row.void is not None else None
        if void is not None:
            gone |= {*void.retired, *void.marks.values()}
    left = gone - set(record.marks.values())
    return replace(
        record,
        retired=tuple(sorted(left, key=lambda mark: (mark[:1], len(mark), mark))),
        sheets=tuple(replace(s, bare="") if s.revision in numbers else s for s in record.sheets),
    )
