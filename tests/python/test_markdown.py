"""The Markdown of a process sheet shows every name as it was written, in every renderer."""

import html.parser
import json
import pathlib
import re
import unicodedata

import pytest

import tenths

PLANS = sorted((pathlib.Path(__file__).parents[2] / "examples" / "plans").glob("*.json"))
NAMES = [
    "<script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "[x](javascript:alert(1))",
    "![x](http://example.com/x.png)",
    "<http://example.com> [a][b] [b]: /c",
    "http://example.com www.example.com a.b@example.com mailto:a@example.com",
    "<!-- gone --> <![CDATA[x]]> <?x?>",
    "a | b || c \\| d \\",
    "`code` ``code`` ```code",
    "*a* **b** _c_ __d__ ~e~ ~~f~~ ==g== ++h++ ^i^",
    "# heading #",
    "- list",
    "+ list",
    "1. list",
    "> quote",
    "--- ===",
    "&lt;b&gt; &amp; &#42; &copy; &",
    "\\*a\\* \\<b> \\\\ \\`",
    "$x^2$ $$y$$ \\(z\\) {.class} {#id} {{x}}",
    "a\x00b\x1b[31mc\x7fd\x85e\r\nf\tg\u2028h\u2029i",
    "a\u202eb\u2066c\u200fd\ufeffe",
    "#7 drill, 1/4-20 UNC 2*3 part_no_5 \"x\" 'y' 3 < 4 > 2 & 50%",
    "\u00d8 20 \u00b1 0.05 \u5de5\u4ef6 a\u0308",
]


class Page(html.parser.HTMLParser):
    """The tags of a page in order, and the text of each piece between them."""

    def __init__(self, page):
        super().__init__()
        self.tags, self.text = [], [""]
        self.feed(page)
        self.close()

    def handle_starttag(self, tag, attributes):
        self.tags.append((tag, *attributes))
        self.text.append("")

    def handle_endtag(self, tag):
        self.tags.append(f"/{tag}")
        self.text.append("")

    def handle_data(self, text):
        self.text[-1] += text

    def handle_comment(self, text):
        self.tags.append("comment")

    handle_decl = unknown_decl = handle_pi = handle_comment


def renderers():
    import markdown_it
    import mistune

    commonmark = markdown_it.MarkdownIt("commonmark", {"html": True}).enable(["table", "strikethrough"])
    links = markdown_it.MarkdownIt("gfm-like", {"html": True})
    plugins = ["table", "strikethrough", "url", "footnotes", "def_list", "mark", "insert", "superscript", "math"]
    return {
        "markdown-it": commonmark.render,
        "markdown-it with links": links.render,
        "mistune": mistune.create_markdown(escape=False, plugins=plugins),
    }


def shown(name):
    """What is left to see of a name: control characters are spaces, and spaces are one."""
    gone = ("Cc", "Zl", "Zp")
    turns = "\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\ufeff"
    spaced = "".join(" " if unicodedata.category(c) in gone or c in turns else c for c in name)
    return " ".join(spaced.split())


def sheet(path, name):
    """A demo in which everything that has a name is called so."""
    plan = json.loads(path.read_text())
    plan["part"].update(name=name, number=name)
    plan["material"] = {"name": name, "modulus": "200 GPa", "poisson": 0.3}
    for one in plan["characteristics"]:
        one.update(name=name, inspection=name)
    # One that nothing makes, for a finding of its name.
    plan["characteristics"][0]["kind"] = "width"
    for operation in plan["operations"]:
        if isinstance(operation.get("tool"), str):
            operation["tool"] = name
        for part in ("tool", "blade"):
            if isinstance(operation.get(part), dict):
                operation[part]["name"] = name
    for stack in plan.get("stacks", []):
        stack["name"] = name
        for one in stack["contributors"]:
            one["name"] = name
    plan["operations"][0]["makes"] = []
    plan = tenths.Plan.from_json(json.dumps(plan))
    return re.sub("[0-9a-f]{64}", "...", plan.evaluate().to_markdown())


@pytest.mark.libraries
@pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)
def test_names_show_as_they_were_written(path):
    plain = "PLAIN"
    for kind, render in renderers().items():
        expected = Page(render(sheet(path, plain)))
        assert expected.tags.count(("table",)) > 10, kind
        assert sum(text.count(plain) for text in expected.text) > 30
        for name in NAMES:
            found = Page(render(sheet(path, name)))
            assert found.tags == expected.tags, (kind, name)
            texts = [text.replace(plain, shown(name)).split() for text in expected.text]
            assert [text.split() for text in found.text] == texts, (kind, name)


def test_no_character_of_a_name_moves_the_cursor_or_ends_a_line():
    lines = len(sheet(PLANS[0], "x").splitlines())
    for code in [*range(0x20), *range(0x7F, 0xA0), 0x61C, 0x200E, 0x200F, 0x2028, 0x2029, *range(0x202A, 0x202F),
                 *range(0x2066, 0x206A), 0xFEFF]:  # fmt: skip
        text = sheet(PLANS[0], f"a{chr(code)}b")
        assert (chr(code) not in text or code == 10) and len(text.splitlines()) == lines, hex(code)
        assert "# Process sheet: a b (a b)" in text
