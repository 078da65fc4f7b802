"""Pictures with matplotlib, where it is installed: a sober look in the colours of the library's other pictures."""

import numpy

INK, FILL, PALE, EDGE, LIMIT = "#33403c", "#8fa68a", "#dfe8dd", "#2f5d50", "#a4593c"
HOLE, SHAFT = "#b9c9b4", "#d8b49a"
_SUBGROUP = {"xbar_r": "range", "xbar_s": "standard deviation", "i_mr": "moving range"}


def _new_axes(count):
    try:
        from matplotlib import pyplot
    except ImportError:
        raise ImportError("a plot needs matplotlib: install it, or use the picture that a notebook shows") from None
    _, axes = pyplot.subplots(count, 1, sharex=True, squeeze=False, layout="constrained")
    return list(axes[:, 0])


def _axes(ax, title):
    ax = _new_axes(1)[0] if ax is None else ax
    ax.set_title(title, color=INK)
    for side in ("top", "right"):
        ax.spines[side].set_visible(False)
    return ax


def _line(ax, value, name, colour=LIMIT, style="--"):
    if value is not None and numpy.isfinite(value):
        ax.axvline(value, color=colour, linestyle=style, label=f"{name} {value:.6g}")


def _unit(units):
    return {"inch": "in", "metric": "mm"}.get(units, units)


def sample(self, ax=None, *, bins=60):
    """A histogram of the sample with its mean and limits, on axes of matplotlib's."""
    ax = _axes(ax, f"{self.count:,} samples")
    counts, edges = self.histogram(bins)
    ax.stairs(counts, edges, fill=True, color=FILL)
    _line(ax, self.mean, "mean", EDGE, "-")
    for name, limit in zip(("lower limit", "upper limit"), self.limits):
        _line(ax, limit, name)
    ax.set_xlabel("value")
    ax.set_ylabel("count")
    ax.legend(frameon=False)
    return ax


def propagation(self, ax=None):
    """What each input contributes to the variance, the largest first, on axes of matplotlib's."""
    shares = sorted(self.moments.contributions.items(), key=lambda item: item[1])
    ax = _axes(ax, f"variance of {self.output or 'the result'}")
    bars = ax.barh([name for name, _ in shares], [share for _, share in shares], color=FILL)
    ax.bar_label(bars, fmt="%.1f %%", padding=3, color=INK)
    ax.set_xlabel("share of the variance, %")
    ax.set_xlim(right=1.15 * max(share for _, share in shares))
    return ax


def fit(self, ax=None, unit="mm"):
    """The tolerance zones of hole and shaft beside each other, on axes of matplotlib's; `unit` as in ``Size.to_float``."""
    ax = _axes(ax, str(self))
    scale, name = (1000.0, "µm") if unit == "mm" else (1.0, unit)
    nominal = self.nominal.to_float(unit)
    for place, (member, limits, colour) in enumerate((("hole", self.hole, HOLE), ("shaft", self.shaft, SHAFT))):
        low, high = (scale * (end.to_float(unit) - nominal) for end in (limits.lower, limits.upper))
        ax.bar(place, high - low, bottom=low, width=0.6, color=colour, edgecolor=INK, label=member)
        for end, side in ((high, "bottom"), (low, "top")):
            ax.annotate(f"{end:+.4g}" if end else "0", (place, end), ha="center", va=side, color=INK)
    ax.axhline(0.0, color=INK, linewidth=0.8)
    ax.set_xticks([0, 1], ["hole", "shaft"])
    ax.set_ylabel(f"deviation from {nominal:g} {unit}, {name}")
    ax.use_sticky_edges = False
    ax.margins(y=0.15)
    return ax


