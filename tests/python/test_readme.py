"""The Python of the README gives what it says."""

import doctest
import pathlib
import re

README = pathlib.Path(__file__).parent.parent.parent / "README.md"


def test_readme(monkeypatch):
    monkeypatch.chdir(README.parent)
    parser, runner = doctest.DocTestParser(), doctest.DocTestRunner(optionflags=doctest.IGNORE_EXCEPTION_DETAIL)
    blocks = re.findall(r"^```python\n(.*?)^```", README.read_text(encoding="utf-8"), re.M | re.S)
    assert len(blocks) == 2
    for text in blocks:
        test = parser.get_doctest(text, {}, "README", str(README), 0)
        assert test.examples
        runner.run(test)
    assert runner.failures == 0
