from collections.abc import Callable
from typing import Any, Literal

from ._formula import _Scalar
from ._tenths import Capability, Limits

_CapabilityLimits = Limits | str | tuple[_Scalar | None, _Scalar | None] | list[_Scalar | None]
_CapabilityLaw = Literal["normal", "lognormal", "weibull", "Pearson III"]
_SigmaRule = Literal["moving range", "mean range", "mean deviation", "pooled", "overall"]

def face(units: str, module: str) -> Callable[..., Capability | Any]: ...
