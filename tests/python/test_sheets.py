"""Sheets: as data that keeps a contract, and as pages that print."""

import copy
import html.parser
import io
import json
import pathlib
import pickle
import re
import struct
import zlib

import jsonschema
import pytest

import browser
import tenths

ROOT = pathlib.Path(__file__).resolve().parents[2]
DEMOS = {path.stem: path.read_text(encoding="utf-8") for path in sorted((ROOT / "examples/plans").glob("*.json"))}
KINDS = ["process", "cards", "setups", "tools", "cut_list", "gauges", "first_article"]


def sheet(name="roller_axle"):
    return tenths.Plan.from_json(DEMOS[name]).evaluate()


@pytest.mark.parametrize("name", DEMOS)
def test_a_sheet_reads_back_pickles_and_copies(name):
    written = sheet(name)
    for same in (
        tenths.Sheet.from_json(written.to_json()),
        tenths.Sheet.from_json(json.dumps(written.to_dict())),
        pickle.loads(pickle.dumps(written)),
        copy.copy(written),
        copy.deepcopy(written),
    ):
        assert same == written and same.to_json() == written.to_json()
        assert same.to_html("cards") == written.to_html("cards")
    for finding in written.findings:
        assert pickle.loads(pickle.dumps(finding)) == copy.deepcopy(finding) == finding


def test_a_bad_sheet_lists_its_faults():
    data = sheet().to_dict()
    data["operations"][0]["figures"]["kerf"]["value"] = "wide"
    data["findings"][0]["code"] = "made_up"
    with pytest.raises(tenths.DomainError) as raised:
        tenths.Sheet.from_json(json.dumps(data))
    places = {place for place, _ in raised.value.faults}
    assert places == {"/operations/0/figures/kerf/value", "/findings/0/code"}
    assert all(isinstance(message, str) for _, message in raised.value.faults)
    with pytest.raises(tenths.DomainError) as raised:
        tenths.plug_gauge("12 mm")
    assert raised.value.faults is None


def test_the_schema_is_one_is_published_and_holds():
    schema = tenths.Sheet.schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    assert schema == json.loads((ROOT / "docs/sheet.schema.json").read_text(encoding="utf-8"))
    validator = jsonschema.Draft202012Validator(schema)
    for name in DEMOS:
        data = sheet(name).to_dict()
        assert list(validator.iter_errors(data)) == []
        for edit in (
            lambda data: data.pop("part_number"),
            lambda data: data["operations"][0].update(number="10"),
            lambda data: data["operations"][0]["figures"]["kerf"].pop("unit"),
            lambda data: data["bar"].update(bars=1.5),
            lambda data: data.update(colour="red"),
        ):
            changed = copy.deepcopy(data)
            edit(changed)
            assert not validator.is_valid(changed)


def test_operations_have_number_kind_and_figures_by_key():
    for name in DEMOS:
        operations = sheet(name).to_dict()["operations"]
        numbers = [operation["number"] for operation in operations]
        assert numbers == sorted(set(numbers)) and all(isinstance(number, int) for number in numbers)
        for operation in operations:
            for key, figure in operation["figures"].items():
                assert re.fullmatch("[a-z0-9_]+", key)
                assert isinstance(figure["value"], int if figure["count"] else float), key
                assert isinstance(figure["unit"], str)
    turn = next(one for one in sheet().to_dict()["operations"] if one["kind"] == "turn")
    assert turn["figures"]["spindle_speed"] == {
        "name": "spindle speed", "value": 1800.0, "unit": "rev/min", "set": True, "count": False, "judged": None,
    }  # fmt: skip
    assert turn["figures"]["passes"]["value"] == 2


def test_every_finding_is_on_the_page_of_findings():
    page = (ROOT / "docs/findings.md").read_text(encoding="utf-8")
    rows = dict(re.findall(r"^\| `(\w+)` \| ([a-z ]+) \|", page, re.M))
    assert len(rows) > 60
    for name in DEMOS:
        for finding in sheet(name).findings:
            assert finding.severity in rows[finding.code].split(" or ")


def test_no_code_is_made_up_at_its_place():
    """Findings are made by their codes alone: no other file names a severity and a code as text."""
    for file in (ROOT / "core/src").rglob("*.rs"):
        if "finding" not in file.parts:
            assert not re.search(r"\bFinding \{\s*code:", file.read_text(encoding="utf-8")), file


