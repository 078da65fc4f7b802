from collections.abc import Callable
from typing import Any

def iso_limits(system: str, module: str) -> Callable[..., tuple[Any, Any]]: ...
