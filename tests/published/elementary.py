"""Writes elementary.csv: sine, cosine and tangent of angles in degrees, by mpmath at 60 digits.

Usage: python elementary.py > elementary.csv   (needs mpmath)
"""

import math
import random

import mpmath

mpmath.mp.dps = 60

HEADER = """\
# Sine, cosine and tangent of angles in degrees.
# Source: mpmath {version} at {digits} digits, by elementary.py beside this file.
# Each value is rounded to the nearest double; `rest` is the true value less the rounded one, in ulp of the
# rounded one. Angles are exact doubles.
degrees,sin,sin_rest,cos,cos_rest,tan,tan_rest"""


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


def cell(value):
    rounded = float(value)
    if math.isinf(rounded):
        return f"{rounded!r},0"
    if rounded == 0.0:
        return f"0,{float(value / mpmath.mpf(2) ** -1074):.3f}"
    return f"{rounded!r},{float((value - rounded) / math.ulp(rounded)):.3f}"


def main():
    print(HEADER.format(version=mpmath.__version__, digits=mpmath.mp.dps))
    for degrees in angles():
        sine, cosine = sine_and_cosine(degrees)
        tangent = sine / cosine if cosine else mpmath.inf * sine
        print(f"{degrees!r},{cell(sine)},{cell(cosine)},{cell(tangent)}")


if __name__ == "__main__":
    main()
