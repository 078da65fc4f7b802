from collections.abc import Sequence
from typing import Any, Literal

import numpy
from numpy.typing import ArrayLike, NDArray

from ._tenths import AttributeAgreement, GaugeLinearity, GaugeStability, GaugeStudy

def gauge_study(
    data: ArrayLike | Any,
    <StudyOptions method, tolerance, study_multiplier, pool_interaction>
    *,
    <StudyOptions confidence>
    part: str = "part",
    appraiser: str = "appraiser",
    trial: str = "trial",
    value: str = "value",
) -> GaugeStudy: ...
def gauge_studies(
    data: ArrayLike, method: Literal["anova", "nested"] = "anova", pool_interaction: bool = False
) -> dict[str, NDArray[numpy.float64]]: ...
def gauge_linearity(references: ArrayLike, data: ArrayLike, *, confidence: float = 0.95) -> GaugeLinearity: ...
def gauge_stability(data: ArrayLike, *, confidence: float = 0.95) -> GaugeStability: ...
def attribute_agreement(
    ratings: ArrayLike | Sequence[Any], reference: ArrayLike | Sequence[Any] | None = None, *, confidence: float = 0.95
) -> AttributeAgreement: ...
