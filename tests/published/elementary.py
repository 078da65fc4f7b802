"""Writes elementary.csv: values of the elementary functions, by mpmath at 60 digits.

Usage: python elementary.py > elementary.csv   (needs mpmath)
"""

import math
import random

import mpmath

mpmath.mp.dps = 60

HEADER = """\
# Values of the elementary functions.
# Source: mpmath {version} at {digits} digits, by elementary.py beside this file.
# Each value is rounded to the nearest double; `rest` is the true value less the rounded one, in ulp of the
# rounded one. Arguments are exact doubles; `y` is empty for a function of one.
function,x,y,value,rest"""

DEGREE = 180 / mpmath.pi


def angles():
    """Special angles, their neighbours, and random ones of every size, each once."""
    chosen = []
    for quarter in range(-8, 41):
        for degree in (15.0 * quarter, 90.0 * quarter, 45.0 * (2 * quarter + 1)):
            chosen += [degree, math.nextafter(degree, -math.inf), math.nextafter(degree, math.inf)]
            chosen += [degree - 2.0**-30, degree + 2.0**-30]
    chosen += [360.0 * turns + degree for turns in (1e3, 1e5, 2e6) for degree in (-45.0, 30.0, 60.0, 90.0)]
    chosen += [math.ldexp(1.0, power) for power in range(-1074, 30, 24)]
    draw = random.Random(20)
    chosen += [draw.uniform(-45.0, 45.0) for _ in range(300)]
    chosen += [draw.uniform(-360.0, 720.0) for _ in range(300)]
    chosen += [45.0 + draw.uniform(-1e-3, 1e-3) for _ in range(50)]
    chosen += [90.0 + draw.choice((-1, 1)) * 10.0 ** draw.uniform(-12, 0) for _ in range(50)]
    chosen += [draw.choice((-1, 1)) * 10.0 ** draw.uniform(-12, 9) for _ in range(200)]
    chosen += [draw.uniform(-1e6, 1e6) for _ in range(100)]
    return sorted(set(chosen))


def exact_reduction(degrees):
    """Quadrant and rest of an angle, without error, so that zeros come out as zeros."""
    angle = mpmath.mpf(degrees)
    quadrant = int(mpmath.nint(angle / 90))
    return quadrant % 4, mpmath.radians(angle - 90 * quadrant)


def sine_and_cosine(degrees):
    quadrant, rest = exact_reduction(degrees)
    sine, cosine = mpmath.sin(rest), mpmath.cos(rest)
    return [(sine, cosine), (cosine, -sine), (-sine, -cosine), (-cosine, sine)][quadrant]


def spread(draw, low, high):
    """A number of either sign whose size is anywhere between two powers of ten."""
    return draw.choice((-1, 1)) * 10.0 ** draw.uniform(low, high)


def near(draw, x):
    """A number close to another, at any distance."""
    return x + spread(draw, -15, -1)


def exponents(draw):
    chosen = [0.0, 1.0, -1.0, 709.78, -708.39, -745.13] + [draw.uniform(-708.3, 709.7) for _ in range(120)]
    chosen += [draw.uniform(-1.0, 1.0) for _ in range(120)] + [draw.uniform(-745.0, -708.4) for _ in range(20)]
    return chosen + [spread(draw, -300, 2) for _ in range(60)]


def positives(draw):
    chosen = [1.0, 2.0, 10.0, 0.5, 5e-324, math.ulp(0.0) * 12345, 2.0**-1022, 1.7976931348623157e308]
    chosen += [math.nextafter(1.0, 0.0), math.nextafter(1.0, 2.0), math.nextafter(2.0**0.5, 0.0), 2.0**0.5]
    chosen += [draw.uniform(0.5, 2.0) for _ in range(150)] + [near(draw, 1.0) for _ in range(60)]
    return chosen + [2.0 ** draw.uniform(-1073, 1023) for _ in range(100)]


