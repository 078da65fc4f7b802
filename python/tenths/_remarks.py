"""Remarks on the rows of a call: rows without an answer, and rows to check."""

import collections.abc
import copy
import html
import sys
import typing

import numpy

from . import _tenths

__all__ = ["Remark", "Remarks"]

_SHOWN = 20  # lines of text: a table of a million rows may be all wrong for one reason


class Remark(typing.NamedTuple):
    """A remark on one row of a call."""

    row: "tuple[typing.Any, ...]"
    """The label of the row where a series of pandas' gives one, otherwise its place in the broadcast arrays; empty for a
    call with single numbers."""
    kind: str
    """``error`` where there is no answer, ``advice`` where the answer is to be taken with care."""
    concerns: "str | None"
    """The argument or the result concerned, or None where several do not go together."""
    value: "float | None"
    """Its value."""
    message: str
    """What is wrong and what would be right."""


class Remarks(collections.abc.Sequence):
    """The remarks on all rows of a call: a sequence of `Remark`, first the errors, then the advice, each in the order of rows.

    `refused` and `advised` are arrays of bool in the shape of the call, to select rows with; with the index of the rows
    where series of pandas' were given.
    """

    __slots__ = ("_formula", "_columns", "_labels", "_concerns", "_rows", "advised", "refused")

    def __init__(self, formula, columns, absent=False, labels=None):
        self._formula, self._columns, self._labels = formula, columns, labels
        refused, advice = formula._judge()(*columns)
        advice = numpy.where(absent, 0, advice)
        self.refused = numpy.asarray(refused & ~numpy.asarray(absent))
        """Which rows have no answer."""
        self.advised = numpy.asarray(advice) != 0
        """Which rows have an answer to be taken with care."""
        # A row without an answer has one remark, any other one for each argument and result that advice concerns.
        rows, concerns = [numpy.flatnonzero(self.refused)], [-1]
        if self.advised.any():
            for number, (bit, _) in enumerate(formula._concerns()):
                rows.append(numpy.flatnonzero(numpy.asarray(advice) >> bit & 1))
                concerns.append(number)
        concerns = numpy.repeat(numpy.array(concerns, numpy.int8), [len(row) for row in rows])
        rows = numpy.concatenate(rows)
        order = numpy.lexsort((rows, concerns >= 0))
        self._rows, self._concerns = rows[order], concerns[order]
        if labels is not None:
            series = sys.modules["pandas"].Series
            self.refused, self.advised = series(self.refused, index=labels), series(self.advised, index=labels)

    @property
    def errors(self):
        """The remarks on rows without an answer alone."""
        return self._part(self._concerns < 0)

    @property
    def advice(self):
        """The remarks on rows with an answer alone."""
        return self._part(self._concerns >= 0)

    def _part(self, kept):
        part = copy.copy(self)
        part._rows, part._concerns = self._rows[kept], self._concerns[kept]
        return part

    def __len__(self):
        return len(self._rows)

    def __getitem__(self, index):
        if isinstance(index, slice):
            return [self[k] for k in range(*index.indices(len(self)))]
        place = numpy.unravel_index(self._rows[index], self.refused.shape)
        remarks = self._formula._remarks([float(column[place]) for column in self._columns])
        concern = self._concerns[index]
        if concern >= 0:
            _, name = self._formula._concerns()[concern]
            remarks = [remark for remark in remarks if remark[1] == name]
        row = tuple(map(int, place)) if self._labels is None else (self._labels[place[0]],)
        return Remark(row, *remarks[0])

    def __eq__(self, other):
        if not isinstance(other, (list, Remarks)):
            return NotImplemented
        return len(self) == len(other) and all(mine == theirs for mine, theirs in zip(self, other))

    def __repr__(self):
        return f"<remarks on {self._formula.__name__}: {self._summary()}>"

    def __str__(self):
        lines = []
        for part, kind in ((self.errors, "with errors"), (self.advice, "of advice")):
            lines += [f"{place(remark)}{remark.kind}: {remark.message}" for remark in part[:_SHOWN]]
            if len(part) > _SHOWN:
                lines += [f"and {len(part) - _SHOWN} more {kind}; in all {self._summary()}"]
        return "\n".join(lines) or f"{self._formula.__name__}: nothing to remark"

    def _repr_html_(self):
        head = "".join(f"<th>{name}</th>" for name in Remark._fields)
        rows = ("".join(f"<td>{html.escape(_shown(value))}</td>" for value in remark) for remark in [*self.errors[:_SHOWN], *self.advice[:_SHOWN]])
        body = "".join(f"<tr>{row}</tr>" for row in rows)
        return f"<p>{html.escape(repr(self)[1:-1])}</p><table><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>"

    def _summary(self):
        refused, advised = int(self.refused.sum()), int(self.advised.sum())
        return f"of {self.refused.size} rows {refused} without an answer, {advised} with advice"

    def to_dicts(self):
        """A dict for each remark, as ``pandas.DataFrame`` takes them."""
        return [remark._asdict() for remark in self]


def place(remark):
    """Which row, in words; nothing for a call with single numbers."""
    return f"row {row_in_words(remark.row)}: " if remark.row else ""


def row_in_words(row):
    """A place or a label; one of several levels is a tuple in a tuple."""
    return ", ".join(row_in_words(part) if isinstance(part, tuple) else str(part) for part in row)


def _shown(value):
    return "" if value is None or value == () else str(value)


def raise_for_rows(formula, result, columns, absent, labels):
    """Gives the result, or an exception of the first rows without an answer; those under a mask need none."""
    first = result if len(formula.outputs) == 1 else result[0]
    missing = numpy.isnan(numpy.asarray(first, dtype=float))
    if not (missing & ~absent).any():
        return result
    errors = Remarks(formula, columns, absent, labels).errors
    count, errors = len(errors), errors[:3]
    told = "; ".join(place(error) + error.message for error in errors)
    raised = _tenths.DomainError(told + (f"; and {count - 3} more" if count > 3 else ""))
    raised.formula, raised.argument, raised.value = formula.__name__, errors[0].concerns, errors[0].value
    raise raised
