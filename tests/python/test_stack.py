"""Linear tolerance stacks and their samples: worked figures, laws against scipy, and the objects."""

import json
import pickle
import threading
import time
import warnings

import numpy as np
import pytest

import tenths
from tenths import Distribution, Limits, Size, inch, metric

# name, nominal, tolerance either way, sensitivity; inches. K. W. Chase, Tolerance Allocation Methods for Designers (BYU
# ADCATS report 99-6), shaft and bearing: the clearance is .0199 (printed .020), worst case .0245, root sum square .01108.
BEARING = [
    ("ring", 0.0505, 0.0015, -1),
    ("shaft", 8.0, 0.008, 1),
    ("bearing", 0.5093, 0.0025, -1),
    ("retaining ring", 0.4, 0.002, 1),
    ("housing", 7.711, 0.006, -1),
    ("other retaining ring", 0.4, 0.002, 1),
    ("other bearing", 0.5093, 0.0025, -1),
]
# name, nominal, plus, minus, sensitivity; millimetres. Own numbers; the answers below were computed with numpy.
HUB = [
    ("bore depth", 49.8, 0.12, -0.05, 1),
    ("ring", 2.0, 0, -0.06, -1),
    ("bearing", 19.0, 0, -0.12, -1),
    ("spacer", 8.5, 0.05, -0.05, -1),
    ("hub", 20.0, 0.1, -0.02, -1),
]


def chain(shop, rows):
    stack = shop.Stack()
    for name, nominal, plus, *minus, sensitivity in rows:
        stack.add(name, nominal, plus, minus[0] if minus else -plus, sensitivity)
    return stack


def one(distribution, nominal=0, plus=1, minus=-1):
    """A single dimension, whose law is then that of the stack."""
    return metric.Stack().add("x", nominal, plus, minus, distribution=distribution)


def uniforms(*halves):
    stack = metric.Stack()
    for half in halves:
        stack.add(f"x{len(stack)}", 0, half, -half, distribution="uniform")
    return stack


def test_a_printed_example():
    stack = chain(inch, BEARING)
    worst, rss = stack.worst_case(), stack.rss()
    assert (worst.lower, worst.upper, worst.nominal) == ("-0.0046 in", "0.0444 in", "0.0199 in")
    assert rss.mean == pytest.approx(0.0199, rel=1e-12) and rss.tolerance == pytest.approx(0.01108, rel=5e-4)
    # Beyond the print: the same sums with all digits, computed with numpy.
    assert rss.tolerance == pytest.approx(0.01107925990308, rel=1e-12)
    assert (rss.lower, rss.upper) == pytest.approx((0.0088207400969199, 0.03097925990308), rel=1e-12)
    assert stack.inflated_rss().tolerance == pytest.approx(0.01661888985462, rel=1e-12)
    assert stack.spotts().tolerance == pytest.approx(0.01778962995154, rel=1e-12)
    parts = stack.contributions()
    squares = [1.8329938900204, 52.13849287169, 5.091649694501, 3.2586558044807, 29.327902240326]
    assert [part.rss for part in parts][:5] == pytest.approx(squares, rel=1e-12)
    assert [part.variance for part in parts] == pytest.approx([part.rss for part in parts], rel=1e-12)
    assert parts[1].worst_case == pytest.approx(32.65306122449, rel=1e-12)


def test_unequal_deviations():
    stack = chain(metric, HUB)
    assert stack.worst_case() == Limits("0.3 +0.37/-0.2 mm")
    assert stack.rss()[:2] == pytest.approx((0.385, 0.13351029922819), rel=1e-12)
    assert stack.statistics()[:2] == pytest.approx((0.385, 0.13351029922819 / 3), rel=1e-12)


