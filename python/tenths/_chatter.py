"""Chatter: how deep a cut stays stable, from modes or a measured response."""


from . import _numbers, _tenths


def _number(wanted, value):
    number = wanted.number(value)
    if number is None:
        raise TypeError(f"{wanted.formula}: '{wanted.argument}' must be one number, not {type(value).__name__}")
    return number


def _column(wanted, name, values):
    numbers = _numbers.floats(_numbers.column(wanted, values))
    if numbers.ndim != 1:
        raise TypeError(f"{wanted.formula}: '{name}' must be a list of numbers")
    return numbers.tolist()


def _mode(units, wanted, mode):
    if isinstance(mode, _tenths.VibrationMode):
        return mode
    if isinstance(mode, (str, bytes)) or not hasattr(mode, "__len__") or len(mode) not in (3, 4):
        raise TypeError(
            f"stability: a mode must be (natural frequency, stiffness, damping ratio) or these and a direction, not {mode!r}"
        )
    names = ("natural_frequency", "stiffness", "damping_ratio", "direction")
    numbers = [None if value is None else _number(wanted[name], value) for name, value in zip(names, mode)]
    return _tenths._vibration_mode(units, *numbers)


def _modes(units, wanted, modes):
    if isinstance(modes, _tenths.VibrationMode):
        return [modes]
    if isinstance(modes, (str, bytes)) or not hasattr(modes, "__iter__"):
        raise TypeError(f"stability: modes must be a list of modes, not {type(modes).__name__}")
    modes = list(modes)
    if len(modes) in (3, 4) and not any(hasattr(one, "__len__") and not isinstance(one, str) for one in modes):
        if not any(isinstance(one, _tenths.VibrationMode) for one in modes):
            modes = [modes]  # One mode alone.
    return [_mode(units, wanted, mode) for mode in modes]


def _teeth(teeth, asks="stability"):
    count = _tenths._whole(f"{asks}: teeth", teeth)
    if not 1 <= count <= 10_000:
        raise ValueError(f"{asks}: teeth must be from 1 to 10000, not {count}")
    return count


def _cut(units, wanted, specific_cutting_force, teeth, engagement):
    """What `_stability` takes for a cut."""
    given = {name: None if value is None else _number(wanted[name], value) for name, value in engagement.items() if name != "milling"}
    milling, ratio, force_angle = engagement["milling"], given.pop("radial_force_ratio"), given.pop("force_angle")
    side = (given["radial_width"], given["cutter_diameter"])
    angles = (given["entry_angle"], given["exit_angle"])
    for pair, names in ((side, "radial_width and cutter_diameter"), (angles, "entry_angle and exit_angle")):
        if (pair[0] is None) != (pair[1] is None):
            raise TypeError(f"stability: {names} go together: give both")
    if side[0] is not None and angles[0] is not None:
        raise TypeError("stability: give radial_width and cutter_diameter, or entry_angle and exit_angle, not all four")
    if side[0] is not None:
        if milling is None:
            if side[0] != side[1]:
                raise TypeError("stability: a side cut needs milling='up' or milling='down'")
            milling = "up"
        angles = _tenths._side_cut_angles(units, side[1], side[0], milling)
    elif milling is not None:
        raise TypeError("stability: milling goes with radial_width and cutter_diameter: give both")
    force = _number(wanted["specific_cutting_force"], specific_cutting_force)
    teeth = _teeth(teeth)
    if angles[0] is None:
        if ratio is not None:
            raise TypeError("stability: radial_force_ratio goes with milling: give an engagement, or force_angle in turning")
        return force, teeth, None, 0.0 if force_angle is None else force_angle
    if force_angle is not None:
        raise TypeError("stability: force_angle goes with turning and boring: give radial_force_ratio in milling")
    return force, teeth, (*angles, 0.3 if ratio is None else ratio), 0.0


