"""Formulas over tables of a million rows, beside numpy in two ways, numba, and a copy of the same bytes.

Straightforward numpy is the expression as one would write it; numpy in blocks keeps its columns in the cache and writes
through `out=`. That all ways give the same is checked before the clock runs.
"""

from timing import compare, heading, power, size, wall

import numba
import numpy as np

from tenths import Limits, metric

ROWS, READINGS, BLOCK = size(1_000_000, 1000), size(10_000_000, 1000), 8192
AS_WRITTEN, IN_BLOCKS, COPY = "plain numpy", "numpy in blocks", "copy of the same bytes"
NAMES = metric.milling_cut.outputs


def copy(columns):
    """A copy that moves as many bytes as the given number of columns: it reads half of them and writes half."""
    source, to = (np.full(ROWS * columns // 2, 1.0) for _ in range(2))
    return lambda: np.copyto(to, source)


def same(*ways):
    """Whether all ways give the same columns."""
    first, *others = ways
    for other in others:
        for one, two in zip(first, other):
            np.testing.assert_allclose(one, two, rtol=1e-9)


def milling_table(rng):
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


def milling_as_written(
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


def milling_in_blocks(columns, results):
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


def milling():
    columns = list(milling_table(np.random.default_rng(1)).values())
    ours, blocks = ([np.zeros(ROWS) for _ in NAMES] for _ in range(2))
    ufunc = metric.milling_cut.ufunc
    ways = {
        "tenths": lambda: ufunc(*columns, out=tuple(ours)),
        AS_WRITTEN: lambda: milling_as_written(*columns),
        IN_BLOCKS: lambda: milling_in_blocks(columns, blocks),
        COPY: copy(len(columns) - 2 + len(NAMES)),
    }
    ways["tenths"]()
    ways[IN_BLOCKS]()
    same(ours, milling_as_written(*columns), blocks)
    compare(f"`milling_cut`, {power(ROWS)} rows, 12 results with `out=`", ways)

    # A square shoulder and a tool at the reference rake: without angles, and without what they change.
    columns[8:13] = 90.0, 0.0, 0.0, 0.0, 1.0
    plain = columns[:8] + columns[13:]
    names = ("cutter_diameter", "teeth", "spindle_speed", "chip_load", "radial_width", "axial_depth", "kc11", "mc", "efficiency")
    named = dict(zip(names, plain))
    same(metric.milling_cut(**named), milling_without_angles(*plain))
    written = {AS_WRITTEN: lambda: milling_without_angles(*plain), COPY: copy(len(plain) + len(NAMES))}
    compare(f"`milling_cut` without angles, {power(ROWS)} rows, new results", {"tenths": lambda: metric.milling_cut(**named), **written})
    work = f"`milling_cut` without angles, {power(ROWS)} rows, `out=`"
    compare(work, {"tenths": lambda: ufunc(*columns, out=tuple(ours)), **written})
    ways = {
        "tenths": lambda: metric.milling_cut(**named, threads=2),
        "tenths on one thread": lambda: metric.milling_cut(**named),
        AS_WRITTEN: written[AS_WRITTEN],
    }
    compare(f"`milling_cut` without angles, {power(ROWS)} rows, new results, two threads", ways, clock=wall)


def milling_without_angles(d, teeth, n, fz, ae, ap, kc11, mc, efficiency):
    x = ae / d
    arc = np.arccos(1 - 2 * x)
    largest = np.where(x < 0.5, 2 * np.sqrt(x * (1 - x)), 1.0)
    thickest, mean = fz * largest, fz * 2 * x / arc
    specific_force = kc11 * mean**-mc
    feed_rate = fz * teeth * n
    removal = ap * ae * feed_rate
    power = removal * specific_force / 6e7
    return (
        np.pi * d * n / 1000,
        feed_rate,
        np.degrees(arc),
        teeth * arc / (2 * np.pi),
        thickest,
        mean,
        removal / 1000,
        kc11 * thickest**-mc * ap * fz * largest,
        specific_force,
        power,
        power / efficiency,
        power * 3e4 / (np.pi * n),
    )


HUB = dict(hub_modulus=210.0, hub_poisson=0.3, shaft_modulus=205.0, shaft_poisson=0.29, friction=0.12)


def press_table(rng):
    diameter = rng.uniform(10, 80, ROWS)
    return [diameter * rng.uniform(0.0005, 0.002, ROWS), diameter, diameter * rng.uniform(1.3, 3, ROWS), rng.uniform(10, 90, ROWS)]


def press_as_written(interference, d, hub, length):
    share = (hub**2 + d**2) / (hub**2 - d**2)
    give = (share + HUB["hub_poisson"]) / HUB["hub_modulus"] + (1 - HUB["shaft_poisson"]) / HUB["shaft_modulus"]
    pressure = 1000 * interference / d / give
    force = HUB["friction"] * pressure * np.pi * d * length
    equivalent = np.sqrt(share**2 + share + 1) * pressure
    return pressure, share * pressure, equivalent, -pressure, -pressure, force, force * d / 2000


@numba.njit(cache=False)
def press_by_numba(interference, diameter, outer, length, pressures, stresses, forces, torques):
    for row in range(len(diameter)):
        d, hub = diameter[row], outer[row]
        share = (hub * hub + d * d) / (hub * hub - d * d)
        give = (share + 0.3) / 210.0 + (1 - 0.29) / 205.0
        pressure = 1000 * interference[row] / d / give
        force = 0.12 * pressure * np.pi * d * length[row]
        pressures[row], stresses[row] = pressure, share * pressure
        forces[row], torques[row] = force, force * d / 2000


def press():
    columns = press_table(np.random.default_rng(2))
    results, four = ([np.zeros(ROWS) for _ in range(count)] for count in (7, 4))
    arguments = [*columns, *HUB.values(), 0.0]
    call = lambda: metric.press_fit.ufunc(*arguments, out=tuple(results))  # noqa: E731
    call()
    press_by_numba(*columns, *four)
    written = press_as_written(*columns)
    same(results, metric.press_fit(*columns, **HUB), written)
    same([results[k] for k in (0, 1, 5, 6)], four)
    beside = {
        AS_WRITTEN: lambda: press_as_written(*columns),
        "numba, 4 of the results": lambda: press_by_numba(*columns, *four),
        COPY: copy(11),
    }
    compare(f"`press_fit`, {power(ROWS)} rows, 7 new results", {"tenths": lambda: metric.press_fit(*columns, **HUB), **beside})
    compare(f"`press_fit`, {power(ROWS)} rows, 7 results with `out=`", {"tenths": call, **beside})


@numba.njit(cache=False)
def within(readings, least, greatest, good):
    for row in range(len(readings)):
        good[row] = (readings[row] >= least) & (readings[row] <= greatest)


def verdicts():
    readings = np.random.default_rng(3).normal(10, 0.02, READINGS).round(3)
    limits, good, copied = Limits("10 ±0.05 mm"), np.empty(READINGS, bool), np.empty(READINGS)
    within(readings, 9.95, 10.05, good)
    ways = {
        "tenths": lambda: metric.accepts(limits, readings),
        "numpy, two comparisons of floats": lambda: (readings >= 9.95) & (readings <= 10.05),
        "numba, two comparisons of floats": lambda: within(readings, 9.95, 10.05, good),
        "copy of the readings": lambda: np.copyto(copied, readings),
    }
    compare(f"`accepts`, {power(READINGS)} readings", ways)


def products():
    diameters, results = np.random.default_rng(4).uniform(1, 50, ROWS), np.zeros(ROWS)
    ways = {
        "tenths": lambda: metric.surface_speed.ufunc(diameters, 1500.0, out=results),
        AS_WRITTEN: lambda: np.pi * diameters * 1500.0 / 1000,
        "one numpy product": lambda: np.multiply(diameters, 4.71238898038469, out=results),
        COPY: copy(2),
    }
    compare(f"`surface_speed`, {power(ROWS)} rows, `out=`", ways, number=3)


if __name__ == "__main__":
    heading("Tables")
    milling()
    press()
    verdicts()
    products()
