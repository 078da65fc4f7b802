from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from ._formula import _Scalar
from ._tenths import BestCut

__all__ = ["CutTable", "faces"]

_Ends = Mapping[str, Any]
_Limits = Mapping[str, tuple[_Scalar | None, _Scalar | None]] | None
_Least = str | Mapping[str, float] | Callable[[dict[str, float]], float] | None
_Most = str | Callable[[dict[str, float]], float] | None

@dataclass(frozen=True)
class CutTable:
    """Many best cuts, each None where there is none."""

    cuts: list[BestCut | None]
    reasons: list[str | None]
    index: Any = ...
    most: bool | None = ...

    def __len__(self) -> int: ...
    def __iter__(self) -> Iterator[BestCut | None]: ...
    def __getitem__(self, row: int) -> BestCut | None: ...
    @property
    def best_row(self) -> int | None: ...
    def to_dicts(self) -> list[dict[str, Any]]: ...
    def to_frame(self) -> Any: ...

def faces(units: str, module: str) -> dict[str, Callable[..., Any]]: ...
