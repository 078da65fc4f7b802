"""Makes docs/performance.md of the lines that the benches print, or compares them with it.

    python benches/report.py LINES [--check]
"""

import datetime
import os
import pathlib
import platform
import re
import subprocess
import sys
from importlib.metadata import version

PAGE = pathlib.Path(__file__).parents[1] / "docs" / "performance.md"
LIBRARIES = ("numpy", "scipy", "numba", "pandas", "dask", "orjson")
OURS = "tenths"
# What limits the figures, by hand: it was measured beside them.
PACE = pathlib.Path(__file__).with_name("pace.md")
# A ratio that is less than this share of the recorded one has fallen.
FALLEN = 0.8

PREFACE = """# Performance

`benches/run` measures the rows below and writes this page; `benches/run --check` measures again and names the rows whose
ratio has fallen by more than a fifth. All figures of a row come from one run on one machine, in turn. Each is the least of
several repeats, in processor time where one thread works and by the clock otherwise. A ratio of 2 means that the other way
takes twice as long as tenths, and one below 1 that tenths takes longer. Ratios carry over to other machines better than times do.
"""


def read(lines):
    """The works of each heading, each with the nanoseconds of its ways, and the notes of each heading."""
    works, notes, heading = {}, {}, ""
    for line in lines:
        if line.startswith("# "):
            heading = line[2:]
        elif line.startswith("> "):
            notes.setdefault(heading, []).append(line[2:])
        elif line.count("\t") == 2:  # solvers print sentences of their own
            work, way, nanoseconds = line.split("\t")
            works.setdefault(heading, {}).setdefault(work, {})[way] = float(nanoseconds)
    return works, notes


def rows(works):
    """Work, time of tenths, other way, its time, and their ratio; a work without another way has no ratio."""
    for work, ways in works.items():
        ours, others = ways[OURS], {way: taken for way, taken in ways.items() if way != OURS}
        for way, taken in others.items():
            yield work, told(ours), way, told(taken), digits(taken / ours)
        if not others:
            yield work, told(ours), "", "", ""


def told(nanoseconds):
    """A time in its usual unit: 13.1 ms."""
    for unit, of in ("s", 1e9), ("ms", 1e6), ("µs", 1e3), ("ns", 1):
        if nanoseconds >= of or of == 1:
            return f"{digits(nanoseconds / of)} {unit}"


def digits(number):
    """Three digits, or all of a whole number."""
    return f"{number:.0f}" if number >= 100 else f"{number:.3g}"


def page(works, notes):
    parts = [PREFACE, "\n".join(f"- {about}" for about in machine()) + "\n"]
    for heading, of in works.items():
        table = ["| work | tenths | beside it | takes | ratio |", "| --- | --- | --- | --- | --- |"]
        table += [f"| {' | '.join(row)} |" for row in rows(of)]
        parts += [f"## {heading}\n" + "\n".join(table) + "\n", *(note + "\n" for note in notes.get(heading, []))]
    parts.append(PACE.read_text(encoding="utf-8"))
    return "\n".join(parts)


def machine():
    """What the page was measured on, and with."""
    yield f"Measured on {datetime.date.today()}"
    yield f"{processor()}, {os.cpu_count()} processors; {registers()}"
    rust = subprocess.run(["rustc", "--version"], capture_output=True, text=True, check=True).stdout.split()[1]
    libraries = ", ".join(f"{name} {version(name)}" for name in LIBRARIES)
    yield f"{platform.system()}, Rust {rust}, Python {platform.python_version()}, {libraries}"


def about_processor():
    """The lines of the first processor, of Linux."""
    try:
        text = pathlib.Path("/proc/cpuinfo").read_text(encoding="utf-8").partition("\n\n")[0]
    except OSError:
        return {}
    return {name.strip(): value.strip() for name, _, value in (line.partition(":") for line in text.splitlines())}


def processor():
    return about_processor().get("model name") or platform.processor() or platform.machine()


def registers():
    """Which of its copies of a loop the library chooses, by the rule of core/src/simd.rs."""
    if platform.machine().lower() not in ("x86_64", "amd64"):
        return "the vector registers that every such processor has"
    flags = about_processor().get("flags", "").split()
    if {"avx512f", "avx512dq", "avx512vl"} <= set(flags):
        return "AVX-512 registers are used"
    return "AVX2 registers are used" if {"avx2", "fma"} <= set(flags) else "SSE2 registers are used"


def recorded(text):
    """The ratios of the page, by work and other way."""
    cells = (re.split(r" \| ", line.strip("| ")) for line in text.splitlines() if line.startswith("| "))
    return {(row[0], row[2]): float(row[4]) for row in cells if len(row) == 5 and re.fullmatch(r"[\d.]+", row[4])}


def fallen(works, known):
    """A sentence for each ratio that fell."""
    for of in works.values():
        for work, _, way, _, ratio in rows(of):
            before = known.get((work, way))
            if before and float(ratio) < FALLEN * before:
                yield f"{work}, beside {way}: the ratio was {before:g} and is {float(ratio):g}"


def main(lines, check):
    works, notes = read(pathlib.Path(lines).read_text(encoding="utf-8").splitlines())
    if not check:
        PAGE.write_text(page(works, notes), encoding="utf-8")
        return
    sentences = list(fallen(works, recorded(PAGE.read_text(encoding="utf-8"))))
    print("\n".join(sentences) or f"No ratio fell by more than a fifth against {PAGE.name}.")


if __name__ == "__main__":
    main(sys.argv[1], "--check" in sys.argv)