def test_limits_from_a_drawing():
    # ISO 286: 25 H7 is +21/0 µm, 25 g6 is -7/-20 µm.
    fit = tenths.Fit("25 H7/g6")
    texts = metric.Stack().add("hole", "25 H7").add("shaft", "25 g6", sensitivity=-1)
    members = metric.Stack().add("hole", fit.hole).add("shaft", fit.shaft, sensitivity=-1)
    sizes = metric.Stack().add("hole", Size("25 mm"), "21 µm", 0).add("shaft", 25, -0.007, -0.020, -1)
    assert texts == members == sizes
    assert texts.worst_case() == Limits("0 +0.041/+0.007 mm")
    # Half a dimension comes from a diameter; the rest of a picometre is rounded outward.
    half = metric.Stack().add("d", Limits.between(Size.from_picometres(1), Size.from_picometres(3)), sensitivity=0.5)
    assert half.worst_case() == Limits.between(Size.from_picometres(0), Size.from_picometres(2))
    # 25.4 mm are an inch at either face.
    assert inch.Stack().add("x", "25.4 mm", 0.001, -0.001).worst_case() == Limits("1 ±0.001 in")


def test_counts():
    # Four of 10 ±0.1: ±0.4 at worst and ±0.2 by the root sum square (textbook arithmetic).
    stack = metric.Stack().add("plate", 10, 0.1, -0.1, count=4)
    assert stack.worst_case() == Limits("40 ±0.4 mm")
    assert stack.rss() == pytest.approx((40, 0.2, False), rel=1e-12)
    dominant = metric.Stack().add("casting", 120, 0.8, -0.8).add("plate", 20, 0.05, -0.05, -1, count=3)
    assert dominant.inflated_rss().exceeds_worst_case and not dominant.rss().exceeds_worst_case


def test_estimated_mean_shift():
    # W. H. Greenwood and K. W. Chase, Journal of Engineering for Industry 109 (1987): Σ m T + √Σ ((1 - m) T)².
    rows = [("t1", 10, 0.1, 1), ("t2", 20, 0.15, 1), ("t3", 5, 0.05, -1), ("t4", 24.6, 0.2, -1)]
    stack = chain(metric, rows)
    found = stack.estimated_mean_shift([0.2, 0.3, 0.2, 0.4])
    assert found.tolerance == pytest.approx(0.155 + 0.18282505298782, rel=1e-12)
    assert stack.estimated_mean_shift(0) == stack.rss()
    assert stack.estimated_mean_shift(1).tolerance == pytest.approx(0.5, rel=1e-12)


def test_mean_shifts():
    # M. J. Harry and R. Stewart, Six Sigma Mechanical Design Tolerancing (1988), the method; computed with scipy.
    law = Distribution.normal(cp=1.5, shift=0.25)
    assert law == Distribution.normal(1.5, cpk=1.125)
    stack = metric.Stack().add("envelope", 50.5, 0.15, -0.15, distribution=law)
    stack.add("part", 12.5, 0.05, -0.05, -1, law, 4)
    centred, dynamic, static = map(stack.spread, ("centred", "dynamic", "static"))
    assert (centred.mean, centred.shift, static.shift) == pytest.approx((0.5, 0, 0.0875), rel=1e-12)
    assert (centred.sigma, dynamic.sigma) == pytest.approx((0.040061680838489, 0.053415574451318), rel=1e-12)
    z = [spread.z_lower(0.25) for spread in (centred, dynamic, static)]
    assert z == pytest.approx([6.2403772075338, 4.6802829056504, 4.056245184897], rel=1e-12)
    below = [spread.fraction_below(0.25) for spread in (centred, dynamic, static)]
    assert below == pytest.approx([2.1825847547175e-10, 1.4323966199759e-6, 24.933955657497e-6], rel=1e-9)
    assert static.z_upper(0.75) == pytest.approx(z[2]) and static.fraction_above(0.75) == pytest.approx(below[2])


def test_factors_of_distributions():
    # F. Scholz, Tolerance Stack Analysis Methods (1995), from memory: 3 σ / T of each law.
    for name, factor in [("normal", 1), ("uniform", 3**0.5), ("triangular", 1.5**0.5), ("half_ellipse", 1.5)]:
        assert 3 * one(name).statistics().sigma == pytest.approx(factor, rel=1e-12), name


