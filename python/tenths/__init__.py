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

from . import _plots, _tenths, inch, metric
from ._lazily import attend
from ._tenths import *

_plots.attach(vars(_tenths))
# What is written in Python comes from these modules when it is first asked for.
attend(
    globals(),
    {
        "_best_cut": ("CutTable",),
        "_charts": ("average_run_length", "control_chart"),
        "_cutting": ("LimitedCut",),
        "_cutting_plan": ("cutting_plan", "shared_cutting_plan"),
        "_describe": ("Description", "Formulas", "formulas"),
        "_draft": ("draft_plan",),
        "_first_article": ("first_article", "readings_from_csv"),
        "_gauge_study": ("attribute_agreement", "gauge_linearity", "gauge_stability", "gauge_studies", "gauge_study"),
        "_materials": ("Material", "Materials"),
        "_path": ("PathFeeds",),
        "_remarks": ("Remark", "Remarks"),
        "_results": ("Results",),
        "_rows": ("Rows",),
        "_stack": ("split_blocks",),
    },
)
del attend

__all__ = [
    "CutTable",
    "Description",
    "Formulas",
    "LimitedCut",
    "Material",
    "Materials",
    "PathFeeds",
    "Remark",
    "Remarks",
    "Results",
    "Rows",
    "attribute_agreement",
    "average_run_length",
    "control_chart",
    "cutting_plan",
    "draft_plan",
    "first_article",
    "formulas",
    "gauge_linearity",
    "gauge_stability",
    "gauge_studies",
    "gauge_study",
    "inch",
    "metric",
    "readings_from_csv",
    "shared_cutting_plan",
    "split_blocks",
]
__all__ += _tenths.__all__
