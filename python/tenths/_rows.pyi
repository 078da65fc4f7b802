from typing import Any, Generic, Literal, TypeVar

__all__ = ["Rows"]

_Row = TypeVar("_Row", covariant=True)

class Rows(tuple[_Row, ...], Generic[_Row]):
    def to_dicts(self) -> list[dict[str, Any]]: ...
    def to_frame(self, unit: Literal["inch", "metric", "in", "mm"] | None = None) -> Any: ...
    def _repr_html_(self) -> str: ...
