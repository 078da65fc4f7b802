"""Long work: a signal stops it within half a second, and `progress=` tells how far it is."""

import gc
import itertools
import random
import signal
import sys
import threading
import time
from pathlib import Path

import numpy as np
import pytest

import tenths
from tenths import _progress, metric

PLAN = Path(__file__).parents[2] / "examples" / "plans" / "roller_axle.json"
MANY = 2**34


def stack():
    made = metric.Stack()
    return made.add("length", "20 ±0.1 mm").add("groove", "5 +0.05/-0 mm", sensitivity=-1)


def formula():
    return metric.surface_speed.propagate(diameter=(50.0, 0.1, -0.1), spindle_speed=(1000.0, 10.0, -10.0))


def loop():
    made = metric.VectorLoop().unknown("x", 50.0).unknown("phi", 60.0)
    made.link("x", 0).link("a", 90).link("b", "180 + phi")
    return made.propagate("x", {"a": (30.0, 0.1, -0.1), "b": (60.0, 0.1, -0.1)})


def function():
    return metric.propagate(lambda a, b: a * b, {"a": (3.0, 0.1, -0.1), "b": (7.0, 0.1, -0.1)})


def plan():
    return tenths.Plan.from_json(PLAN.read_text("utf-8"))


VARYING = {"/bar/bar_length": "3000 ±10 mm"}
TURN = metric.turning_cut_for_target
CUT = {
    "choose": {"surface_speed": (10, 500), "feed_per_revolution": (0.05, 0.5)}, "minimise": "cost", "workpiece_diameter": 80, "travel": 250,
    "nose_radius": 1.2, "kc11": 1700, "mc": 0.25, "rates": {"hourly_rate": 60, "edge_cost": 2},
}  # fmt: skip
LIFE = {"taylor_c": 300, "taylor_n": 0.25}
TRIALS = metric.fit_taylor([100, 150, 200, 250], [60, 21, 10, 5.5])
ESTIMATES = {"diameter": tenths.Estimate(50, 0.1), "spindle_speed": (800, 5, -5)}


def cuts(rows, **given):
    return metric.best_cuts(TURN, [{"depth": 1 + k / rows} for k in range(rows)], tool_life=LIFE, **CUT, **given)


def spread(samples, **given):
    return metric.best_cut_spread(TURN, depth=2, tool_life=TRIALS, samples=samples, **CUT, **given)


def passes(step, **given):
    return metric.best_passes(TURN, 4, rough={}, rough_depths=(step, 3), step=step, tool_life=LIFE, **CUT, **given)


def pieces(kinds):
    """Wanted pieces whose best plan takes minutes to prove, where there are many kinds."""
    draw = random.Random(1)
    return [(draw.randint(1000, 59000) / 10, draw.randint(1, 10)) for _ in range(kinds)]


def bars(kinds, **given):
    return tenths.cutting_plan(pieces(kinds), [6000], 2, units="mm", time_limit=None, **given)


def shared_bars(kinds, **given):
    orders = {"A": pieces(kinds), "B": pieces(kinds)}
    return tenths.shared_cutting_plan(orders, [6000], 2, units="mm", time_limit=None, **given)


def budget(samples, **given):
    return tenths.uncertainty_budget(metric.surface_speed, ESTIMATES, samples=samples, **given)


def batch(rows, row):
    return [np.broadcast_to(np.float64(number), rows) for number in row]


@pytest.fixture
def interrupts():
    """Starts a timer that sends SIGINT, and tells when it did."""
    assert threading.current_thread() is threading.main_thread()
    before, sent = signal.signal(signal.SIGINT, signal.default_int_handler), []
    # What a signal raises while Python collects garbage is lost, for some of it has callbacks in Python.
    gc.collect()
    gc.disable()

    def send():
        sent.append(time.perf_counter())
        signal.raise_signal(signal.SIGINT)

    timer = threading.Timer(0.2, send)
    yield lambda: timer.start() or sent
    timer.cancel()
    signal.signal(signal.SIGINT, before)
    gc.enable()


