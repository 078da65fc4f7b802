"""Gauge studies: published figures, what is taken for readings, and what is refused."""

import math
import pathlib
import time

import numpy
import pytest
import tenths

LINES = pathlib.Path("tests/published/gauge_studies.csv").read_text(encoding="utf-8").splitlines()


def _numbers(text):
    return numpy.array([float(word) for word in text.split()])


def _made(fields):
    _, _, call, counts, data, references, pooled = fields
    counts, data, references = [int(word) for word in counts.split()], _numbers(data), _numbers(references)
    if call == "bias":
        return tenths.gauge_bias(data, references[0])
    if call == "linearity":
        return tenths.gauge_linearity(references, data)
    if call == "regression":
        return tenths.regression(references, data)
    if call == "agreement":
        return tenths.attribute_agreement(data.astype(int).reshape(counts))
    return tenths.gauge_study(data.reshape(counts), call, pool_interaction=pooled == "1")


def _figure(made, quantity):
    name, _, number = quantity.partition(" ")
    if isinstance(made, tenths.AttributeAgreement):
        return made.all.kappa if name == "all" else made.pairs[int(number) - 1].kappa
    if isinstance(made, tenths.GaugeLinearity):
        return made.biases[int(number) - 1].bias if number else getattr(made.line, name)
    if name == "interval":
        return made.interval[int(number) - 1]
    source, _, what = quantity.partition(".")
    if what in ("ss", "ms", "df", "f", "p"):
        return getattr(next(row for row in made.table if row.source == source), what)
    return getattr(getattr(made, source), what) if what else getattr(made, source)


def test_studies_meet_their_sources():
    count = 0
    for line in LINES:
        fields = line.split(";")
        if fields[0] == "study":
            made = _made(fields)
        elif fields[0] == "figure":
            _, quantity, value, within, _, source = fields
            assert abs(_figure(made, quantity) - float(value)) <= float(within) * (1 + 1e-9), (quantity, source)
            count += 1
        else:
            assert not line or line.startswith("#"), line
    assert count >= 120


@pytest.fixture(scope="module")
def study():
    fields = next(line.split(";") for line in LINES if line.startswith("study;analysis"))
    return _numbers(fields[4]).reshape(10, 3, 3)


def test_a_study_says_what_it_comes_to(study):
    made = tenths.gauge_study(study, tolerance=8)
    assert [row.source for row in made.table] == ["part", "appraiser", "interaction", "repeatability", "total"]
    assert made.percent_of_tolerance == pytest.approx(100 * 6 * made.gauge.sd / 8)
    assert made.undecided_width == pytest.approx(6 * made.gauge.sd)
    assert made.reproducibility.variance == made.appraiser.variance + made.interaction.variance
    assert made.total.variance == pytest.approx(made.gauge.variance + made.part.variance)
    for name in ("repeatability", "appraiser", "interaction", "reproducibility", "gauge", "part", "total"):
        low, high = getattr(made, name).interval
        assert low <= getattr(made, name).variance <= high
    ranges = tenths.gauge_study(study, "average_range", 8, 5.15)
    assert not ranges.table and ranges.gauge.interval == () and ranges.interaction.variance == 0
    assert ranges.percent_of_tolerance == pytest.approx(100 * 5.15 * ranges.gauge.sd / 8)


@pytest.mark.libraries
def test_the_exact_interval_is_that_of_scipy(study):
    from scipy import stats

    made = tenths.gauge_study(study, confidence=0.9).repeatability
    squares = made.variance * 60
    assert made.interval == pytest.approx((squares / stats.chi2.ppf(0.95, 60), squares / stats.chi2.ppf(0.05, 60)), rel=1e-10)


def test_intervals_hold_the_truth_as_often_as_they_say():
    draw = numpy.random.default_rng(11)
    true = {"part": 1.0, "appraiser": 0.1, "interaction": 0.04, "repeatability": 0.09}
    true |= {"reproducibility": 0.14, "gauge": 0.23, "total": 1.23}
    count, within = 400, dict.fromkeys(true, 0)
    for _ in range(count):
        data = draw.normal(0, 1, (10, 1, 1)) + draw.normal(0, 0.1**0.5, (1, 4, 1))
        data = data + draw.normal(0, 0.2, (10, 4, 1)) + draw.normal(0, 0.3, (10, 4, 3))
        made = tenths.gauge_study(data, confidence=0.9)
        for name in true:
            low, high = getattr(made, name).interval
            within[name] += low <= true[name] <= high
    for name, got in within.items():
        # Three standard errors of a share of 0.9; the method may hold a little more.
        assert 0.855 <= got / count <= 0.965, (name, got)


