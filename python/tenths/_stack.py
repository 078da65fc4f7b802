"""Tolerance stacks and functions whose inputs vary: named results, tables, and what a notebook shows."""

import html
import inspect
import itertools
from collections.abc import Mapping

import numpy

from . import _numbers, _plots, _tenths, _text

__all__ = [
    "by_name",
    "evaluate",
    "faces",
    "histogram",
    "propagation_dict",
    "propagation_html",
    "sample_html",
    "split_blocks",
    "stack_from_dict",
    "stack_html",
    "vector_loop_from_dict",
    "vector_loop_html",
]

BLOCK = 16_384  # samples in a block


def by_name(function, inputs):
    """The function of columns in the order of the inputs, each of which goes to the parameter of its name.

    Where the inputs are not named after parameters, they go by position, and none to the parameter of another's name.
    """
    try:
        # What numpy.vectorize makes has the parameters of its function.
        parameters = inspect.signature(getattr(function, "pyfunc", function)).parameters.values()
    except (TypeError, ValueError):
        return function
    inputs, kinds = list(inputs), inspect.Parameter
    named = [one.name for one in parameters if one.kind in (kinds.POSITIONAL_OR_KEYWORD, kinds.KEYWORD_ONLY)]
    needed = {one.name for one in parameters if one.default is one.empty and one.kind not in (kinds.VAR_POSITIONAL, kinds.VAR_KEYWORD)}
    if needed <= set(inputs) <= set(named):
        return lambda *columns: function(**dict(zip(inputs, columns)))
    for name, one in itertools.zip_longest(inputs, parameters):
        if name in named and (one is None or name != one.name):
            raise TypeError(
                f"the input {name!r} would not go to the parameter {name!r} by its place. Fix: name every input after a "
                "parameter of the function"
            )
    return function


def evaluate(function, columns, count):
    """The values of a callable for columns of inputs, as bytes of floats."""
    try:
        made = function(*columns)
    except TypeError as error:
        # What functions of `math` raise for an array, in the words of any version of numpy.
        if "converted to Python scalars" not in str(error):
            raise
        raise TypeError("the function gets arrays, where it takes single numbers. Fix: use numpy, e.g. numpy.sin for math.sin") from error
    if numpy.asarray(made).dtype.kind not in "biuf":
        raise TypeError(f"the function must give an array of numbers, not {made!r:.40}")
    values = _numbers.floats(made)
    if values.shape not in ((), (count,)):
        raise ValueError(f"the function gave an array of shape {values.shape} for inputs of shape ({count},)")
    return numpy.broadcast_to(values, (count,)).astype(float, copy=False).tobytes()


def stack_from_dict(data):
    """What `Stack.from_dict` does."""
    try:
        stack = _tenths.Stack(data["units"])
        for row in data["contributors"]:
            law = _tenths.Distribution.from_dict(row["distribution"])
            stack.add(**{**row, "distribution": law})
        for pair in data["correlations"]:
            stack.correlate(pair["a"], pair["b"], pair["coefficient"])
    except KeyError as error:
        raise _tenths.DomainError(f"the stack has no {error}") from None
    return stack


def vector_loop_from_dict(data):
    """What `VectorLoop.from_dict` does."""
    try:
        around = _tenths.VectorLoop(data["units"])
        for name, guess in data["unknowns"].items():
            around.unknown(name, guess)
        for length, angle in data["links"]:
            around.link(length, angle)
    except KeyError as error:
        raise _tenths.DomainError(f"the vector loop has no {error}") from None
    return around


