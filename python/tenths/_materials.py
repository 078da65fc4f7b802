"""Materials: a table to look up a grade, to search, and to extend with your own."""

import collections.abc
import copy
import html
import json
import math

from . import _tenths
from ._text import table

__all__ = ["Material", "Materials"]

_PROPERTIES = {system: _tenths._material_properties(system) for system in ("inch", "metric")}
_TEXTS = {
    "units": "The system of units of its numbers: inch or metric.",
    "designation": "Its grade by its standard.",
    "condition": "Heat treatment or form.",
    "name": "What it is.",
    "iso_group": "Its group after ISO 513; None where that is not known.",
    "vdi_group": "Its group after VDI 3323; None where it has none.",
    "hardness": "Typical hardness with its scale.",
}
_SHOWN = ("density", "modulus", "yield_strength", "kc11", "mc", "unit_power", "speed_hss", "speed_carbide")


class Material:
    """A material in one condition: typical figures for a grade, each group with its source.

    Numbers are in the units of the namespace that it was looked up in, and None where they are not known.
    """

    __slots__ = ("_about",)

    def __init__(self, about):
        object.__setattr__(self, "_about", copy.deepcopy(dict(about)))

    def __setattr__(self, name, value):
        raise AttributeError("a material cannot be changed: add your own with Materials.extended")

    @property
    def aliases(self):
        """Other names of the grade; those of another standard may be its nearest equivalent."""
        return tuple(self._about["aliases"])

    @property
    def notes(self):
        """Notes to read before using the figures."""
        return tuple(self._about["notes"])

    @property
    def cautions(self):
        """How its dust, chips or heat can hurt, and the usual protection.

        None does not mean that it is safe: the safety data sheet of the supplier and local rules come first.
        """
        return tuple(self._about["cautions"])

    @property
    def sources(self):
        """Where each group of figures came from."""
        return dict(self._about["sources"])

    def to_dict(self):
        """All of it as strings, numbers, lists and dicts."""
        return copy.deepcopy(self._about)

    def __str__(self):
        return ", ".join(filter(None, [self.designation, self.condition]))

    def __eq__(self, other):
        return self._about == other._about if isinstance(other, Material) else NotImplemented

    def __hash__(self):
        return hash((self.units, self.designation, self.condition))

    def __reduce__(self):
        return Material, (self._about,)

    def _lines(self):
        """Each number with its unit and its meaning."""
        rows = []
        for name, meaning, unit in _PROPERTIES[self.units]:
            value = self._about[name]
            rows.append([name, "unknown" if value is None else f"{_figure(value)} {unit}".strip(), meaning])
        return rows

    def _heads(self):
        group = f"ISO 513 group {self.iso_group}" if self.iso_group else ""
        also = f"also {', '.join(self.aliases)}" if self.aliases else ""
        return [part for part in (self.name, group, self.hardness, also) if part]

    def _remarks(self):
        """What else to know, the cautions first."""
        return [*(f"Caution: {text}." for text in self.cautions), *(f"Note: {text}." for text in self.notes)]

    def __repr__(self):
        rows = self._lines()
        widths = [max(len(row[k]) for row in rows) + 2 for k in (0, 1)]
        lines = [str(self), "; ".join(self._heads()), ""]
        lines += [f"    {name.ljust(widths[0])}{value.ljust(widths[1])}{told}" for name, value, told in rows]
        lines += ["", "Sources:"]
        lines += [f"    {group}: {source}" for group, source in self.sources.items() if source]
        return "\n".join([*lines, *self._remarks()])

    def _repr_html_(self):
        sources = [[group, source] for group, source in self.sources.items() if source]
        remarks = "".join(f"<p>{html.escape(remark)}</p>" for remark in self._remarks())
        return (
            f"<h4>{html.escape(str(self))}</h4><p>{html.escape('; '.join(self._heads()))}</p>"
            + table(["property", "value", "meaning"], self._lines())
            + table(["figures", "source"], sources)
            + remarks
        )


def _reader(name, doc):
    return property(lambda self: self._about[name], doc=doc)


for _name, _doc in [*_TEXTS.items(), *((name, meaning) for name, meaning, _ in _PROPERTIES["metric"])]:
    setattr(Material, _name, _reader(_name, _doc))


