from collections.abc import Callable
from typing import Any, Literal

__all__ = ["faces"]

_BarForm = Literal["round", "hexagon", "square", "tube", "flat", "plate"]
_HardnessScale = Literal["HRC", "HRB", "HB", "HBW", "HV"]

def faces(units: str, module: str) -> dict[str, Callable[..., Any]]: ...