def test_a_batch_has_the_figures_of_each_study(study):
    data = numpy.random.default_rng(5).normal(10, 0.1, (21, 5, 3, 2)).cumsum(axis=1)
    for method, pooled in (("anova", False), ("anova", True), ("nested", False)):
        figures = tenths.gauge_studies(data, method, pooled)
        for k, one in enumerate(data):
            made = tenths.gauge_study(one, method, pool_interaction=pooled)
            for row in made.table[:-1]:
                for what in ("ss", "ms", "f", "p") if row.f is not None else ("ss", "ms"):
                    assert figures[f"{what}_{row.source}"][k] == pytest.approx(getattr(row, what), rel=1e-11), (what, row)
            for name in ("repeatability", "appraiser", "interaction", "reproducibility", "gauge", "part", "total"):
                assert figures[f"variance_{name}"][k] == pytest.approx(getattr(made, name).variance, rel=1e-12, abs=1e-18)


def test_one_appraiser_leaves_parts_and_repeatability(study):
    made = tenths.gauge_study(study[:, :1])
    assert [row.source for row in made.table] == ["part", "repeatability", "total"]
    assert made.reproducibility.variance == 0 and made.gauge.variance == made.repeatability.variance


@pytest.mark.libraries
def test_a_tidy_frame_is_taken_in_any_order(study):
    import pandas

    rows = [(p, "ABC"[a], t, study[p, a, t]) for p in range(10) for a in range(3) for t in range(3)]
    frame = pandas.DataFrame(rows, columns=["part", "appraiser", "trial", "value"])
    expected = tenths.gauge_study(study)
    assert tenths.gauge_study(frame) == expected
    shuffled = tenths.gauge_study(frame.sample(frac=1, random_state=4))
    assert shuffled.gauge.variance == pytest.approx(expected.gauge.variance, rel=1e-12)
    renamed = frame.rename(columns={"value": "mm", "appraiser": "who"}).drop(columns="trial")
    assert tenths.gauge_study(renamed, value="mm", appraiser="who") == expected
    for broken, message in (
        (frame.drop(index=5), "part 0, appraiser B has 2 readings, and others have 3"),
        (frame.assign(trial=1), "has trial 1 twice"),
        (frame.assign(value=frame["value"].where(frame.index != 7)), "row 8 has no value"),
        (frame.drop(columns="part"), "no column 'part'"),
    ):
        with pytest.raises(tenths.DomainError, match=message):
            tenths.gauge_study(broken)
    with pytest.raises(TypeError, match="column 'value' must be numbers"):
        tenths.gauge_study(frame.assign(value=frame["value"].astype(str)))


@pytest.mark.libraries
def test_a_nested_frame_has_own_parts_of_each_appraiser(study):
    import pandas

    rows = [(f"{'ABC'[a]}{p}", "ABC"[a], study[p, a, t]) for a in range(3) for p in range(10) for t in range(3)]
    frame = pandas.DataFrame(rows, columns=["part", "appraiser", "value"])
    assert tenths.gauge_study(frame, "nested") == tenths.gauge_study(study, "nested")
    with pytest.raises(tenths.DomainError, match="the same number of parts, not A: 10, B: 10, C: 9"):
        tenths.gauge_study(frame[frame["part"] != "C4"], "nested")
    with pytest.raises(tenths.DomainError, match="the frame has no rows; expected one for each reading"):
        tenths.gauge_study(frame[:0])


@pytest.mark.libraries
def test_a_long_frame_is_read_in_one_pass():
    import pandas

    def seconds(count):
        frame = pandas.DataFrame({"part": [0, 1] * count, "appraiser": "A", "value": numpy.arange(2.0 * count)})
        frame["trial"] = numpy.arange(2 * count) // 2
        start = time.perf_counter()
        tenths.gauge_study(frame)
        return time.perf_counter() - start

    # Ten times the trials take ten times as long; compared pair by pair they took a hundred times.
    assert min(seconds(20_000) for _ in range(3)) < 40 * min(seconds(2_000) for _ in range(3))