class Materials(collections.abc.Mapping):
    """Materials by designation and condition, each a `Material` with numbers in the units of its namespace.

    ``shop.materials()["C45"]`` looks one up by any of its names, ``.find("stainless")`` searches,
    ``.by_iso_group("P")`` filters, ``.extended(own)`` adds your own.
    """

    __slots__ = ("_core", "_documents", "_rows", "_units")

    def __init__(self, core, units, rows, documents=()):
        self._core, self._units, self._documents = core, units, documents
        self._rows = {str(row): row for row in rows}

    @property
    def units(self):
        """The system of units of every bare number: inch or metric."""
        return self._units

    def __getitem__(self, name):
        if not isinstance(name, str):
            raise KeyError(name)
        full = self._core.find(name)
        if full not in self._rows:
            raise KeyError(f"{full} is not among these {len(self)} materials")
        return self._rows[full]

    def __iter__(self):
        return iter(self._rows)

    def __len__(self):
        return len(self._rows)

    def __eq__(self, other):
        return dict(self) == dict(other) if isinstance(other, Materials) else NotImplemented

    __hash__ = None

    def _some(self, wanted):
        return Materials(self._core, self._units, filter(wanted, self.values()), self._documents)

    def find(self, text):
        """Those whose names, condition, kind, group, notes or cautions hold every word of a text."""
        words = text.casefold().split()
        return self._some(lambda row: all(word in _haystack(row) for word in words))

    def by_iso_group(self, *groups):
        """Those of one group after ISO 513 or of several: P, M, K, N, S, H."""
        letters = {_tenths._iso_group(group) for group in groups}
        return self._some(lambda row: row.iso_group in letters)

    def to_dicts(self):
        """A flat dict for each material, as ``pandas.DataFrame`` takes them."""
        rows = []
        for row in self.values():
            about = row.to_dict()
            sources = about.pop("sources")
            about["aliases"] = ", ".join(about["aliases"])
            about["notes"], about["cautions"] = "; ".join(about["notes"]), "; ".join(about["cautions"])
            rows.append({**about, **{f"source_{group}": source for group, source in sources.items()}})
        return rows

    def extended(self, own):
        """These and your own, from a list of dicts, a table such as a DataFrame of pandas', or a JSON document.

        Bare numbers are in the units of this namespace; text carries its own: ``"1600 N/mm²"``. What is left out,
        None or NaN is unknown. A JSON document is ``{"tenths_materials": 1, "units": "metric", "materials":
        [...]}`` and names its own units. Raises DomainError, which lists every fault with its place.
        """
        if not isinstance(own, str):
            rows = [dict(field for field in map(_plain, row.items()) if field[1] is not None) for row in _records(own)]
            own = json.dumps({"tenths_materials": 1, "units": self._units, "materials": rows})
        core = self._core.extended(own)
        rows = list(map(Material, core.rows(self._units)))
        added = rows[len(self._core.rows(self._units)) :]
        return Materials(core, self._units, [*self.values(), *added], (*self._documents, own))

    def __reduce__(self):
        return _restored, (self._units, list(self), self._documents)

    def __repr__(self):
        units = {name: unit for name, _, unit in _PROPERTIES[self._units]}
        heads = ["", "group", *(f"{name} {units[name]}".strip() for name in _SHOWN)]
        rows = [heads]
        for full, row in self.items():
            numbers = (row._about[name] for name in _SHOWN)
            rows.append([full, row.iso_group or "", *(_figure(n) for n in numbers)])
        widths = [max(len(row[k]) for row in rows) for k in range(len(heads))]
        lines = [
            "  ".join([row[0].ljust(widths[0]), *(cell.rjust(width) for cell, width in zip(row[1:], widths[1:]))])
            for row in rows
        ]
        count = f"{len(self)} material{'' if len(self) == 1 else 's'}, {self._units} units"
        warned = [full for full, row in self.items() if row.cautions]
        end = f"; with cautions to read before cutting: {'; '.join(warned)}" if warned else ""
        return "\n".join([*lines, count + end])

    def _repr_html_(self):
        units = {name: unit for name, _, unit in _PROPERTIES[self._units]}
        heads = ["material", "what it is", "group", *(f"{name} {units[name]}".strip() for name in units), "cautions"]
        rows = []
        for full, row in self.items():
            numbers = (_figure(row._about[name]) for name in units)
            rows.append([full, row.name, row.iso_group or "", *numbers, "; ".join(row.cautions)])
        return table(heads, rows)


def faces(units, module):
    """The functions of a namespace: the whole table, and one material of it."""
    made = []

    def materials():
        if not made:
            core = _tenths._Materials()
            made.append(Materials(core, units, map(Material, core.rows(units))))
        return made[0]

    def material(name, condition=None):
        return materials()[name if condition is None else f"{name}, {condition}"]

    for function in (materials, material):
        function.__module__, function.__qualname__ = module, function.__name__
    materials.__doc__ = f"The table of materials with numbers in {units} units: to read, to search, to extend."
    material.__doc__ = f"""A material of the table with numbers in {units} units, by designation or alias.

    A grade that comes in several conditions needs its condition as well: ``material("SAE 4140", "annealed")``.
    Letter case and spaces do not matter. Raises KeyError, which names what is like it.
    """
    return {"materials": materials, "material": material}


def _restored(units, names, documents):
    """What a pickle leads to: these materials of the table and of one's own."""
    core = _tenths._Materials()
    for document in documents:
        core = core.extended(document)
    rows = {str(row): row for row in map(Material, core.rows(units))}
    return Materials(core, units, map(rows.__getitem__, names), documents)


def _figure(value):
    """Four digits for the eye; large numbers without an exponent."""
    if value is None:
        return ""
    text = f"{value:.4g}"
    return f"{float(text):.0f}" if 1e4 <= value < 1e9 else text


def _haystack(row):
    about = row._about
    words = [str(row), about["name"], *about["aliases"], *about["notes"], *about["cautions"]]
    words += [f"iso {row.iso_group}", about["hardness"]]
    return "\n".join(words).casefold()


def _records(own):
    """The rows of a table or a list as dicts."""
    if hasattr(own, "to_dict") and hasattr(own, "columns"):
        own = own.to_dict("records")
    if isinstance(own, (Material, collections.abc.Mapping)) or not isinstance(own, collections.abc.Iterable):
        raise TypeError("own materials are a list of dicts, a DataFrame, or JSON text")
    rows = list(own)
    for row in rows:
        if not isinstance(row, collections.abc.Mapping):
            raise TypeError(f"a material is a dict, not {type(row).__name__}")
    return rows


def _plain(item):
    """A field as JSON has it: numbers of numpy's as floats, what is missing as None."""
    name, value = item
    if hasattr(value, "item") and not getattr(value, "ndim", 0):
        value = value.item()
    if type(value).__name__ in ("NAType", "NaTType") or isinstance(value, float) and math.isnan(value):
        value = None
    if isinstance(value, float) and math.isinf(value):
        value = "infinite"  # JSON has no word for it; the reader refuses this with its place
    return str(name), list(value) if isinstance(value, tuple) else value
