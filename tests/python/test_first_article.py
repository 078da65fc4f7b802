"""First-article inspection: verdicts, the form to fill in, readings from CSV."""

import json
import pathlib
import pickle

import numpy
import pytest

import tenths
from tenths import Size, first_article, readings_from_csv

ROOT = pathlib.Path(__file__).parent.parent.parent
PLAN = tenths.Plan.from_json((ROOT / "examples" / "plans" / "jig_rest_pin.json").read_text(encoding="utf-8"))
# 1.750 ±.010, .500 +.001/-.003, .437 ±.004, 0.504..0.512, 0.196..0.207 and .375 +.050/0 in, as the plan has them.
GOOD = {1: 1.76, 2: "go entered, no-go refused", 3: Size("0.433 in"), 4: ".508 in", 5: 0.201, 6: 0.4}


def test_a_part_with_every_reading_good_is_accepted():
    made = first_article(PLAN, GOOD)
    assert made.accepted is True and made.missing == () and made.surplus == ()
    first, gauged = made.verdicts[0], made.verdicts[1]
    assert (first.number, first.verdict, first.deviation, first.share) == (1, "conforming", Size("0.01 in"), 1.0)
    assert (gauged.gauged, gauged.measured, gauged.verdict) == ("go entered, no-go refused", None, "conforming")
    assert repr(made) == "<first article of Rest pin of a drill jig: accepted, 6 of 6 conforming>"
    assert made.not_judged == ("No. 2: roughness Ra at most 32 µin",)


@pytest.mark.parametrize(
    ("number", "reading", "verdict"),
    [
        (1, 1.7600001, "not conforming"),
        (1, numpy.float32(1.76), "conforming"),
        (1, "44.704 mm", "conforming"),
        (1, "44.704000001 mm", "not conforming"),
        (2, "go entered, no-go entered", "not conforming"),
        (2, "go entered", "indeterminate"),
        (2, ".4999 in", "conforming"),
    ],
)
def test_verdicts_are_exact_at_the_limits(number, reading, verdict):
    made = first_article(PLAN, GOOD | {number: reading})
    assert made.verdicts[number - 1].verdict == verdict
    assert made.accepted is (verdict == "conforming")


def test_missing_and_surplus_readings_are_reported():
    made = first_article(PLAN, {1: 1.75, 3: None, 4: float("nan"), 9: 1.0, "12": 2})
    assert made.missing == (2, 3, 4, 5, 6) and made.surplus == (9, 12) and not made.accepted
    form = first_article(PLAN)
    assert form.missing == (1, 2, 3, 4, 5, 6) and not form.accepted
    assert "| measured | measured with | verdict |" in form.to_markdown() and "Result" not in form.to_markdown()


def test_several_pieces_are_lists():
    pieces = {number: [reading, reading, reading] for number, reading in GOOD.items()}
    made = first_article(PLAN, pieces | {5: numpy.array([0.2, 0.201, 0.21])})
    assert made.pieces == 3 and len(made.verdicts) == 18
    assert [line.verdict for line in made.verdicts if line.number == 5] == ["conforming", "conforming", "not conforming"]
    masked = numpy.ma.array([0.2, 0.201, 0.202], mask=[False, True, False])
    assert first_article(PLAN, pieces | {5: masked}).missing == (5,)
    with pytest.raises(tenths.DomainError, match="has a reading for piece 2, but pieces is 1"):
        first_article(PLAN, pieces, pieces=1)
    assert first_article(PLAN, GOOD, pieces=2).missing == (1, 2, 3, 4, 5, 6)


@pytest.mark.libraries
def test_readings_come_from_pandas_too():
    import pandas

    sizes = {1: 1.755, 2: 0.4999, 3: 0.437, 4: 0.508, 5: 0.2, 6: 0.39}
    assert first_article(PLAN, pandas.Series(sizes)).accepted
    shuffled = pandas.Series(sizes).sample(frac=1, random_state=1)
    assert first_article(PLAN, shuffled) == first_article(PLAN, sizes)
    frame = pandas.DataFrame({"piece 1": sizes, "piece 2": sizes})
    assert first_article(PLAN, frame).pieces == 2 and first_article(PLAN, frame).accepted
    frame.loc[3, "piece 2"] = None
    assert first_article(PLAN, frame).missing == (3,)
    table = first_article(PLAN, GOOD).to_frame()
    assert list(table["measured"][:1]) == [1.76] and len(table) == 6 and list(table["number"]) == [1, 2, 3, 4, 5, 6]