@pytest.mark.libraries
def test_moments_of_distributions():
    from scipy import stats

    def truncated(cp, shift):
        return stats.truncnorm(-3 * cp * (1 + shift), 3 * cp * (1 - shift), loc=shift, scale=1 / (3 * cp))

    laws = [
        (Distribution.normal(1.2, shift=0.3), stats.norm(0.3, 1 / 3.6)),
        (Distribution.truncated_normal(), truncated(1, 0)),
        (Distribution.truncated_normal(2 / 3), truncated(2 / 3, 0)),
        (Distribution.truncated_normal(0.8, cpk=0.4), truncated(0.8, 0.5)),
        (Distribution.uniform(), stats.uniform(-1, 2)),
        (Distribution.triangular(), stats.triang(0.5, -1, 2)),
        (Distribution.triangular(-0.7), stats.triang(0.15, -1, 2)),
        (Distribution.trapezoid(), stats.trapezoid(0.25, 0.75, -1, 2)),
        (Distribution.trapezoid(0.2), stats.trapezoid(0.4, 0.6, -1, 2)),
        (Distribution.beta(2, 5), stats.beta(2, 5, -1, 2)),
        (Distribution.process(0.1, 0.2), stats.norm(0.1, 0.2)),
    ]
    for law, reference in laws:
        mean, variance, skewness, excess = map(float, reference.stats("mvsk"))
        expected = (mean, variance**0.5, skewness, excess + 3)
        assert tuple(one(law).statistics()) == pytest.approx(expected, rel=1e-7, abs=1e-9), law
        sample = one(law).sample(400_000, 5)
        assert sample.mean == pytest.approx(mean, abs=5 * sample.mean_error), law
        assert sample.sigma == pytest.approx(variance**0.5, abs=5 * sample.sigma_error), law
        # Kolmogorov's distance beyond this has a probability of 1e-5 or so.
        assert stats.kstest(sample.values[:20_000], reference.cdf).statistic < 2.5 / 20_000**0.5, law


def test_measured_values():
    values = [0.1, 0.2, 0.4, 0.4]
    law = Distribution.measured(values)
    assert Distribution.measured(np.array(values)) == law
    found = one(law).statistics()
    assert (found.mean, found.sigma) == pytest.approx((np.mean(values), np.std(values)), rel=1e-12)
    sample = one(law).sample(100_000, 1)
    assert set(np.unique(sample.values)) == set(values)
    assert np.mean(sample.values == 0.4) == pytest.approx(0.5, abs=0.01)


def test_shares_out_of_limits():
    wide = 1 - 1e-6
    # Sums of uniform laws: Irwin-Hall gives 1/48 beyond 2.5 for three from 0 to 1; the trapezoid (a + b - t)² / 4ab.
    three = metric.Stack()
    for name in "abc":
        three.add(name, 0, 1, 0, distribution="uniform")
    for stack, limits, expected in [
        (three, (None, 2.5), 1 / 48),
        (uniforms(0.2, 0.1), (-0.25, 0.25), 0.03125),
        # A uniform and a normal law, by the integral of their convolution (scipy).
        (uniforms(0.1).add("n", 0, 0.09, -0.09), (-0.15, 0.15), 0.005947965501416),
    ]:
        found = stack.sample(1_000_000, 11, limits=limits).fraction_out_at(wide)
        assert found.lower < expected < found.upper < found.lower + 0.1 * expected**0.5
    # A sum of normal laws is normal (scipy): 932.73 ppm beyond either limit.
    stack = metric.Stack()
    for name, mean, sigma, sign in [("a", 30.1, 0.03, 1), ("b", 10, 0.02, -1), ("c", 10, 0.02, -1), ("d", 9.9, 0.025, -1)]:
        stack.add(name, mean, 3 * sigma, -3 * sigma, sign)
    assert stack.statistics()[:2] == pytest.approx((0.2, 0.048218253804965), rel=1e-12)
    sample = stack.sample(1_000_000, 3, limits="0.05..0.35 mm")
    assert sample.limits == (0.05, 0.35)
    for share in (sample.fraction_below, sample.fraction_above):
        assert share.value == pytest.approx(932.73231453544e-6, abs=share.upper - share.lower)
    assert sample.fraction_out.value == pytest.approx(sample.fraction_below.value + sample.fraction_above.value)
    # The same share by the normal law of the spread.
    assert stack.spread("centred").fraction_below(0.05) == pytest.approx(932.73231453544e-6, rel=1e-9)


