"""Tables and figures for those who read them: in a notebook, or as lines."""

import html


def table(heads, rows, caption=""):
    """A table of HTML, whose cells are text."""
    cells = ["".join(f"<th>{html.escape(head)}</th>" for head in heads)]
    cells += ["".join(f"<td>{html.escape(cell)}</td>" for cell in row) for row in rows]
    title = f"<caption>{html.escape(caption)}</caption>" if caption else ""
    return f"<table>{title}{''.join(f'<tr>{row}</tr>' for row in cells)}</table>"


def lines(rows):
    """Rows of name, figure and unit as lines."""
    widths = [max(map(len, column)) for column in zip(*rows)]
    return [f"    {name:<{widths[0]}}  {number:>{widths[1]}}  {unit}".rstrip() for name, number, unit in rows]


def figure(number):
    """A number to six places that count; nothing for NaN."""
    return "" if number != number else f"{number:.6g}"


def words(name):
    """The name of a field as words."""
    return name.replace("_", " ")
