"""Prints the minimax polynomials of `core/src/math`, highest power first, by Remez's exchange at 60 digits.

Usage: python tools/polynomials.py   (needs mpmath)

Each stands in a formula whose leading terms are exact, so what counts is the error of the whole function,
relative to it: `weight` is that of an error of the polynomial.
"""

from mpmath import asin, atan, atanh, cbrt, cos, erfc, exp, log, lu_solve, matrix, mp, mpf, pi, polyval, sin, sqrt

mp.dps = 60


def minimax(function, weight, start, end, degree):
    """Coefficients, highest power first, and the greatest weighted error."""
    start, end, count = mpf(start), mpf(end), degree + 2
    node = lambda k, last: (start + end) / 2 - (end - start) / 2 * cos(pi * k / last)
    points = [node(k, count - 1) for k in range(count)]
    grid = [node(k, 60 * count) for k in range(60 * count + 1)]
    values, weights = [function(x) for x in grid], [weight(x) for x in grid]
    for _ in range(20):
        rows = [[x**j for j in range(degree, -1, -1)] + [(-1) ** i / weight(x)] for i, x in enumerate(points)]
        *coefficients, level = lu_solve(matrix(rows), matrix([function(x) for x in points]))
        errors = [(polyval(coefficients, x) - y) * w for x, y, w in zip(grid, values, weights)]
        peaks = []  # the largest error of each run of one sign
        for k, error in enumerate(errors):
            if not peaks or error * errors[peaks[-1]] < 0:
                peaks.append(k)
            elif abs(error) > abs(errors[peaks[-1]]):
                peaks[-1] = k
        while len(peaks) > count:
            peaks.pop(0 if abs(errors[peaks[0]]) < abs(errors[peaks[-1]]) else -1)
        worst = max(map(abs, errors))
        if len(peaks) < count or worst < abs(level) * mpf("1.001"):
            break
        points = [grid[k] for k in peaks]
    return coefficients, worst


def off_zero(series):
    """A series in z, that cancels near zero, from its value a little off."""
    return lambda z: series(max(z, mpf("1e-20")))


def normal_tail(q):
    """exp(a²) erfc a / (1 - q) in q = (a - 3.5) / (a + 3.5)."""
    a = mpf("3.5") * (1 + q) / (1 - q)
    return exp(a * a) * erfc(a) / (1 - q)


LN_END = ((sqrt(2) - 1) / (sqrt(2) + 1)) ** 2
EXP_END, ATAN_END, SINE_END = log(2) / 2, (sqrt(2) - 1) ** 2, (pi / 4 * mpf("1.0001")) ** 2
TASKS = {
    # exp r = 1 + r + r² P(r)
    "EXP": (
        lambda r: (exp(r) - 1 - r) / r**2 if abs(r) > 1e-15 else mpf("0.5"),
        lambda r: r * r + 1e-4,
        -EXP_END * mpf("1.0001"),
        EXP_END * mpf("1.0001"),
        9,
    ),
    # sin x = x (1 + z P(z)), z = x²
    "SINE": (off_zero(lambda z: (sin(sqrt(z)) / sqrt(z) - 1) / z), lambda z: z + 1e-4, 0, SINE_END, 5),
    # cos x = 1 - z/2 + z² P(z), z = x²
    "COSINE": (off_zero(lambda z: (cos(sqrt(z)) - 1 + z / 2) / z**2), lambda z: z * z + 1e-5, 0, SINE_END, 5),
    # atanh s = s (1 + z/3 + z² P(z)), z = s²
    "ATANH": (
        off_zero(lambda z: (atanh(sqrt(z)) / sqrt(z) - 1 - z / 3) / z**2),
        lambda z: z * z + 1e-6,
        0,
        LN_END * 1.0001,
        6,
    ),
    # asin x = x (1 + z P(z)), z = x²
    "ASIN": (off_zero(lambda z: (asin(sqrt(z)) / sqrt(z) - 1) / z), lambda z: z + 1e-4, 0, 0.25, 12),
    # atan t = t (1 + z P(z)), z = t²
    "ATAN": (off_zero(lambda z: (atan(sqrt(z)) / sqrt(z) - 1) / z), lambda z: z + 1e-4, 0, ATAN_END * 1.0001, 10),
    # a from 0 to 28
    "NORMAL_TAIL": (normal_tail, lambda q: 1 / normal_tail(q), -1, mpf(7) / 9, 21),
    "CBRT": (cbrt, lambda m: 1 / cbrt(m), mpf(2) ** mpf("-1.51"), mpf(2) ** mpf("1.51"), 3),
}

if __name__ == "__main__":
    for name, task in TASKS.items():
        coefficients, worst = minimax(*task)
        print(f"{name}: error 2^{float(log(worst, 2)):.1f}")
        print("".join(f"    {float(c)!r},\n" for c in coefficients))
