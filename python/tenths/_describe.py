"""The formulas and their descriptions: tables to read, to search, and to make forms from."""

import collections.abc
import functools
import html
import importlib
import re
import textwrap

from . import _search, _tenths, _text

__all__ = ["Description", "Formulas", "formulas"]

_WIDTH = 100


class Description:
    """The description of a formula for both systems of units: how to call it, and the callables."""

    __slots__ = ("_about",)

    def __init__(self, name):
        object.__setattr__(self, "_about", _tenths._describe(name))

    def __setattr__(self, name, value):
        raise AttributeError("a description cannot be changed")

    @property
    def name(self):
        """Its name in every namespace and language."""
        return self._about["name"]

    @property
    def topic(self):
        """The heading that it stands under."""
        return self._about["topic"]

    @property
    def summary(self):
        """Its meaning in a sentence."""
        return self._about["summary"]

    @property
    def doc(self):
        """Its full description."""
        return self._about["doc"]

    @property
    def caution(self):
        """A caution if the result concerns safety; otherwise None."""
        return self._about["caution"]

    @property
    def source(self):
        """Where it comes from: standard, edition and clause, or book and page."""
        return self._about["source"]

    @property
    def rules(self):
        """The rules between its arguments."""
        return list(self._about["rules"])

    @property
    def arguments(self):
        """A dict for each argument: name, meaning, what it is solvable from; under ``inch`` and ``metric`` its unit,
        default, domain, stated and usual range."""
        return self.to_dict()["arguments"]

    @property
    def results(self):
        """A dict for each result: name, meaning; under ``inch`` and ``metric`` its unit and stated range."""
        return self.to_dict()["results"]

    @property
    def inch(self):
        """The callable that takes inch units."""
        return getattr(importlib.import_module("tenths.inch"), self.name)

    @property
    def metric(self):
        """The callable that takes metric units."""
        return getattr(importlib.import_module("tenths.metric"), self.name)

    def to_dict(self):
        """All of it as strings, numbers, lists and dicts."""
        return _tenths._describe(self.name)

    def call(self, system):
        """How to call it: the arguments with their units, those with a default by name, and what comes back."""
        given = []
        for argument in self._about["arguments"]:
            side = argument[system]
            default = "" if side["default"] is None else f"={side['default']:g}"
            given.append(f"{argument['name']}{default}{_in(side['unit'])}")
        results = ", ".join(f"{result['name']}{_in(result[system]['unit'])}" for result in self._about["results"])
        return f"tenths.{system}.{self.name}({', '.join(given)}) -> {results}"

    def __eq__(self, other):
        return self.name == other.name if isinstance(other, Description) else NotImplemented

    def __hash__(self):
        return hash(self.name)

    def __reduce__(self):
        return Description, (self.name,)

    def __repr__(self):
        about = self._about
        lines = [f"{self.name}  [{self.topic}]", *_fill(self.summary), ""]
        if self.caution:
            lines += [*_fill(f"Caution: {self.caution}"), ""]
        lines += [line for system in ("inch", "metric") for line in _fill(self.call(system), "    ")]
        lines += ["", "Arguments, in inch and in metric units:"]
        lines += _columns([_told_whole(argument) for argument in about["arguments"]])
        lines += ["Results:"]
        lines += _columns([_told_whole(result) for result in about["results"]])
        for rule in self.rules:
            lines += _fill(f"Rule: {rule}.")
        solvable = [argument["name"] for argument in about["arguments"] if argument["solvable_from"]]
        if solvable:
            lines += _fill(f"Can be solved for {', '.join(solvable)}: see .inch.solve_for and .metric.solve_for.")
        return "\n".join([*lines, *_fill(f"Source: {self.source}.")])

    def _repr_html_(self):
        about, text = self._about, html.escape
        calls = "\n".join(self.call(system) for system in ("inch", "metric"))
        arguments = [[*_told(argument), *_bounds(argument)] for argument in about["arguments"]]
        heads = ["argument", "inch", "metric", "meaning", "must be", "stated range", "usual range", "default"]
        notes = [*(f"Rule: {rule}." for rule in self.rules), f"Source: {self.source}."]
        return (
            f"<h4>{text(self.name)}</h4><p>{text(self.summary)}</p>"
            + (f"<p><strong>Caution:</strong> {text(self.caution)}</p>" if self.caution else "")
            + f"<pre>{text(calls)}</pre>"
            + _text.table(heads, arguments)
            + _text.table(["result", "inch", "metric", "meaning"], [_told_whole(result) for result in about["results"]])
            + "".join(f"<p>{text(note)}</p>" for note in notes)
        )


