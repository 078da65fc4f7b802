"""Blocks of samples, and formulas over lazy arrays, on a real cluster of two processes."""

import functools
import os
import pathlib
import subprocess
import sys

import numpy as np
import pytest

import tenths
from tenths import metric

pytestmark = [
    pytest.mark.libraries,
    # Dask's own, on its way to newer versions of what it uses.
    pytest.mark.filterwarnings("ignore::DeprecationWarning"),
]
DOCUMENT = pathlib.Path(__file__).parent.parent.parent / "docs" / "distributed.md"
WHOLE = dict(n=300_000, seed=5, limits=(9.8, 10.3))
HUB = dict(hub_modulus=210, hub_poisson=0.3, shaft_modulus=210, shaft_poisson=0.3, friction=0.12)


@pytest.fixture(scope="module")
def client():
    from distributed import Client, LocalCluster

    cluster = LocalCluster(n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None)
    with cluster, Client(cluster) as client:
        client.wait_for_workers(2)
        yield client


def stack():
    stack = metric.Stack().add("a", 10, 0.3, -0.1).add("b", "5 ±0.2 mm", sensitivity=-1, distribution="triangular")
    return stack.add("c", "25 H7", sensitivity=0.2).correlate("a", "c", 0.3)


def draw(model, portion):
    return os.getpid(), model.sample_blocks(*portion, **WHOLE)


def sample_of(client, model):
    """A sample of blocks from every worker in turn."""
    workers = list(client.scheduler_info()["workers"])
    assert len(workers) == 2
    drawn = [
        client.submit(draw, model, portion, workers=workers[k % 2], pure=False)
        for k, portion in enumerate(tenths.split_blocks(WHOLE["n"], 7))
    ]
    pids, blocks = zip(*client.gather(drawn))
    assert len(set(pids)) == 2 and os.getpid() not in pids
    return tenths.fold_blocks(reversed(blocks))


def test_a_stack(client):
    sample, expected = sample_of(client, stack()), stack().sample(**WHOLE, threads=1)
    assert sample == expected and sample.values.tobytes() == expected.values.tobytes()
    # The comparison can tell two samples apart.
    assert sample != stack().sample(**{**WHOLE, "seed": 6})


def test_a_formula(client):
    pressure = metric.press_fit.propagate(
        output="pressure", interference="0.03 ±0.01 mm", diameter=20, hub_outer_diameter=40, length=20, **HUB
    )
    assert sample_of(client, pressure) == pressure.sample(**WHOLE)


def test_a_function(client):
    ratio = metric.propagate(functools.partial(np.power, 1.5), {"x": (2, 0.5, -0.5, "uniform")})
    assert sample_of(client, ratio) == ratio.sample(**WHOLE)
    # One that no module has: its code is sent.
    by_code = metric.propagate(lambda x: x * 2, {"x": (2, 0.5, -0.5, "uniform")})
    assert sample_of(client, by_code) == by_code.sample(**WHOLE)


def test_an_exception_of_a_worker(client):
    drawn = client.submit(stack().sample_blocks, 100, 1, **WHOLE)
    with pytest.raises(tenths.DomainError, match="the sample has 19"):
        drawn.result()


def test_formulas_over_arrays(client):
    import dask.array as array

    diameters = np.linspace(1.0, 20.0, 1000)
    lazy = array.from_array(diameters, chunks=100)
    made = metric.surface_speed(lazy, 1000)
    assert made.chunks == lazy.chunks
    np.testing.assert_array_equal(client.compute(made).result(), metric.surface_speed(diameters, 1000))
    torque = metric.press_fit(lazy / 1000, 20, 40, 20, **HUB).torque
    expected = metric.press_fit(diameters / 1000, 20, 40, 20, **HUB).torque
    np.testing.assert_array_equal(client.compute(torque).result(), expected)


def test_formulas_over_arrays_within_xarray(client):
    import xarray as xr

    lazy = xr.DataArray(np.arange(1.0, 7.0), dims="part").chunk(2)
    made = metric.surface_speed(lazy, 1000)
    assert client.compute(made).result().values.tolist() == metric.surface_speed(np.arange(1.0, 7.0), 1000).tolist()