def test_correlations():
    def stack():
        return metric.Stack().add("a", 10, 0.3, -0.3).add("b", 5, 0.6, -0.6, sensitivity=-1)

    # σ² = 0.1² + 0.2² - 2 · 0.5 · 0.1 · 0.2, by hand.
    correlated = stack().correlate("a", 1, 0.5)
    assert correlated.statistics().sigma == pytest.approx(0.03**0.5, rel=1e-12)
    by_matrix = stack().covariance(["a", "b"], [[0.01, 0.01], [0.01, 0.04]])
    assert by_matrix.statistics().sigma == pytest.approx(0.03**0.5, rel=1e-12)
    sample = correlated.sample(400_000, 2)
    assert sample.sigma == pytest.approx(0.03**0.5, abs=5 * sample.sigma_error)
    with pytest.raises(tenths.DomainError, match="no dimensions can have this"):
        stack().covariance(["a", "b"], [[0.01, 0.03], [0.03, 0.04]])
    with pytest.raises(tenths.DomainError, match="2 rows of 2"):
        stack().covariance(["a", "b"], [0.01, 0.04])
    with pytest.raises(tenths.DomainError, match="only normal"):
        uniforms(1, 1).correlate(0, 1, 0.5)


def test_greatest_tolerance():
    # By hand: ±0.05 leave ±0.07 of ±0.12 at worst, and √(0.13² - 0.05²) = 0.12 by the root sum square.
    stack = metric.Stack().add("a", 10, 0.05, -0.05).add("b", 4, 0.01, -0.01, -1)
    assert stack.greatest_tolerance("b", "6 ±0.12 mm") == Size("0.14 mm")
    assert stack.greatest_tolerance("b", (5.88, 6.12)) == Size("0.14 mm")
    rss = stack.greatest_tolerance(1, Limits("6 ±0.13 mm"), closure="rss")
    assert rss.to_float("mm") == pytest.approx(0.24, abs=3e-9)
    assert stack.greatest_tolerance("b", "6 ±0.04 mm") is None
    with pytest.raises(tenths.DomainError, match="'worst case' or 'rss'"):
        stack.greatest_tolerance("b", "6 ±0.04 mm", "best case")
    # By hand: at the middle of the bearings the gap is 0.37 to 0.57, so that each may be 0.04 smaller.
    gap = metric.Stack().add("housing", "60 +0.1/0 mm").add("spacer", "29.7 ±0.05 mm", sensitivity=-1)
    gap.add("bearing", 15, 0, -0.12, sensitivity=-1, count=2)
    assert gap.greatest_tolerance("bearing", (0.1, 0.65)) == Size("0.08 mm")


def test_a_sample_is_the_same_for_any_threads_and_portions():
    stack = chain(metric, HUB)
    n, seed, limits = 100_001, 7, (0.2, "0.6 mm")
    whole = stack.sample(n, seed, limits=limits, threads=1)
    assert stack.sample(n, seed, limits=limits, threads=2) == whole == stack.sample(n, seed, limits)
    assert stack.sample(n, seed + 1, limits) != whole
    portions = tenths.split_blocks(n, 3)
    assert portions == [(0, 2), (2, 2), (4, 3)]
    blocks = [stack.sample_blocks(*portion, n=n, seed=seed, limits=limits) for portion in portions]
    sent = [pickle.loads(pickle.dumps(portion)) for portion in reversed(blocks)]
    assert sent == blocks[::-1] and (sent[0].first, sent[0].count) == (4, 3)
    folded = tenths.fold_blocks(sent)
    assert folded == whole and folded.values.tobytes() == whole.values.tobytes()
    assert pickle.loads(pickle.dumps(whole)) == whole
    with pytest.raises(tenths.DomainError, match="block 2 is missing"):
        tenths.fold_blocks([blocks[0], blocks[2]])
    with pytest.raises(tenths.DomainError, match="comes twice"):
        tenths.fold_blocks([blocks[0], blocks[0]])
    other = chain(metric, HUB).add("shim", 0.1, 0.01, -0.01).sample_blocks(2, 2, n=n, seed=seed, limits=limits)
    with pytest.raises(tenths.DomainError, match="different stacks or functions"):
        tenths.fold_blocks([blocks[0], other, blocks[2]])
    with pytest.raises(tenths.DomainError, match="cut off or changed"):
        tenths.Blocks.from_bytes(blocks[0].to_bytes()[:-8])
    with pytest.raises(TypeError):
        tenths.fold_blocks([whole])


