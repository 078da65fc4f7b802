"""A bar that shows how far long work is, for `progress=True`."""

from __future__ import annotations

import sys
from typing import Any


class Line:
    """Whole percentages in one line on stderr."""

    def __init__(self) -> None:
        self._stream = sys.stderr
        self._shown = -1

    def __call__(self, fraction: float) -> None:
        percent = int(100.0 * fraction)
        if percent > self._shown and self._stream is not None:
            self._stream.write(f"\r{percent:3d} %")
            self._stream.flush()
            self._shown = percent

    def close(self) -> None:
        if self._shown >= 0 and self._stream is not None:
            self._stream.write("\n")


class Bar:
    """A bar of tqdm, in a terminal or a notebook."""

    def __init__(self, tqdm: Any) -> None:
        self._bar = tqdm(total=1.0, bar_format="{percentage:3.0f} % |{bar}| {elapsed}, {remaining} left")

    def __call__(self, fraction: float) -> None:
        self._bar.update(fraction - self._bar.n)

    def close(self) -> None:
        self._bar.close()


def bar() -> Line | Bar:
    """A bar of tqdm where it is installed, otherwise a line."""
    try:
        from tqdm.auto import tqdm  # type: ignore[import-untyped, import-not-found, unused-ignore]
    except ImportError:
        return Line()
    return Bar(tqdm)
