"""Fits of tool life, and cuts fitted to a machine."""

import dataclasses
import html
import json
from typing import Any

import numpy

from . import _formula, _numbers, _tenths, _text
from ._results import Results
from ._rows import Rows
from ._tenths import MachineLimit

__all__ = ["LimitedCut", "faces"]


@dataclasses.dataclass(frozen=True)
class LimitedCut:
    """A cut fitted to a machine, as close to the wanted cut as the machine allows.

    `arguments` are the arguments to call the formula with, and `cut` is its result for them. `bounds` lists the limits of
    the machine that bound the cut; it is empty if nothing was changed. `exceeded` lists the limits that the cut still
    exceeds at the least feed, and `unchecked` names limits that the formula has no result for. `formula` is the formula
    that was limited; the numbers are in its units.
    """

    arguments: dict[str, float]
    cut: Any
    bounds: Rows[MachineLimit]
    exceeded: Rows[MachineLimit]
    unchecked: list[str]
    formula: Any = dataclasses.field(repr=False)

    @property
    def fits(self) -> bool:
        """Whether the machine can make the limited cut."""
        return not self.exceeded

    def _figures(self):
        """Arguments and results as rows of name, number and unit."""
        units = self.formula.units
        results = self.cut if isinstance(self.cut, Results) else (self.cut,)
        parts = [self.arguments.items(), zip(self.formula.outputs, results, strict=True)]
        return [[[name, _text.figure(number), units[name]] for name, number in part] for part in parts]

    def _notes(self):
        """What bound the cut, what is still too much, and what could not be judged."""
        notes = [f"{bound}." for bound in self.bounds] + [f"Still too much: {bound}." for bound in self.exceeded]
        return notes + [
            f"Not checked: the {limit.replace('_', ' ')} of the machine, because {self.formula.__name__} has no result for it."
            for limit in self.unchecked
        ]

    def _title(self):
        fits = "within what the machine gives" if self.fits else "beyond what the machine gives"
        return f"{self.formula.__name__}, {fits}"

    def __str__(self):
        arguments, results = self._figures()
        rows = _text.lines([*arguments, *results])
        lines = [self._title(), "Arguments:", *rows[: len(arguments)], "Results:", *rows[len(arguments) :]]
        return "\n".join(lines + self._notes())

    def _repr_html_(self):
        arguments, results = self._figures()
        return (
            f"<p>{html.escape(self._title())}</p>"
            + _text.table(["argument", "", "unit"], arguments)
            + _text.table(["result", "", "unit"], results)
            + "".join(f"<p>{html.escape(note)}</p>" for note in self._notes())
        )

    def to_dict(self) -> dict[str, Any]:
        """Everything as plain data."""
        return {
            "formula": self.formula.__name__,
            "units": self.formula.system,
            "arguments": dict(self.arguments),
            "cut": self.cut.to_dict() if isinstance(self.cut, Results) else self.cut,
            "bounds": self.bounds.to_dicts(),
            "exceeded": self.exceeded.to_dicts(),
            "unchecked": list(self.unchecked),
            "fits": self.fits,
        }


def _number(wanted, value):
    number = wanted.number(value)
    if number is None:
        raise TypeError(f"{wanted.formula}: '{wanted.argument}' must be one number, not {type(value).__name__}")
    return number


def _optional(wanted, value):
    return None if value is None else _number(wanted, value)


def _column(wanted, values):
    numbers = _numbers.floats(_numbers.column(wanted, values))
    if numbers.ndim != 1:
        raise TypeError(f"{wanted.formula}: '{wanted.argument}' must be a list of numbers")
    return tuple(numbers.tolist())


def faces(units, module):
    """The functions of this module for the namespace of a unit system."""
    wanted = _tenths._wanted_by_name(units)

    def fit_taylor(speeds, lives, feeds=None, depths=None):
        """Taylor's constants from trials by least squares, with their uncertainty.

        Lists or arrays of surface speeds and lives, and of feeds and depths where their exponents are wanted too.
        There must be one more trial than constants, at speeds that differ.
        """
        given = {"speeds": speeds, "lives": lives, "feeds": feeds, "depths": depths}
        columns = tuple(None if value is None else _column(wanted[name], value) for name, value in given.items())
        return _tenths._fit_taylor(units, columns)

    def Machine(
        *,
        least_spindle_speed,
        greatest_spindle_speed,
        curve=(),
        least_feed_rate=None,
        greatest_feed_rate=None,
        greatest_axis_force=None,
        greatest_acceleration=None,
        name=None,
    ):
        """The limits of a machine; a limit that is left out does not bind.

        The curve is a list of points such as {"spindle_speed": 1500, "power": 15, "torque": 95}, each with power of the
        motor, torque at the spindle, or both. It is straight between points; below the first its torque holds, and
        above the last its power.
        """
        numbers = {
            "least_spindle_speed": least_spindle_speed,
            "greatest_spindle_speed": greatest_spindle_speed,
            "least_feed_rate": least_feed_rate,
            "greatest_feed_rate": greatest_feed_rate,
            "greatest_axis_force": greatest_axis_force,
            "greatest_acceleration": greatest_acceleration,
        }
        data = {"units": units, "curve": [_point(wanted, point) for point in curve]}
        data.update((key, _finite(wanted[key], value)) for key, value in numbers.items() if value is not None)
        if name is not None:
            data["name"] = name
        return _tenths.Machine.from_json(json.dumps(data))

    def limit_to_machine(formula, machine, /, *args, least_feed=None, **arguments):
        """Fits a cut to a machine: the closest cut that the machine can make, and what bound it.

        For any formula with a spindle speed, and a chip load or a feed per revolution. A spindle speed above the range
        comes down at the same chip load; then, where feed rate, power, torque or axis force are too much, the feed comes
        down, never below `least_feed`, under which a tool rubs. Depth and width stay.

        Leave a margin: forces are known within about a fifth. The limits of the maker of the machine come first.
        """
        bound = _formula.signature(formula).bind(*args, **arguments)
        bound.apply_defaults()
        row = [_number(formula._wanted(name), value) for name, value in bound.arguments.items()]
        least = _optional(wanted["least_feed"], least_feed)
        row, bounds, exceeded, unchecked = _tenths._limit_to_machine(formula, machine, least, row)
        limited = dict(zip(bound.arguments, row, strict=True))
        return LimitedCut(limited, formula(**limited), bounds, exceeded, unchecked, formula)

    made = {"fit_taylor": fit_taylor, "Machine": Machine, "limit_to_machine": limit_to_machine}
    for name, function in made.items():
        function.__module__, function.__qualname__ = module, name
    return made


def _finite(wanted, value):
    """A number that JSON can hold; the rest is judged where the document is read."""
    number = _number(wanted, value)
    if not numpy.isfinite(number):
        raise _tenths.DomainError(f"machine: {wanted.argument} must be finite, not {number}")
    return number


def _point(wanted, point):
    unknown = set(point) - {"spindle_speed", "power", "torque"}
    if unknown:
        raise TypeError(f"Machine: a point of the curve does not take {', '.join(sorted(map(repr, unknown)))}")
    return {name: _finite(wanted[name], value) for name, value in point.items() if value is not None}