def powers(draw):
    """Pairs of base and exponent, many of them with the largest exponent that the result stands."""
    chosen = [(10.0, 3.0), (4.0, 0.5), (2.0, -1074.0), (2.0, 1023.5), (0.5, 1073.3), (1.0, 7.3), (3.0, 0.0)]
    bases = [draw.uniform(0.7, 1.42) for _ in range(250)] + [near(draw, 1.0) for _ in range(80)]
    bases += [2.0 ** draw.uniform(-1070, 1023) for _ in range(100)]
    chosen += [(base, draw.uniform(-708.0, 709.0) / abs(math.log(base))) for base in bases]
    chosen += [(base, -draw.uniform(708.5, 744.0) / math.log(base)) for base in bases[:40]]
    return chosen + [(draw.uniform(0.01, 1000.0), draw.uniform(-4.0, 4.0)) for _ in range(200)]


def cubes(draw):
    chosen = [27.0, -8.0, 1e-3, 5e-324] + [draw.uniform(0.3, 9.0) for _ in range(150)]
    return chosen + [draw.choice((-1, 1)) * 2.0 ** draw.uniform(-1073, 1023) for _ in range(100)]


def sines(draw):
    chosen = [0.0, 0.5, -0.5, 1.0, -1.0, math.nextafter(0.5, 1.0), math.nextafter(1.0, 0.0)]
    chosen += [draw.uniform(-1.0, 1.0) for _ in range(150)] + [0.5 + draw.uniform(0.0, 0.02) for _ in range(60)]
    chosen += [draw.choice((-1, 1)) * (1.0 - 10.0 ** draw.uniform(-15, -1)) for _ in range(50)]
    return chosen + [spread(draw, -280, 0) for _ in range(30)]


def tangents(draw):
    chosen = [0.0, 1.0, -1.0, 1e300, 2.0**0.5 - 1.0, math.nextafter(1.0, 2.0)]
    chosen += [draw.uniform(-3.0, 3.0) for _ in range(150)] + [draw.uniform(0.3, 0.5) for _ in range(80)]
    return chosen + [spread(draw, -280, 20) for _ in range(60)]


def versines(draw):
    chosen = [0.0, 0.5, 1.0, 1.5, 2.0, math.nextafter(0.5, 1.0), math.nextafter(2.0, 0.0)]
    chosen += [draw.uniform(0.0, 2.0) for _ in range(150)] + [2.0 - 10.0 ** draw.uniform(-15, -1) for _ in range(50)]
    return chosen + [abs(spread(draw, -300, 0)) for _ in range(60)]


def points(draw):
    """Pairs of y and x."""
    chosen = [(y, x) for y in (-1.0, 0.0, 1.0) for x in (-1.0, 1.0)] + [(1.0, 0.0), (-1.0, 0.0)]
    chosen += [(draw.uniform(-1.0, 1.0), draw.uniform(-1.0, 1.0)) for _ in range(200)]
    chosen += [(spread(draw, -3, 3), spread(draw, -3, 3)) for _ in range(60)]
    chosen += [(spread(draw, -320, -200), spread(draw, -320, -200)) for _ in range(30)]
    return chosen + [(spread(draw, 200, 308), spread(draw, 200, 308)) for _ in range(30)]


def complements(draw):
    """Half of them where the complement of the error function is small."""
    return [-x / 2**0.5 for x in normals(draw)]


def densities(draw):
    """Down to where the density is subnormal."""
    return [x for x in normals(draw) if abs(x) < 37.0]


def normals(draw):
    chosen = [0.0, 1.0, -1.0, 1.96, -3.0, 4.0, -4.0, 5e-324] + [draw.uniform(-4.0, 4.0) for _ in range(150)]
    chosen += [draw.uniform(-37.0, 10.0) for _ in range(150)] + [draw.uniform(-10.0, 37.0) for _ in range(30)]
    return chosen + [spread(draw, -300, 0) for _ in range(40)]


def probabilities(draw):
    chosen = [0.5, 0.025, 0.00135, 0.99865, 0.075, 0.925, 1e-300, 5e-324, math.nextafter(1.0, 0.0)]
    chosen += [draw.uniform(0.0, 1.0) for _ in range(150)] + [10.0 ** draw.uniform(-300, -1) for _ in range(100)]
    chosen += [1.0 - 10.0 ** draw.uniform(-16, -1) for _ in range(60)]
    # Where the fits of the middle, the near and the far tail meet.
    chosen += [near(draw, seam) for seam in (0.075, 0.925, math.exp(-25.0)) for _ in range(30)]
    return [p for p in chosen if 0.0 < p < 1.0] + [near(draw, 0.5) for _ in range(40)]


