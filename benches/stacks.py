"""A linear stack of eight and a function with an inverse cosine, sampled with percentiles, beside numpy and numba.

Straightforward numpy draws each contributor as one would write it. Numpy in blocks is the best that could be written here:
columns stay in the cache, normal contributors are drawn as one, and a triangle is the sum of two uniform numbers, as in
the library; numba does the same in one loop for each thread. The function runs as the Rust program of `cargo bench --bench
clutch`.
"""

import concurrent.futures
import pathlib
import subprocess

from timing import QUICK, compare, heading, power, size, wall

import numba
import numpy as np

from tenths import metric as shop

MANY, MORE = size(1_000_000, 20_000), size(10_000_000, 40_000)
BLOCK, MIDDLE = 16384, -12.0
PERCENTS = [0.135, 50, 99.865]
LIMITS = (MIDDLE - 0.3, MIDDLE + 0.3)
PARTS = [
    (10, 0.1, "normal"), (20, 0.15, "normal"), (5, 0.05, "normal"), (8, 0.1, "uniform"),
    (9, 0.08, "uniform"), (7, 0.05, "uniform"), (3, 0.05, "triangular"), (4, 0.1, "triangular"),
]  # fmt: skip


def signs():
    return [1 if place % 2 == 0 else -1 for place in range(len(PARTS))]


def stack():
    built = shop.Stack()
    for place, ((nominal, half, law), sign) in enumerate(zip(PARTS, signs())):
        built.add(f"part {place}", nominal, half, -half, sensitivity=sign, distribution=law)
    return built


def told(values, out, mean, sigma):
    return mean, sigma, values.min(), values.max(), out / len(values), np.percentile(values, PERCENTS)


def straightforward(generator, count):
    gap = np.zeros(count)
    for (nominal, half, law), sign in zip(PARTS, signs()):
        if law == "normal":
            drawn = generator.normal(nominal, half / 3, count)
        elif law == "uniform":
            drawn = generator.uniform(nominal - half, nominal + half, count)
        else:
            drawn = generator.triangular(nominal - half, nominal, nominal + half, count)
        gap = gap + sign * drawn
    out = np.count_nonzero((gap < LIMITS[0]) | (gap > LIMITS[1]))
    return told(gap, out, gap.mean(), gap.std(ddof=1))


def sigma_and_widths():
    """The deviation of the normal contributors together, and the widths of the uniform numbers that make up the others."""
    sigma = sum((half / 3) ** 2 for _, half, law in PARTS if law == "normal") ** 0.5
    widths = [2 * half for _, half, law in PARTS if law == "uniform"]
    widths += [half for _, half, law in PARTS if law == "triangular" for _ in range(2)]
    return sigma, widths


def in_blocks(generator, count):
    sigma, widths = sigma_and_widths()
    gap, buffer = np.empty(count), np.empty(BLOCK)
    out = total = squares = 0.0
    for start in range(0, count, BLOCK):
        part = gap[start : start + BLOCK]
        drawn = buffer[: len(part)]
        generator.standard_normal(out=part)
        part *= sigma
        for width in widths:
            generator.random(out=drawn)
            drawn *= width
            part += drawn
        part -= 0.5 * sum(widths)
        total += part.sum()
        squares += part @ part
        part += MIDDLE
        out += np.count_nonzero(part < LIMITS[0]) + np.count_nonzero(part > LIMITS[1])
    mean = total / count
    spread = ((squares - count * mean * mean) / (count - 1)) ** 0.5
    extremes = gap.min(), gap.max()
    percentiles = np.percentile(gap, PERCENTS, overwrite_input=True)
    return MIDDLE + mean, spread, *extremes, out / count, percentiles


@numba.njit(nogil=True)
def filled(generator, values, sigma, widths):
    """Samples of the stack in place, and how many are out."""
    out, middle = 0, 0.5 * widths.sum()
    for k in range(len(values)):
        value = sigma * generator.standard_normal() - middle
        for width in widths:
            value += width * generator.random()
        values[k] = MIDDLE + value
        out += (values[k] < LIMITS[0]) | (values[k] > LIMITS[1])
    return out


def by_numba(generators, values):
    """Samples of the stack, a share of them on a thread for each generator."""
    sigma, widths = sigma_and_widths()
    shares = np.array_split(values, len(generators))
    if len(generators) == 1:
        out = filled(generators[0], values, sigma, np.array(widths))
    else:
        with concurrent.futures.ThreadPoolExecutor(len(generators)) as pool:
            out = sum(pool.map(lambda generator, share: filled(generator, share, sigma, np.array(widths)), generators, shares))
    return told(values, out, values.mean(), values.std(ddof=1))


def clutch_in_numpy(generator, count):
    hub = generator.normal(27.645, 0.0125 / 3, count)
    roller = generator.normal(11.43, 0.01 / 3, count)
    ring = generator.normal(50.8, 0.0125 / 3, count)
    angle = np.degrees(np.arccos((hub + roller) / (ring - roller)))
    return told(angle, np.count_nonzero((angle < 6.75) | (angle > 7.3)), angle.mean(), angle.std(ddof=1))


def sampled(built, count, threads=1):
    sample = built.sample(count, seed=7, limits=LIMITS, threads=threads)
    share = sample.fraction_out.value
    return sample.mean, sample.sigma, sample.minimum, sample.maximum, share, sample.percentile(PERCENTS)


def check(built, generator):
    """The same law: means and percentiles agree as far as samples do."""
    ours = sampled(built, MANY)
    for other in straightforward(generator, MANY), in_blocks(generator, MANY), by_numba([generator], np.empty(MANY)):
        assert np.allclose(ours[:2], other[:2], atol=20 * 0.11 / MANY**0.5), (ours, other)
        assert np.allclose(ours[5], other[5], atol=60 * 0.11 / MANY**0.5), (ours, other)


def main():
    built, generator = stack(), np.random.default_rng(7)
    check(built, generator)
    ways = {
        "tenths": lambda: sampled(built, MANY),
        "plain numpy": lambda: straightforward(generator, MANY),
        "numpy in blocks": lambda: in_blocks(generator, MANY),
        "numba": lambda: by_numba([generator], np.empty(MANY)),
    }
    compare(f"stack of 8, {power(MANY)} samples with percentiles", ways)
    pair = [np.random.default_rng(seed) for seed in (8, 9)]
    for threads, words in (1, "one thread"), (2, "two threads"):
        ways = {
            "tenths": lambda: sampled(built, MORE, threads),
            "numba": lambda: by_numba(pair[:threads], np.empty(MORE)),
        }
        if threads == 1:
            ways["plain numpy"] = lambda: straightforward(generator, MORE)
        else:
            ways["tenths on one thread"] = lambda: sampled(built, MORE)
        compare(f"stack of 8, {power(MORE)} samples with percentiles, {words}", ways, repeats=5, clock=wall)
    clutch(generator)


def clutch(generator):
    """The Rust program prints its own line."""
    root = pathlib.Path(__file__).parents[1]
    command = ["cargo", "bench", "--quiet", "--bench", "clutch", "--", str(MANY)]
    work = f"inverse cosine of three, {power(MANY)} samples with percentiles"
    if not QUICK:  # which builds nothing
        subprocess.run(command, cwd=root, check=True)
    compare(work, {"plain numpy": lambda: clutch_in_numpy(generator, MANY)}, clock=wall)


if __name__ == "__main__":
    heading("Samples")
    main()
