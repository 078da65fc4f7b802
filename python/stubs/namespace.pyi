from collections.abc import Callable, Mapping, Sequence
from typing import Any, Literal, overload

from numpy.typing import ArrayLike

from . import _formula as _formula
from ._best_cut import CutTable, _Ends, _Least, _Limits, _Most
from ._capability import _CapabilityLimits
from ._cutting import LimitedCut
from ._formula import _AnyFormula, _Numbers, _Scalar
from ._materials import Material, Materials
from ._path import PathFeeds
from ._tenths import Capability, ClampSafety, Decision, Distribution, Finding, Fit, FormFit, HolePosition, Input, Limits
from ._stock import _BarForm, _HardnessScale
from ._tenths import BestCut, BestPasses, CutSpread, HardnessComparison, Propagation
from ._tenths import Machine as _Machine
from ._tenths import Stack as _Stack
from ._tenths import Stability, TaylorFit, ToolDrift, VibrationMode
from ._tenths import VectorLoop as _VectorLoop
from ._tenths import _Length, _Name

<formulas>
@overload
def accepts(
    limits: Limits | str | tuple[_Scalar | None, _Scalar | None], readings: _Scalar, resolution: _Scalar | None = None
) -> bool: ...
@overload
def accepts(
    limits: Limits | str | tuple[_Scalar | None, _Scalar | None], readings: _Numbers, resolution: _Scalar | None = None
) -> Any: ...
@overload
def accepts(
    limits: Sequence[Limits | str | None] | ArrayLike | tuple[_Numbers | None, _Numbers | None],
    readings: _Scalar | _Numbers,
    resolution: _Scalar | None = None,
) -> Any: ...
@overload
def judge(decision: Decision, readings: _Scalar, resolution: _Scalar | None = None) -> str | None: ...
@overload
def judge(decision: Decision, readings: _Numbers, resolution: _Scalar | None = None) -> Any: ...
@overload
def lower_spindle_step(wanted: _Scalar, steps: _Numbers) -> float: ...
@overload
def lower_spindle_step(wanted: _Numbers, steps: _Numbers) -> Any: ...
def materials() -> Materials: ...
def material(name: str, condition: str | None = None) -> Material: ...
@overload
def iso_limits(
    designations: str, *, rounded_js: bool = False, on_error: str | None = None
) -> tuple[float, float]: ...
@overload
def iso_limits(
    designations: ArrayLike, *, rounded_js: bool = False, on_error: str | None = None
) -> tuple[Any, Any]: ...
@overload
def joint_findings(joint: _formula._PressJointResults) -> list[Finding]: ...
@overload
def joint_findings(joint: Any) -> list[Any]: ...
def fit_form(feature: str, points: Any, criterion: str = "least squares") -> FormFit: ...
def hole_position(
    points: Any,
    nominal: Any,
    tolerance: _Scalar,
    *,
    datums: Any = None,
    member: str = "hole",
    condition: str | None = None,
    limits: Limits | str | None = None,
) -> HolePosition: ...
@overload
def capability(
    data: Sequence[float],
    limits: _CapabilityLimits,
    subgroup: Any = None,
    <CapabilityOptions target>
    *,
    <CapabilityOptions sigma, law, confidence>
) -> Capability: ...
@overload
def capability(
    data: Any,
    limits: Any,
    subgroup: Any = None,
    <CapabilityOptions target>
    *,
    <CapabilityOptions sigma, law, confidence>
) -> Any: ...
def clamp_force(kind: str, *args: Any, **arguments: Any) -> Any: ...
def clamp_safety(
    clamp_force: _Scalar,
    cutting_forces: _Scalar | Sequence[_Scalar],
    friction: _Scalar,
    *,
    holding: str = "strap",
    faces: int | None = None,
    force_diameter: _Scalar | None = None,
    grip_diameter: _Scalar | None = None,
    vee_angle: _Scalar | None = None,
    grip_lost: _Scalar | None = None,
    wanted: _Scalar = 2.0,
) -> ClampSafety: ...
def tool_drift(
    data: ArrayLike,
    limits: _CapabilityLimits,
    parts: ArrayLike | None = None,
    *,
    capability: float = 1.0,
    confidence: float = 0.95,
) -> ToolDrift: ...
def stability(
    modes: Any,
    specific_cutting_force: _Scalar,
    teeth: int = 1,
    *,
    radial_width: _Scalar | None = None,
    cutter_diameter: _Scalar | None = None,
    milling: str | None = None,
    entry_angle: _Scalar | None = None,
    exit_angle: _Scalar | None = None,
    radial_force_ratio: _Scalar | None = None,
    force_angle: _Scalar | None = None,
) -> Stability: ...
def stability_from_response(
    frequency: ArrayLike,
    real: ArrayLike,
    imaginary: ArrayLike,
    real_across: ArrayLike | None = None,
    imaginary_across: ArrayLike | None = None,
    *,
    specific_cutting_force: _Scalar,
    teeth: int = 1,
    radial_width: _Scalar | None = None,
    cutter_diameter: _Scalar | None = None,
    milling: str | None = None,
    entry_angle: _Scalar | None = None,
    exit_angle: _Scalar | None = None,
    radial_force_ratio: _Scalar | None = None,
    force_angle: _Scalar | None = None,
) -> Stability: ...
def tool_mode(
    diameter: _Scalar,
    overhang: _Scalar,
    *,
    modulus: _Scalar,
    density: _Scalar,
    damping_ratio: _Scalar = 0.02,
    bore: _Scalar = 0,
    direction: _Scalar | None = None,
) -> VibrationMode: ...
def path_feeds(
    length: Any,
    radial_width: Any,
    axial_depth: Any,
    curvature: Any = 0,
    *,
    cutter_diameter: _Scalar,
    teeth: int,
    spindle_speed: _Scalar,
    chip_thickness: _Scalar,
    kc11: _Scalar,
    mc: _Scalar,
    entering_angle: _Scalar = 90,
    least_chip_thickness: _Scalar | None = None,
    greatest_force: _Scalar | None = None,
    stiffness: _Scalar | None = None,
    greatest_deflection: _Scalar | None = None,
    greatest_power: _Scalar | None = None,
    greatest_feed_rate: _Scalar | None = None,
    acceleration: _Scalar | None = None,
    start_feed_rate: _Scalar = 0,
    end_feed_rate: _Scalar = 0,
    machine: _Machine | None = None,
    efficiency: _Scalar = 0.8,
) -> PathFeeds: ...
def fit_taylor(
    speeds: _Numbers, lives: _Numbers, feeds: _Numbers | None = None, depths: _Numbers | None = None
) -> TaylorFit: ...
def Machine(
    *,
    least_spindle_speed: _Scalar,
    greatest_spindle_speed: _Scalar,
    curve: Any = (),
    least_feed_rate: _Scalar | None = None,
    greatest_feed_rate: _Scalar | None = None,
    greatest_axis_force: _Scalar | None = None,
    greatest_acceleration: _Scalar | None = None,
    name: str | None = None,
) -> _Machine: ...
def limit_to_machine(
    formula: _AnyFormula, machine: _Machine, /, *args: Any, least_feed: _Scalar | None = None, **arguments: Any
) -> LimitedCut: ...
@overload
def bar_mass(
    form: _BarForm,
    size: _Scalar,
    length: _Scalar,
    density: _Scalar,
    *,
    wall: _Scalar | None = None,
    thickness: _Scalar | None = None,
    width: _Scalar | None = None,
) -> float: ...
@overload
def bar_mass(
    form: _BarForm,
    size: _Numbers,
    length: _Numbers,
    density: _Numbers,
    *,
    wall: _Numbers | None = None,
    thickness: _Numbers | None = None,
    width: _Numbers | None = None,
) -> Any: ...
@overload
def bar_mass_per_length(
    form: _BarForm,
    size: _Scalar,
    density: _Scalar,
    *,
    wall: _Scalar | None = None,
    thickness: _Scalar | None = None,
    width: _Scalar | None = None,
) -> float: ...
@overload
def bar_mass_per_length(
    form: _BarForm,
    size: _Numbers,
    density: _Numbers,
    *,
    wall: _Numbers | None = None,
    thickness: _Numbers | None = None,
    width: _Numbers | None = None,
) -> Any: ...
def compare_hardness(hardness: _Scalar, scale: _HardnessScale | None = None) -> HardnessComparison: ...
def best_cut(
    formula: _AnyFormula,
    /,
    choose: _Ends,
    limits: _Limits = None,
    *,
    minimise: _Least = None,
    maximise: _Most = None,
    **given: Any,
) -> BestCut: ...
def best_cuts(
    formula: _AnyFormula, rows: Any, /, *, threads: int = 1, progress: Any = None, **common: Any
) -> CutTable: ...
def best_cut_spread(
    formula: _AnyFormula,
    /,
    choose: _Ends,
    limits: _Limits = None,
    *,
    tool_life: TaylorFit,
    samples: int = 1000,
    seed: int = 1,
    threads: int = 1,
    progress: Any = None,
    **given: Any,
) -> CutSpread: ...
def best_passes(
    formula: _AnyFormula,
    /,
    stock: _Scalar,
    *,
    rough: Mapping[str, Any],
    finish: Mapping[str, Any] | None = None,
    rough_depths: Any,
    finish_depths: Any = None,
    step: _Scalar,
    depth: str | None = None,
    pass_time: _Scalar = 0.0,
    diameter: str | None = None,
    equal: bool = False,
    threads: int = 1,
    progress: Any = None,
    **common: Any,
) -> BestPasses: ...
def Stack() -> _Stack: ...
def VectorLoop() -> _VectorLoop: ...
def varying(
    nominal: _Scalar | Limits | Fit,
    plus: _Scalar | None = None,
    minus: _Scalar | None = None,
    distribution: Distribution | _Name | None = None,
) -> Input: ...
@overload
def propagate(
    function: _AnyFormula | _VectorLoop,
    inputs: Mapping[str, Any],
    *,
    output: str,
    correlations: Mapping[tuple[str, str], float] | None = None,
) -> Propagation: ...
@overload
def propagate(
    function: _AnyFormula,
    inputs: Mapping[str, Any],
    *,
    output: None = None,
    correlations: Mapping[tuple[str, str], float] | None = None,
) -> Any: ...
@overload
def propagate(
    function: Callable[..., Any],
    inputs: Mapping[str, Any],
    *,
    output: None = None,
    correlations: Mapping[tuple[str, str], float] | None = None,
) -> Propagation: ...
