"""Gauges and decisions: the figures of tests/published, and the objects."""

import pathlib
import pickle

import pytest

import tenths
from tenths import Decision, Limits, Size, metric

FOLDER = pathlib.Path(__file__).parent.parent / "published"
MAKERS = {form: getattr(tenths, f"{form}_gauge") for form in ("plug", "ring", "snap", "length", "flush_pin")}


def lines(name):
    """The fields of each line of a file."""
    text = (FOLDER / name).read_text(encoding="utf-8")
    return [line.split(";") for line in text.splitlines() if not line.startswith("# ")]


def gauge_quantity(form, scheme, part, wear, name):
    """The quantity of that name, exactly."""
    if form == "master":
        return getattr(tenths.check_master(part, scheme), name.removeprefix("master_"))
    gauge = MAKERS[form](part, scheme=scheme, wear=wear or None)
    if name == "class":
        return gauge.gagemaker_class
    if name == "wear_limit":
        return gauge.wear_limit
    member, _, what = name.rpartition("_")
    return getattr(getattr(gauge, member).limits, what)


def decision_quantity(limits, uncertainty, rule, name):
    """The quantity of that name, exactly."""
    decision = Decision(limits, uncertainty, rule)
    if name.startswith("verdict "):
        return decision.judge(name.removeprefix("verdict "))
    if name.startswith("accept_"):
        what = name.removeprefix("accept_")
        return getattr(decision.acceptance, "tolerance" if what == "width" else what)
    return getattr(decision, name)


def figure_of(text):
    """A size, a number, or a word."""
    if text.endswith((" mm", " in")):
        return Size(text)
    return float(text) if text[0].isdigit() else text


def test_published_gauges():
    assert len(lines("gauges.csv")) > 100
    wrong = [line for line in lines("gauges.csv") if gauge_quantity(*line[:5]) != figure_of(line[5])]
    assert not wrong


def test_published_decisions():
    assert len(lines("decisions.csv")) > 25
    wrong = [line for line in lines("decisions.csv") if decision_quantity(*line[:4]) != figure_of(line[4])]
    assert not wrong


@pytest.mark.parametrize("form", MAKERS)
def test_a_gauge_is_a_value(form):
    gauge = MAKERS[form]("25 +0.1/0 mm", wear="0 mm", resolution="0.0005 mm")
    assert gauge == MAKERS[form](Limits("25 +0.1/0 mm"), resolution=Size("0.0005 mm"))
    assert gauge != MAKERS[form]("25 +0.1/0 mm", scheme="10 percent")
    for value in (gauge, gauge.go, gauge.no_go):
        assert pickle.loads(pickle.dumps(value)) == value
        assert hash(pickle.loads(pickle.dumps(value))) == hash(value)
    assert gauge.form == form and form.replace("_", " ") in repr(gauge) and gauge.scheme == "B89.1.5"
    assert gauge.go.proves in gauge._repr_html_()
    assert (gauge.step is not None) == (form == "flush_pin")
    assert (gauge.go.master is not None) == (form in ("ring", "snap"))
    assert "ISO 8015" in gauge.envelope and gauge.to_dict()["go"]["proves"] == gauge.go.proves
    with pytest.raises(AttributeError):
        gauge.form = "plug"


def test_iso_tells_what_it_passes():
    # By hand from the places of GO and NO-GO at 25 H7: y = 3 and H / 2 = 2 micrometres.
    gauge = tenths.plug_gauge("25 +0.021/0 mm", scheme="ISO 1938-1")
    assert (gauge.grade, gauge.gagemaker_class) == (7, None)
    assert gauge.worn_go_passes == Size("3 um") and gauge.no_go_passes == Size("2 um")
    assert gauge.basis == "published"
    assert tenths.plug_gauge("25 +0.021/0 mm", scheme="10 percent").no_go_passes == Size("0 mm")
    assert tenths.snap_gauge("30 +0/-0.013 mm", scheme="ISO 1938-1").wear_master is not None


