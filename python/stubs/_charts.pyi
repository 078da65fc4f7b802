from collections.abc import Hashable, Sequence
from typing import Any, Literal, overload

import numpy
from numpy.typing import ArrayLike, NDArray

from ._tenths import ControlChart

def control_chart(
    kind: Literal["xbar_r", "xbar_s", "i_mr", "p", "np", "c", "u", "ewma", "cusum"],
    data: ArrayLike | Sequence[Any],
    *,
    sizes: ArrayLike | None = None,
    subgroup: Sequence[Hashable] | ArrayLike | None = None,
    phases: Sequence[Hashable] | ArrayLike | None = None,
    <ChartOptions>
) -> ControlChart: ...
@overload
def average_run_length(
    kind: Literal["xbar_r", "xbar_s", "i_mr", "ewma", "cusum"],
    shift: float,
    *,
    size: int = 1,
    sigmas: float = 3.0,
    weight: float = 0.2,
    slack: float = 0.5,
    decision: float = 5.0,
) -> float: ...
@overload
def average_run_length(
    kind: Literal["xbar_r", "xbar_s", "i_mr", "ewma", "cusum"],
    shift: ArrayLike,
    *,
    size: int = 1,
    sigmas: float = 3.0,
    weight: float = 0.2,
    slack: float = 0.5,
    decision: float = 5.0,
) -> NDArray[numpy.float64]: ...
