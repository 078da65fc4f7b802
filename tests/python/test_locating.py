"""Locators: tests/published/locating.csv, numpy's ranks and scipy's linear programmes, and what is refused."""

import pathlib
import pickle

import numpy
import pytest

import tenths

FILE = pathlib.Path(__file__).parent.parent / "published" / "locating.csv"
LINES = [line.split(";") for line in FILE.read_text(encoding="utf-8").splitlines() if not line.startswith("# ")]
RESTS = tenths.plane_contact((0, 0, 0), (100, 0, 0), (50, 80, 0))
SIDE = tenths.line_contact((20, 0, 10), (80, 0, 10), "y")
STOP = [((0, 40, 10), (1, 0, 0))]
BLOCK = RESTS + SIDE + STOP
CLAMPS = [((50, 30, 20), "-z"), ((50, 60, 10), "-y"), ((100, 40, 10), "-x")]


def _parts(text):
    return [[float(one) for one in part.split(" ")] for part in text.split("|") if part]


def test_published_sets():
    assert len(LINES) >= 7
    for locators, held, free, _seen, _source in LINES:
        rows = _parts(locators)
        made = tenths.locating([(row[:3], row[3:]) for row in rows])
        assert made.held == int(held) and made.redundant == len(rows) - made.held
        assert len(made.free) == len(_parts(free)) == 6 - made.held
        for wanted, motion in zip(_parts(free), made.free, strict=True):
            assert (*motion.translation, *motion.rotation) == pytest.approx(wanted, abs=1e-6)


def test_a_set_says_what_it_leaves():
    made = tenths.locating(BLOCK)
    assert (made.held, made.redundant, list(made.free), made.seats) == (6, 0, [], None)
    assert repr(made) == "<located>"
    table = tenths.locating(RESTS, units="in")
    assert [motion.words for motion in table.free] == ["slides along x", "slides along y", "turns about any axis along z"]
    assert table.free[2].through is None and table.free[0].kind == "slide"
    vee = tenths.locating(tenths.vee_block((0, 0, 30), (60, 0, 30), "z", 40))
    assert vee.free[1].words == "turns about the axis through (0, 0, 30) mm along x"
    pins = tenths.two_pins((0, 0, 0), (60, 80, 0))
    assert tenths.locating(RESTS + pins).held == 6
    position, normal = pins[2]
    assert position == (60, 80, 0) and normal == pytest.approx((-0.8, 0.6, 0))
    assert pickle.loads(pickle.dumps(made)) == made and len(made.to_dict()["locators"]) == 6
    assert tenths.locating([]).held == 0 and len(tenths.locating([]).free) == 6


def test_positions_as_a_shop_writes_them():
    made = tenths.locating([(("1 in", tenths.Size("25.4 mm"), 0), (0, 0, 5))], units="mm")
    assert made.locators[0].position == pytest.approx((25.4, 25.4, 0)) and made.locators[0].normal == (0, 0, 1)
    rows = numpy.array([position for position, _ in BLOCK], dtype="f4")
    assert tenths.locating([(row, normal) for row, (_, normal) in zip(rows, BLOCK, strict=True)]).held == 6
    assert tenths.locating(BLOCK[::-1]).held == 6


def _matrix(locators, scale=1.0):
    rows = []
    for position, normal in locators:
        normal = numpy.array(normal, dtype=float) / numpy.linalg.norm(normal)
        rows.append([*normal, *(numpy.cross(position, normal) / scale)])
    return numpy.array(rows)


def test_ranks_are_numpys():
    random = numpy.random.default_rng(5)
    for _ in range(300):
        count = random.integers(1, 9)
        positions, normals = random.integers(-4, 5, (count, 3)), random.integers(-1, 2, (count, 3))
        locators = [(p, n) for p, n in zip(positions, normals, strict=True) if n.any()]
        if locators:
            assert tenths.locating(locators).held == numpy.linalg.matrix_rank(_matrix(locators))


def test_shifts_are_numpys():
    random = numpy.random.default_rng(6)
    for _ in range(100):
        locators = [(random.normal(size=3) * 50, random.normal(size=3)) for _ in range(6)]
        errors, at = random.normal(size=6) * 0.01, random.normal(size=3) * 80
        motion = numpy.linalg.solve(_matrix(locators), errors)
        wanted = motion[:3] + numpy.cross(motion[3:], at)
        made = tenths.locating(locators)
        assert made.shift(errors, at) == pytest.approx(wanted, rel=1e-7, abs=1e-9)
        assert numpy.dot(made.sensitivities(at, "y"), errors) == pytest.approx(wanted[1], rel=1e-7, abs=1e-9)