def test_what_is_no_study_is_refused(study):
    holed = study.copy()
    holed[3, 1, 2] = math.nan
    for data, options, message in (
        (holed, {}, "reading 4, 2, 3 is NaN"),
        (study[:1], {}, "parts must be 2 or more, not 1"),
        (study[:, :, :1], {}, "one trial cannot separate repeatability from interaction"),
        (study[:, :1], {"method": "nested"}, "appraisers must be 2 or more"),
        (study * 0 + 7, {}, "do not vary"),
        (numpy.repeat(study[:, :, :1], 3, axis=2), {}, "all trials agree on every part"),
        (study * 1e300, {}, "the readings are too large to work with"),
        (study[0], {}, "not 2 dimensions"),
        (study[None], {}, "use gauge_studies"),
        (study, {"tolerance": -1}, "tolerance must be"),
        (study, {"tolerance": 0}, "tolerance must be"),
        (study, {"study_multiplier": math.nan}, "study_multiplier must be"),
        (study, {"confidence": 95}, "confidence must be between 0 and 1"),
        (study, {"method": "nested", "pool_interaction": True}, "nested has no interaction to pool. Fix: leave out"),
        (study, {"method": "average_range", "pool_interaction": True}, "average_range has no interaction to pool"),
        (study, {"method": "ranges"}, "method must be anova, average_range or nested, not .ranges."),
    ):
        with pytest.raises(tenths.DomainError, match=message):
            tenths.gauge_study(data, **options)
    assert tenths.gauge_study(study[:, :, :1], pool_interaction=True).repeatability.variance > 0
    with pytest.raises(tenths.DomainError, match="takes anova or nested, not average_range"):
        tenths.gauge_studies(study[None], "average_range")
    with pytest.raises(tenths.DomainError, match="study 2: the readings do not vary"):
        tenths.gauge_studies([study, study * 0 + 7])
    with pytest.raises(tenths.DomainError, match="do not vary"):
        tenths.gauge_bias([5.1] * 5, 5)
    with pytest.raises(tenths.DomainError, match="each reference needs 2 or more readings"):
        tenths.gauge_linearity([5, 6, 7], [5, 6.1, 7])
    with pytest.raises(tenths.DomainError, match="the values are too large to work with"):
        tenths.regression([1e300, 2e300, 3e300], [1, 2, 3])
    with pytest.raises(tenths.DomainError, match="all references are equal"):
        tenths.gauge_linearity([1, 1, 1, 1], [1.0, 2, 1, 2])
    with pytest.raises(tenths.DomainError, match="one for each of 3 references"):
        tenths.gauge_linearity([1, 2, 3], [[1.0, 2]])


@pytest.mark.libraries
def test_lines_are_those_of_scipy():
    from scipy import stats

    draw = numpy.random.default_rng(2)
    x = draw.uniform(2, 9, 30)
    y = 0.3 * x - 1 + draw.normal(0, 0.1, 30)
    ours, theirs = tenths.regression(x, y), stats.linregress(x, y)
    got = ours.slope, ours.intercept, ours.slope_error, ours.intercept_error, ours.slope_p
    expected = theirs.slope, theirs.intercept, theirs.stderr, theirs.intercept_stderr, theirs.pvalue
    assert got == pytest.approx(expected, rel=1e-9)
    rows = tenths.gauge_linearity([1, 2, 3], [[1.1, 1.0], [2.2, 2.1], [3.0, 3.1]])
    assert [bias.bias for bias in rows.biases] == pytest.approx([0.05, 0.15, 0.05])


def test_stability_sees_a_drift():
    draw = numpy.random.default_rng(8)
    quiet = draw.normal(25, 0.01, (20, 3))
    assert tenths.gauge_stability(quiet).stable
    drifting = tenths.gauge_stability(quiet + numpy.linspace(0, 0.05, 20)[:, None])
    assert not drifting.stable and drifting.drift.slope_p < 1e-6 and drifting.chart.kind == "xbar_r"