# ISO 14253-1:1998: the whole uncertainty is kept from each limit of 1.740..1.760 in.
def test_a_decision_rule_draws_the_limits_in():
    options = {"rule": "ISO 14253-1:1998", "uncertainty": {None: ".0005 in", 1: ".002 in"}}
    for reading, verdict in [(1.758, "conforming"), (1.7581, "indeterminate"), (1.7621, "not conforming")]:
        made = first_article(PLAN, {1: reading}, **options)
        assert made.verdicts[0].verdict == verdict
    assert made.rule == "ISO 14253-1:1998" and made.standard == "ISO 14253-1:1998"
    with pytest.raises(tenths.DomainError, match="characteristic 1: the expanded uncertainty"):
        first_article(PLAN, GOOD, rule="ISO 14253-1")


@pytest.mark.parametrize(
    ("readings", "error", "why"),
    [
        ({1: "1.75"}, tenths.DomainError, "characteristic 1: .* needs a unit"),
        ({1: "NaN"}, tenths.DomainError, "characteristic 1: `NaN` is not a reading"),
        ({1: float("inf")}, tenths.DomainError, "characteristic 1"),
        ({2: "go refused, no-go entered"}, tenths.DomainError, "is impossible"),
        ({2: True}, TypeError, "characteristic 2: a reading is a number or text"),
        ({1: [[1.75]]}, TypeError, "characteristic 1"),
        ({"one": 1.75}, TypeError, "given by its number"),
        ({1.5: 1.75}, TypeError, "given by its number"),
        ({True: 1.75}, TypeError, "given by its number"),
        ([1.75], TypeError, "expected readings by number"),
    ],
)
def test_what_is_no_reading_is_refused(readings, error, why):
    with pytest.raises(error, match=why):
        first_article(PLAN, readings)
    with pytest.raises(TypeError, match="expected a Plan, not dict"):
        first_article({}, readings)


def test_csv_reads_back():
    made = first_article(PLAN, GOOD, measured_with={1: "=mic \"7\"", 2: "ring gauges"}, by="ak, night shift", date="2026-11-29")
    for comma in (False, True):
        read = readings_from_csv(made.to_csv(decimal_comma=comma), decimal_comma=comma)
        assert first_article(PLAN, read) == made
    assert "'=mic" in made.to_csv()
    assert json.loads(made.to_json())["verdicts"][0]["measured"] == "1.76 in"
    with pytest.raises(TypeError, match="readings from CSV have by in their columns"):
        first_article(PLAN, read, by="ak")


def test_csv_of_a_machine_is_read(tmp_path):
    text = "Feature;Actual;Part\r\n1;44,5;1\r\n1;44,6;2\r\n"
    columns = {"number": "Feature", "measured": "actual", "piece": "Part"}
    path = tmp_path / "run.csv"
    path.write_bytes(b"\xef\xbb\xbf" + text.encode())
    for source in (text, text.encode(), path):
        read = readings_from_csv(source, units="mm", columns=columns, decimal_comma=True)
        assert read.readings(1) == [Size("44.5 mm"), Size("44.6 mm")] and len(read) == 2 and read.numbers == [1]
    assert [line.verdict for line in first_article(PLAN, read).verdicts[:2]] == ["conforming", "conforming"]


def test_faults_of_csv_have_rows_and_columns():
    with pytest.raises(tenths.DomainError, match="row 2, column `Actual`") as raised:
        readings_from_csv("number,Actual\n1,wide\n2,1.5\nx,1.5\n", units="mm", columns={"measured": "Actual"})
    assert [(row, column) for row, column, _ in raised.value.faults] == [(2, "Actual"), (4, "number")]
    for source, options, error, why in [
        ("number,measured\n1,12\n", {}, tenths.DomainError, "needs a unit"),
        ("number,measured\n1,12\n", {"units": "cm"}, tenths.DomainError, "`cm` is not a system of units"),
        ("number,measured\n1,12\n", {"columns": {"size": "x"}}, tenths.DomainError, "there is no column `size`"),
        ("number,measured\n1,12\n", {"delimiter": "x"}, tenths.DomainError, "a delimiter must be"),
        (b"number,measured\n1,12 \xb5m\n", {}, tenths.DomainError, "not UTF-8: byte 21 is in row 2"),
        ("readings.csv", {}, TypeError, "looks like a path"),
        (12, {}, TypeError, "expected CSV as text or bytes"),
    ]:
        with pytest.raises(error, match=why):
            readings_from_csv(source, **options)


