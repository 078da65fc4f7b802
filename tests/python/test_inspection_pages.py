"""The Python of the pages on inspection gives what it says."""

import doctest
import pathlib

import pytest

PAGES = pathlib.Path(__file__).parent.parent.parent / "docs"


@pytest.mark.parametrize("name", ["sampling_plans.md", "uncertainty.md"])
def test_page(name):
    parser, runner = doctest.DocTestParser(), doctest.DocTestRunner()
    text = (PAGES / name).read_text(encoding="utf-8").partition("```python\n")[2].partition("```")[0]
    test = parser.get_doctest(text, {}, name, name, 0)
    assert test.examples
    runner.run(test)
    assert runner.failures == 0
