"""The same bits as the Rust call, for every formula, in and out of its domain; see the generator."""

import json
import math
import os
import struct

import numpy as np
import pytest

import tenths

ROWS = [json.loads(line) for line in open(os.environ["TENTHS_PARITY"], encoding="utf-8")]


def number(bits):
    return struct.unpack("<d", int(bits, 16).to_bytes(8, "little"))[0]


def bits(value):
    return f"0x{struct.unpack('<Q', struct.pack('<d', value))[0]:016x}"


CALLS = sorted({(row["units"], row["formula"]) for row in ROWS})


def rows_of(units, name):
    return [row for row in ROWS if (row["units"], row["formula"]) == (units, name)]


def call(units, name, arguments):
    formula = getattr(getattr(tenths, units), name)
    return formula(**dict(zip(formula.arguments, arguments)))


def test_every_formula_is_there():
    assert {name for _, name in CALLS} == set(tenths.formulas())


@pytest.mark.parametrize("units, name", CALLS)
def test_scalar_calls_give_the_same_bits(units, name):
    for row in rows_of(units, name):
        arguments = [number(text) for text in row["arguments"]]
        if row["results"] is None:
            with pytest.raises(tenths.DomainError):
                call(units, name, arguments)
        else:
            result = call(units, name, arguments)
            results = result if isinstance(result, tenths.Results) else (result,)
            assert [bits(value) for value in results] == row["results"], arguments


@pytest.mark.parametrize("units, name", CALLS)
def test_arrays_give_the_same_bits(units, name):
    rows = rows_of(units, name)
    columns = np.array([[number(text) for text in row["arguments"]] for row in rows]).T
    with np.errstate(invalid="ignore"):
        result = call(units, name, list(columns))
    results = result if isinstance(result, tenths.Results) else (result,)
    for k, row in enumerate(rows):
        found = [float(column[k]) for column in results]
        if row["results"] is None:
            assert all(math.isnan(value) for value in found), row
        else:
            assert [bits(value) for value in found] == row["results"], row
