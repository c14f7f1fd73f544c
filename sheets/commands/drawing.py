"""Drawing one spec or many: into folders, or held against the sheets that are there already.

Many are drawn side by side in processes of their own; what each says is handed back and printed in order.
"""

from __future__ import annotations

import gc
import json
import signal
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from sheets.base.diagnostics import Diagnostic
from sheets.writers.pictures import Pictures


@dataclass(frozen=True, slots=True)
class Job:
    """One spec to draw. store: the folder of drawn sets to take from, or None."""

    spec: Path
    out: Path
    pictures: Pictures = ()
    store: Path | None = None
    check: bool = False  # write nothing; say which sheets differ from those in the folder


@dataclass(frozen=True, slots=True)
class Done:
    """What came of a job. sheets: number and title of each; empty if the spec is wrong.

    trouble: why the folder could not be written, or empty. differs: what is not as the spec gives it.
    defects: what the audit saw on the sheets. checks: how many findings of each severity.
    """

    job: Job
    diagnostics: tuple[Diagnostic, ...]
    sheets: tuple[tuple[str, str], ...]
    files: tuple[str, ...] = ()
    trouble: str = ""
    told: tuple[str, ...] = ()  # what the user should know of the folder
    differs: tuple[str, ...] = ()
    timings: tuple[tuple[str, float], ...] = ()  # stage, seconds
    defects: tuple[str, ...] = ()
    checks: tuple[tuple[str, int], ...] = ()
    draft: str = ""  # how the set stands to the issue that it is not, or empty

    @property
    def folder(self) -> Path:
        """Return the folder of the set."""
        return self.job.out / self.job.spec.stem


def draw_all(
    jobs: Sequence[Job], workers: int, starting: Callable[[Job, str], None] = lambda job, stage: None
) -> Iterator[Done]:
    """Yield what came of each job, in their order. starting: told of each stage when there is one worker."""
    if workers > 1 and len(jobs) > 1:
        from concurrent.futures import ProcessPoolExecutor
        from multiprocessing import get_context

        pool = ProcessPoolExecutor(
            min(workers, len(jobs)), mp_context=get_context("spawn"), initializer=_heed_no_interrupt
        )
        try:
            yield from pool.map(draw_one, jobs)
        finally:
            pool.shutdown(cancel_futures=True)
        return
    for number, job in enumerate(jobs):
        if number:
            gc.collect()
        yield draw_one(job, lambda stage, job=job: starting(job, stage))  # type: ignore[misc]


def _heed_no_interrupt() -> None:
    # An interrupt is for the run as a whole: a worker ends with the set that it is at.
    signal.signal(signal.SIGINT, signal.SIG_IGN)


def draw_one(job: Job, starting: Callable[[str], None] = lambda stage: None) -> Done:
    """Do one job."""
    from sheets.revisions.keeping.issues import put_right
    from sheets.writers.folder import FolderError, write_folder

    told = () if job.check or is_pdf_name(job.spec) else put_right(job.spec)
    found, files, timings = _drawn(job, starting)
    if not files:
        return Done(job, found, (), timings=timings, told=told)
    verdict = _manifest(files.get(_MANIFEST))
    done = Done(
        job, found, _listing(files), tuple(sorted(files)), timings=timings, told=told,
        defects=tuple(str(defect) for defect in verdict.get("audit", ())),
        checks=tuple((str(word), int(count)) for word, count in dict(verdict.get("checks", {})).items()),
        draft=_draft(verdict),
    )  # fmt: skip
    if job.check:
        return _checked(done, files)
    try:
        return replace(done, told=(*told, *write_folder(done.folder, files)))
    except FolderError as error:
        return replace(done, trouble=str(error))


def _draft(verdict: dict[str, Any]) -> str:
    draft = verdict.get("draft")
    if draft is None:
        return ""
    count, all_of = len(draft["sheets"]), len(verdict["sheets"])
    return f"{draft['says']}: {count} of {all_of} sheets are not what was issued, and say so"


def is_pdf_name(path: Path) -> bool:
    """Return whether a file is to be read as the PDF of a set, by its name."""
    return path.suffix.lower() == ".pdf"


_Outcome = tuple[tuple[Diagnostic, ...], dict[str, bytes], tuple[tuple[str, float], ...]]
"""What was found, the files by name, how long each stage took."""


def _drawn(job: Job, starting: Callable[[str], None]) -> _Outcome:
    if is_pdf_name(job.spec):
        return _drawn_again(job, starting)
    from sheets.commands.one_set import draw

    drawn = draw(job.spec, pictures=job.pictures, starting=starting, store=job.store)
    return drawn.diagnostics, dict(drawn.files), tuple((t.stage, t.seconds) for t in drawn.timings)


