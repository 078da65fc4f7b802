"""Writes laws.csv: values of statistical laws, by mpmath.

Usage: python laws.py > laws.csv   (needs mpmath, and scipy for starts; some minutes)
"""

import math
import random
import sys

import mpmath
import scipy.stats
from mpmath import mpf

mpmath.mp.dps = 40

HEADER = """\
# Values of statistical laws and of the functions below them.
# Source: mpmath {version} at 40 digits and more, by laws.py beside this file.
# Each value is rounded to the nearest double; arguments are exact doubles. `first` and `second` are the shapes, the
# degrees of freedom, the noncentrality or the count of readings, in the order in which the functions take them.
# Values below 1e-290 are left out: close to the smallest floats digits are lost.
function,x,first,second,value"""

SMALLEST = mpf(10) ** -290


def gamma_tails(a, x):
    """At so many digits that neither tail loses what it is told to."""
    if a > 1e5:  # Too many terms for mpmath's own sum.
        term = total = mpf(1)
        k = 0
        while term > total * mpf(10) ** -40:
            k += 1
            term *= mpf(x) / (mpf(a) + k)
            total += term
        below = total * mpmath.exp(a * mpmath.log(mpf(x)) - mpf(x) - mpmath.loggamma(mpf(a) + 1))
        return below, 1 - below
    for digits in (40, 400):
        with mpmath.workdps(digits):
            below = mpmath.gammainc(mpf(a), 0, mpf(x), regularized=True)
            above = mpmath.gammainc(mpf(a), mpf(x), mpmath.inf, regularized=True)
            if min(below, above) > mpf(10) ** -15 or digits == 400:
                return below, above


def beta_below(a, b, x, digits=40):
    with mpmath.workdps(digits):
        return mpmath.betainc(mpf(a), mpf(b), 0, x, regularized=True)


def beta_tails(a, b, x):
    """For x an mpf that is exact, or of as many digits as there are."""
    with mpmath.workdps(400):
        y = 1 - mpf(x)
    return beta_below(a, b, mpf(x)), beta_below(b, a, y)


def f_tails(x, numerator, denominator):
    with mpmath.workdps(400):
        ratio = mpf(x) * mpf(numerator) / mpf(denominator)
        share, rest = ratio / (1 + ratio), 1 / (1 + ratio)
    a, b = mpf(numerator) / 2, mpf(denominator) / 2
    return beta_below(a, b, share), beta_below(b, a, rest)


def t_tails(t, degrees):
    with mpmath.workdps(400):
        ratio = mpf(t) ** 2 / mpf(degrees)
        far, near = ratio / (1 + ratio), 1 / (1 + ratio)
    outside = beta_below(mpf(degrees) / 2, mpf(1) / 2, near) / 2
    inside = mpf(1) / 2 + beta_below(mpf(1) / 2, mpf(degrees) / 2, far) / 2
    return (inside, outside) if t > 0 else (outside, inside)


def normal(x):
    return mpmath.erfc(-mpf(x) / mpmath.sqrt(2)) / 2


def noncentral_below(t, degrees, delta, digits=60):
    """By Poisson sums of beta functions, t from zero upward: another way than the integral of the library."""
    with mpmath.workdps(digits):
        t, v, delta = mpf(t), mpf(degrees), mpf(delta)
        x = t * t / (t * t + v)
        half = delta * delta / 2
        even, odd = mpmath.exp(-half), mpmath.exp(-half) * delta / mpmath.sqrt(2) / mpmath.gamma(mpf(3) / 2)
        b = v / 2
        # I(a + 1) = I(a) - x^a (1-x)^b / (a B(a, b))
        sums = mpf(0)
        for start, weight, shift in ((mpf(1) / 2, even, 0), (mpf(1), odd, mpf(1) / 2)):
            a, w = start, weight
            beta = mpmath.betainc(a, b, 0, x, regularized=True)
            step = x**a * (1 - x) ** b / (a * mpmath.beta(a, b))
            j = 0
            while j < 6000:
                sums += w * beta / 2
                if j > half and abs(w * beta) < abs(sums) * mpf(10) ** -(digits - 5):
                    break
                beta -= step
                step *= x * (a + b) / (a + 1)
                a += 1
                j += 1
                w *= half / (j + shift)
        return normal(-delta) + sums


