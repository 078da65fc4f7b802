"""The best cut within limits, the best passes, and many at once."""

import dataclasses
from collections.abc import Mapping
from typing import Any

import numpy

from . import _formula, _tenths

__all__ = ["CutTable", "faces"]

# What a call takes beside the arguments of its formula.
_OPTIONS = (
    "choose",
    "unknowns",
    "limits",
    "minimise",
    "maximise",
    "rates",
    "tool_life",
    "machine",
    "stability",
    "laws",
    "path_length",
    "volume",
    "steps",
)
_RATES = {"hourly_rate": None, "edge_cost": 0.0, "tool_change_time": 0.0, "handling_time": 0.0}
_LIFE = ("taylor_c", "taylor_n", "feed_exponent", "depth_exponent", "reference_feed", "reference_depth")
_TIMES = {"time": "time", "tool_life": "tool_life"}


@dataclasses.dataclass(frozen=True)
class CutTable:
    """Many best cuts: `cuts` in the order of the rows, None where there is none; `reasons` says why, None where there is.

    `most` tells whether the objective was kept high; it is None where rows have different objectives.
    """

    cuts: list[Any]
    reasons: list[str | None]
    index: Any = dataclasses.field(default=None, repr=False, compare=False)
    most: bool | None = dataclasses.field(default=False, repr=False, compare=False)

    def __len__(self):
        return len(self.cuts)

    def __iter__(self):
        return iter(self.cuts)

    def __getitem__(self, row):
        return self.cuts[row]

    @property
    def best_row(self) -> int | None:
        """The place of the best row, by the objective; None where no row has a cut, and the first of equals."""
        if self.most is None:
            raise ValueError("best_row: the rows have different objectives, which cannot be compared")
        rows = [row for row, cut in enumerate(self.cuts) if cut]
        return min(rows, key=lambda row: self.cuts[row].objective * (-1 if self.most else 1), default=None)

    def to_dicts(self) -> list[dict[str, Any]]:
        """A dict for each row: what was chosen, the objective, what binds, and why there is no cut."""
        return [
            {
                **(cut.chosen if cut else {}),
                "objective": cut.objective if cut else None,
                "binding": ", ".join(cut.binding) if cut else None,
                "reason": reason,
            }
            for cut, reason in zip(self.cuts, self.reasons, strict=True)
        ]

    def to_frame(self):
        """A DataFrame of pandas', with the index of the rows."""
        import pandas

        return pandas.DataFrame(self.to_dicts(), index=self.index)

    def _repr_html_(self):
        return self.to_frame().to_html()


def _finite(wanted, value):
    number = wanted.number(value)
    if number is None:
        raise TypeError(f"{wanted.formula}: '{wanted.argument}' must be one number, not {type(value).__name__}")
    return number


def _pairs(what, given, say):
    """The items of a dict, or of None."""
    if given is None:
        return []
    if not isinstance(given, Mapping):
        raise TypeError(f"best_cut: {what} must be a dict {say}, not {type(given).__name__}")
    return list(given.items())


def _ends(what, name, value):
    if isinstance(value, (str, bytes)) or not hasattr(value, "__len__") or len(value) != 2:
        values = ", or a list of values to choose from" if what == "choose" else ""
        raise TypeError(f"best_cut: {what}[{name!r}] must be two numbers (least, greatest){values}, not {value!r}")
    return tuple(value)


def _is_list(value):
    """Whether a choice is among values: a tuple is a range, any other row of values a list."""
    return hasattr(value, "__iter__") and not isinstance(value, (tuple, str, bytes, Mapping))


