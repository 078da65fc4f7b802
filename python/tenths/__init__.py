"""The arithmetic between a part drawing and a good part.

``from tenths import inch as shop`` or ``from tenths import metric as shop`` fixes the unit of every bare number;
what takes only sizes, limits or text is here.

>>> from tenths import inch as shop
>>> shop.surface_speed(0.5, 1500)                      # 0.5 in at 1500 rev/min, in ft/min
196.34954084936206
>>> shop.surface_speed("12.7 mm", [1500, 750])         # text carries its own unit; lists and arrays give arrays
array([196.34954085,  98.17477042])
>>> shop.surface_speed.solve_for("diameter", 200, spindle_speed=1500)
0.5092958178940651
>>> tenths.Limits("1.420 ±.005 in").accepts("1.425 in")
True

``tenths.formulas()`` lists every formula, and ``help(shop.surface_speed)`` explains one.
"""

from . import _formula, _inch_ufuncs, _metric_ufuncs, _solve, inch, metric
from ._charts import control_chart
from ._cutting import Bound, LimitedCut, PredictedLife, TaylorFit
from ._describe import Description, Formulas, formulas
from ._materials import Material, Materials
from ._remarks import Remark, Remarks
from ._results import Results
from ._rows import Rows
from ._stack import (
    Extremes,
    Moments,
    split_blocks,
)
from ._tenths import (
    Allocation,
    Allotted,
    Band,
    Blocks,
    BrokenRule,
    ChartConstants,
    ChartPhase,
    ChartResult,
    ChartRow,
    Contribution,
    ControlChart,
    ControlPoint,
    ControlSeries,
    CostCurve,
    Decision,
    Distribution,
    DomainError,
    Finding,
    Fit,
    FitChoice,
    Formula,
    Fraction,
    Gauge,
    GaugeMember,
    Input,
    Knurl,
    Limits,
    Machine,
    Object,
    OperationChart,
    Plan,
    PositionCheck,
    Propagation,
    Row,
    Sample,
    Sheet,
    Size,
    Spread,
    SpreadWithin,
    Stack,
    StandardTaper,
    Statistics,
    Thread,
    VectorLoop,
    __version__,
    chart_constants,
    check_master,
    flush_pin_gauge,
    fold_blocks,
    iso_classes,
    iso_limits,
    length_gauge,
    plug_gauge,
    reamer_limits,
    ring_gauge,
    select_fits,
    snap_gauge,
)

__all__ = [
    "Allocation",
    "Allotted",
    "Band",
    "Blocks",
    "Bound",
    "BrokenRule",
    "ChartConstants",
    "ChartPhase",
    "ChartResult",
    "ChartRow",
    "Contribution",
    "ControlChart",
    "ControlPoint",
    "ControlSeries",
    "CostCurve",
    "Decision",
    "Description",
    "Distribution",
    "DomainError",
    "Extremes",
    "Finding",
    "Fit",
    "FitChoice",
    "Formula",
    "Formulas",
    "Fraction",
    "Gauge",
    "GaugeMember",
    "Input",
    "Knurl",
    "LimitedCut",
    "Limits",
    "Machine",
    "Material",
    "Materials",
    "Moments",
    "Object",
    "OperationChart",
    "Plan",
    "PositionCheck",
    "PredictedLife",
    "Propagation",
    "Remark",
    "Remarks",
    "Results",
    "Row",
    "Rows",
    "Sample",
    "Sheet",
    "Size",
    "Spread",
    "SpreadWithin",
    "Stack",
    "Statistics",
    "StandardTaper",
    "TaylorFit",
    "Thread",
    "VectorLoop",
    "__version__",
    "chart_constants",
    "check_master",
    "control_chart",
    "flush_pin_gauge",
    "fold_blocks",
    "formulas",
    "inch",
    "iso_classes",
    "iso_limits",
    "length_gauge",
    "metric",
    "plug_gauge",
    "reamer_limits",
    "ring_gauge",
    "select_fits",
    "snap_gauge",
    "split_blocks",
]
