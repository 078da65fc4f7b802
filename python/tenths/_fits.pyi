from collections.abc import Callable
from typing import Any

from ._tenths import Finding

def iso_limits(system: str, module: str) -> Callable[..., tuple[Any, Any]]: ...
def joint_findings(system: str, module: str) -> Callable[[Any], list[Finding]]: ...