def noncentral_tails(t, degrees, delta):
    if t < 0:
        return noncentral_tails(-t, degrees, -delta)[::-1]
    below = noncentral_below(t, degrees, delta, 160)
    with mpmath.workdps(160):
        return below, 1 - below


# Of 24 points.
GAUSS_LEGENDRE = mpmath.calculus.quadrature.GaussLegendre(mpmath.mp).calc_nodes(4, 130)


def legendre(low, high, panels):
    """Points and weights of Gauss and Legendre's rule in panels."""
    half = (high - low) / panels / 2
    for panel in range(panels):
        middle = low + half * (2 * panel + 1)
        for x, w in GAUSS_LEGENDRE:
            yield middle + half * x, half * w


def density(x):
    return mpmath.exp(-x * x / 2) / mpmath.sqrt(2 * mpmath.pi)


def range_tails(w, count, panels=8):
    below = above = mpf(0)
    for z, weight in legendre(mpf(-10), mpf(10) + w, panels):
        first, out = normal(z), normal(z - w)
        scale = weight * count * density(z)
        below += scale * (first - out) ** (count - 1)
        above += scale * (first ** (count - 1) - (first - out) ** (count - 1))
    return below, above


def studentised_tails(q, count, degrees):
    if math.isinf(degrees):
        return range_tails(mpf(q), count, 16)
    v = mpf(degrees)
    scale = 2 * (v / 2) ** (v / 2) / mpmath.gamma(v / 2)
    width = 9 / mpmath.sqrt(2 * v)
    low, high = max(mpf(0), 1 - width), 1 + width * (2 if v > 4 else 3)
    below = above = mpf(0)
    for s, weight in legendre(low, high, 8):
        weight *= scale * s ** (v - 1) * mpmath.exp(-v * s * s / 2)
        tails = range_tails(q * s, count, 16)
        below += weight * tails[0]
        above += weight * tails[1]
    return below, above


def d2(count):
    with mpmath.workdps(25):
        return mpmath.quad(lambda x: 1 - normal(x) ** count - normal(-x) ** count, [-12, -6, 0, 6, 12])


def d3(count):
    with mpmath.workdps(25):
        square = sum(weight * 2 * w * range_tails(w, count)[1] for w, weight in legendre(mpf(0), mpf(18), 4))
        return mpmath.sqrt(square - d2(count) ** 2)


def c4(count):
    n = mpf(count)
    return mpmath.sqrt(2 / (n - 1)) * mpmath.gamma(n / 2) / mpmath.gamma((n - 1) / 2)


def root(tail, target, start):
    """The point at which a tail has a probability, by secants of the logarithm from a start that scipy gives."""
    with mpmath.workdps(40):
        start = mpf(float(start))
        off = lambda x: mpmath.log(tail(x) / mpf(target))
        return mpmath.findroot(off, (start, start * (1 + mpf(10) ** -8)), tol=1e-40, maxsteps=60)


def smaller(p, quantile, below, above):
    """Root by the smaller of two tails; one less what is above a half is exact."""
    return root(below, p, quantile(p)) if p <= 0.5 else root(above, 1 - mpf(p), quantile(p))


def gamma_below(a, x):
    return mpmath.gammainc(a, 0, x, regularized=True)


def gamma_above(a, x):
    return mpmath.gammainc(a, x, mpmath.inf, regularized=True)