def test_figures_of_a_sample_are_those_of_its_values():
    sample = chain(metric, HUB).sample(50_000, 1, limits=(0.3, 0.45))
    values = sample.values
    assert len(values) == sample.count == 50_000 and sample.undefined == 0
    assert (sample.mean, sample.sigma) == pytest.approx((values.mean(), values.std(ddof=1)), rel=1e-12)
    assert (sample.minimum, sample.maximum) == (values.min(), values.max())
    z = (values - values.mean()) / values.std()
    assert (sample.skewness, sample.kurtosis) == pytest.approx(((z**3).mean(), (z**4).mean()), rel=1e-9, abs=1e-9)
    percents = np.array([[0, 0.135, 50], [95, 99.865, 100]])
    np.testing.assert_allclose(sample.percentile(percents), np.percentile(values, percents), rtol=1e-12)
    assert sample.percentile(50) == pytest.approx(np.median(values), rel=1e-12)
    assert type(sample.percentile(50)) is float and sample.percentile_error(50) == 0
    assert sample.percentile([]).shape == (0,)
    counts, edges = sample.histogram(20)
    expected, expected_edges = np.histogram(values, 20)
    assert counts.sum() == 50_000 and abs(counts - expected).max() <= 1
    np.testing.assert_allclose(edges, expected_edges, rtol=1e-12)
    out = sample.fraction_out
    assert out.value == np.mean((values < 0.3) | (values > 0.45)) == float(out)
    assert out.lower < out.value < out.upper
    assert sample.fraction_out_at(0.5).lower > out.lower


def test_values_share_memory_and_outlive_the_sample():
    sample = chain(metric, HUB).sample(1000, 1)
    values = sample.values
    assert np.shares_memory(values, sample.values) and not values.flags.writeable
    with pytest.raises(ValueError):
        values.flags.writeable = True
    expected = values.tolist()
    del sample
    np.random.default_rng(0).normal(size=1_000_000)  # would take the memory, were it free
    assert values.tolist() == expected


def test_of_a_large_sample_a_sketch_is_kept():
    stack = one("uniform", nominal=2)
    sample = stack.sample(2**24 + 1, 1)
    assert sample.values is None
    assert abs(sample.percentile(25) - 1.5) < sample.percentile_error(25) + 1e-3 < 5e-3
    assert sample.histogram(4)[0].sum() == 2**24 + 1


def test_other_threads_run_while_a_stack_is_sampled():
    stack, ticks, span = chain(metric, HUB), [], []

    def work():
        span.append(time.perf_counter())
        stack.sample(2**24, 1, threads=1)
        span.append(time.perf_counter())

    thread = threading.Thread(target=work)
    thread.start()
    while thread.is_alive():
        ticks.append(time.perf_counter())
        time.sleep(0.001)
    # Were the interpreter held, one or two could come between the first time and the call.
    assert sum(span[0] < tick < span[1] for tick in ticks) >= 10


