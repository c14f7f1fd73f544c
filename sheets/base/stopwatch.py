"""How long the stages of a run take. What it measures is told to whoever watches, and reaches no file."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Timing:
    """How long a stage took, seconds of wall time."""

    stage: str
    seconds: float


class Stopwatch:
    """Times stages, and tells `starting` as each begins."""

    def __init__(self, starting: Callable[[str], None] = lambda stage: None) -> None:
        self.timings: list[Timing] = []
        self._starting = starting

    @contextmanager
    def stage(self, name: str) -> Iterator[None]:
        """Time what is done inside."""
        self._starting(name)
        start = time.perf_counter()
        try:
            yield
        finally:
            self.timings.append(Timing(name, time.perf_counter() - start))