def test_a_first_article_is_a_value():
    made = first_article(PLAN, GOOD)
    assert made == pickle.loads(pickle.dumps(made)) and hash(made) == hash(first_article(PLAN, dict(reversed(GOOD.items()))))
    assert made.to_dict()["verdicts"][0]["measured"] == "44.704 mm"
    assert "<table>" in made._repr_html_() and "rest diameter" in made._repr_html_()
    assert "**ACCEPTED**" in made.to_markdown() and "NOT ACCEPTED" in first_article(PLAN, {1: 2.0}).to_markdown()


def test_the_form_prints_as_one_file():
    form, filled = first_article(PLAN).to_html(), first_article(PLAN, GOOD, by="<b>ak</b>").to_html()
    for page in (form, filled):
        assert page.startswith("<!DOCTYPE html>") and "@page" in page and "Inspected by" in page and "://" not in page
    assert "Result" not in form and "<strong>ACCEPTED</strong>" in filled and "&lt;b&gt;ak&lt;/b&gt;" in filled


def test_a_long_csv_is_read_whole():
    rows = "\n".join(f"{1 + k % 6},{1.7 + k % 97 * 1e-4:.4f},ak" for k in range(200_000))
    assert len(readings_from_csv("number,measured,by\n" + rows, units="in")) == 200_000


@pytest.mark.parametrize(
    ("options", "error", "why"),
    [
        ({"by": 5}, TypeError, "by must be text, not 5"),
        ({"date": 20261129}, TypeError, "date must be text, not 20261129"),
        ({"rule": None}, TypeError, "rule must be text, not None"),
        ({"rule": "ISO 14253-1"}, tenths.DomainError, "must be positive, not 0 mm. Fix: give the uncertainty"),
        ({"measured_with": {99: "micrometer"}}, tenths.DomainError, "instrument is given for characteristic 99, which is not in"),
    ],
)
def test_what_does_not_go_with_a_plan_is_refused(options, error, why):
    with pytest.raises(error, match=why):
        first_article(PLAN, GOOD, **options)
    assert first_article(PLAN, GOOD, measured_with={1: "micrometer", 6: "caliper"}).accepted


@pytest.mark.parametrize("number", [float("inf"), -float("inf"), float("nan"), 1e300, 2.5, True, "x"])
def test_a_number_of_a_characteristic_is_whole(number):
    with pytest.raises(TypeError, match="a characteristic is given by its number, e.g. 3, not"):
        first_article(PLAN, {number: 1.75})


@pytest.mark.parametrize("flag", [True, False, numpy.True_])
def test_true_is_not_a_size(flag):
    for readings in ({1: flag}, {1: [1.75, flag]}, {1: numpy.array([flag, flag])}):
        with pytest.raises(TypeError, match="characteristic 1: a reading is a number or text .*, not a bool"):
            first_article(PLAN, readings)


def test_csv_that_contradicts_itself_is_refused():
    for text, options, why in (
        ("number;measured\n1;44.500\n", {"decimal_comma": True, "units": "mm"}, "`44.500` has a point"),
        ("number;measured\n1;1.752 in\n", {"decimal_comma": True}, "`1.752 in` has a point"),
        ("number,size\n1,2\n", {}, r'columns=\{"measured": "Actual"\} in Python'),
        ("sep=|\nnumber|measured\n", {}, "must be a comma, a semicolon or a tab, not `|`"),
    ):
        with pytest.raises(tenths.DomainError, match=why):
            readings_from_csv(text, **options)
    with pytest.raises(TypeError, match='columns must be a dict such as {"measured": "Actual"}, not'):
        readings_from_csv("number,measured\n", columns=["a"])


def test_a_line_that_names_the_delimiter_is_not_a_row():
    read = readings_from_csv("sep=;\r\nnumber;measured;unit\r\n1;44,5;mm\r\n", decimal_comma=True)
    assert read.readings(1) == [Size("44.5 mm")]
    with pytest.raises(tenths.DomainError, match="^row 2, column `measured`"):
        readings_from_csv("sep=;\nnumber;measured\n1;x\n", units="mm")