def capability(self, ax=None):
    """The normal law of the process against its limits, on axes of matplotlib's."""
    ax = _axes(ax, f"{self.name}: capability" if self.name else "capability")
    widest = max(self.sigma_within or 0.0, self.sigma_overall)
    x = numpy.linspace(self.mean - 4 * widest, self.mean + 4 * widest, 401)
    for name, sigma, colour, style in (
        ("overall", self.sigma_overall, EDGE, "-"),
        ("within", self.sigma_within, FILL, "--"),
    ):
        if sigma:
            density = numpy.exp(-0.5 * ((x - self.mean) / sigma) ** 2) / (sigma * numpy.sqrt(2 * numpy.pi))
            ax.plot(x, density, color=colour, linestyle=style, label=f"{name}, sigma {sigma:.4g}")
    for name in ("lower_limit", "upper_limit", "target"):
        _line(ax, _number(getattr(self, name), self.units), name.replace("_", " "))
    ax.set_xlabel(f"reading, {_unit(self.units)}" if self.units else "reading")
    ax.set_yticks([])
    ax.legend(frameon=False)
    return ax


def _number(value, units):
    return value.to_float(units) if hasattr(value, "to_float") else value


def control_chart(self, ax=None):
    """The points of a control chart with their limits, those that break a rule marked, on one or two axes of matplotlib's."""
    charts = [(self.location, "")] + ([(self.dispersion, _SUBGROUP.get(self.kind, "spread"))] if self.dispersion else [])
    axes = _new_axes(len(charts)) if ax is None else list(numpy.atleast_1d(ax))
    if len(axes) != len(charts):
        raise ValueError(f"this chart needs {len(charts)} axes, not {len(axes)}")
    for one, (series, name) in zip(axes, charts):
        _series(_axes(one, name or self.kind), series)
    axes[-1].set_xlabel("subgroup")
    return axes if len(axes) > 1 else axes[0]


def _series(ax, series):
    points = list(series.points)
    numbers = [point.number for point in points]
    values = numpy.array([point.value for point in points], dtype=float)
    for name, style in (("centre", "-"), ("lower", "--"), ("upper", "--")):
        ends = numpy.array([getattr(point, name) for point in points], dtype=float)
        colour = EDGE if name == "centre" else LIMIT
        ax.step(numbers, ends, where="mid", color=colour, linestyle=style, linewidth=1.0)
    ax.plot(numbers, values, color=INK, marker="o", markersize=4)
    broken = numpy.array([bool(point.broken) for point in points])
    if broken.any():
        ax.plot(numpy.array(numbers)[broken], values[broken], "s", color=LIMIT, markersize=8, fillstyle="none")
        for point in points:
            if point.broken:
                rules = ", ".join(str(rule.rule if hasattr(rule, "rule") else rule) for rule in point.broken)
                ax.annotate(rules, (point.number, point.value), textcoords="offset points", xytext=(0, 8), color=LIMIT)


def gauge_study(self, ax=None):
    """The shares of a gauge study's variation, and of the tolerance if it has one, on axes of matplotlib's."""
    names = ["gauge", "repeatability", "reproducibility", "part"]
    parts = [getattr(self, name) for name in names]
    ax = _axes(ax, f"gauge study, {self.distinct_categories} distinct categories")
    bars = [("of the study variation", [part.percent_of_study for part in parts], FILL)]
    if self.percent_of_tolerance is not None:
        bars.append(("of the tolerance", [part.percent_of_tolerance for part in parts], SHAFT))
    width = 0.8 / len(bars)
    for place, (name, shares, colour) in enumerate(bars):
        across = numpy.arange(len(names)) + (place - (len(bars) - 1) / 2) * width
        ax.bar(across, [numpy.nan if share is None else share for share in shares], width, color=colour, label=name)
    ax.set_xticks(range(len(names)), names)
    ax.set_ylabel("share, %")
    ax.legend(frameon=False)
    return ax


# What draws an object of each of these classes, as its method `plot`.
PICTURES = {
    "Capability": capability,
    "ControlChart": control_chart,
    "Fit": fit,
    "GaugeStudy": gauge_study,
    "Propagation": propagation,
    "Sample": sample,
}


def attach(classes):
    """Gives each of these classes its method."""
    for name, draw in PICTURES.items():
        draw.__name__ = "plot"
        draw.__qualname__ = f"{name}.plot"
        setattr(classes[name], "plot", draw)
