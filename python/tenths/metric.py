"""Every formula with bare numbers in millimetres, metres per minute, newtons, kilowatts."""

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

_fill(globals(), "metric")
accepts = _limits.accepts("metric", __name__)
iso_limits = _fits.iso_limits("metric", __name__)
joint_findings = _fits.joint_findings("metric", __name__)
lower_spindle_step = _geared_head.lower_spindle_step("metric", __name__)
capability = _capability.face("metric", __name__)
tool_drift = _process.face("metric", __name__)
globals().update(_clamping.faces("metric", __name__))
globals().update(_chatter.faces("metric", __name__))
globals().update(_cutting.faces("metric", __name__))
globals().update(_best_cut.faces("metric", __name__))
globals().update(_form.faces("metric", __name__))
globals().update(_path.faces("metric", __name__))
globals().update(_stack.faces("metric", __name__))
globals().update(_stock.faces("metric", __name__))
materials, material = _materials.in_units("metric", __name__)

__all__ = sorted(name for name in globals() if not name.startswith("_"))