def faces(units, module):
    """The functions of this module for the namespace of a unit system."""
    wanted = _tenths._chatter_wanted(units)

    def stability(
        modes,
        specific_cutting_force,
        teeth=1,
        *,
        radial_width=None,
        cutter_diameter=None,
        milling=None,
        entry_angle=None,
        exit_angle=None,
        radial_force_ratio=None,
        force_angle=None,
    ):
        """How deep a cut stays stable, by spindle speed.

        ``modes`` is a list of ``(natural frequency in Hz, stiffness, damping ratio)``, each with a direction in degrees behind it
        where it has one, or of `tool_mode`. Without an engagement it is turning or boring: the depth is the width of the chip,
        directions are angles from the chip's thickness, and ``force_angle`` is that of the force (0, the worst case, unless given).
        A milling cut has ``radial_width``, ``cutter_diameter`` and ``milling`` 'up' or 'down', or ``entry_angle`` and
        ``exit_angle`` from the normal of the feed: the depth is axial, directions are angles from the feed, and a mode without one
        is that of a round tool, alike in all directions. ``radial_force_ratio`` is radial over tangential force (0.3 unless given).

        Tlusty's and Tobias's law for one edge, the zeroth-order solution of Altintas and Budak for milling. Starting points:
        approach a limit from below, with a margin; in a narrow cut at high speed the true limit may be half. A wrong grip, tool
        or guard is not judged here.
        """
        engagement = {
            "radial_width": radial_width,
            "cutter_diameter": cutter_diameter,
            "milling": milling,
            "entry_angle": entry_angle,
            "exit_angle": exit_angle,
            "radial_force_ratio": radial_force_ratio,
            "force_angle": force_angle,
        }
        cut = _cut(units, wanted, specific_cutting_force, teeth, engagement)
        return _tenths._stability(units, _modes(units, wanted, modes), cut)

    def stability_from_response(
        frequency,
        real,
        imaginary,
        real_across=None,
        imaginary_across=None,
        *,
        specific_cutting_force,
        teeth=1,
        radial_width=None,
        cutter_diameter=None,
        milling=None,
        entry_angle=None,
        exit_angle=None,
        radial_force_ratio=None,
        force_angle=None,
    ):
        """How deep a cut stays stable, by spindle speed, from a measured response in columns.

        ``frequency`` rises, in Hz; ``real`` and ``imaginary`` are parts of deflection over force at the edge, along the feed in
        milling and along the chip's thickness in turning. ``real_across`` and ``imaginary_across`` are those across the feed;
        without them milling takes both directions alike, as of a round tool. Chatter outside the measured frequencies is not seen:
        measure from well below the lowest mode to twice the highest. Otherwise as `stability`.
        """
        engagement = {
            "radial_width": radial_width,
            "cutter_diameter": cutter_diameter,
            "milling": milling,
            "entry_angle": entry_angle,
            "exit_angle": exit_angle,
            "radial_force_ratio": radial_force_ratio,
            "force_angle": force_angle,
        }
        cut = _cut(units, wanted, specific_cutting_force, teeth, engagement)
        if (real_across is None) != (imaginary_across is None):
            raise TypeError("stability_from_response: real_across and imaginary_across go together: give both")
        columns = {"real": real, "imaginary": imaginary, "real_across": real_across, "imaginary_across": imaginary_across}
        columns = [_column(wanted["compliance"], name, column) for name, column in columns.items() if column is not None]
        frequency = _column(wanted["frequency"], "frequency", frequency)
        return _tenths._stability_from_response(units, frequency, columns, cut)

    def tool_mode(diameter, overhang, *, modulus, density, damping_ratio=0.02, bore=0, direction=None):
        """An estimate of a tool's first mode from its geometry, for `stability`, marked as estimated.

        A round beam built in at its holder, as `cantilever_mode` computes it; 0.02 is a common damping ratio of a held tool. Holder
        and spindle give way too, often as much as the tool: measure it where it matters.
        """
        given = {"diameter": diameter, "overhang": overhang, "modulus": modulus, "density": density, "bore": bore}
        numbers = [_number(wanted[name], value) for name, value in given.items()]
        numbers.append(_number(wanted["tool_damping_ratio"], damping_ratio))
        angle = None if direction is None else _number(wanted["direction"], direction)
        return _tenths._tool_mode(units, tuple(numbers), angle)

    made = {"stability": stability, "stability_from_response": stability_from_response, "tool_mode": tool_mode}
    for name, function in made.items():
        function.__module__, function.__qualname__ = module, name
    return made
