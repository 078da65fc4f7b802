"""One best turning cut beside scipy's SLSQP from ten starts, in one run.

The peer does what a programmer would write: the cost and the limits as functions of the logarithms of speed and feed, and
the best of ten local searches from random starts. It proves nothing about what lies beyond them.
"""

from timing import compare, heading, power, size, wall

import numpy
from scipy.optimize import minimize
from tenths import metric as shop

CHOOSE = {"surface_speed": (30, 500), "feed_per_revolution": (0.05, 0.6)}
FIXED = {"workpiece_diameter": 80.0, "depth": 3.0, "travel": 250.0, "nose_radius": 1.2, "kc11": 1700.0, "mc": 0.25}
RATES = {"hourly_rate": 60, "edge_cost": 2, "tool_change_time": 1}
LIFE = {"taylor_c": 300, "taylor_n": 0.25, "feed_exponent": 0.35}
POWER, ROUGHNESS = 7.5, 3.2


def peer():
    """The least cost of ten starts."""

    def figures(point):
        speed, feed = numpy.exp(point)
        cut = shop.turning_cut_for_target(surface_speed=speed, feed_per_revolution=feed, **FIXED)
        life = (300 / (speed * feed**0.35)) ** 4
        return cut.time + (1 + 2) * cut.time / life, POWER - cut.motor_power, ROUGHNESS - cut.roughness_ra

    limits = [{"type": "ineq", "fun": lambda point, k=k: figures(point)[k]} for k in (1, 2)]
    bounds = [tuple(numpy.log(CHOOSE[name])) for name in CHOOSE]
    starts = numpy.random.default_rng(1).uniform(*numpy.transpose(bounds), size=(10, 2))
    found = [
        minimize(lambda p: figures(p)[0], start, method="SLSQP", bounds=bounds, constraints=limits, options={"ftol": 1e-10})
        for start in starts
    ]
    return min(one.fun for one in found if one.success)


def best():
    return shop.best_cut(
        shop.turning_cut_for_target,
        CHOOSE,
        {"motor_power": (None, POWER), "roughness_ra": (None, ROUGHNESS)},
        minimise="cost",
        rates=RATES,
        tool_life=LIFE,
        **FIXED,
    )


def main():
    assert best().objective <= peer() * (1 + 1e-6)
    ways = {"tenths": best, "scipy's SLSQP from ten starts": peer}
    compare("best turning cut of least cost", ways, repeats=5)
    diameters, resistances = range(20, size(120, 22)), range(700, 2700, 200)
    rows = [{"workpiece_diameter": float(d), "kc11": float(k)} for d in diameters for k in resistances]
    common = {name: value for name, value in FIXED.items() if name not in rows[0]}
    options = {"choose": CHOOSE, "limits": {"motor_power": (None, POWER)}, "minimise": "cost", "rates": RATES, "tool_life": LIFE}

    def table(threads):
        return lambda: shop.best_cuts(shop.turning_cut_for_target, rows, threads=threads, **options, **common)

    ways = {"tenths": table(2), "tenths on one thread": table(1)}
    compare(f"best cuts, two threads, each of {power(len(rows))}", ways, each=len(rows), repeats=3, clock=wall)


if __name__ == "__main__":
    heading("Plans of work")
    main()