def test_a_kind_that_is_not_there_names_those_that_are():
    with pytest.raises(tenths.DomainError, match="expected process, cards, setups, tools, cut_list, gauges, first_article or quote"):
        sheet().to_html("card")
    with pytest.raises(TypeError):
        sheet().to_markdown(3)
    assert sheet().to_markdown() == sheet().to_markdown("process") == sheet().to_markdown(None)


def test_changes_between_plans_and_between_sheets():
    old = tenths.Plan.from_json(DEMOS["roller_axle"])
    new = tenths.Plan.from_json(DEMOS["roller_axle"].replace('"quantity": 250', '"quantity": 300'))
    assert old.changes(new) == [("/part/quantity", 250, 300)] and old.changes(old) == []
    assert new.changes(old) == [("/part/quantity", 300, 250)]
    found = {place: (before, after) for place, before, after in old.evaluate().changes(new.evaluate())}
    assert found["/quantity"] == (250, 300)
    # 300 of 19 parts from a bar: 15.8.
    assert found["/bar/bars"] == (14, 16)
    with pytest.raises(TypeError):
        old.changes("a plan")


class Reader(html.parser.HTMLParser):
    def __init__(self, page):
        super().__init__()
        self.open, self.tags, self.words, self.within = [], set(), [], None
        self.feed(page)
        self.close()
        assert not self.open

    def handle_starttag(self, tag, attributes):
        self.tags.add(tag)
        assert {name for name, _ in attributes} <= {"class", "lang", "charset", "name", "content"}, attributes
        if tag != "meta":
            self.open.append(tag)

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, text):
        if "style" not in self.open:
            self.words += text.split()


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("name", DEMOS)
def test_html_is_well_formed_and_says_what_markdown_says(name, kind):
    page = Reader(sheet(name).to_html(kind))
    assert page.tags <= {
        "html", "head", "meta", "title", "style", "body", "header", "main", "section", "div", "h1", "h2", "p", "span", "b",
        "strong", "code", "ul", "li", "table", "thead", "tbody", "tr", "th", "td",
    }  # fmt: skip
    text = html.unescape(sheet(name).to_markdown(kind)).replace("\\", "")
    plain = [re.sub(r"[*`]", "", word) for word in text.split() if not set(word) <= set("|-#*")]
    plain = [word for word in plain if word not in ("Caution.", "Operation")]
    missing = [word for word in plain if word.strip(":.") and word not in page.words and word.strip(":.,()") not in " ".join(page.words)]
    assert not missing, missing


@pytest.fixture(scope="module")
def chromium():
    if browser.path() is None:
        pytest.skip("there is no chromium here: no sheet was printed")
    opened = browser.Browser()
    yield opened
    opened.close()


def pixels(png):
    """Width, height and the share of pixels that are not white, of a PNG of 8 bits without interlacing."""
    width, height, depth, colour = struct.unpack(">IIBB", png[16:26])
    assert png[:8] == b"\x89PNG\r\n\x1a\n" and depth == 8
    channels = {2: 3, 6: 4}[colour]
    data, place = b"", 8
    while place < len(png):
        (length,) = struct.unpack(">I", png[place : place + 4])
        if png[place + 4 : place + 8] == b"IDAT":
            data += png[place + 8 : place + 8 + length]
        place += 12 + length
    rows = zlib.decompress(data)
    stride = 1 + width * channels
    # A row that is all white or the same as the one above is filtered to zeros or to 255 first.
    dark = sum(1 for row in range(height) if len(set(rows[row * stride + 1 : (row + 1) * stride])) > 2)
    return width, height, dark / height


def printed(chromium, page, paper):
    """The texts of the pages that a page prints on, each of the size of its paper, with nothing that runs out of it."""
    import pypdf

    chromium.show(page)
    width, height, inked = pixels(chromium.picture(paper))
    assert (width, height) == tuple(round(96 * side) for side in browser.PAPER[paper])
    assert 0.1 < inked < 0.98
    # Nothing runs out of the paper to the right.
    assert chromium.evaluate("document.documentElement.scrollWidth") <= width
    pages = pypdf.PdfReader(io.BytesIO(chromium.pdf(paper))).pages
    for page in pages:
        size = [float(side) / 72 for side in page.mediabox[2:]]
        assert size == pytest.approx(browser.PAPER[paper], abs=0.02)
    texts = [" ".join(page.extract_text().split()) for page in pages]
    assert all(len(text) > 40 for text in texts), [len(text) for text in texts]
    return texts