DEGREES = [1.0, 2.0, 3.0, 4.0, 9.0, 19.0, 29.5, 124.0, 999.0, 2000.0]
LEVELS = [1e-100, 1e-9, 0.00135, 0.005, 0.025, 0.05, 0.3, 0.5, 0.9, 0.95, 0.975, 0.99, 0.999, 1.0 - 1e-9]


def gamma_rows():
    draw = random.Random(31)
    shapes = [0.5, 1.0, 1.5, 2.5, 4.5, 9.5, 12.0, 62.0, 499.5, 1000.0]
    for a in shapes + [10.0 ** draw.uniform(-0.3, 3.0) for _ in range(20)] + [123456.5, 1e6]:
        spread = a**0.5
        chosen = [a, a + 1.0] + [a * 2.0 ** draw.uniform(-12, 2.5) for _ in range(5)]
        chosen += [a + spread * draw.uniform(-5.0, 6.0) for _ in range(8)]
        for x in chosen:
            if x > 0 and (a <= 1e5 or abs(x - a) < 6 * spread):
                below, above = gamma_tails(a, x)
                yield "gamma_below", x, a, None, below
                yield "gamma_above", x, a, None, above
    for x in [0.5, 1.0, 1.5, 2.0, 3.0, 10.0, 100.5, 1e6] + [10.0 ** draw.uniform(-8, 8) for _ in range(40)]:
        yield "ln_gamma", x, None, None, mpmath.loggamma(mpf(x))


def beta_rows():
    draw = random.Random(32)
    for _ in range(120):
        a, b = 10.0 ** draw.uniform(-0.3, 3.0), 10.0 ** draw.uniform(-0.3, 3.0)
        mean = a / (a + b)
        x = min(mean * 2.0 ** draw.uniform(-6, 2), draw.uniform(0.9, 1.0)) if draw.random() < 0.7 else draw.random()
        below, above = beta_tails(a, b, x)
        yield "beta_below", x, a, b, below
        yield "beta_above", x, a, b, above
    for a, b in [(1e5, 0.5), (2e4, 3e4)]:
        for z in (-4.0, -1.0, 0.1, 2.0, 5.0):
            mean = a / (a + b)
            x = mean + z * (mean * (1 - mean) / (a + b)) ** 0.5
            if 0.0 < x < 1.0:
                below, above = beta_tails(a, b, x)
                yield "beta_below", x, a, b, below
                yield "beta_above", x, a, b, above


def law_rows():
    draw = random.Random(33)
    for v in DEGREES + [1e5]:
        for x in [v, 0.01 * v, 3.0 * v] + [v + (2 * v) ** 0.5 * draw.uniform(-4, 8) for _ in range(5)]:
            if x > 0:
                below, above = gamma_tails(v / 2, mpf(x) / 2)
                yield "chi_square_cdf", x, v, None, below
                yield "chi_square_above", x, v, None, above
        for t in [0.5, -1.0, 2.0, -3.0, 1e-6, 40.0] + [draw.uniform(-12, 12) for _ in range(5)]:
            below, above = t_tails(t, v)
            yield "t_cdf", t, v, None, below
            yield "t_above", t, v, None, above
    for _ in range(80):
        one, other = draw.choice(DEGREES), draw.choice(DEGREES)
        x = 2.0 ** draw.uniform(-6, 6)
        below, above = f_tails(x, one, other)
        yield "f_cdf", x, one, other, below
        yield "f_above", x, one, other, above