def test_kappa_without_agreement_spreads_as_its_error_says():
    draw = numpy.random.default_rng(1)
    made = [tenths.attribute_agreement(draw.choice(3, (60, 3, 1), p=[0.5, 0.3, 0.2])) for _ in range(400)]
    for of in (lambda one: one.all, lambda one: one.pairs[0]):
        spread = numpy.std([of(one).kappa for one in made])
        error = numpy.mean([of(one).null_error for one in made])
        assert spread == pytest.approx(error, rel=0.12)


def test_kappa_spreads_as_its_error_says_where_raters_agree():
    draw = numpy.random.default_rng(6)
    made = []
    for _ in range(300):
        truth = draw.choice(2, (80, 1, 1), p=[0.6, 0.4])
        rated = numpy.where(draw.random((80, 3, 1)) < 0.15, 1 - truth, truth)
        made.append(tenths.attribute_agreement(rated, truth.ravel()))
    for of in (lambda one: one.all, lambda one: one.pairs[0], lambda one: one.with_reference[0]):
        spread = numpy.std([of(one).kappa for one in made])
        error = numpy.mean([of(one).standard_error for one in made])
        assert spread == pytest.approx(error, rel=0.15)


def test_ratings_of_any_kind_are_taken():
    words = [[["ok", "ok"], ["ok", "bad"]], [["bad", "bad"], ["bad", "bad"]], [["ok", "ok"], ["ok", "ok"]]]
    made = tenths.attribute_agreement(words, ["ok", "bad", "ok"])
    assert made == tenths.attribute_agreement((numpy.array(words) == "ok"), [True, False, True])
    assert [score.percent_correct for score in made.scores] == pytest.approx([100, 200 / 3])
    assert made.with_reference[0].kappa == 1 and made.within[0].kappa == 1
    with pytest.raises(tenths.DomainError, match="rating 1, 2 is missing"):
        tenths.attribute_agreement([["ok", None], ["ok", "ok"]])
    with pytest.raises(tenths.DomainError, match="one for each of 3 parts"):
        tenths.attribute_agreement(words, ["ok"])


# AIAG, Measurement Systems Analysis, 4th ed., chapter III C, signal detection: the ends of each zone (from memory).
def test_the_zone_of_an_attribute_gauge_is_as_published():
    sizes = [0.566152, 0.446697, 0.5, 0.46, 0.542704, 0.55, 0.470832]
    ratings = numpy.array([[0, 0, 0], [0, 0, 0], [1, 1, 1], [1, 0, 1], [1, 1, 1], [0, 1, 0], [1, 1, 1]])
    zone = tenths.attribute_zone(numpy.array(sizes), ratings.mean(axis=1), 0.45, 0.55)
    assert (zone.lower_zone, zone.upper_zone) == ((0.446697, 0.470832), (0.542704, 0.566152))
    assert math.isclose(zone.width, 0.0237915) and round(zone.percent_of_tolerance) == 24
    assert (zone.undecided, str(zone)) == (2, "attribute gauge: cannot decide over 0.023791, 23.8 % of the tolerance")
    one = tenths.attribute_zone(sizes[4:6] + sizes[:1], [1, 0.4, 0], upper=0.55)
    assert (one.lower_zone, one.percent_of_tolerance) == ((), None)
    with pytest.raises(tenths.DomainError, match="Fix: add parts further outside"):
        tenths.attribute_zone(sizes[4:6], [1, 0.4], upper=0.55)
    with pytest.raises(tenths.DomainError, match="references: reading 2 is NaN"):
        tenths.attribute_zone([1, math.nan, 3], [1, 0.4, 0], upper=2)


def test_many_studies_take_arrays_of_any_layout():
    data = numpy.random.default_rng(4).normal(size=(3000, 4, 3, 2))
    whole = tenths.gauge_studies(data)
    odd = numpy.frombuffer(bytes(1) + data.tobytes(), dtype="u1")[1:].view("f8").reshape(data.shape)
    for other in (numpy.asfortranarray(data), data[::-1][::-1], data.astype(">f8"), odd):
        other = tenths.gauge_studies(other)
        assert all(numpy.array_equal(other[name], figures) for name, figures in whole.items())
    for k in (0, 1455, 2999):
        alone = tenths.gauge_studies(data[k : k + 1])
        assert all(alone[name][0] == figures[k] for name, figures in whole.items())
