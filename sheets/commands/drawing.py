"""Drawing one spec or many: into folders, or held against the sheets that are there already.

Many are drawn side by side in processes of their own; what each says is handed back and printed in order.
"""

from __future__ import annotations

import gc
import signal
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, field, replace
from hashlib import sha256
from pathlib import Path
from typing import Any

from sheets.base.diagnostics import Diagnostic
from sheets.base.text_file import shown_name, stem_of
from sheets.writers.pictures import Pictures

_Outcome = tuple[tuple[Diagnostic, ...], dict[str, bytes], tuple[tuple[str, float], ...]]
"""What was found, the files by name, how long each stage took."""


@dataclass(frozen=True, slots=True)
class Job:
    """One spec to draw. store: the folder of drawn sets to take from, or None."""

    spec: Path
    out: Path
    pictures: Pictures = ()
    store: Path | None = None
    check: bool = False  # write nothing; say which sheets differ from those in the folder

    @property
    def folder(self) -> Path:
        """Return the folder of the set."""
        return self.out / self.spec.stem


@dataclass(frozen=True, slots=True)
class Done:
    """What came of a job. sheets: number and title of each; empty if the spec is wrong.

    trouble: why the folder could not be written, or empty. differs: what is not as the spec gives it.
    defects: what the audit saw on the sheets. checks: how many findings of each severity. unchanged: the set
    stands as it was.
    """

    job: Job
    diagnostics: tuple[Diagnostic, ...]
    sheets: tuple[tuple[str, str], ...]
    trouble: str = ""
    told: tuple[str, ...] = ()  # what the user should know of the folder
    differs: tuple[str, ...] = ()
    timings: tuple[tuple[str, float], ...] = ()  # stage, seconds
    defects: tuple[str, ...] = ()
    checks: tuple[tuple[str, int], ...] = ()
    draft: str = ""  # how the set stands to the issue that it is not, or empty
    unchanged: bool = False


@dataclass(slots=True)
class Tally:
    """How many specs came to what, for the line that ends a run of several."""

    check: bool = False
    drawn: int = 0
    unchanged: int = 0
    failed: list[Path] = field(default_factory=list)

    def count(self, done: Done) -> None:
        """Count what came of one."""
        self.check = done.job.check
        if not done.sheets or done.trouble:
            self.failed.append(done.job.spec)
        elif done.unchanged:
            self.unchanged += 1
        else:
            self.drawn += 1

    def line(self, lost: int = 0) -> str:
        """Return the line. lost: how many sets have no spec."""
        words = (
            (self.drawn, "differ" if self.check else "drawn"),
            (self.unchanged, "as drawn" if self.check else "unchanged"),
            (len(self.failed), "failed"),
        )
        whole = self.drawn + self.unchanged + len(self.failed)
        said = f"{whole} spec{'s' * (whole != 1)}: " + ", ".join(f"{number} {word}" for number, word in words)
        if self.failed:
            said += f" ({', '.join(shown_name(spec) for spec in self.failed)})"
        return said + (f"; {lost} set{'s' * (lost != 1)} without a spec" if lost else "")


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
    left = False  # what a drawn set leaves is cleared before the next one; a recalled one leaves nothing
    for job in jobs:
        if left:
            gc.collect()
        done = draw_one(job, lambda stage, job=job: starting(job, stage))  # type: ignore[misc]
        left = not done.unchanged
        yield done


def _heed_no_interrupt() -> None:
    # An interrupt is for the run as a whole: a worker ends with the set that it is at.
    signal.signal(signal.SIGINT, signal.SIG_IGN)


def draw_one(job: Job, starting: Callable[[str], None] = lambda stage: None) -> Done:
    """Do one job. A set that stands as it would be drawn is not written again."""
    from sheets.commands.holding import as_manifest, held
    from sheets.revisions.keeping.issues import put_right
    from sheets.writers.folder import as_it_stands
    from sheets.writers.manifest import NAME

    if job.check:
        job = replace(job, pictures=_asked_before(job))
    told = () if job.check or is_pdf_name(job.spec) else put_right(job.spec)
    recalled = _recalled(job)
    if isinstance(recalled, Done):
        return replace(recalled, told=(*told, *recalled.told))
    found, files, timings = ((), recalled, ()) if recalled else _drawn(job, starting)
    if not files:
        return Done(job, found, (), timings=timings, told=told)
    done = replace(_done(job, found, as_manifest(files[NAME])), timings=timings, told=told)
    if job.check:
        outcome = held(job.folder, files)
        return replace(
            done, differs=outcome.differs, told=(*told, *outcome.told), unchanged=not outcome.differs
        )
    if as_it_stands(job.folder, sha256(files[NAME]).hexdigest()) is not None:
        return _unchanged(done)
    return _put(done, files)


def _recalled(job: Job) -> Done | dict[str, bytes] | None:
    # The job done, if its set stands as the store says that it was drawn; else the set's files out of store.
    if job.store is None or is_pdf_name(job.spec):
        return None
    from sheets.commands.cache import fetch
    from sheets.commands.recall import recalled
    from sheets.writers.folder import as_it_stands

    known = recalled(job.store, job.spec, job.pictures)
    if known is None:
        return None
    standing = as_it_stands(job.folder, known.manifest)
    if standing is not None:
        with suppress(KeyError, TypeError, ValueError, AttributeError):  # a manifest that is none of ours
            return _unchanged(_done(job, (), standing))
    return dict(fetch(job.store, known.key, stem_of(job.spec), known.spec) or ())


def _done(job: Job, found: tuple[Diagnostic, ...], content: Mapping[str, Any]) -> Done:
    # With what the set's manifest says of it.
    return Done(
        job, found, tuple((str(s["number"]), str(s["title"])) for s in content.get("sheets", ())),
        defects=tuple(str(defect) for defect in content.get("audit", ())),
        checks=tuple((str(word), int(count)) for word, count in dict(content.get("checks", {})).items()),
        draft=_draft(content),
    )  # fmt: skip


def _unchanged(done: Done) -> Done:
    from sheets.writers.folder import FolderError, cleared

    try:
        more = () if done.job.check else cleared(done.job.folder)
    except FolderError as error:
        return replace(done, trouble=str(error))
    return replace(done, told=(*done.told, *more), unchanged=True)


def _put(done: Done, files: dict[str, bytes]) -> Done:
    from sheets.writers.folder import FolderError, write_folder

    try:
        return replace(done, told=(*done.told, *write_folder(done.job.folder, files)))
    except FolderError as error:
        return replace(done, trouble=str(error))


def _asked_before(job: Job) -> Pictures:
    # A set is held with the pictures that it was drawn with, but for those that are asked for now.
    from sheets.commands.holding import manifest_in
    from sheets.writers.manifest import pictures_in

    asked = {picture.kind: picture for picture in job.pictures}
    kept = {picture.kind: picture for picture in pictures_in(manifest_in(job.folder))}
    return tuple({**kept, **asked}[kind] for kind in ("png", "svg") if kind in {**kept, **asked})


def _draft(verdict: Mapping[str, Any]) -> str:
    draft = verdict.get("draft")
    if draft is None:
        return ""
    count, all_of = len(draft["sheets"]), len(verdict["sheets"])
    return f"{draft['says']}: {count} of {all_of} sheets are not what was issued, and say so"


def is_pdf_name(path: Path) -> bool:
    """Return whether a file is to be read as the PDF of a set, by its name."""
    return path.suffix.lower() == ".pdf"


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
