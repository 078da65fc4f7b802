from collections.abc import Callable
from typing import Any

def faces(system: str, module: str) -> dict[str, Callable[..., Any]]: ...
