"""Every formula with bare numbers in inches, feet per minute, pounds-force, horsepower."""

from . import (
    _best_cut,
    _capability,
    _chatter,
    _clamping,
    _cutting,
    _fits,
    _form,
    _geared_head,
    _limits,
    _materials,
    _path,
    _process,
    _stack,
    _stock,
)
from ._tenths import _fill

_fill(globals(), "inch")
accepts = _limits.accepts("inch", __name__)
iso_limits = _fits.iso_limits("inch", __name__)
joint_findings = _fits.joint_findings("inch", __name__)
lower_spindle_step = _geared_head.lower_spindle_step("inch", __name__)
capability = _capability.face("inch", __name__)
tool_drift = _process.face("inch", __name__)
globals().update(_clamping.faces("inch", __name__))
globals().update(_chatter.faces("inch", __name__))
globals().update(_cutting.faces("inch", __name__))
globals().update(_best_cut.faces("inch", __name__))
globals().update(_form.faces("inch", __name__))
globals().update(_path.faces("inch", __name__))
globals().update(_stack.faces("inch", __name__))
globals().update(_stock.faces("inch", __name__))
materials, material = _materials.in_units("inch", __name__)

__all__ = sorted(name for name in globals() if not name.startswith("_"))
