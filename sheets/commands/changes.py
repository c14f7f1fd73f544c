"""What changed in each of many specs since a revision in git, as one list: new, changed, renamed, removed.

What git says is the same is not looked at; the others are compared side by side, and what came of a pair is
kept in a store.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from sheets.base.text_file import shown_name, stem_of
from sheets.commands.since import NOTHING, Pair


def listed(found: Sequence[Pair], workers: int) -> Iterator[str]:
    """Yield the list of changes as Markdown, a heading and what is to be said for each pair, in order."""
    yield "# What changed on the sheets\n"
    said = _each(found, workers)
    for pair in found:
        lines = [f"\n## {shown_name(stem_of(pair.spec))}\n"]
        if pair.renamed:
            lines.append(f"Renamed: was {shown_name(pair.before or '')}.\n")
        if pair.what == "removed":
            lines.append("Removed: there is no such spec any more.\n")
        elif pair.what == "same":
            lines.append(NOTHING)
        else:
            if pair.what == "new":
                lines.append("New: there was no such spec before.\n")
            text = next(said)
            if text:
                # More backticks than the text has: a name may hold some.
                fence = "`" * (3 + text.count("```"))
                lines.append(f"{fence}text\n{text}{fence}\n")
        yield "".join(lines)


def _each(found: Sequence[Pair], workers: int) -> Iterator[str]:
    from sheets.commands.compared_pair import said_of

    todo = [pair for pair in found if pair.what in ("new", "compared")]
    if workers > 1 and len(todo) > 1:
        from concurrent.futures import ProcessPoolExecutor
        from multiprocessing import get_context

        with ProcessPoolExecutor(min(workers, len(todo)), mp_context=get_context("spawn")) as pool:
            yield from pool.map(said_of, todo)
    else:
        yield from map(said_of, todo)