def test_objects_are_values():
    law = Distribution.normal(cp=4 / 3, cpk=1)
    stack = chain(inch, BEARING)
    stack.add("shim", "0.010 ±.001 in", distribution=law).add("pin", 1, 0.1, 0, distribution=Distribution.beta(2, 3))
    stack.add("own", 1, 0.1, 0, distribution=Distribution.measured([1.0, 1.05])).correlate("ring", "shaft", 0.25)
    stack.correlate("housing", "ring", -0.5)
    again = pickle.loads(pickle.dumps(stack))
    assert again == stack and again.sample(1000, 1) == stack.sample(1000, 1)
    assert tenths.Stack.from_dict(json.loads(json.dumps(stack.to_dict()))) == stack
    assert stack.add("more", 1, 0, 0) is stack and again != stack and len(stack) == len(again) + 1
    assert stack.units == "inch" and repr(inch.Stack()) == "<inch stack of nothing>"
    for each in [law, Distribution("half_ellipse"), Distribution.trapezoid(), stack.spread("static"), stack.rss()]:
        assert pickle.loads(pickle.dumps(each)) == each
    for each in [law, *(row["distribution"] for row in stack.to_dict()["contributors"])]:
        data = each if isinstance(each, dict) else each.to_dict()
        assert Distribution.from_dict(json.loads(json.dumps(data))).to_dict() == data
    assert Distribution("uniform") == Distribution.uniform() != Distribution.triangular()
    assert repr(Distribution.trapezoid(0.25)) == "Distribution.trapezoid(top=0.25)"
    with pytest.raises(AttributeError):
        law.name = "uniform"
    sample = stack.sample(100, 1)
    told = json.loads(json.dumps(sample.to_dict(), allow_nan=False))
    assert told["mean"] == sample.mean and told["limits"] == [None, None]


def test_what_a_notebook_shows():
    stack = chain(metric, HUB)
    stack.add("<washer>", "1 ±0.1 mm")
    assert "&lt;washer&gt;" in stack._repr_html_() and "worst case" in stack._repr_html_()
    assert "bore depth" in repr(stack.contributions()) and "<td>ring</td>" in stack.contributions()._repr_html_()
    picture = stack.sample(1000, 1, limits=(1.3, None))._repr_html_()
    assert "<svg" in picture and picture.count("<rect") == 60 and picture.count("<line") == 1
    metric.Stack()._repr_html_()
    one("normal", 1, 0, 0).sample(10, 1)._repr_html_()


@pytest.mark.libraries
def test_contributions_are_a_table():
    import pandas as pd

    parts = chain(inch, BEARING).contributions()
    frame = pd.DataFrame(parts)
    assert frame.equals(parts.to_frame()) and frame.equals(pd.DataFrame(parts.to_dicts()))
    assert frame.set_index("name").rss["shaft"] == pytest.approx(52.13849287169)
    assert frame.worst_case.sum() == pytest.approx(100)


STACK = metric.Stack().add("a", 1, 0.1, -0.1).add("twin", 1, 0.1, -0.1).add("twin", 1, 0.1, -0.1)


