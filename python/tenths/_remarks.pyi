from collections.abc import Iterator, Sequence
from typing import Any, NamedTuple, overload

import numpy
from numpy.typing import NDArray

from ._tenths import Formula

class Remark(NamedTuple):
    row: tuple[Any, ...]
    kind: str
    concerns: str | None
    value: float | None
    message: str

class Remarks(Sequence[Remark]):
    refused: Any
    advised: Any
    def __init__(
        self, formula: Formula, columns: Sequence[NDArray[numpy.float64]], absent: Any = False, labels: Any = None
    ) -> None: ...
    @property
    def errors(self) -> Remarks: ...
    @property
    def advice(self) -> Remarks: ...
    def __len__(self) -> int: ...
    @overload
    def __getitem__(self, index: int) -> Remark: ...
    @overload
    def __getitem__(self, index: slice) -> list[Remark]: ...
    def __eq__(self, other: object) -> bool: ...
    def to_dicts(self) -> list[dict[str, Any]]: ...

def place(remark: Remark) -> str: ...
def row_in_words(row: tuple[Any, ...]) -> str: ...
def raise_for_rows(formula: Formula, result: Any, columns: Sequence[Any], absent: Any, labels: Any) -> Any: ...

__all__ = ["Remark", "Remarks"]
