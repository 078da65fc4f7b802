"""What `tenths.inch` and `tenths.metric` hold: the same names, in the units of each."""

from ._lazily import attend
from ._tenths import _fill

# The functions beside the formulas, by the module whose `faces` makes them when one is first asked for.
_FUNCTIONS = {
    "_best_cut": ("best_cut", "best_cut_spread", "best_cuts", "best_passes"),
    "_capability": ("capability",),
    "_chatter": ("stability", "stability_from_response", "tool_mode"),
    "_clamping": ("clamp_force", "clamp_safety"),
    "_cutting": ("Machine", "fit_taylor", "limit_to_machine"),
    "_fits": ("iso_limits", "joint_findings"),
    "_form": ("fit_form", "hole_position"),
    "_geared_head": ("lower_spindle_step",),
    "_judging": ("judge",),
    "_limits": ("accepts",),
    "_materials": ("material", "materials"),
    "_path": ("path_feeds",),
    "_process": ("tool_drift",),
    "_stack": ("Stack", "VectorLoop", "propagate", "varying"),
    "_stock": ("bar_mass", "bar_mass_per_length", "compare_hardness"),
}


def fill(space, units):
    """Puts every formula and function into the globals of a module, in the units of `units`; gives their names."""
    module = space["__name__"]
    _fill(space, units)
    functions = attend(space, _FUNCTIONS, lambda topic: topic.faces(units, module))
    return sorted({name for name in space if not name.startswith("_")} | functions)
