"""Finding a formula, a function or a class by the words of a shop."""

import inspect
import re

__all__ = ["PublicName", "outside", "public_names", "ranked"]

# What a shop says, and the words of the library for it: any of them will do.
_SHOP_WORDS = {
    "aql": ["sampling plan", "zero acceptance plan"],
    "bar mass": ["bar mass"],
    "bar feed": ["parts per bar", "bars needed"],
    "brinell": ["compare hardness"],
    "rockwell": ["compare hardness"],
    "vickers": ["compare hardness"],
    "ccd": ["bolt circle"],
    "bolt hole circle": ["bolt circle"],
    "center drill": ["centre drill"],
    "cpk": ["capability"],
    "css": ["constant speed", "surface speed"],
    "cut list": ["cutting plan"],
    "cutoff": ["parting"],
    "cycle time": ["cutting time", "turning time", "milling time", "drilling time"],
    "depth of cut": ["axial depth", "depth per pass"],
    "doc": ["axial depth", "depth per pass"],
    "feeds and speeds": ["best cut", "starting values", "milling cut", "turning cut"],
    "form tap": ["forming tap drill"],
    "fpt": ["chip load"],
    "gage": ["gauge"],
    "grr": ["gauge study"],
    "gr&r": ["gauge study"],
    "hacksaw": ["sawing"],
    "horsepower": ["cutting power", "motor power", "spindle power"],
    "hp": ["cutting power", "motor power", "spindle power"],
    "ipm": ["feed rate"],
    "ipr": ["feed per revolution"],
    "ipt": ["chip load"],
    "keyway": ["keyseat"],
    "kw": ["cutting power", "motor power", "spindle power"],
    "lobes": ["stability"],
    "minimum cost": ["speed for least cost", "best cut", "tool life for least cost"],
    "mmc": ["at mmc"],
    "mrr": ["removal rate"],
    "msa": ["gauge study"],
    "nesting": ["cutting plan"],
    "price": ["price", "quote"],
    "roll tap": ["forming tap drill"],
    "rpm": ["spindle speed"],
    "sfm": ["surface speed"],
    "sfpm": ["surface speed"],
    "smm": ["surface speed"],
    "spc": ["control chart"],
    "speeds and feeds": ["best cut", "starting values", "milling cut", "turning cut"],
    "stack up": ["stack"],
    "thread mill": ["arc feed rate"],
    "tir": ["runout"],
    "tolerance stack": ["stack"],
    "true position": ["position"],
    "v block": ["vee"],
    "vee block": ["vee block", "vee"],
    "weight": ["mass"],
    "woc": ["radial width"],
    "work holding": ["clamp", "locating"],
    "workholding": ["clamp", "locating"],
}

# What people look for, and the library does not do.
_OUTSIDE = {
    "additive manufacturing": "additive|3d[- ]print|printing",
    "casting and moulding": "casting|foundry|mould|mold|die cast",
    "electrical discharge, laser and water-jet cutting": r"\bedm\b|wire cut|laser|water ?jet|plasma",
    "gear cutting": r"\bhob|gear cut|gear shap",
    "programs of machine tools": r"g[- ]?code|post[- ]?process|toolpath gener",
    "sheet metal": "sheet metal|bend allowance|press brake|springback|deep draw",
    "welding": r"\bweld|braz|solder",
}


class PublicName:
    """A public function or class in a search: its name, where it is called, and its meaning in a sentence."""

    __slots__ = ("name", "place", "value")

    caution = None
    source = ""
    topic = "functions and classes"

    def __init__(self, name, place, value):
        self.name, self.place, self.value = name, place, value

    @property
    def doc(self):
        """Its whole documentation."""
        return inspect.getdoc(self.value) or ""

    @property
    def summary(self):
        """Its meaning in a sentence."""
        return self.doc.split("\n\n")[0].replace("\n", " ")

    @property
    def _about(self):
        try:
            names = [name for name in inspect.signature(self.value).parameters if name not in ("args", "kwargs")]
        except (TypeError, ValueError):
            names = []
        return {"arguments": [{"name": name, "meaning": ""} for name in names], "results": []}

    def call(self, system):
        """Where it is called."""
        return f"tenths.{system + '.' if self.place == 'namespace' else ''}{self.name}"

    def __repr__(self):
        return f"{self.call('metric')}\n\n{self.doc}"


def public_names(package, namespace):
    """The public functions and classes of the package and of a namespace, but formulas."""
    formula = package.Formula
    for place, module, names in (
        ("package", package, package.__all__),
        ("namespace", namespace, [name for name in dir(namespace) if not name.startswith("_")]),
    ):
        for name in names:
            value = getattr(module, name)
            if callable(value) and not isinstance(value, formula):
                yield PublicName(name, place, value)


def ranked(text, rows):
    """The rows that hold every word of a text, or what the library calls it, those that hold it in their name first."""
    terms = _terms(text)
    scores = [(sum(scores), row) for row in rows if all(scores := [_score(term, row) for term in terms])]
    return [row for _, row in sorted(scores, key=lambda scored: -scored[0])]


def outside(text):
    """What is sought that the library does not do, in words; None for anything else."""
    return next((what for what, words in _OUTSIDE.items() if re.search(words, text.casefold())), None)


def _terms(text):
    """The words of a text, those that a shop says together as one; each as the alternatives of which a row needs one."""
    text = " ".join(re.sub(r"[-_]", " ", text.casefold()).split())
    terms = []
    for phrase in sorted(_SHOP_WORDS, key=len, reverse=True):
        found = re.search(rf"(?<!\w){re.escape(phrase)}s?(?!\w)", text)
        if found:
            text = f"{text[: found.start()]} {text[found.end() :]}"
            terms.append([phrase, *_SHOP_WORDS[phrase]])
    return terms + [[word] for word in text.split()]


def _score(alternatives, row):
    """How well a row answers a term: words of its name count most, then those of its summary; 0 if it holds none."""
    name, summary, whole = row.name.replace("_", " ").casefold(), row.summary.casefold(), haystack(row)
    best = 0
    for alternative in alternatives:
        words = alternative.split()
        for weight, text in ((8, name), (4, summary), (2, whole)):
            if all(re.search(rf"(?<!\w){re.escape(word)}(?:s|es)?(?!\w)", text) for word in words):
                best = max(best, weight + (4 if alternative in text else 0) + (4 if alternative == name else 0))
        if all(word in whole for word in words):
            best = max(best, 1)
    return best


def haystack(row):
    """All words of a row."""
    words = [row.name, row.topic, row.doc, row.caution or "", row.source, row.name.replace("_", " ")]
    for value in (*row._about["arguments"], *row._about["results"]):
        words += [value["name"], value["name"].replace("_", " "), value["meaning"]]
    return "\n".join(words).casefold()