def _drawn_again(job: Job, starting: Callable[[str], None]) -> _Outcome:
    # From the spec, the title block and the record of issue that a PDF of a set carries.
    from sheets.base.stopwatch import Stopwatch
    from sheets.commands.given import GivenError, given
    from sheets.commands.one_set import draw_standing, standing_of
    from sheets.revisions.keeping.attached import older_version_says

    try:
        issued = given(str(job.spec))
    except GivenError as error:
        return (Diagnostic("no-spec-attached", "error", str(error)),), {}, ()
    found = issued.diagnostics
    if says := older_version_says(issued.version or ""):
        found = (*found, Diagnostic("other-version", "note", f"{job.spec}: {says}"))
    if issued.solved.wall is None:
        return found, {}, ()
    stands = standing_of(issued.solved, issued.folder, issued.record_of)
    drawn = draw_standing(
        replace(issued.solved, diagnostics=found), stands, stem=issued.stem, folder=issued.folder,
        pictures=job.pictures, watch=Stopwatch(starting), store=job.store,
        as_written=issued.as_written,
    )  # fmt: skip
    return drawn.diagnostics, dict(drawn.files), tuple((t.stage, t.seconds) for t in drawn.timings)


def _checked(done: Done, files: dict[str, bytes]) -> Done:
    from sheets.writers.manifest import DRAWN_WITH, drawn_apart

    differs = differences(done.folder, files)
    before, after = _manifest(_read(done.folder / _MANIFEST)), _manifest(files.get(_MANIFEST))
    apart = drawn_apart(before, after)
    if not apart or not before:
        return replace(done, differs=differs)
    told = f"{done.folder}: was drawn by other versions: {apart}"
    rest = [{k: v for k, v in content.items() if k != DRAWN_WITH} for content in (before, after)]
    if differs == (_MANIFEST_DIFFERS,) and rest[0] == rest[1]:
        return replace(done, told=(*done.told, f"{told}; every file is what the spec gives"))
    return replace(done, differs=(*differs, told))


def differences(folder: Path, files: dict[str, bytes]) -> tuple[str, ...]:
    """Return what in a set's folder is not as the files say, sheets by number and title. Writes nothing."""
    there: dict[str, bytes | None] = {name: _read(folder / name) for name in files}
    if all(content is None for content in there.values()):
        return (f"{folder}: there is no set here",)
    found: list[str] = []
    before, after = _manifest(there.get(_MANIFEST)), _manifest(files.get(_MANIFEST))
    old, new = _sheets(before), _sheets(after)
    for number in sorted(old.keys() | new.keys()):
        if number not in new:
            found.append(f"sheet {number} {old[number][0]}: is no longer in the set")
        elif number not in old:
            found.append(f"sheet {number} {new[number][0]}: is missing")
        elif old[number] != new[number]:
            found.append(f"sheet {number} {new[number][0]}: is not what the spec gives")
    as_listed = not found  # a PDF altered while its manifest was not: the pages tell which
    for name in sorted(files):
        if there[name] is None:
            found.append(f"{name}: is missing")
        elif there[name] != files[name] and name != _MANIFEST:
            pages = (
                _pages_that_differ(there[name], files[name], new)
                if as_listed and name.endswith(".pdf")
                else ()
            )
            found += pages or (f"{name}: is not what the spec gives",)
    if not found and there[_MANIFEST] != files[_MANIFEST]:
        found.append(_MANIFEST_DIFFERS)
    return tuple(found)


_MANIFEST = "manifest.json"
_MANIFEST_DIFFERS = f"{_MANIFEST}: is not what the spec gives"


def _listing(files: dict[str, bytes]) -> tuple[tuple[str, str], ...]:
    sheets = _manifest(files.get(_MANIFEST)).get("sheets", [])
    return tuple((str(s["number"]), str(s["title"])) for s in sheets)


def _read(path: Path) -> bytes | None:
    try:
        return path.read_bytes()
    except OSError:
        return None


def _manifest(data: bytes | None) -> dict[str, Any]:
    try:
        content = json.loads((data or b"{}").decode("utf-8"))
    except ValueError:
        return {}
    return content if isinstance(content, dict) else {}


def _sheets(manifest: dict[str, Any]) -> dict[str, tuple[str, str]]:
    found: dict[str, tuple[str, str]] = {}
    for entry in manifest.get("sheets", []):
        found[str(entry.get("number"))] = (str(entry.get("title")), str(entry.get("sha256")))
    return found


def _pages_that_differ(
    before: bytes | None, after: bytes, sheets: dict[str, tuple[str, str]]
) -> tuple[str, ...]:
    # The committed PDF may have been altered although its manifest was not.
    import io

    from pypdf import PdfReader
    from pypdf.errors import PyPdfError

    try:
        readers = [PdfReader(io.BytesIO(data)) for data in (before or b"", after)]
        old, new = ([page.get_contents() for page in reader.pages] for reader in readers)
    except (PyPdfError, ValueError, KeyError, TypeError):
        return ()
    codes = [[page.get_data() if page is not None else b"" for page in pages] for pages in (old, new)]
    names = list(sheets)
    return tuple(
        f"sheet {names[k]} {sheets[names[k]][0]}: is not what the spec gives"
        for k in range(min(len(codes[1]), len(names)))
        if k >= len(codes[0]) or codes[0][k] != codes[1][k]
    )