def quantile_rows():
    draw = random.Random(34)
    for v in (1.0, 2.0, 3.0, 4.0, 9.0, 19.0, 29.5, 124.0, 999.0):
        for p in LEVELS:
            a = mpf(v) / 2
            quantile = scipy.stats.gamma(float(a)).ppf
            value = 2 * smaller(p, quantile, lambda x: gamma_below(a, x), lambda x: gamma_above(a, x))
            yield "chi_square_quantile", p, v, None, value
            if p != 0.5:
                above = 1 - p if p > 0.5 else p
                value = root(lambda t: t_tails(t, v)[1], above, scipy.stats.t.isf(above, v))
                yield "t_quantile", p, v, None, value if p > 0.5 else -value
    for _ in range(60):
        one, other, p = draw.choice(DEGREES), draw.choice(DEGREES), draw.choice(LEVELS[1:])
        quantile = scipy.stats.f(one, other).ppf
        value = smaller(p, quantile, lambda x: f_tails(x, one, other)[0], lambda x: f_tails(x, one, other)[1])
        yield "f_quantile", p, one, other, value
        a, b = 10.0 ** draw.uniform(-0.3, 2.0), 10.0 ** draw.uniform(-0.3, 2.0)
        if p <= 0.95:
            value = smaller(
                p,
                scipy.stats.beta(a, b).ppf,
                lambda x: beta_below(mpf(a), mpf(b), x),
                lambda x: beta_below(mpf(b), mpf(a), 1 - x),
            )
            yield "beta_quantile", p, a, b, value


def noncentral_rows():
    draw = random.Random(35)
    for _ in range(90):
        v = draw.choice([1.0, 2.0, 4.0, 9.0, 19.0, 29.0, 49.5, 124.0, 999.0])
        delta = draw.choice([0.0, 0.5, 3.0, -2.0, 5.0, 12.0, 22.0, 36.0, -20.0])
        t = delta + (1.0 + abs(delta) * (0.5 / v) ** 0.5) * draw.uniform(-5.0, 6.0)
        below, above = noncentral_tails(t, v, delta)
        yield "noncentral_t_cdf", t, v, delta, below
        yield "noncentral_t_above", t, v, delta, above
    for v, delta, t in [(124.0, 67.0, 60.0), (124.0, 67.0, 80.0), (49.0, 40.0, 55.5)]:
        below, above = noncentral_tails(t, v, delta)
        yield "noncentral_t_cdf", t, v, delta, below
        yield "noncentral_t_above", t, v, delta, above
    for v, delta in [(4.0, 6.0), (19.0, 13.0), (29.0, 21.9), (124.0, 20.0)]:
        for p in (1e-6, 0.025, 0.05, 0.5, 0.95, 0.999):
            value = root(lambda t: noncentral_tails(t, v, delta)[0], p, scipy.stats.nct.ppf(p, v, delta))
            yield "noncentral_t_quantile", p, v, delta, value


def range_rows():
    for count, v, q in [
        (2, math.inf, 2.77), (5, math.inf, 0.5), (5, math.inf, 4.0), (10, math.inf, 9.0), (25, math.inf, 5.0),
        (2, 5.0, 3.6), (3, 10.0, 3.877), (3, 20.0, 12.0), (5, 8.0, 1.0), (6, 30.0, 4.3), (10, 60.0, 7.0),
        (20, 120.0, 5.1), (4, 1000.0, 3.6),
    ]:  # fmt: skip
        with mpmath.workdps(25):
            below, above = studentised_tails(q, count, v)
        yield "studentised_range_cdf", q, count, v, below
        yield "studentised_range_above", q, count, v, above
    for count in [*range(2, 26), 50, 100]:
        yield "d2", count, None, None, d2(count)
        yield "d3", count, None, None, d3(count)
        yield "c4", count, None, None, c4(count)


ROWS = [gamma_rows, beta_rows, law_rows, quantile_rows, noncentral_rows, range_rows]


def main():
    print(HEADER.format(version=mpmath.__version__))
    # All kinds, or those of the numbers in the call.
    kinds = [int(number) for number in sys.argv[1:]] or range(len(ROWS))
    for name, x, first, second, value in (row for kind in kinds for row in ROWS[kind]()):
        if abs(value) >= SMALLEST or value == 0:
            cells = [name, *("" if argument is None else repr(argument) for argument in (x, first, second))]
            print(*cells, repr(float(value)), sep=",", flush=True)


if __name__ == "__main__":
    main()
