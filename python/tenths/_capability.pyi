from collections.abc import Callable
from typing import Any

from ._formula import _Scalar
from ._tenths import Capability, Limits

_CapabilityLimits = Limits | str | tuple[_Scalar | None, _Scalar | None] | list[_Scalar | None]

def faces(units: str, module: str) -> dict[str, Callable[..., Capability | Any]]: ...
def pair(length: Any, limits: Any, name: str = "capability") -> tuple[float | None, float | None]: ...