class _Reader:
    """Reads a problem of a formula in the units of a namespace into plain numbers."""

    def __init__(self, formula, wanted):
        self.formula, self.wanted = formula, wanted
        self.defaults = _formula.defaults(formula)

    def figure(self, name, value):
        """A number of an argument, a result, a time, or a law, which is plain."""
        if name in self.formula.outputs:
            asked = _tenths._wanted_result(self.formula, name)
        elif name in self.defaults:
            asked = self.formula._wanted(name)
        elif name in _TIMES:
            asked = self.wanted[_TIMES[name]]
        else:
            return _plain(name, value)
        return _finite(asked, value)

    def by_name(self, name, value):
        return _finite(self.wanted[name], value)

    def optional(self, name, value):
        return None if value is None else self.by_name(name, value)

    def row(self, chosen, given):
        """The arguments in order; those that are chosen are NaN."""
        row = []
        for name in given:
            if name not in self.defaults:
                raise TypeError(f"best_cut: {self.formula.__name__} has no argument '{name}'")
        for name, default in self.defaults.items():
            if name in chosen:
                if name in given:
                    raise TypeError(f"best_cut: '{name}' is chosen and given; leave one out")
                row.append(numpy.nan)
                continue
            value = given.get(name, default)
            if value is None:
                raise TypeError(f"best_cut: missing required argument '{name}' of {self.formula.__name__}: give it, or let it be chosen")
            row.append(_finite(self.formula._wanted(name), value))
        return row

    def rates(self, rates):
        if rates is None:
            return None
        given = dict(_pairs("rates", rates, "of hourly_rate, edge_cost, tool_change_time and handling_time"))
        _known("rates", given, _RATES)
        if "hourly_rate" not in given:
            given["hourly_rate"] = 0.0
        return tuple(self.by_name(name, given.get(name, default)) for name, default in _RATES.items())

    def life(self, life):
        if life is None:
            return None
        if isinstance(life, _tenths.TaylorFit):
            life = _life_of(life, self.formula.system)
        given = dict(_pairs("tool_life", life, "of taylor_c and taylor_n, or a TaylorFit"))
        _known("tool_life", given, _LIFE)
        for name in ("taylor_c", "taylor_n"):
            if name not in given:
                raise TypeError(f"best_cut: tool_life needs {name}")
        one = 1.0 if self.formula.system == "metric" else 1.0 / 25.4
        usual = {"feed_exponent": 0.0, "depth_exponent": 0.0, "reference_feed": one, "reference_depth": one}
        read = []
        for name in _LIFE:
            value = given.get(name, usual.get(name))
            read.append(self.by_name(name, value) if name in self.wanted else _plain(name, value))
        return tuple(read)

    def steps(self, steps):
        read = []
        for name, values in _pairs("steps", steps, "of lists by name"):
            if isinstance(values, (str, bytes)) or not hasattr(values, "__iter__"):
                raise TypeError(f"best_cut: steps[{name!r}] must be a list of values, not {values!r}")
            read.append(self.listed(name, values))
        return read

    def listed(self, name, values):
        return name, [self.figure(name, value) for value in values]

    def between(self, what, choices):
        return [(name, *(self.figure(name, end) for end in _ends(what, name, value))) for name, value in choices]

    def limits(self, limits):
        read = []
        for name, value in _pairs("limits", limits, "of (least, greatest) by name"):
            least, greatest = (None if end is None else self.figure(name, end) for end in _ends("limits", name, value))
            read.append((name, least, greatest))
        return read

    def problem(
        self,
        given,
        *,
        choose,
        limits=None,
        minimise=None,
        maximise=None,
        rates=None,
        tool_life=None,
        machine=None,
        stability=None,
        laws=None,
        path_length=None,
        volume=None,
        steps=None,
        unknowns=None,
    ):
        chosen = _pairs("choose", choose, "of (least, greatest), or of lists of values, by name")
        for name, _ in chosen:
            if name not in self.defaults:
                names = ", ".join(self.defaults)
                raise TypeError(f"best_cut: {self.formula.__name__} has no argument '{name}' to choose; its arguments are {names}")
        ranges = [(name, value) for name, value in chosen if not _is_list(value)]
        if machine is not None and not isinstance(machine, _tenths.Machine):
            raise TypeError(f"best_cut: machine must be a Machine, not {type(machine).__name__}")
        if stability is not None and not isinstance(stability, _tenths.Stability):
            raise TypeError(f"best_cut: stability must be a Stability, as {self.formula.system}.stability gives it, not {type(stability).__name__}")
        return {
            "row": self.row(dict(chosen), given),
            "choose": self.between("choose", ranges),
            "choose_from": [self.listed(name, value) for name, value in chosen if _is_list(value)],
            "unknowns": self.between("unknowns", _pairs("unknowns", unknowns, "of (least, greatest) by name")),
            "limits": self.limits(limits),
            "laws": [_law(name, law) for name, law in _pairs("laws", laws, "of (factor, exponents) by name")],
            "objective": _objective(minimise, maximise),
            "rates": self.rates(rates),
            "tool_life": self.life(tool_life),
            "machine": machine,
            "stability": stability,
            "path_length": self.optional("path_length", path_length),
            "volume": self.optional("volume", volume),
            "steps": self.steps(steps),
        }


def _plain(name, value):
    if isinstance(value, (bool, str, bytes, numpy.bool_)) or not hasattr(value, "__float__"):
        raise TypeError(f"best_cut: '{name}' must be a plain number, not {value!r}")
    return float(value)


def _known(what, given, names):
    for name in given:
        if name not in names:
            raise TypeError(f"best_cut: {what} has no '{name}'; it takes {', '.join(names)}")


def _law(name, law):
    if not (isinstance(law, tuple) and len(law) == 2 and isinstance(law[1], Mapping)):
        raise TypeError(f"best_cut: laws[{name!r}] must be (factor, {{name: exponent}}), not {law!r}")
    factor, exponents = law
    return name, _plain(name, factor), [(other, _plain(other, by)) for other, by in exponents.items()]


