from collections.abc import Callable, Sequence
from typing import Any, NamedTuple

import numpy
from numpy.typing import NDArray

from ._tenths import Allocation, Propagation, Sample, Stack, VectorLoop

__all__ = [
    "Extremes",
    "Moments",
    "allocation_html",
    "evaluate",
    "faces",
    "propagation_dict",
    "propagation_html",
    "sample_html",
    "split_blocks",
    "stack_from_dict",
    "stack_html",
    "vector_loop_from_dict",
    "vector_loop_html",
]

BLOCK: int

class Extremes(NamedTuple):
    lower: float
    upper: float
    at_lower: dict[str, float]
    at_upper: dict[str, float]
    monotonic: dict[str, bool]

class Moments(NamedTuple):
    mean: float
    sigma: float
    first_order_mean: float
    first_order_sigma: float
    mean_error: float
    sigma_error: float
    derivatives: dict[str, float]
    contributions: dict[str, float]
    derivative_errors: dict[str, float]

def evaluate(function: Callable[..., Any], columns: Sequence[NDArray[numpy.float64]], count: int) -> bytes: ...
def stack_from_dict(data: dict[str, Any]) -> Stack: ...
def vector_loop_from_dict(data: dict[str, Any]) -> VectorLoop: ...
def allocation_html(allocation: Allocation) -> str: ...
def vector_loop_html(around: VectorLoop) -> str: ...
def split_blocks(n: int, portions: int) -> list[tuple[int, int]]: ...
def propagation_dict(propagation: Propagation) -> dict[str, Any]: ...
def stack_html(stack: Stack) -> str: ...
def sample_html(sample: Sample) -> str: ...
def propagation_html(propagation: Propagation) -> str: ...
def faces(units: str, module: str) -> dict[str, Callable[..., Any]]: ...