class Formulas(collections.abc.Mapping):
    """Formulas by name, those of one topic together: each name leads to a `Description`.

    ``tenths.formulas()["surface_speed"]`` describes one, ``tenths.formulas().find("chip")`` searches.
    """

    __slots__ = ("_note", "_rows")

    def __init__(self, rows, note=""):
        self._rows, self._note = {row.name: row for row in rows}, note

    def __getitem__(self, name):
        return self._rows[name]

    def __iter__(self):
        return iter(self._rows)

    def __len__(self):
        return len(self._rows)

    def find(self, text):
        """Those whose name, topic, meaning, arguments, caution or source hold every word of a text, the nearest first.

        Words of a shop are understood: sfm, mrr, keyway, vee block. Of all formulas it finds functions and classes too.
        """
        others = _public_names() if self is formulas() else []
        outside = _search.outside(text)
        if outside:
            return Formulas([], f"; {outside}: not in this library")
        return Formulas(_search.ranked(text, [*self.values(), *others]))

    def to_dicts(self):
        """A flat dict for each formula, as ``pandas.DataFrame`` takes them."""
        return [
            {
                "name": row.name,
                "topic": row.topic,
                "summary": row.summary,
                "arguments": ", ".join(argument["name"] for argument in row._about["arguments"]),
                "results": ", ".join(result["name"] for result in row._about["results"]),
                "inch": row.call("inch"),
                "metric": row.call("metric"),
                "caution": row.caution or "",
                "source": row.source,
            }
            for row in self.values()
        ]

    def _topics(self):
        topics = {}
        for row in self.values():
            topics.setdefault(row.topic, []).append(row)
        return topics

    def __repr__(self):
        lines = []
        for topic, rows in self._topics().items():
            lines.append(topic)
            for row in rows:
                arguments = ", ".join(argument["name"] for argument in row._about["arguments"])
                lines += _fill(f"{row.name}({arguments})", "    ", hang=8) + _fill(row.summary, " " * 8)
        is_all = all(isinstance(row, Description) for row in self.values())
        count = f"{len(self)} {'formula' if is_all else 'name'}{'' if len(self) == 1 else 's'}"
        first = next((row for row in self.values() if isinstance(row, Description)), None)
        hint = "" if first is None else f"; tenths.formulas()[{first.name!r}] tells all about one"
        return "\n".join([*lines, count + hint + self._note])

    def _repr_html_(self):
        rows = [
            [topic, row.name, row.summary, row.call("inch"), row.call("metric"), row.source]
            for topic, rows in self._topics().items()
            for row in rows
        ]
        return _text.table(["topic", "name", "meaning", "inch", "metric", "source"], rows)


@functools.cache
def formulas():
    """All formulas by name: a table to read, to search and to look a formula up in."""
    return Formulas(map(Description, _tenths._names()))


@functools.cache
def _public_names():
    package, namespace = (importlib.import_module(name) for name in ("tenths", "tenths.metric"))
    return list(_search.public_names(package, namespace))


def _in(unit):
    return f" [{unit}]" if unit else ""


def _told(value):
    """Name, units and meaning of an argument or result."""
    units = [value[system]["unit"] or "plain" for system in ("inch", "metric")]
    return [value["name"], *units, value["meaning"]]


def _told_whole(value):
    """Name, units and meaning of an argument or result, with what it must be, its stated and usual ranges and its default."""
    notes = zip(["Must be", "The source covers", "Usual is", "Default"], _bounds(value))
    *head, meaning = _told(value)
    return [*head, " ".join([meaning, *(f"{words} {told}." for words, told in notes if told)])]


def _bounds(value):
    """What it must be, its stated and usual ranges and its default, of which a result has but the stated range; in inch
    or in metric units where they differ."""
    sides = [value["inch"], value["metric"]]
    defaults = ["" if side.get("default") is None else f"{side['default']:g}" for side in sides]
    ranges = [[side.get(key) or "" for side in sides] for key in ("must_be", "stated_range", "usual_range")]
    return [_either(told, [side["unit"] for side in sides]) for told in (*ranges, defaults)]


def _either(told, units):
    """What is told on both sides: once where nothing but the unit differs, as a zero does not."""
    if told[0] != told[1]:
        bare = {re.sub(rf" {re.escape(unit)}(?!\w)", "", text) for text, unit in zip(told, units)}
        told = bare if len(bare) == 1 else told
    return " or ".join(dict.fromkeys(told))


def _fill(text, indent="", hang=None):
    hang = indent + "    " if hang is None else " " * hang
    return textwrap.wrap(text, _WIDTH, initial_indent=indent, subsequent_indent=hang, break_on_hyphens=False)


def _columns(rows):
    """Rows of texts as lines, of which the last column is folded."""
    widths = [max(len(row[k]) for row in rows) + 2 for k in range(3)]
    lines = []
    for row in rows:
        head = "    " + "".join(cell.ljust(width) for cell, width in zip(row, widths))
        lines += _fill(head + row[3], hang=len(head)) or [head.rstrip()]
    return lines