@pytest.mark.libraries
def test_balances_are_scipys():
    """Whether there is a balance that presses on every locator, by another programme for the same question."""
    from scipy.optimize import linprog

    random = numpy.random.default_rng(7)
    answers = set()
    for trial in range(60):
        friction = [0.0, 0.15, 0.4][trial % 3]
        locators = [(random.normal(size=3) * 50, random.normal(size=3)) for _ in range(random.integers(3, 8))]
        if trial % 2:
            locators = [(position, normal) for position, normal in BLOCK]
        clamps = [(random.normal(size=3) * 40, random.normal(size=3), random.uniform(1, 9)) for _ in range(3)]
        if trial % 4 == 1:
            clamps = [(p, n, f) for (p, n), f in zip(
                [((50, 30, 20), (0, 0, -1)), ((50, 60, 10), (0, -1, 0)), ((100, 40, 10), (-1, 0, 0))], (3, 2, 1), strict=True)]
        columns, own = [], []
        for position, normal in [(p, n) for p, n in locators] + [(p, n) for p, n, _ in clamps]:
            normal = numpy.array(normal, dtype=float) / numpy.linalg.norm(normal)
            other = numpy.eye(3)[numpy.argmin(numpy.abs(normal))]
            side = numpy.cross(other, normal) / numpy.linalg.norm(numpy.cross(other, normal))
            turns = numpy.radians(45 * numpy.arange(8)) if friction else [0.0]
            edges = [normal + friction * (numpy.cos(t) * side + numpy.sin(t) * numpy.cross(normal, side)) for t in turns]
            own.append(range(len(columns), len(columns) + len(edges)))
            columns += [[*edge, *numpy.cross(position, edge)] for edge in edges]
        size = len(columns) + 1
        balance = numpy.c_[numpy.array(columns).T, numpy.zeros(6)]
        clamped = numpy.zeros((len(clamps), size))
        for row, place in enumerate(own[len(locators):]):
            clamped[row, list(place)] = 1
        bound = numpy.zeros((len(locators), size))
        for row, place in enumerate(own[: len(locators)]):
            bound[row, list(place)], bound[row, -1] = -1, 1
        total = sum(force for *_, force in clamps)
        found = linprog(-numpy.eye(size)[-1], bound, numpy.zeros(len(locators)), numpy.r_[balance, clamped],
                        [0] * 6 + [force for *_, force in clamps], [(0, None)] * (size - 1) + [(0, total)])
        made = tenths.locating(locators, clamps, friction=friction)
        assert made.seats == bool(found.success and found.x[-1] > 1e-6 * total), trial
        if made.seats:
            assert min(made.forces) == pytest.approx(found.x[-1], rel=1e-5)
        answers.add((made.seats, friction > 0))
    assert len(answers) == 4


def test_clamps_seat_or_not():
    assert tenths.locating(BLOCK, CLAMPS).seats is True
    assert tenths.locating(BLOCK, CLAMPS[:1]).seats is False
    assert tenths.locating(BLOCK, [((50, 120, 20), "-z"), *CLAMPS[1:]]).seats is False
    forced = tenths.locating(BLOCK, [((50, 30, 20), "-z", 500), ((50, 60, 10), "-y", 200), ((100, 40, 10), "-x", 100)])
    assert sum(forced.forces[:3]) == pytest.approx(500) and forced.forces[5] == pytest.approx(100)
    assert list(tenths.locating(BLOCK, CLAMPS, friction=0.9).loose) != []


def test_sensitivities_are_contributors_to_a_stack():
    made = tenths.locating(BLOCK)
    stack = tenths.metric.Stack()
    for number, share in enumerate(made.sensitivities((50, 40, 30), "z"), 1):
        if abs(share) > 1e-9:
            stack.add(f"locator {number}", 0, 0.01, -0.01, sensitivity=share)
    worst = sum(abs(one) for one in made.sensitivities((50, 40, 30), "z")) * 0.01
    assert stack.worst_case().upper.to_float("mm") == pytest.approx(worst, rel=1e-6)


@pytest.mark.parametrize(
    ("call", "error", "why"),
    [
        (lambda: tenths.locating([((0, 0, 0), (0, 0, 0))]), tenths.DomainError, "the normal of locator 0 must have a direction"),
        (lambda: tenths.locating([((0, float("nan"), 0), "z")]), tenths.DomainError, "finite"),
        (lambda: tenths.locating([((0, 1e300, 0), "z")]), tenths.DomainError, "at most 1e9, not 1e300|too large|1e"),
        (lambda: tenths.locating("abc"), TypeError, "must be a list"),
        (lambda: tenths.locating([(1, 2, 3)]), TypeError, r"a locator must be \(position, normal\)"),
        (lambda: tenths.locating([((0, 0), "z")]), TypeError, "must be x, y and z, not 2 numbers"),
        (lambda: tenths.locating([((0, 0, 0), "up")]), tenths.DomainError, "not 'up'"),
        (lambda: tenths.locating([((0, 0, 0), (True, 0, 0))]), TypeError, "three numbers"),
        (lambda: tenths.locating(BLOCK, units="metre"), tenths.DomainError, "not a system of units"),
        (lambda: tenths.locating(BLOCK, CLAMPS, friction=-1), tenths.DomainError, "friction must be from 0 to 5"),
        (lambda: tenths.locating(BLOCK * 200), tenths.DomainError, "1000"),
        (lambda: tenths.locating(BLOCK * 5, CLAMPS), tenths.DomainError, "at most 24 locators"),
        (lambda: tenths.locating(BLOCK).shift([0] * 5, (0, 0, 0)), tenths.DomainError, "one error for each of the 6"),
        (lambda: tenths.locating(BLOCK[:5]).shift([0] * 5, (0, 0, 0)), tenths.DomainError, "the part slides along x"),
        (lambda: tenths.locating([*BLOCK, BLOCK[0]]).shift([0] * 7, (0, 0, 0)), tenths.DomainError, "7 locators stop 6"),
        (lambda: tenths.plane_contact((0, 0, 0), (1, 0, 0), (2, 0, 0)), tenths.DomainError, "lie on a line"),
        (lambda: tenths.line_contact((0, 0, 0), (0, 0, 0), "z"), tenths.DomainError, "two ends apart"),
        (lambda: tenths.two_pins((0, 0, 0), (0, 0, 9)), tenths.DomainError, "side by side"),
        (lambda: tenths.vee_block((0, 0, 0), (9, 0, 0), "x", 40), tenths.DomainError, "square to the bar"),
        (lambda: tenths.vee_block((0, 0, 0), (9, 0, 0), "z", 40, 180), tenths.DomainError, "between 0 and 180"),
    ],
)
def test_what_cannot_be_judged_is_refused(call, error, why):
    with pytest.raises(error, match=why):
        call()