def split_blocks(n, portions):
    """The blocks of a sample of `n` in portions of about the same size: a list of (first, count) for `sample_blocks`.

    There are no more portions than blocks, which have 16 384 samples each.
    """
    if n < 1 or portions < 1:
        raise ValueError(f"{n} samples cannot be split into {portions} portions")
    blocks = -(-n // BLOCK)
    portions = min(portions, blocks)
    ends = [blocks * k // portions for k in range(portions + 1)]
    return [(first, end - first) for first, end in zip(ends, ends[1:])]


def propagation_dict(propagation):
    """What `Propagation.to_dict` does."""
    return {
        "output": propagation.output,
        "unit": propagation.unit,
        "units": propagation.units,
        "inputs": {name: value.to_dict() for name, value in propagation.inputs.items()},
        "correlations": [[*pair, coefficient] for pair, coefficient in propagation.correlations.items()],
        "nominal": propagation.nominal,
        "extremes": propagation.extremes.to_dict(),
        "moments": propagation.moments.to_dict(),
    }


def stack_html(stack):
    """A stack as a notebook shows it."""
    data = stack.to_dict()
    unit = {"inch": "in", "metric": "mm"}[stack.units]
    rows = []
    for row in data["contributors"]:
        sizes = [_tenths.Size(row[name]).to_text(unit) for name in ("nominal", "plus", "minus")]
        rows.append([row["name"], *sizes, f"{row['sensitivity']:g}", str(row["count"]), row["distribution"]["name"]])
    heads = ["dimension", "nominal", "plus", "minus", "sensitivity", "count", "distribution"]
    text = _text.table(heads, rows)
    if rows:
        worst, rss = stack.worst_case(), stack.rss()
        closing = [
            ["worst case", worst.to_text(unit)],
            ["root of the sum of squares", f"{_text.figure(rss.mean)} ± {_text.figure(rss.tolerance)} {unit}"],
        ]
        text += _text.table(["closing dimension", ""], closing)
    return text


def vector_loop_html(around):
    """A vector loop as a notebook shows it."""
    unit = {"inch": "in", "metric": "mm"}[around.units]
    guesses = [[name, f"{guess:g}"] for name, guess in around.unknowns.items()]
    links = _text.table([f"length, {unit}", "angle, °"], around.links)
    return links + _text.table(["unknown", "guess"], guesses)


def sample_html(sample):
    """A sample as a notebook shows it: its figures, and a histogram."""
    rows = [
        ["samples", f"{sample.count:,}"],
        ["mean", f"{_text.figure(sample.mean)} ± {_text.figure(sample.mean_error)}"],
        ["sigma", f"{_text.figure(sample.sigma)} ± {_text.figure(sample.sigma_error)}"],
        ["minimum, maximum", f"{_text.figure(sample.minimum)}, {_text.figure(sample.maximum)}"],
        ["skewness, kurtosis", f"{_text.figure(sample.skewness)}, {_text.figure(sample.kurtosis)}"],
    ]
    if sample.undefined:
        rows.append(["undefined", f"{sample.undefined:,}"])
    if sample.undefined or numpy.isfinite(sample.limits).any():
        out = sample.fraction_out
        ends = f"{out.lower:.3g} to {out.upper:.3g} with 95 % confidence"
        rows += [["limits", f"{sample.limits[0]:g} to {sample.limits[1]:g}"], ["out", f"{out.value:.6g} ({ends})"]]
    return _text.table(["sample", ""], rows) + _bars(sample)


def histogram(values, edges):
    """Counts between rising edges, as numpy counts them, of the values of a sample that kept them."""
    if values is None:
        raise ValueError("of more than 2^24 samples the values are not kept: give a number of bins")
    counts, edges = numpy.histogram(values, edges)
    return counts.astype("i8"), edges.astype(float)


def _bars(sample):
    """A histogram as a picture, with the limits where they lie within it."""
    counts, edges = sample.histogram(60)
    width, height, most, foot = 480, 120, counts.max(), 18
    if not edges[-1] > edges[0]:
        return ""
    step = width / len(counts)
    bars = "".join(
        f'<rect x="{k * step:.1f}" y="{height * (1 - count / most):.1f}" width="{step:.1f}" '
        f'height="{height * count / most:.1f}" fill="{_plots.FILL}"/>'
        for k, count in enumerate(counts)
    )
    for limit in sample.limits:
        if edges[0] < limit < edges[-1]:
            x = width * (limit - edges[0]) / (edges[-1] - edges[0])
            bars += f'<line x1="{x:.1f}" x2="{x:.1f}" y1="0" y2="{height}" stroke="{_plots.LIMIT}"/>'
    for end, anchor in ((0, "start"), (0.5, "middle"), (1, "end")):
        value = edges[0] + end * (edges[-1] - edges[0])
        bars += (
            f'<text x="{end * width:.1f}" y="{height + 13}" text-anchor="{anchor}" font-size="11" '
            f'fill="{_plots.INK}">{_text.figure(value)}</text>'
        )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height + foot}" role="img" '
        f'aria-label="histogram from {edges[0]:.6g} to {edges[-1]:.6g}">{bars}</svg>'
    )


