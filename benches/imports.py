"""What `import tenths` takes beyond numpy, beside numpy itself, each in a fresh interpreter."""

import subprocess
import sys

from timing import heading, line, size

PROGRAM = """
import time
start = time.perf_counter()
import numpy
middle = time.perf_counter()
import tenths
print(middle - start, time.perf_counter() - middle)
"""


def main():
    command = [sys.executable, "-c", PROGRAM]
    runs = [subprocess.run(command, capture_output=True, text=True, check=True).stdout for _ in range(size(15, 1))]
    numpy, ours = map(min, zip(*(map(float, run.split()) for run in runs)))
    line("`import tenths` after numpy", "tenths", 1e9 * ours)
    line("`import tenths` after numpy", "`import numpy`", 1e9 * numpy)


if __name__ == "__main__":
    heading("Calls")
    main()
