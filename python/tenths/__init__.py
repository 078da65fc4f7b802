"""The arithmetic between a part drawing and a good part.

``from tenths import inch as shop`` or ``from tenths import metric as shop`` fixes the unit of every bare number;
what takes only sizes, limits or text stands here.
"""

from . import _formula, _solve, inch, metric
from ._cutting import Bound, LimitedCut, PredictedLife, TaylorFit
from ._describe import Description, Formulas, formulas
from ._materials import Material, Materials
from ._remarks import Remark, Remarks
from ._tenths import (
    Decision,
    DomainError,
    Finding,
    Fit,
    FitChoice,
    Formula,
    Gauge,
    GaugeMember,
    Knurl,
    Limits,
    Machine,
    Plan,
    PositionCheck,
    Sheet,
    Size,
    Thread,
    __version__,
    check_master,
    flush_pin_gauge,
    iso_classes,
    iso_limits,
    length_gauge,
    plug_gauge,
    ring_gauge,
    select_fits,
    snap_gauge,
)

__all__ = [
    "Bound",
    "Decision",
    "Description",
    "DomainError",
    "Finding",
    "Fit",
    "FitChoice",
    "Formula",
    "Formulas",
    "Gauge",
    "GaugeMember",
    "Knurl",
    "LimitedCut",
    "Limits",
    "Machine",
    "Material",
    "Materials",
    "Plan",
    "PositionCheck",
    "PredictedLife",
    "Remark",
    "Remarks",
    "Sheet",
    "Size",
    "TaylorFit",
    "Thread",
    "__version__",
    "check_master",
    "flush_pin_gauge",
    "formulas",
    "inch",
    "iso_classes",
    "iso_limits",
    "length_gauge",
    "metric",
    "plug_gauge",
    "ring_gauge",
    "select_fits",
    "snap_gauge",
]