WORK = {
    "sample": lambda: stack().sample(MANY, 1),
    "one thread": lambda: stack().sample(MANY, 1, threads=1),
    "blocks": lambda: stack().sample_blocks(0, MANY // 16384, n=MANY, seed=1),
    "formula": lambda: formula().sample(MANY, 1),
    "formula blocks": lambda: formula().sample_blocks(0, MANY // 16384, n=MANY, seed=1),
    "loop": lambda: loop().sample(MANY, 1),
    "function": lambda: function().sample(MANY, 1),
    "plan": lambda: plan().propagate(VARYING, 1_000_000),
    "plan on threads": lambda: plan().propagate(VARYING, 1_000_000, threads=None),
    "price range": lambda: plan().price_range(25, VARYING, 1_000_000),
    "budget": lambda: budget(2**24),
    "best cuts": lambda: cuts(100_000),
    "best cut spread": lambda: spread(40_000),
    "best cut spread on threads": lambda: spread(40_000, threads=2),
    "best passes": lambda: passes(0.01),
    "cutting plan": lambda: bars(1000),
    "shared cutting plan": lambda: shared_bars(500),
}


@pytest.mark.parametrize("name", WORK)
def test_a_signal_stops_long_work(name, interrupts):
    sent = interrupts()
    with pytest.raises(KeyboardInterrupt):
        WORK[name]()
    assert time.perf_counter() - sent[0] < 0.5


# All rows share one place of memory, so that there may be more of them than memory holds.
LOOPS = {
    "a call": lambda rows, out: metric.tool_life(*batch(rows // 100, (100.0, 300.0, 0.25))),
    "a call on threads": lambda rows, out: metric.tool_life(*batch(rows // 100, (100.0, 300.0, 0.25)), threads=2),
    "a formula": lambda rows, out: metric.surface_speed.ufunc(*batch(rows, (50.0, 1000.0)), out=out),
    # numpy turns these into floats, a few thousand at a time, and does so to the end: some half a second for 10^9.
    "whole numbers": lambda rows, out: metric.tool_life.ufunc(
        np.broadcast_to(100, rows // 100), 300, 0.25, out=out[: rows // 100]
    ),
    "a judgement": lambda rows, out: metric.surface_speed._judge()(
        *batch(rows, (50.0, 1000.0)), out=(shared(rows, bool), shared(rows, np.uint32))
    ),
}


def shared(rows, dtype=np.float64):
    return np.lib.stride_tricks.as_strided(np.zeros(1, dtype), (rows,), (0,))


@pytest.mark.parametrize("name", LOOPS)
def test_a_signal_stops_a_batch(name, interrupts):
    sent = interrupts()
    after = []
    with pytest.raises(KeyboardInterrupt):
        LOOPS[name](10**10, shared(10**10))
        after.append("a statement that follows")
    assert time.perf_counter() - sent[0] < 0.5
    assert after == []
    # The next calls are as any others.
    assert metric.surface_speed.check(np.linspace(-1.0, 1.0, 5000), 1000.0).refused.sum() == 2500
    assert metric.surface_speed(np.full(5000, 10.0), 1000.0).tolist() == [metric.surface_speed(10.0, 1000.0)] * 5000


def test_other_signals_do_not_stop_a_batch(interrupts):
    met = []
    signal.signal(signal.SIGINT, lambda *_: met.append(1))
    sent = interrupts()
    while not met:
        made = metric.surface_speed(np.full(500_000, 10.0), 1000.0)
        assert (made == metric.surface_speed(10.0, 1000.0)).all()
    assert sent


REPORTING = {
    "sample": lambda progress: stack().sample(200_000, 1, progress=progress),
    "blocks": lambda progress: stack().sample_blocks(0, 3, n=200_000, seed=1, progress=progress),
    "formula": lambda progress: formula().sample(200_000, 1, progress=progress),
    "formula blocks": lambda progress: formula().sample_blocks(1, 2, n=200_000, seed=1, progress=progress),
    "loop": lambda progress: loop().sample(5000, 1, progress=progress),
    "function": lambda progress: function().sample(200_000, 1, progress=progress),
    "plan": lambda progress: plan().propagate(VARYING, 5, progress=progress),
    "price range": lambda progress: plan().price_range(25, VARYING, 5, progress=progress),
    "budget": lambda progress: budget(1000, progress=progress),
    "best cuts": lambda progress: list(cuts(5, progress=progress)),
    "best cut spread": lambda progress: spread(5, progress=progress),
    "best passes": lambda progress: passes(1, progress=progress),
    "cutting plan": lambda progress: bars(3, progress=progress),
    "shared cutting plan": lambda progress: shared_bars(2, progress=progress),
    "percentile error": lambda progress: stack().sample(50_000, 1).percentile_error(np.arange(100.0), progress=progress).tolist(),
    "percentile": lambda progress: stack().sample(50_000, 1).percentile(np.arange(100.0), progress=progress).tolist(),
}


@pytest.mark.parametrize("name", REPORTING)
def test_progress_is_told_to_a_function(name):
    told = []
    made = REPORTING[name](told.append)
    assert made == REPORTING[name](None) == REPORTING[name](False)
    assert told[-1] == 1.0
    assert all(a <= b for a, b in itertools.pairwise(told))


def test_progress_rises_in_long_work():
    def slowly(a, b):
        time.sleep(0.06)
        return a * b

    told = []
    inputs = {"a": (3.0, 0.1, -0.1), "b": (7.0, 0.1, -0.1)}
    metric.propagate(slowly, inputs).sample(4 * 16384, 1, progress=told.append)
    assert told == [0.25, 0.5, 0.75, 1.0]


@pytest.mark.parametrize("name", REPORTING)
def test_what_progress_raises_stops_the_work(name):
    def full(fraction):
        raise RuntimeError(f"enough at {fraction}")

    with pytest.raises(RuntimeError, match="enough at"):
        REPORTING[name](full)


def test_progress_is_a_function_or_a_flag():
    with pytest.raises(TypeError, match="progress must be True, False or a function of the fraction that is done, not 5"):
        stack().sample(10, 1, progress=5)


@pytest.mark.parametrize("name", REPORTING)
def test_a_bar_is_shown_on_request(name, capsys, monkeypatch):
    monkeypatch.setitem(sys.modules, "tqdm.auto", None)
    REPORTING[name](True)
    assert capsys.readouterr().err.endswith("\r100 %\n")


def test_a_line_on_stderr_shows_progress(capsys, monkeypatch):
    monkeypatch.setitem(sys.modules, "tqdm", None)
    monkeypatch.setitem(sys.modules, "tqdm.auto", None)
    stack().sample(10, 1, progress=True)
    assert capsys.readouterr().err == "\r100 %\n"
    line = _progress.bar()
    for fraction in (0.0, 0.001, 0.5, 0.5, 1.0):
        line(fraction)
    line.close()
    assert capsys.readouterr().err == "\r  0 %\r 50 %\r100 %\n"


def test_a_bar_of_tqdm_shows_progress_where_it_is_installed(capsys, monkeypatch):
    shown = []

    class Bar:
        n = 0.0

        def __init__(self, total, bar_format):
            assert total == 1.0
            assert bar_format.startswith("{percentage")

        def update(self, more):
            self.n += more
            shown.append(self.n)

        def close(self):
            shown.append("closed")

    monkeypatch.setitem(sys.modules, "tqdm", type(sys)("tqdm"))
    module = type(sys)("tqdm.auto")
    module.tqdm = Bar
    monkeypatch.setitem(sys.modules, "tqdm.auto", module)
    stack().sample(10, 1, progress=True)
    assert shown == [1.0, "closed"]


def test_others_run_while_work_goes_on():
    """The interpreter is free for another thread of Python's."""
    counted, ended = [], []

    def count():
        while not ended:
            counted.append(1)
            time.sleep(0.001)

    thread = threading.Thread(target=count)
    thread.start()
    stack().sample(5_000_000, 1, threads=1)
    ended.append(1)
    thread.join()
    assert len(counted) > 3


def many_cuts(rows=150_000):
    draw = np.random.default_rng(3)
    diameter = draw.uniform(4, 80, rows)
    diameter[::1000] = -1.0
    return {
        "cutter_diameter": diameter, "teeth": draw.integers(2, 12, rows), "spindle_speed": draw.uniform(200, 12000, rows),
        "chip_load": draw.uniform(0.02, 0.4, rows), "radial_width": abs(diameter) * draw.uniform(0.02, 1, rows),
        "axial_depth": draw.uniform(0.1, 20, rows), "kc11": 1700.0, "mc": 0.25,
    }  # fmt: skip


@pytest.mark.filterwarnings("ignore:.*:RuntimeWarning")
def test_threads_share_the_rows_of_a_table_to_the_same_bits():
    columns = many_cuts()
    alone = metric.milling_cut(**columns)
    for threads in (1, 2, 3, np.int64(2), None):
        shared = metric.milling_cut(**columns, threads=threads)
        assert all(one.tobytes() == other.tobytes() for one, other in zip(alone, shared, strict=True))
    assert np.isnan(alone.torque[::1000]).all() and np.isfinite(alone.torque[1:1000]).all()
    with pytest.raises(tenths.DomainError, match="row 0: "):
        metric.milling_cut(**columns, threads=2, on_error="raise")
    assert metric.surface_speed(50, 1000, threads=2) == metric.surface_speed(50, 1000)
    # An argument of this name is the argument, here of a screw.
    assert metric.thread_pitch(threads=20, length=30) == 1.5
    for wrong in (0, -1, 1.5, "2", True):
        with pytest.raises(ValueError, match="threads must be a whole number of at least 1, or None, not"):
            metric.surface_speed(50, 1000, threads=wrong)
    with pytest.raises(TypeError, match="multiple values"):
        metric.surface_speed(50, spindle_speed=1000, **{"threads": 1}, diameter=3)


@pytest.mark.libraries
def test_threads_share_the_rows_of_a_data_frame():
    pandas = pytest.importorskip("pandas")
    table = pandas.DataFrame(many_cuts()).iloc[1:999]
    alone = metric.milling_cut.on(table)
    assert metric.milling_cut.on(table, threads=2).equals(alone) and metric.milling_cut.on(table, threads=None).equals(alone)
    with pytest.raises(ValueError, match="threads must be"):
        metric.milling_cut.on(table, threads=0)
    turns = pandas.DataFrame({"length": [30.0, 40.0]})
    assert metric.thread_pitch.on(turns, threads=20).iloc[:, 0].tolist() == [1.5, 2.0]
