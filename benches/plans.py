"""A plan document of 5 kB from Python: parsed and evaluated, as Markdown, as a dict and as JSON.

Beside it stands what others take to read the same text alone, or to write the same sheet; none of them evaluates anything.
"""

import json
import pathlib

from timing import compare, heading

import orjson

import tenths

DEMO = pathlib.Path(__file__).parents[1] / "examples" / "plans" / "jig_rest_pin.json"


def main():
    text = json.dumps(json.loads(DEMO.read_text(encoding="utf-8")))
    size = f"a plan of {len(text) / 1000:.1f} kB"
    read = {"`json.loads` of the text": lambda: json.loads(text), "`orjson.loads` of the text": lambda: orjson.loads(text)}
    evaluated = lambda: tenths.Plan.from_json(text).evaluate()  # noqa: E731
    sheet = evaluated()
    plain, written = sheet.to_dict(), sheet.to_json()
    assert json.loads(written) == plain
    compare(f"{size}: parsed and evaluated", {"tenths": evaluated, **read}, number=50)
    markdown = sheet.to_markdown()
    work = f"{size}: parsed, evaluated, {len(markdown) / 1000:.1f} kB of Markdown"
    compare(work, {"tenths": lambda: evaluated().to_markdown(), **read}, number=50)
    ways = {"tenths": sheet.to_dict, "`json.loads` of the sheet": lambda: json.loads(written)}
    compare(f"its sheet as a dict, of {len(written) / 1000:.1f} kB as JSON", ways, number=50)
    ways = {
        "tenths": sheet.to_json,
        "`json.dumps` of the dict": lambda: json.dumps(plain),
        "`orjson.dumps` of the dict": lambda: orjson.dumps(plain),
    }
    compare("its sheet as JSON", ways, number=50)


if __name__ == "__main__":
    heading("Plans of work")
    main()
