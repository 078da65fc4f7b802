"""`milling_cut` over a table of a million rows, beside numpy in two ways, in one run on one thread.

Straightforward numpy is the expression as one would write it; numpy in blocks keeps its columns in the cache and
writes through `out=`. All three give the same twelve columns, which is checked before the clock runs. Medians of
interleaved repeats.

Run with the wheel installed: python benches/milling_table.py
"""

import statistics
import time

import numpy as np

from tenths import metric

ROWS, REPEATS, BLOCK = 1_000_000, 7, 8192
NAMES = metric.milling_cut.outputs


def table(rng):
    diameter = rng.uniform(4, 80, ROWS)
    return {
        "cutter_diameter": diameter,
        "teeth": rng.integers(2, 12, ROWS).astype(float),
        "spindle_speed": rng.uniform(200, 12000, ROWS),
        "chip_load": rng.uniform(0.02, 0.4, ROWS),
        "radial_width": diameter * rng.uniform(0.02, 1, ROWS),
        "axial_depth": rng.uniform(0.1, 20, ROWS),
        "kc11": rng.uniform(600, 2800, ROWS),
        "mc": rng.uniform(0.14, 0.36, ROWS),
        "entering_angle": rng.uniform(30, 90, ROWS),
        "rake_angle": rng.uniform(-6, 12, ROWS),
        "reference_rake": 0.0,
        "change_per_degree": 0.01,
        "wear_factor": rng.uniform(1, 1.5, ROWS),
        "efficiency": rng.uniform(0.7, 0.95, ROWS),
    }


def straightforward(
    cutter_diameter, teeth, spindle_speed, chip_load, radial_width, axial_depth, kc11, mc, entering_angle,
    rake_angle, reference_rake, change_per_degree, wear_factor, efficiency,
):  # fmt: skip
    x = radial_width / cutter_diameter
    sine = np.sin(np.radians(entering_angle))
    arc = np.arccos(1 - 2 * x)
    largest = np.where(x < 0.5, 2 * np.sqrt(x * (1 - x)), 1.0)
    thickest, mean = chip_load * sine * largest, chip_load * sine * 2 * x / arc
    resistance = kc11 * (1 - change_per_degree * (rake_angle - reference_rake)) * wear_factor
    specific_force = resistance * mean**-mc
    feed_rate = chip_load * teeth * spindle_speed
    removal = axial_depth * radial_width * feed_rate
    power = removal * specific_force / 6e7
    return (
        np.pi * cutter_diameter * spindle_speed / 1000,
        feed_rate,
        np.degrees(arc),
        teeth * arc / (2 * np.pi),
        thickest,
        mean,
        removal / 1000,
        resistance * thickest**-mc * axial_depth * chip_load * largest,
        specific_force,
        power,
        power / efficiency,
        power * 3e4 / (np.pi * spindle_speed),
    )


def in_blocks(columns, results):
    scratch = [np.empty(BLOCK) for _ in range(3)]
    for start in range(0, ROWS, BLOCK):
        at = slice(start, min(start + BLOCK, ROWS))
        d, z, n, fz, ae, ap, kc11, mc, angle, rake, reference, change, wear, efficiency = (
            column[at] if isinstance(column, np.ndarray) else column for column in columns
        )
        vc, vf, arc, teeth, thickest, mean, removal, force, specific, power, motor, torque = (y[at] for y in results)
        x, largest, resistance = (y[: len(d)] for y in scratch)
        np.multiply(d, n, out=vc)
        np.multiply(vc, np.pi / 1000, out=vc)
        np.multiply(fz, z, out=vf)
        np.multiply(vf, n, out=vf)
        np.divide(ae, d, out=x)
        np.minimum(x, 0.5, out=thickest)
        np.subtract(1, thickest, out=largest)
        np.multiply(largest, thickest, out=largest)
        np.sqrt(largest, out=largest)
        np.multiply(largest, 2, out=largest)
        np.multiply(x, -2, out=arc)
        np.add(arc, 1, out=arc)
        np.arccos(arc, out=arc)
        np.multiply(arc, z, out=teeth)
        np.multiply(teeth, 0.5 / np.pi, out=teeth)
        np.multiply(angle, np.pi / 180, out=motor)
        np.sin(motor, out=motor)
        np.multiply(motor, fz, out=motor)
        np.multiply(motor, largest, out=thickest)
        np.multiply(motor, x, out=mean)
        np.multiply(mean, 2, out=mean)
        np.divide(mean, arc, out=mean)
        np.multiply(arc, 180 / np.pi, out=arc)
        np.subtract(rake, reference, out=resistance)
        np.multiply(resistance, -change, out=resistance)
        np.add(resistance, 1, out=resistance)
        np.multiply(resistance, kc11, out=resistance)
        np.multiply(resistance, wear, out=resistance)
        np.negative(mc, out=motor)
        np.power(thickest, motor, out=force)
        np.multiply(force, resistance, out=force)
        np.multiply(force, ap, out=force)
        np.multiply(force, fz, out=force)
        np.multiply(force, largest, out=force)
        np.power(mean, motor, out=specific)
        np.multiply(specific, resistance, out=specific)
        np.multiply(ap, ae, out=removal)
        np.multiply(removal, vf, out=removal)
        np.multiply(removal, 1e-3, out=removal)
        np.multiply(specific, removal, out=power)
        np.multiply(power, 1 / 6e4, out=power)
        np.divide(power, n, out=torque)
        np.multiply(torque, 3e4 / np.pi, out=torque)
        np.divide(power, efficiency, out=motor)


def main():
    columns = list(table(np.random.default_rng(1)).values())
    ours, blocks = ([np.zeros(ROWS) for _ in NAMES] for _ in range(2))
    ufunc = metric.milling_cut.ufunc
    ways = {
        "milling_cut": lambda: ufunc(*columns, out=tuple(ours)),
        "numpy, straightforward": lambda: straightforward(*columns),
        "numpy, in blocks with out=": lambda: in_blocks(columns, blocks),
    }
    plain = [way() for way in ways.values()][1]
    for name, a, b, c in zip(NAMES, ours, plain, blocks):
        assert np.allclose(a, b, rtol=1e-9) and np.allclose(a, c, rtol=1e-9), name
    times = {name: [] for name in ways}
    for _ in range(REPEATS):
        for name, way in ways.items():
            start = time.perf_counter()
            way()
            times[name].append(time.perf_counter() - start)
    medians = {name: statistics.median(taken) for name, taken in times.items()}
    for name, median in medians.items():
        print(f"{name:28} {median * 1e3:8.1f} ms   {median / medians['milling_cut']:.2f} times milling_cut")


if __name__ == "__main__":
    main()
