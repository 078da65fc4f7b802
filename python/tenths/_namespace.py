"""What `tenths.inch` and `tenths.metric` hold: the same names, in the units of each."""

from . import (
    _best_cut,
    _capability,
    _chatter,
    _clamping,
    _cutting,
    _fits,
    _form,
    _geared_head,
    _judging,
    _limits,
    _materials,
    _path,
    _process,
    _stack,
    _stock,
)
from ._tenths import _fill


def fill(space, units):
    """Puts every formula and function into the globals of a module, in the units of `units`."""
    module = space["__name__"]
    _fill(space, units)
    space["accepts"] = _limits.accepts(units, module)
    space["iso_limits"] = _fits.iso_limits(units, module)
    space["judge"] = _judging.judge(units, module)
    space["joint_findings"] = _fits.joint_findings(units, module)
    space["lower_spindle_step"] = _geared_head.lower_spindle_step(units, module)
    space["capability"] = _capability.face(units, module)
    space["tool_drift"] = _process.face(units, module)
    space["materials"], space["material"] = _materials.in_units(units, module)
    for topic in (_best_cut, _chatter, _clamping, _cutting, _form, _path, _stack, _stock):
        space.update(topic.faces(units, module))
