import os
from collections.abc import Mapping
from typing import Any

from ._tenths import FirstArticle, Plan, ReadingTable, Size

def first_article(
    plan: Plan,
    readings: Mapping[Any, Any] | ReadingTable | Any = None,
    *,
    rule: str = "simple",
    uncertainty: Size | str | Mapping[Any, Size | str] | None = None,
    pieces: int | None = None,
    measured_with: str | Mapping[Any, str] | None = None,
    by: str | None = None,
    date: str | None = None,
) -> FirstArticle: ...
def readings_from_csv(
    source: str | bytes | bytearray | memoryview | os.PathLike[str],
    *,
    units: str | None = None,
    columns: Mapping[str, str] | None = None,
    decimal_comma: bool = False,
    delimiter: str | None = None,
) -> ReadingTable: ...