def _objective(minimise, maximise):
    """The word of an objective and the names that go with it."""
    if (minimise is None) == (maximise is None):
        raise TypeError("best_cut: give minimise or maximise, one of them")
    if callable(minimise) or callable(maximise):
        return "own", []
    if maximise is not None:
        if not isinstance(maximise, str):
            raise TypeError(f"best_cut: maximise must be the name of a figure or a function, not {maximise!r}")
        return "most", [(maximise, 1.0)]
    if isinstance(minimise, Mapping):
        return "sum", [(name, _plain(name, weight)) for name, weight in minimise.items()]
    if not isinstance(minimise, str):
        raise TypeError(f"best_cut: minimise must be a name, a dict of weights or a function, not {minimise!r}")
    return (minimise, []) if minimise in ("cost", "time", "edge_use") else ("least", [(minimise, 1.0)])


def _life_of(fit, system):
    """Constants of a fit in the units of a namespace; its references are 1 mm."""
    made, inch = fit.to_dict(), system == "inch"
    if fit.units != system:
        raise ValueError(f"best_cut: tool_life was fitted in {fit.units} units; fit it with tenths.{system}.fit_taylor")
    reference = 1.0 / 25.4 if inch else 1.0
    return {
        "taylor_c": made["taylor_c"],
        "taylor_n": made["taylor_n"],
        "feed_exponent": made["feed_exponent"] or 0.0,
        "depth_exponent": made["depth_exponent"] or 0.0,
        "reference_feed": reference,
        "reference_depth": reference,
    }


def _rows_of(rows):
    """Rows as dicts, and their index where they are a DataFrame's."""
    if hasattr(rows, "to_dict") and hasattr(rows, "columns"):
        return rows.to_dict("records"), rows.index
    rows = list(rows)
    for row in rows:
        if not isinstance(row, Mapping):
            raise TypeError(f"best_cuts: a row must be a dict of arguments and options, not {type(row).__name__}")
    return rows, None


def _threads(threads):
    count = _tenths._whole("threads", threads)
    if count < 1:
        raise ValueError(f"threads must be a whole number of at least 1, not {threads!r}")
    return count


def _split(given):
    """Options and arguments of a cut, from one dict."""
    return {name: given[name] for name in given if name in _OPTIONS}, {
        name: given[name] for name in given if name not in _OPTIONS
    }