def test_formulas_over_columns(client):
    import dask.dataframe as dataframe
    import pandas as pd

    frame = pd.DataFrame({"d": [1.0, 2.0, 10.0], "n": [1000, 500, 100], "t": ["1 mm", None, "10 mm"]}, index=[3, 5, 7])
    lazy = dataframe.from_pandas(frame, npartitions=2)
    both = metric.surface_speed(lazy.d, lazy.n)
    assert isinstance(both, dataframe.Series) and both.npartitions == 2
    pd.testing.assert_series_equal(client.compute(both).result(), metric.surface_speed(frame.d, frame.n))
    one = metric.surface_speed(lazy.d, 1000)
    pd.testing.assert_series_equal(client.compute(one).result(), metric.surface_speed(frame.d, 1000))
    texts = metric.surface_speed(lazy.t, lazy.n)
    pd.testing.assert_series_equal(client.compute(texts).result(), metric.surface_speed(frame.t, frame.n))
    fits, expected = (metric.press_fit(column / 100, 20, 40, 20, **HUB) for column in (lazy.d, frame.d))
    for made, wanted in zip(client.gather(client.compute(list(fits))), expected):
        pd.testing.assert_series_equal(made, wanted)
    inches = tenths.inch.surface_speed(lazy.d, 1000)
    assert client.compute(inches).result()[3] == tenths.inch.surface_speed(1.0, 1000)
    with pytest.raises(tenths.DomainError, match="row 1: .*diameter"):
        metric.surface_speed(lazy.d - 2, 1000, on_error="raise")


def test_the_program_of_the_document(tmp_path):
    program = DOCUMENT.read_text(encoding="utf-8").partition("```python\n")[2].partition("```")[0]
    assert "LocalCluster" in program
    (tmp_path / "program.py").write_text(program, encoding="utf-8")
    run = subprocess.run(
        [sys.executable, str(tmp_path / "program.py")], capture_output=True, text=True, timeout=120, cwd=tmp_path
    )
    assert run.returncode == 0, run.stderr
    first, second = run.stdout.splitlines()
    assert first.startswith("<sample of 1000000: mean 0.3")
    assert second == "as in one process: True"


FILES, ROWS = 24, 20_000
ARGUMENTS = ("cutter_diameter", "teeth", "spindle_speed", "chip_load", "radial_width", "axial_depth", "kc11", "mc")


def cuts(seed):
    """A table of cuts whose rows lie between one that is refused and one that overflows."""
    import pandas as pd

    rng = np.random.default_rng(seed)
    diameter = rng.uniform(4, 80, ROWS)
    diameter[7] = -1.0
    others = rng.uniform(200, 12000, ROWS), rng.uniform(0.02, 0.4, ROWS), diameter * rng.uniform(0.02, 1, ROWS)
    axial, kc11, mc = rng.uniform(0.1, 20, ROWS), rng.uniform(600, 2800, ROWS), rng.uniform(0.14, 0.36, ROWS)
    return pd.DataFrame(dict(zip(ARGUMENTS, (diameter, rng.integers(2, 9, ROWS), *others, axial, kc11, mc))))


def most_held():
    """The most memory that this process has held so far, in bytes."""
    import resource

    return 1024 * resource.getrusage(resource.RUSAGE_SELF).ru_maxrss


@pytest.mark.filterwarnings("ignore:.*rows have no answer:RuntimeWarning")
def test_a_table_from_parquet_to_parquet(client, tmp_path, monkeypatch, capsys):
    import dask.dataframe as dataframe
    import pandas as pd

    monkeypatch.chdir(tmp_path)
    (tmp_path / "cuts").mkdir()
    for k in range(FILES):
        cuts(k).to_parquet(f"cuts/{k:03}.parquet")
    warm = dataframe.read_parquet("cuts").partitions[:2]
    metric.milling_cut.on(warm, efficiency=0.8).to_parquet("warm")
    before = client.run(most_held)
    program = DOCUMENT.read_text(encoding="utf-8").split("```python\n")[2].partition("```")[0]
    exec(program, {})
    after = client.run(most_held)
    # The bits of one process, refused rows included.
    strongest = 0.0
    for k in range(FILES):
        made = pd.read_parquet(f"results/part.{k}.parquet").reset_index(drop=True)
        expected = metric.milling_cut.on(cuts(k), efficiency=0.8)
        assert made.to_numpy().tobytes() == expected.to_numpy().tobytes() and np.isnan(made.motor_power[7])
        strongest = max(strongest, expected.motor_power.max())
    assert capsys.readouterr().out == f"The strongest cut takes {strongest:.1f} kW.\n"
    # No worker has held the table.
    whole = 8 * FILES * ROWS * (len(ARGUMENTS) + len(metric.milling_cut.outputs))
    assert max(after[worker] - before[worker] for worker in after) < whole / 2
