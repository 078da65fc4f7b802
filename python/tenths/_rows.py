"""Objects of one kind, one per row."""

from . import _tenths, _text

__all__ = ["Rows"]


class Rows(tuple):
    """A tuple of objects of one kind, shown as a table."""

    __slots__ = ()

    def to_dicts(self):
        """A dict for each row, as ``pandas.DataFrame`` takes them."""
        return [row.to_dict() for row in self]

    def to_frame(self, unit=None):
        """The table as a DataFrame of pandas'. Sizes become numbers in 'mm', or in 'in'."""
        return _tenths._frame(self, unit)

    def __repr__(self):
        heads, cells = _tenths._cells(self)
        widths = [max(map(len, column)) for column in zip(heads, *cells)]
        lines = ("  ".join(cell.ljust(width) for cell, width in zip(row, widths)).rstrip() for row in [heads, *cells])
        return "\n".join(lines) or "()"

    def _repr_html_(self):
        heads, cells = _tenths._cells(self)
        return _text.table(list(map(_text.words, heads)), cells)