def faces(units, module):
    """The functions of this module for the namespace of a unit system."""
    wanted = _tenths._wanted_by_name(units)

    def reader(formula):
        if not isinstance(formula, _tenths.Formula):
            raise TypeError(f"best_cut: the formula must be one of tenths.{units}, not {type(formula).__name__}")
        if formula.system != units:
            raise ValueError(f"best_cut: {formula.__name__} is of tenths.{formula.system}; take that of tenths.{units}")
        return _Reader(formula, wanted)

    def best_cut(formula, /, choose, limits=None, *, minimise=None, maximise=None, **given):
        """The best cut within limits, proven to be the best.

        `choose` gives the (least, greatest) between which arguments may be chosen, or a list of values, all of which are
        tried: {"surface_speed": (50, 300), "nose_radius": [0.4, 0.8]}; of a count, such as the teeth, all between its ends
        are tried. `limits` are the (least, greatest) of results, arguments, 'tool_life', 'edge_use' and `laws`, None for
        no end; other arguments of the formula are given by name. `minimise` is 'cost', 'time', 'edge_use', the name of a figure, a dict of weights, or a function of a dict
        of all figures; `maximise` is the name of a figure or a function. `rates` holds hourly_rate, edge_cost,
        tool_change_time and handling_time; `tool_life` taylor_c and taylor_n, and feed_exponent and depth_exponent with
        their references where life depends on them, or a TaylorFit. `machine` adds the limits of a Machine, by its
        curve, and `stability` the limit 'stable_depth': the depth that a Stability has at the spindle speed.
        `path_length` or `volume` gives a milling cut its time. `laws` are figures of your own that are powers of
        others: {"deflection": (2e-5, {"cutting_force": 1})}; `unknowns` are quantities of your own that may be chosen too, between two
        ends above zero, for laws and limits. `steps` lists what can be set: {"spindle_speed": [...]}.

        The result has `.cut`, `.chosen`, `.objective`, `.binding`, the limits at which it stands, `.prices`, what one
        unit more of each is worth, `.lower_bound`, below which no cut comes, `.flat_from` and `.flat_to`, between which
        the objective is within a hundredth, and `.set`, the best that can be set. By a function there is no lower bound.

        A starting point for a trial: the data of the makers of tool, machine and workholding come first, and forces are
        known within about a fifth. A wrong grip, tool or guard is not judged here.
        """
        options, arguments = _split({**given, "choose": choose, "limits": limits, "minimise": minimise, "maximise": maximise})
        told = reader(formula).problem(arguments, **options)
        if told["objective"][0] != "own":
            return _tenths._best_cut(formula, told)
        return _tenths._best_cut_by(formula, told, minimise or maximise, 1.0 if maximise is None else -1.0)

    def best_cuts(formula, rows, /, *, threads=1, progress=None, **common):
        """The best cut of each row: metals, tools, diameters.

        `rows` is a list of dicts or a DataFrame, of arguments of the formula and of whatever `best_cut` takes; what is
        common to all rows is given by name. A row that has no best cut has None, and its reason in `reasons`. The
        number of threads changes nothing in the results.
        """
        read, (rows, index) = reader(formula), _rows_of(rows)
        told = []
        for row in rows:
            options, arguments = _split({**common, **row})
            told.append(read.problem(arguments, **options))
            if told[-1]["objective"][0] == "own":
                raise TypeError("best_cuts: a function as the objective goes with best_cut, one row at a time")
        solved = _tenths._best_cuts(formula, told, _threads(threads), progress)
        objectives = [one["objective"] for one in told]
        alike = all(objective == objectives[0] for objective in objectives)
        most = bool(objectives) and objectives[0][0] == "most" if alike else None
        return CutTable([cut for cut, _ in solved], [reason for _, reason in solved], index, most)

    def best_cut_spread(formula, /, choose, limits=None, *, tool_life, samples=1000, seed=1, threads=1, progress=None, **given):
        """How far the best cut moves with the uncertainty of a TaylorFit, and what being wrong costs.

        The constants are drawn from a normal law with the covariance of the fit. `chosen_low` and `chosen_high` are the
        values of the chosen arguments that a twentieth of the samples lie beyond; `mean_loss` is what the cut that is
        best by the constants as fitted costs more than the best, on average.
        """
        if not isinstance(tool_life, _tenths.TaylorFit):
            raise TypeError(f"best_cut_spread: tool_life must be a TaylorFit, not {type(tool_life).__name__}")
        options, arguments = _split({**given, "choose": choose, "limits": limits, "tool_life": tool_life})
        told = reader(formula).problem(arguments, **options)
        covariance = [list(map(float, row)) for row in tool_life.covariance]
        return _tenths._best_cut_spread(formula, told, covariance, samples, seed, _threads(threads), progress)

    def best_passes(
        formula,
        /,
        stock,
        *,
        rough,
        finish=None,
        rough_depths,
        finish_depths=None,
        step,
        depth=None,
        pass_time=0.0,
        diameter=None,
        equal=False,
        threads=1,
        progress=None,
        **common,
    ):
        """Roughing and finishing together: how many passes, how deep each, and the best cut of each.

        `stock` is what all passes take off on one side. `rough` and `finish` are dicts of what `best_cut` takes, `choose`
        and `limits` above all; what both share is given by name. `rough_depths` and `finish_depths` are the (least,
        greatest) depths, and `step` the grid of depths on which the passes are exact; `equal` makes the roughing passes
        equally deep. The `diameter` of the work 'falls' in turning, 'rises' in boring and 'stays' in facing and milling:
        by default it falls where the formula has a workpiece_diameter. `pass_time` is that of return and setting of a
        pass, and counts in cost and time.

        A starting point for a trial, like each of its cuts. A wrong grip, tool or guard is not judged here.
        """
        read = reader(formula)
        depth = depth or ("axial_depth" if "axial_depth" in read.defaults else "depth")
        if diameter is None:
            diameter = "falls" if "workpiece_diameter" in read.defaults else "stays"
        told = []
        for cut in (rough, finish):
            if cut is None:
                told.append(None)
                continue
            options, arguments = _split({**common, **dict(_pairs("rough and finish", cut, "of what best_cut takes"))})
            # The search sets the depth of each pass.
            told.append(read.problem({**arguments, depth: stock}, **options))
        length = wanted["depth"]

        def depths(what, value):
            return tuple(_finite(length, end) for end in _ends(what, "depth", value))

        rough_depths = depths("rough_depths", rough_depths)
        passes = {
            "depth": depth,
            "stock": _finite(length, stock),
            "rough_depths": rough_depths,
            "finish_depths": rough_depths if finish_depths is None else depths("finish_depths", finish_depths),
            "step": _finite(length, step),
            "pass_time": _finite(wanted["pass_time"], pass_time),
            "diameter": diameter,
            "equal": bool(equal),
            "threads": _threads(threads),
        }
        return _tenths._best_passes(formula, told[0], told[1], passes, progress)

    made = {"best_cut": best_cut, "best_cuts": best_cuts, "best_cut_spread": best_cut_spread, "best_passes": best_passes}
    for name, function in made.items():
        function.__module__, function.__qualname__ = module, name
    return made