MOST = {"roller_axle": {"process": 9, "cards": 8}, "belt_spindle": {"process": 15, "cards": 14}}
SHOWN = {
    "roller_axle": {
        "process": ["19 parts from a bar", "Findings", "Stack", "SHA-256"],
        "cards": ["to be set", "rev/min", "chuck, clamping force", "Caution."],
        "setups": ["step seat 12 mm deep", "work holding"],
        "tools": ["a carbide insert", "life between edges"],
        "cut_list": ["pieces to cut", "bimetal band"],
        "gauges": ["16.99492..17 mm", "pin gauges"],
        "first_article": ["Inspected by", "measured with", "roughness Ra"],
        "quote": ["Price each", "zinc plating", "margin"],
    },
    "belt_spindle": {
        "process": ["18 parts from a bar", "harden and temper in vacuum", "39.824..39.976 mm", "0.004 mm"],
        "cards": ["Coolant: emulsion, 6 percent", "finish diameter", "hardness, least", "A wheel that bursts kills"],
        "setups": ["vacuum furnace", "All set-ups: 3 h", "grinding emulsion, 3 percent"],
        "tools": ["20, 40, 50, 60, 70, 100, 120, 130", "15 min, by the rates", "new tools"],
        "cut_list": ["157.3 mm", "5/8 teeth"],
        "gauges": ["24.999619..25 mm", "the thread by ring gauges"],
        "first_article": ["pulley seat, deviation of form", "at most 0.006 mm"],
        "quote": ["electroless nickel", "cost 240, outside", "markup"],
    },
}


@pytest.mark.libraries
@pytest.mark.parametrize("paper", browser.PAPER)
@pytest.mark.parametrize("kind", [*KINDS, "quote"])
@pytest.mark.parametrize("name", SHOWN)
def test_a_sheet_prints(chromium, name, kind, paper):
    made = sheet(name)
    texts = printed(chromium, made.to_html(kind), paper)
    data = made.to_dict()
    assert 1 <= len(texts) <= MOST[name].get(kind, 3)
    assert f"{data['part']} ({data['part_number']})" in texts[0]
    whole = " ".join(texts)
    assert [words for words in SHOWN[name][kind] if words not in whole] == []
    if kind == "cards":
        for operation in data["operations"]:
            last = operation["cautions"][-1] if operation["cautions"] else operation["name"]
            on = [page for page, text in enumerate(texts) if operation["name"] in text]
            assert any(last in texts[page] for page in on), operation["name"]


@pytest.mark.libraries
@pytest.mark.parametrize("paper", browser.PAPER)
def test_a_price_list_and_a_first_article_print(chromium, paper):
    plan = tenths.Plan.from_json(DEMOS["belt_spindle"])
    prices = " ".join(printed(chromium, plan.quote([1, 25, 500]).to_html(), paper))
    assert all(f"{count} piece" in prices for count in (1, 25, 500)) and "Amounts are in GBP" in prices
    form = " ".join(printed(chromium, tenths.first_article(plan, {5: 30.01, 7: 25.2}, pieces=2).to_html(), paper))
    assert "NOT ACCEPTED" in form and "Inspected by" in form and "Readings still missing" in form


@pytest.mark.libraries
def test_names_show_as_they_were_written_and_run_nothing(chromium):
    name = "<script>document.title='run'</script><img src=x onerror=\"document.title='run'\"> a | b & 'c'"
    plan = json.loads(DEMOS["roller_axle"])
    plan["part"]["name"] = name
    for one in plan["characteristics"]:
        one["name"] = one["inspection"] = name
    chromium.show(tenths.Plan.from_json(json.dumps(plan)).evaluate().to_html("process"))
    assert chromium.evaluate("document.querySelector('h1').textContent") == f"{name} (RA-20-148)"
    assert chromium.evaluate("document.querySelectorAll('script, img').length") == 0
    assert chromium.evaluate("document.title") == f"Process sheet: {name} (RA-20-148)"
    cells = chromium.evaluate("[...document.querySelectorAll('td')].filter(one => one.textContent === %s).length" % json.dumps(name))
    assert cells > 14