def test_wear_is_a_size_or_a_share():
    part = "24.985..25.015 mm"
    share = tenths.plug_gauge(part, scheme="10 percent", wear=0.05)
    assert share == tenths.plug_gauge(part, scheme="10 percent", wear="1.5 um")
    assert share.wear_limit == Size("24.985 mm") and share.go.limits.lower == Size("24.9865 mm")
    with pytest.raises(tenths.DomainError, match="from 0 to 1"):
        tenths.plug_gauge(part, wear=5.0)
    with pytest.raises(TypeError, match="a share of the tolerance"):
        tenths.plug_gauge(part, wear=[])


@pytest.mark.parametrize(
    ("make", "why"),
    [
        (lambda: tenths.plug_gauge("25 +0.005/0 mm"), "no class is fine enough"),
        (lambda: tenths.plug_gauge("25 +0.012/0 mm", scheme="ISO 1938-1"), "no grade is fine enough"),
        (lambda: tenths.flush_pin_gauge("25 ±0.1 mm", scheme="ISO 1938-1"), "has no flush_pin gauge"),
        (lambda: tenths.plug_gauge("25 ±0.1 mm", scheme="B89"), "is not a gauge scheme"),
        (lambda: tenths.check_master("1 in", "W"), "not a gagemaker class"),
        (lambda: Decision("10..10.1 mm", "0.02 mm", "4:1"), "the rule needs 4:1"),
        (lambda: Decision("10..10.1 mm", "0.1 mm"), "use up the tolerance"),
    ],
)
def test_a_refusal_says_why(make, why):
    with pytest.raises(tenths.DomainError, match=why):
        make()


def test_a_decision_is_a_value():
    decision = Decision("10..10.1 mm", "0.004 mm", resolution="0.001 mm")
    assert decision.acceptance.lower == Size("10.004 mm") and decision.guard_band == Size("0.0033 mm")
    assert pickle.loads(pickle.dumps(decision)) == decision
    assert hash(pickle.loads(pickle.dumps(decision))) == hash(decision)
    assert decision != Decision("10..10.1 mm", "0.004 mm")
    assert decision.rule == "ISO 14253-1" and decision.standard == "ISO 14253-1:2017"
    assert "accepts" in repr(decision) and "reject" in decision._repr_html_()
    assert decision.to_dict()["acceptance"]["upper"] == "10.096 mm"


@pytest.mark.libraries
@pytest.mark.parametrize(
    ("deviation", "uncertainty", "offset", "guard"),
    [(0.4, 0.1, 0.0, 0.0), (0.3, 0.05, 0.2, 0.1), (0.5, 0.3, -0.4, -0.1), (2.0, 0.5, 1.0, 0.3)],
)
def test_risks_agree_with_scipy(deviation, uncertainty, offset, guard):
    integrate = pytest.importorskip("scipy.integrate")
    norm = pytest.importorskip("scipy.stats").norm
    edge = 1.0 - guard

    def accepted(size):
        return norm.cdf((edge - size) / uncertainty) - norm.cdf((-edge - size) / uncertainty)

    def density(size):
        return norm.pdf(size, offset, deviation)

    bad = [
        integrate.quad(lambda size: density(size) * accepted(size), *ends, epsabs=1e-13, limit=500)[0]
        for ends in ((-1.0 - 12.0 * uncertainty - abs(guard), -1.0), (1.0, 1.0 + 12.0 * uncertainty + abs(guard)))
    ]
    good = integrate.quad(lambda size: density(size) * (1.0 - accepted(size)), -1.0, 1.0, epsabs=1e-13, limit=500)[0]
    arguments = (2.0, deviation, uncertainty)
    consumer = metric.consumer_risk(*arguments, process_offset=offset, guard_band=guard)
    producer = metric.producer_risk(*arguments, process_offset=offset, guard_band=guard)
    assert abs(consumer.risk - sum(bad)) < 1e-11 + consumer.error
    assert abs(producer.risk - good) < 1e-11 + producer.error
    assert consumer.error < 1e-9 and producer.error < 1e-9
