"""Memory of freed columns, which later calls take again."""

import importlib

import numpy as np
import pytest

import tenths
from tenths import metric

ROWS = 300_000
BYTES = 8 * ROWS


@pytest.fixture(autouse=True)
def no_memory_is_kept():
    tenths.release_memory()
    yield
    tenths.release_memory()


def handler_of(array=None):
    # numpy 1.26 has an empty `_core`.
    home = "numpy._core" if int(np.__version__.split(".")[0]) >= 2 else "numpy.core"
    names = importlib.import_module(f"{home}.multiarray").get_handler_name
    return names() if array is None else names(array)


def speeds(diameter):
    return metric.surface_speed(np.full(ROWS, diameter), 1000.0)


def test_a_freed_column_serves_the_next_call():
    default = handler_of()
    first = speeds(20.0)
    assert first.flags.owndata and first.flags.writeable and first.ctypes.data % 64 == 0
    # Only what a call makes is kept, and only after it is freed.
    assert handler_of() == default and handler_of(first) == "tenths" and tenths.release_memory() == 0
    place, expected = first.ctypes.data, metric.surface_speed(30.0, 1000.0)
    del first
    again = speeds(30.0)
    assert again.ctypes.data == place and (again == expected).all()
    other = speeds(20.0)
    assert other.ctypes.data != place and (again == expected).all()
    del again, other
    assert tenths.release_memory() == 2 * BYTES and tenths.release_memory() == 0


def test_little_is_kept():
    few = metric.surface_speed(np.full(1000, 20.0), 1000.0)
    assert handler_of(few) == handler_of()
    del few
    many = [speeds(20.0) for _ in range(80)]
    assert sum(array.nbytes for array in many) > 150e6
    del many
    assert BYTES < tenths.release_memory() <= 128 << 20


def test_columns_are_arrays_like_any_other():
    column = speeds(20.0)
    column.resize(2 * ROWS, refcheck=False)
    assert column[ROWS - 1] == metric.surface_speed(20.0, 1000.0) and column[-1] == 0.0
    column.resize(3, refcheck=False)
    assert column.tolist() == [metric.surface_speed(20.0, 1000.0)] * 3
    column = speeds(20.0)
    column.dtype = np.int64
    column.shape = (-1, 2)
    del column
    # By the size of the block, whatever the array was last.
    assert tenths.release_memory() >= BYTES


def test_an_error_leaves_the_memory_of_numpy_as_it_was():
    default = handler_of()
    with pytest.raises(tenths.DomainError, match="row 0"):
        metric.surface_speed(np.full(ROWS, -1.0), 1000.0, on_error="raise")
    with pytest.raises(ValueError, match="broadcast"):
        metric.surface_speed(np.full(ROWS, 1.0), np.ones(3))
    assert handler_of() == default


@pytest.mark.libraries
def test_a_table_takes_it_too():
    pandas = pytest.importorskip("pandas")
    table = pandas.DataFrame({"diameter": np.full(ROWS, 20.0), "spindle_speed": 1000.0})
    made = metric.surface_speed(table["diameter"], table["spindle_speed"])
    assert made.iloc[-1] == metric.surface_speed(20.0, 1000.0)
    del made
    assert tenths.release_memory() >= BYTES
