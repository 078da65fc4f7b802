"""The Python of the pages in docs gives what they say. Formulas, the plan and several machines have tests of their own."""

import doctest
import pathlib
import re

import pytest

PAGES = pathlib.Path(__file__).parent.parent.parent / "docs"
OTHERS = {"classes.md", "distributed.md", "formulas.md", "objects.md", "plan.md"}


def blocks():
    for page in sorted(PAGES.glob("*.md")):
        if page.name not in OTHERS:
            found = re.findall(r"^```python\n(.*?)^```", page.read_text(encoding="utf-8"), re.DOTALL | re.MULTILINE)
            if found:
                yield pytest.param(found, id=page.name)


@pytest.mark.libraries
@pytest.mark.parametrize("found", list(blocks()))
def test_page(found, monkeypatch):
    monkeypatch.chdir(PAGES.parent)
    names = {}
    for block in found:
        if ">>>" in block:
            test = doctest.DocTestParser().get_doctest(block, names, "page", "page", 0)
            runner = doctest.DocTestRunner()
            runner.run(test, clear_globs=False)
            names = test.globs
            assert test.examples and runner.failures == 0
        else:
            exec(compile(block, "page", "exec"), names)


def test_every_page_of_inspection_has_an_example():
    names = {param.id for param in blocks()}
    assert {"capability.md", "chatter.md", "cutting_plans.md", "process_studies.md", "sampling_plans.md", "uncertainty.md"} <= names
