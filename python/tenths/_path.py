"""Feeds along a toolpath."""

import dataclasses
import html
from typing import Any

import numpy

from . import _tenths, _text
from ._chatter import _number, _teeth
from ._numbers import column, floats

__all__ = ["PathFeeds", "faces"]

_NEEDED = ("cutter_diameter", "spindle_speed", "chip_thickness", "kc11", "mc", "efficiency")
_UNITS = {"inch": ("in/min", "in"), "metric": ("mm/min", "mm")}


@dataclasses.dataclass(frozen=True, eq=False)
class PathFeeds:
    """The feeds of a path: an array for each figure of its segments, and what they come to.

    `feed_rate` is that of the cutter's centre, the highest that it reaches in the segment, and `bound` names what bounds it.
    `chip_thickness` is the largest at that feed, 0 in the air. `time` and `total_time` are in minutes. `rubbing` counts segments
    whose chip is thinner than the least.
    """

    feed_rate: Any
    bound: Any
    chip_thickness: Any
    time: Any
    total_time: float
    rubbing: int
    units: str

    @property
    def bounds(self) -> dict[str, int]:
        """How many segments each limit bounds."""
        names, counts = numpy.unique(self.bound, return_counts=True)
        return {str(name): int(count) for name, count in zip(names, counts, strict=True)}

    def to_frame(self) -> Any:
        """A DataFrame of pandas' with a row for each segment."""
        import pandas

        names = ("feed_rate", "bound", "chip_thickness", "time")
        frame = pandas.DataFrame({name: getattr(self, name) for name in names})
        feed, length = _UNITS[self.units]
        frame.attrs["units"] = {"feed_rate": feed, "chip_thickness": length, "time": "min"}
        return frame

    def to_dict(self) -> dict[str, Any]:
        """Everything as plain data."""
        names = ("feed_rate", "bound", "chip_thickness", "time")
        columns = {name: getattr(self, name).tolist() for name in names}
        return {**columns, "total_time": self.total_time, "rubbing": self.rubbing, "units": self.units}

    def __len__(self):
        return len(self.feed_rate)

    def __str__(self):
        bounds = ", ".join(f"{name.replace('_', ' ')} {count}" for name, count in self.bounds.items())
        text = f"{len(self)} segments in {_text.figure(self.total_time)} min; bound by: {bounds or 'nothing'}"
        return f"{text}; {self.rubbing} rub" if self.rubbing else text

    def __repr__(self):
        return f"<PathFeeds: {self}>"

    def _repr_html_(self):
        return f"<p>{html.escape(str(self))}</p>"


def _columns(wanted, given):
    """Arrays of floats of one length; a single number holds for every segment."""
    arrays = {}
    for name, values in given.items():
        number = wanted[name].number(values)
        array = numpy.asarray(number if number is not None else floats(column(wanted[name], values)), dtype=float)
        if array.ndim > 1:
            raise TypeError(f"path_feeds: '{name}' must be a number or a list of numbers")
        arrays[name] = array
    lengths = {name: len(array) for name, array in arrays.items() if array.ndim}
    if len(set(lengths.values())) > 1:
        told = ", ".join(f"{name} {count}" for name, count in lengths.items())
        raise ValueError(f"path_feeds: columns must have one value for each segment, not of different lengths: {told}")
    count = next(iter(lengths.values()), 1)
    return [numpy.ascontiguousarray(numpy.broadcast_to(array, (count,))) for array in arrays.values()]


def faces(units, module):
    """The functions of this module for the namespace of a unit system."""
    wanted = _tenths._path_wanted(units)
    names = numpy.array(_tenths._feed_bounds())

    def path_feeds(
        length,
        radial_width,
        axial_depth,
        curvature=0,
        *,
        cutter_diameter,
        teeth,
        spindle_speed,
        chip_thickness,
        kc11,
        mc,
        entering_angle=90,
        least_chip_thickness=None,
        greatest_force=None,
        stiffness=None,
        greatest_deflection=None,
        greatest_power=None,
        greatest_feed_rate=None,
        acceleration=None,
        start_feed_rate=0,
        end_feed_rate=0,
        machine=None,
        efficiency=0.8,
    ):
        """The feed of each segment of a milling path within every limit, what bounds it, and the time.

        ``length`` and ``curvature`` are those of the path of the cutter's centre: positive inside an arc, where the cutter is
        further in the work, negative outside, 0 on a straight line. ``radial_width`` and ``axial_depth`` are those of the cut, 0 in
        the air. Each is a list, or a number for all segments. ``chip_thickness`` is the largest wanted; a limit that is left out does
        not bind. ``greatest_force`` is that on the cutter, of one tooth in its thickest chip for as many teeth as are in the cut at
        once; it bends the cutter by force over ``stiffness``. ``greatest_power`` is at the cutter. With an ``acceleration`` the
        feeds meet from one segment to the next, from ``start_feed_rate`` to ``end_feed_rate``.

        A ``machine`` adds the limits of a Machine: power and torque by its curve at the spindle speed, feed rates, acceleration.
        ``efficiency`` is the share of its motor's power that reaches the cutter.

        The path is taken as smooth: corners are not judged. Forces are known within about a fifth. Starting points: a wrong grip,
        tool or guard is not judged here.
        """
        segments = {"length": length, "curvature": curvature, "radial_width": radial_width, "axial_depth": axial_depth}
        columns = _columns(wanted, segments)
        given = {
            "cutter_diameter": cutter_diameter,
            "spindle_speed": spindle_speed,
            "chip_thickness": chip_thickness,
            "kc11": kc11,
            "mc": mc,
            "entering_angle": entering_angle,
            "least_chip_thickness": least_chip_thickness,
            "greatest_force": greatest_force,
            "stiffness": stiffness,
            "greatest_deflection": greatest_deflection,
            "greatest_power": greatest_power,
            "greatest_feed_rate": greatest_feed_rate,
            "acceleration": acceleration,
            "start_feed_rate": start_feed_rate,
            "end_feed_rate": end_feed_rate,
            "efficiency": efficiency,
        }
        numbers = {name: _number(wanted[name], value) for name, value in given.items() if value is not None}
        if machine is not None and not isinstance(machine, _tenths.Machine):
            raise TypeError(f"path_feeds: machine must be a Machine, not {type(machine).__name__}")
        for name in _NEEDED:
            if name not in numbers:
                raise TypeError(f"path_feeds: '{name}' must be one number, not None")
        feeds, chips, times, bounds, total, rubbing = _tenths._path_feeds(units, columns, _teeth(teeth, "path_feeds"), numbers, machine)
        return PathFeeds(feeds, names[bounds.astype(int)], chips, times, total, rubbing, units)

    path_feeds.__module__, path_feeds.__qualname__ = module, "path_feeds"
    return {"path_feeds": path_feeds}
