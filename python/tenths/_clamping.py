"""Clamps: their force by kind, and their safety against slip and lift."""

from . import _formula, _tenths
from ._results import Results

CAUTION = """Caution: work that comes loose is thrown. Friction and clamping force vary widely: measure the force, keep a margin, and
    follow the data of the makers of machine and workholding."""


def _three(forces):
    """One force along the face that holds the work, or up to three."""
    if isinstance(forces, Results):
        raise TypeError(
            "'cutting_forces' takes forces in their order, not the results of a formula. "
            "Fix: give e.g. (cut.cutting_force, forces.feed_force, forces.passive_force)"
        )
    if isinstance(forces, str) or not hasattr(forces, "__iter__") or getattr(forces, "ndim", None) == 0:
        forces = (forces,)
    forces = tuple(forces)
    if not 1 <= len(forces) <= 3:
        raise TypeError(f"'cutting_forces' must be one force or up to three, not {len(forces)}")
    return forces + (0.0,) * (3 - len(forces))


def faces(units, module):
    """The functions of this module for the namespace of a unit system."""

    def clamp_force(kind, *args, **arguments):
        return _formula.find(units, _tenths._clamp_formula(kind))(*args, **arguments)

    def clamp_safety(
        clamp_force,
        cutting_forces,
        friction,
        *,
        holding="strap",
        faces=None,
        force_diameter=None,
        grip_diameter=None,
        vee_angle=None,
        grip_lost=None,
        wanted=2.0,
    ):
        more = {
            "force_diameter": force_diameter,
            "grip_diameter": grip_diameter,
            "vee_angle": vee_angle,
            "grip_lost": grip_lost,
            "wanted": wanted,
        }
        return _tenths._clamp_safety(units, holding, clamp_force, _three(cutting_forces), friction, faces, more)

    clamp_force.__doc__ = f"""Force of a clamp by its kind: 'screw', 'strap', 'cam', 'toggle', 'wedge', 'cylinder' or 'collet'.

    The other arguments are those of the formula of that kind, and so are the results: ``screw_preload``,
    ``strap_clamp_force``, ``cam_clamp_force``, ``toggle_clamp_force``, ``wedge_clamp_force``, ``cylinder_clamp_force`` and
    ``collet_clamp_force``.

    {CAUTION}
    """
    clamp_safety.__doc__ = f"""How many times the forces of the cut clamps hold, against slip and against lift.

    ``holding`` is 'strap', 'vice', 'chuck', 'collet' or 'v_block', ``clamp_force`` the force of all clamps together; of a chuck
    the grip of all jaws at rest. ``cutting_forces`` is one force along the face that holds the work, or up to three: of straps
    and a vice two along that face and one away from it; in a chuck, a collet and a V-block the one about the axis at
    ``force_diameter``, the one along the axis, and the one across it: of turning the main, the feed and the passive force.
    Without diameters the first is that at the grip. ``faces`` share the friction of straps (1) or a vice (2), ``vee_angle`` is
    that of a V-block (90°), ``grip_lost`` what speed takes from a chuck, as ``jaw_centrifugal_force`` gives it. ``wanted`` is the
    safety that ``enough`` is judged by.

    {CAUTION}
    """
    made = {"clamp_force": clamp_force, "clamp_safety": clamp_safety}
    for name, function in made.items():
        function.__module__, function.__qualname__ = module, name
    return made
