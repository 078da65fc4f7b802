"""A table of cuts from Parquet to Parquet through `dask.dataframe` on two worker processes, which never hold it whole.

    python benches/parquet.py [--rows=1e8]

Beside it stand numpy in the same pipeline, and one process that goes from file to file. Both ways of this library give the
same bits, which is checked.
"""

import pathlib
import resource
import sys
import tempfile

from timing import compare, heading, note, power, size, wall

import dask.dataframe as dataframe
import numpy as np
import pandas as pd
from dask.distributed import Client, LocalCluster
from tables import milling_without_angles

from tenths import metric

ROWS = next((int(float(word[7:])) for word in sys.argv if word.startswith("--rows=")), size(4_000_000, 20_000))
FILES = max(4, ROWS // 500_000)
COLUMNS = ("cutter_diameter", "teeth", "spindle_speed", "chip_load", "radial_width", "axial_depth", "kc11", "mc", "efficiency")


def write(folder):
    folder.mkdir()
    for k in range(FILES):
        rng, rows = np.random.default_rng(k), ROWS // FILES
        diameter = rng.uniform(4, 80, rows)
        speed, width = rng.uniform(200, 12000, rows), diameter * rng.uniform(0.02, 1, rows)
        values = diameter, 4.0, speed, 0.1, width, rng.uniform(0.1, 20, rows), 1700.0, 0.25, 0.8
        pd.DataFrame(dict(zip(COLUMNS, values))).to_parquet(folder / f"{k:05}.parquet")


def by_numpy(frame):
    results = milling_without_angles(*(frame[name] for name in COLUMNS))
    return pd.DataFrame(dict(zip(metric.milling_cut.outputs, results)))


def in_one_process(source, to):
    to.mkdir(exist_ok=True)
    for file in sorted(source.glob("*.parquet")):
        metric.milling_cut.on(pd.read_parquet(file)).to_parquet(to / file.name)


def peaks(client):
    """The most that each worker has held so far, in MB."""
    most = client.run(lambda: resource.getrusage(resource.RUSAGE_SELF).ru_maxrss)
    return [held / 1024 for held in most.values()]


def main():
    with tempfile.TemporaryDirectory() as folder:
        source, made, alone = (pathlib.Path(folder) / name for name in ("cuts", "made", "alone"))
        write(source)
        with LocalCluster(n_workers=2, threads_per_worker=1, dashboard_address=None) as cluster, Client(cluster) as client:
            run(client, source, made, alone)


def run(client, source, made, alone):
    table = dataframe.read_parquet(source)
    table.partitions[:2].map_partitions(by_numpy).to_parquet(made)  # so that all is imported
    before = peaks(client)
    ways = {
        "tenths": lambda: metric.milling_cut.on(table).to_parquet(made, overwrite=True),
        "tenths in one process, file by file": lambda: in_one_process(source, alone),
        "plain numpy": lambda: table.map_partitions(by_numpy).to_parquet(made, overwrite=True),
    }
    ways["tenths"]()
    grown = max(after - earlier for after, earlier in zip(peaks(client), before))
    in_one_process(source, alone)
    for k, file in enumerate(sorted(alone.glob("*.parquet"))):
        assert pd.read_parquet(made / f"part.{k}.parquet").reset_index(drop=True).equals(pd.read_parquet(file)), file
    work = f"`milling_cut` of {power(ROWS)} rows from Parquet to Parquet, Dask with two workers"
    compare(work, ways, repeats=2 if ROWS < 10_000_000 else 1, clock=wall)
    whole = 8 * ROWS * (len(COLUMNS) + len(metric.milling_cut.outputs)) / 1e6
    note(f"Of {power(ROWS)} rows: the table and its results are {whole:.0f} MB; a worker grew by {grown:.0f} MB at most while it made them.")


if __name__ == "__main__":
    heading("Tables")
    main()