def propagation_html(propagation):
    """A propagation as a notebook shows it."""
    text = f"<p>{html.escape(repr(propagation)[1:-1])}</p>"
    try:
        moments, extremes = propagation.moments, propagation.extremes
    except _tenths.DomainError as error:
        return f"{text}<p>{html.escape(str(error))}</p>"
    rows = []
    for name, given in propagation.inputs.items():
        ends = [_text.figure(number) for number in (given.nominal, given.lower, given.upper)]
        row = [name, *ends, given.distribution.name]
        if name in moments.derivatives:
            row += [_text.figure(moments.derivatives[name]), f"{moments.contributions[name]:.1f}"]
        else:
            row += ["", ""]
        rows.append(row)
    heads = ["input", "nominal", "lower", "upper", "distribution", "derivative", "of the variance, %"]
    unit = f" {propagation.unit}" if propagation.unit else ""
    searched = "" if all(extremes.monotonic.values()) else ", searched for"
    results = [
        ["nominal", f"{_text.figure(propagation.nominal)}{unit}"],
        [f"extremes{searched}", f"{_text.figure(extremes.lower)} to {_text.figure(extremes.upper)}{unit}"],
        ["mean", f"{_text.figure(moments.mean)}{unit}"],
        ["sigma", f"{_text.figure(moments.sigma)}{unit}"],
    ]
    return text + _text.table(heads, rows) + _text.table(["result", ""], results)


def _as_dict(given):
    """Any mapping as the dict that the extension module takes; anything else as it is, for its message."""
    return dict(given) if isinstance(given, Mapping) else given


def faces(units, module):
    """The functions of this module for the namespace of a unit system."""
    unit = {"inch": "inches", "metric": "millimetres"}[units]

    def Stack():
        return _tenths.Stack(units)

    def VectorLoop():
        return _tenths.VectorLoop(units)

    def varying(nominal, plus=None, minus=None, distribution=None):
        return _tenths._varying(units, nominal, plus, minus, distribution)

    def propagate(function, inputs, *, output=None, correlations=None):
        return _tenths._propagate(units, function, _as_dict(inputs), output, _as_dict(correlations))

    Stack.__doc__ = f"""A tolerance stack whose bare numbers are {unit}, to which `add` adds dimensions."""
    VectorLoop.__doc__ = f"""Vectors that close, whose bare lengths are {unit}, with two unknowns by all the other numbers.

    Angles are in degrees from the direction of the first axis toward the second.
    """
    varying.__doc__ = f"""A number that varies, for `propagate`: a nominal value, signed deviations and a distribution.

    Bare numbers are in {unit}, or in whatever unit the function takes that input in. Without deviations `nominal` is
    Limits, such as the `hole` of a Fit, text such as '25 H7' or '60 ±0.1 deg', or a Fit, which gives its clearance. The
    distribution is normal by default, with a standard deviation of a third of the half band; that of a Fit is what
    its two members make.
    """
    propagate.__doc__ = f"""A function whose inputs vary: its nominal value, extremes, moments and samples.

    The function takes an array for each input and gives an array as long, NaN where it has no value. Each input goes to the
    parameter of its name where every input is named after one, else all by position in the order of the dict `inputs`. It is called with whole blocks of 16 384 rows when sampled, on the calling thread.
    A formula of this namespace may stand for it, with `output` for one of several results, or a vector loop, with the
    unknown as its output.

    An input is a number; a tuple (nominal, plus, minus) with signed deviations, or with a distribution as well; limits in
    any form with a distribution, such as ('25 H7', 'uniform') or (fit.hole, Distribution.normal(cp=1.33)); text such as '25 ±0.1 mm', '25 H7' or '60 ±0.1 deg'; Limits; a Size; a Fit, which gives its clearance, or under the name
    interference that; or what `varying` makes. Lengths become {unit}, the rest the metric or inch unit of their quantity.
    `correlations` is a dict such as {{("a", "b"): 0.5}} of normal inputs.
    """
    made = {"Stack": Stack, "VectorLoop": VectorLoop, "varying": varying, "propagate": propagate}
    for name, function in made.items():
        function.__module__, function.__qualname__ = module, name
    return made