@pytest.mark.parametrize(
    ("call", "why"),
    [
        (lambda: metric.Stack().worst_case(), "no contributors"),
        (lambda: metric.Stack().add("a", 1, -0.1, 0.1), "a: the lower deviation, 0.1 mm, is above"),
        (lambda: metric.Stack().add("a", "1 mm"), "a: `1 mm` has no tolerance"),
        (lambda: metric.Stack().add("a", "1", 0, 0), "a: nominal: .*unit"),
        (lambda: metric.Stack().add("a", 1, 1, -1, sensitivity=float("nan")), "a: a sensitivity must be"),
        (lambda: metric.Stack().add("a", 1, 1, -1, count=0), "a: a contributor must occur 1 to 1 000 000 times"),
        (lambda: metric.Stack().add("a", 1, 1, -1, distribution="bell"), "`bell` is not a distribution"),
        (lambda: metric.Stack().add("a", float("inf"), 1, -1), "a: nominal: `inf` is not a size"),
        (lambda: metric.Stack().add("a", 1, 1, float("nan")), "a: minus: `NaN` is not a size"),
        (lambda: STACK.correlate("a", "b", 0.5), "`b` is unknown; expected one of a, twin, twin"),
        (lambda: STACK.correlate("a", "twin", 0.5), "2 are named `twin`"),
        (lambda: STACK.correlate("a", 7, 0.5), "`7` is unknown"),
        (lambda: STACK.spread("sideways"), "'centred', 'dynamic' or 'static'"),
        (lambda: STACK.estimated_mean_shift([0.1]), "3 contributors need 3 shares"),
        (lambda: STACK.inflated_rss(0), "a factor must be positive"),
        (lambda: STACK.sample(0, 1), "a sample must have 1 to"),
        (lambda: STACK.sample(-1, 1), "n must be a whole number, zero or more, not -1"),
        (lambda: STACK.sample(10, 1, threads=0), "threads must be 1 or more"),
        (lambda: STACK.sample(10, 1, limits=(2, 1)), "the lower one comes first"),
        (lambda: STACK.sample_blocks(1, 1, n=10, seed=1), "the sample has 1"),
        (lambda: STACK.sample(10, 1).percentile([50, 101]), "from 0 to 100, not 101"),
        (lambda: STACK.sample(10, 1).histogram(0), "1 to 100 000 bins"),
        (lambda: STACK.sample(10, 1).fraction_out_at(1), "confidence must be between"),
        (lambda: Distribution.normal(0), "normal: cp must be from 0.01"),
        (lambda: Distribution.normal(1, cpk=1.5), "cpk must be at most cp"),
        (lambda: Distribution.triangular(float("nan")), "triangular: mode"),
        (lambda: Distribution.measured([]), "no measured sizes"),
        (lambda: Distribution.from_dict({"name": "to_dict"}), "is not a distribution"),
        (lambda: tenths.Stack.from_dict({"units": "inch"}), "the stack has no 'contributors'"),
        (lambda: tenths.Stack("feet"), "`feet` is not a system of units"),
        (lambda: tenths.split_blocks(0, 1), "cannot be split"),
        (lambda: tenths.fold_blocks([]), "no blocks"),
    ],
)
def test_a_refusal_says_why(call, why):
    with pytest.raises(ValueError, match=why):
        call()


@pytest.mark.parametrize(
    "call",
    [
        lambda: metric.Stack().add("a", 1),
        lambda: metric.Stack().add("a", 1, 0.1),
        lambda: metric.Stack().add("a", [1, 2], 0.1, -0.1),
        lambda: metric.Stack().add("a", 1, 0.1, -0.1, distribution=3),
        lambda: metric.Stack().add("a", 1, 0.1, -0.1, count=1.5),
        lambda: Distribution.normal(1, cpk=1, shift=0),
        lambda: STACK.sample(1e3, 1),
        lambda: STACK.sample(10, 1, limits=3),
        lambda: STACK.correlate(None, "a", 0.5),
        lambda: STACK.covariance("a", None),
    ],
)
def test_a_wrong_type_is_refused(call):
    with pytest.raises((TypeError, ValueError)):
        call()


@pytest.mark.parametrize("threads", [0, -1])
def test_a_count_of_threads_is_positive(threads):
    with pytest.raises(tenths.DomainError, match="threads must be 1 or more"):
        one("uniform").sample(10, 1, threads=threads)


def test_the_bits_are_the_same_on_very_many_threads():
    many = one("uniform").sample(10_000_000, 1, threads=10**9)
    assert many == one("uniform").sample(10_000_000, 1, threads=1)


def test_what_does_not_spread_is_neither_below_nor_above_its_very_value():
    stack = metric.Stack()
    stack.add("shim", 0.1, 0, 0).add("washer", 0.2, 0, 0)
    spread = stack.spread("centred")
    assert (spread.fraction_below(0.3), spread.fraction_above(0.3)) == (0, 0)
    assert (spread.fraction_below(0.31), spread.fraction_above(0.29)) == (1, 1)


@pytest.mark.parametrize(
    ("figures", "told"),
    [
        ((0, 0, -1), "sigma must be zero or more, and finite, not -1"),
        ((0, -1, 1), "shift must be zero or more, and finite, not -1"),
        ((float("nan"), 0, 1), "mean must be a finite number, not NaN"),
    ],
)
def test_a_spread_that_no_process_has_is_refused(figures, told):
    with pytest.raises(ValueError, match=told):
        tenths.Spread(*figures)