def quantile(p):
    """Root of the distribution, by Newton's method from a start that is good to a percent or so."""
    if p == 0.5:
        return mpmath.mpf(0)
    target = mpmath.mpf(p)
    tail = min(target, 1 - target)
    t = mpmath.sqrt(-2 * mpmath.log(tail))
    x = t - (2.515517 + 0.802853 * t + 0.010328 * t**2) / (1 + 1.432788 * t + 0.189269 * t**2 + 0.001308 * t**3)
    for _ in range(12):
        density = mpmath.exp(-x * x / 2) / mpmath.sqrt(2 * mpmath.pi)
        off = (mpmath.erfc(x / mpmath.sqrt(2)) / 2 - tail) / density
        x += off / (1 - x * off / 2)
    return -x if target < mpmath.mpf(1) / 2 else x


def real_cube_root(x):
    return mpmath.cbrt(x) if x >= 0 else -mpmath.cbrt(-mpmath.mpf(x))


def cell(value):
    rounded = float(value)
    if math.isinf(rounded):
        return f"{rounded!r},0"
    if rounded == 0.0:
        return f"0,{float(value / mpmath.mpf(2) ** -1074):.3f}"
    return f"{rounded!r},{float((value - rounded) / math.ulp(rounded)):.3f}"


def trigonometric_rows():
    for degrees in angles():
        sine, cosine = sine_and_cosine(degrees)
        tangent = sine / cosine if cosine else mpmath.inf * sine
        for name, value in ("sin", sine), ("cos", cosine), ("tan", tangent):
            yield f"{name}_degrees", degrees, None, value


def other_rows():
    draw = random.Random(21)
    functions = [
        ("exp", mpmath.exp, exponents),
        ("ln", mpmath.log, positives),
        ("cbrt", real_cube_root, cubes),
        ("asin", mpmath.asin, sines),
        ("acos", mpmath.acos, sines),
        ("atan", mpmath.atan, tangents),
        ("asin_degrees", lambda x: DEGREE * mpmath.asin(x), sines),
        ("acos_degrees", lambda x: DEGREE * mpmath.acos(x), sines),
        ("atan_degrees", lambda x: DEGREE * mpmath.atan(x), tangents),
    ]
    for name, function, arguments in functions:
        for x in arguments(draw):
            yield name, x, None, function(mpmath.mpf(x))
    for base, exponent in powers(draw):
        yield "powf", base, exponent, mpmath.mpf(base) ** mpmath.mpf(exponent)
    for y, x in points(draw):
        yield "atan2_degrees", y, x, DEGREE * mpmath.atan2(y, x)
    for name, unit in ("arc_versine", 1), ("arc_versine_degrees", DEGREE):
        for x in versines(draw):
            yield name, x, None, unit * 2 * mpmath.asin(mpmath.sqrt(mpmath.mpf(x) / 2))


def normal_rows():
    draw = random.Random(22)
    for x in normals(draw):
        yield "normal_cdf", x, None, mpmath.erfc(-mpmath.mpf(x) / mpmath.sqrt(2)) / 2
    for x in normals(draw):
        yield "normal_density", x, None, mpmath.exp(-mpmath.mpf(x) ** 2 / 2) / mpmath.sqrt(2 * mpmath.pi)
    for x in normals(draw):
        yield "erfc", -x / 1.5, None, mpmath.erfc(-mpmath.mpf(x / 1.5))
    for p in probabilities(random.Random(23)):
        yield "normal_quantile", p, None, quantile(p)
    # Errors are the largest close to zero.
    draw = random.Random(24)
    for _ in range(200):
        x = -(10.0 ** draw.uniform(-4, -0.5))
        yield "normal_cdf", x, None, mpmath.erfc(-mpmath.mpf(x) / mpmath.sqrt(2)) / 2
        yield "erfc", -x, None, mpmath.erfc(-mpmath.mpf(x))


def main():
    print(HEADER.format(version=mpmath.__version__, digits=mpmath.mp.dps))
    for name, x, y, value in [*trigonometric_rows(), *other_rows(), *normal_rows()]:
        print(f"{name},{x!r},{'' if y is None else repr(y)},{cell(value)}")


if __name__ == "__main__":
    main()
