"""What the benches share: works timed in turn, and the lines that they print.

A line is a piece of work, the way in which it was done, and the nanoseconds that it took, with tabs between them. The way
`tenths` is this library; every other way of the same work stands beside it. Lines that begin with # are headings, those with
> notes.
"""

import os
import sys
import time
import timeit

# Before numpy is imported: one thread, where nothing else is said.
for library in ("OPENBLAS", "MKL", "OMP"):
    os.environ[f"{library}_NUM_THREADS"] = "1"

QUICK = "--quick" in sys.argv
wall, processor = time.perf_counter, time.process_time


def size(full, quick):
    """How much to measure: little with --quick, which only shows that a bench still runs."""
    return quick if QUICK else full


def power(count):
    """A count as lines have it: 1e6."""
    return f"{count:.0e}".replace("e+0", "e")


def heading(text):
    print(f"# {text}", flush=True)


def note(text):
    """A sentence below the table of its heading."""
    print(f"> {text}", flush=True)


def line(work, way, nanoseconds):
    print(f"{work}\t{way}\t{nanoseconds:.6g}", flush=True)


def compare(work, ways, number=1, each=1, repeats=9, clock=processor, scope=None):
    """Prints a line for each way: the least time of repeats in turn, in which each is done `number` times for `each` items.

    A way is a function, or a statement in the names of `scope`.
    """
    timers = {
        way: timeit.Timer(done, "import gc; gc.enable()", timer=clock, globals=scope) for way, done in ways.items()
    }
    least = dict.fromkeys(ways, float("inf"))
    for _ in range(size(repeats, 1)):
        for way, timer in timers.items():
            least[way] = min(least[way], timer.timeit(size(number, 1)))
    for way, seconds in least.items():
        line(work, way, 1e9 * seconds / size(number, 1) / each)