def test_a_lower_deviation_without_its_sign_is_advised_of_at_the_callers_line():
    for call in (
        lambda: metric.Stack().add("gap", 10, 0.1, 0.05),
        lambda: metric.varying(10, "0.1 mm", 0.05),
    ):
        with pytest.warns(UserWarning, match=r"plus 0\.1 and minus 0\.05 both lie above .*give minus=-0\.05") as found:
            call()
        assert [warning.filename for warning in found] == [__file__]
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        metric.Stack().add("gap", 10, 0.1, -0.05).add("shaft", 10, -0.1, -0.2)
        metric.varying(10, 0.1, 0)


def test_a_sample_without_limits_has_no_share_out():
    chain = one("normal")
    free = chain.sample(1000, 1)
    assert (free.fraction_out, free.fraction_below, free.fraction_above, free.ppm) == (None,) * 4
    assert free.to_dict()["fraction_out"] is None
    upper = chain.sample(1000, 1, limits=(None, 0.5))
    assert upper.fraction_below is None and upper.fraction_above == upper.fraction_out
    assert upper.ppm == 1e6 * upper.fraction_out.value > 0
    values = np.asarray(free.values)
    assert free.fraction_under(0.2).value == (values < 0.2).mean()
    with pytest.raises(ValueError, match="NaN"):
        free.fraction_under(float("nan"))


def test_a_histogram_takes_edges():
    sample = one("normal").sample(1000, 1)
    edges = [-1.0, 0.0, 0.25, 1.0]
    counts, kept = sample.histogram(edges)
    expected, _ = np.histogram(np.asarray(sample.values), edges)
    assert counts.tolist() == expected.tolist() and kept.tolist() == edges
    assert sample.histogram()[0].size == 50 == sample.histogram(50)[0].size
    with pytest.raises(ValueError, match="increase"):
        sample.histogram([1.0, 0.0])
    assert "<text" in sample._repr_html_() and sample._repr_html_().count("<text") == 3


def test_a_cpk_alone_is_that_of_a_centred_process():
    assert Distribution.normal(cpk=1.33) == Distribution.normal(1.33)
    assert Distribution.truncated_normal(cpk=1.33) == Distribution.truncated_normal(1.33)
    assert Distribution.normal() == Distribution.normal(1.0) == Distribution("normal")
    with pytest.raises(ValueError, match="cpk must be at most cp, 1, not 1.33"):
        Distribution.normal(1, cpk=1.33)


# By hand: what a gauge for inches reads of a part of 25 mm is 1/25.4 of it.
@pytest.mark.parametrize(
    "values, message",
    [
        ([24.95, 25.0, 25.2], "1 of 3 measured sizes lies outside the limits 24.9 to 25.1"),
        ([0.984, 0.985], "the measured sizes, about 0.9845, look like inches, and the limits 24.9 to 25.1 like millimetres"),
        ([31.0, 32.0], "more than ten tolerances beyond the limits"),
    ],
)
def test_measured_sizes_that_do_not_go_with_their_limits_are_told(values, message):
    law = Distribution.measured(values)
    ways = [
        lambda: metric.Stack().add("pin", 25, 0.1, -0.1, distribution=law),
        lambda: metric.varying("25 ±0.1 mm", distribution=law),
        lambda: metric.varying(25, 0.1, -0.1, distribution=law),
        lambda: metric.propagate(lambda pin: pin + 1, {"pin": ("25 ±0.1 mm", law)}),
        lambda: metric.propagate(lambda pin: pin + 1, {"pin": (25, 0.1, -0.1, law)}),
    ]
    for way in ways:
        with pytest.warns(UserWarning, match=message):
            way()


def test_measured_sizes_within_their_limits_are_not_remarked_on():
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        metric.Stack().add("pin", 25, 0.1, -0.1, distribution=Distribution.measured([24.9, 25.1]))
        metric.varying(25, 0.1, -0.1, distribution=Distribution.process(25.02, 0.05))
