"""Cutting plans beside column generation with a general-purpose solver, HiGHS in scipy, in one run.

The peer does what a programmer would write: prices by a linear programme, patterns by an integer knapsack, and at the
end an integer programme over the patterns found, for ten seconds at most. It proves nothing beyond the bound of the linear programme.
"""

from pathlib import Path

from timing import QUICK, compare, heading, wall

import numpy
import tenths
from scipy.optimize import Bounds, LinearConstraint, linprog, milp

PUBLISHED = Path(__file__).parents[1] / "tests" / "published" / "cutting_plans.csv"


def of_one_length():
    """The published plans with many lengths and bars of one length: name, pieces, bar, kerf, trim, bars needed."""
    for line in PUBLISHED.read_text(encoding="utf-8").splitlines():
        fields = line.split(";")
        if line.startswith("#") or "@" in fields[4]:
            continue
        pieces = [piece.split(" x ") for piece in fields[3].split(", ")]
        if len(pieces) >= 12:
            number = [float(text.split()[0]) for text in (fields[4], fields[1], fields[2])]
            yield fields[0], [(float(length.split()[0]), int(count)) for length, count in pieces], *number, int(fields[6])


def peer(pieces, bar, kerf, trim):
    weights = numpy.array([length + kerf for length, _ in pieces])
    wanted = numpy.array([count for _, count in pieces])
    room = bar - trim + kerf
    columns = [numpy.eye(len(pieces))[k] * (room // weights[k]) for k in range(len(pieces))]
    while True:
        table = numpy.array(columns).T
        solved = linprog(numpy.ones(len(columns)), A_ub=-table, b_ub=-wanted, method="highs")
        prices = -solved.ineqlin.marginals
        knapsack = milp(
            -prices,
            constraints=LinearConstraint(weights[None, :], ub=room),
            integrality=numpy.ones(len(pieces)),
            bounds=Bounds(0, wanted),
        )
        if -knapsack.fun <= 1 + 1e-9:
            break
        columns.append(numpy.round(knapsack.x))
    ones = numpy.ones(len(columns))
    limit = {"time_limit": 10}
    return round(milp(ones, constraints=LinearConstraint(table, lb=wanted), integrality=ones, options=limit).fun)


def main():
    for name, pieces, bar, kerf, trim, bars in of_one_length():
        plan = tenths.cutting_plan(pieces, [bar], kerf, trim, units="mm")
        assert plan.proven and plan.bars == bars, name
        work = f"cutting plan `{name}`: {len(pieces)} lengths on {bars} bars"
        compare(work, {"tenths": lambda: tenths.cutting_plan(pieces, [bar], kerf, trim, units="mm")}, repeats=20, clock=wall)
        found = []
        if not QUICK:
            beside = "column generation with HiGHS"
            compare(work, {beside: lambda: found.append(peer(pieces, bar, kerf, trim))}, repeats=1, clock=wall)
            assert min(found) >= bars, name


if __name__ == "__main__":
    heading("Plans of work")
    main()
