"""The Python of the README gives what it says."""

import doctest
import pathlib

README = pathlib.Path(__file__).parent.parent.parent / "README.md"


def test_readme(monkeypatch):
    monkeypatch.chdir(README.parent)
    parser, runner = doctest.DocTestParser(), doctest.DocTestRunner(optionflags=doctest.IGNORE_EXCEPTION_DETAIL)
    text = README.read_text(encoding="utf-8").partition("```python\n")[2].partition("```")[0]
    test = parser.get_doctest(text, {}, "README", str(README), 0)
    assert test.examples
    runner.run(test)
    assert runner.failures == 0
