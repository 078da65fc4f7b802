"""Every formula with bare numbers in inches, feet per minute, pounds-force, horsepower."""

from . import _best_cut, _capability, _cutting, _fits, _form, _formula, _materials, _process, _stack
from ._tenths import _fill

_fill(globals(), "inch")
accepts = _formula.accepts("inch", __name__)
iso_limits = _fits.iso_limits("inch", __name__)
joint_findings = _fits.joint_findings("inch", __name__)
lower_spindle_step = _formula.lower_spindle_step("inch", __name__)
capability = _capability.face("inch", __name__)
tool_drift = _process.face("inch", __name__)
globals().update(_cutting.faces("inch", __name__))
globals().update(_best_cut.faces("inch", __name__))
globals().update(_form.faces("inch", __name__))
globals().update(_stack.faces("inch", __name__))
materials, material = _materials.in_units("inch", __name__)

__all__ = sorted(name for name in globals() if not name.startswith("_"))
