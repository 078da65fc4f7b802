"""Stability of cuts, against laws written out here and against a simulation of the delayed vibration."""

import math
import pickle

import numpy as np
import pytest

import tenths
from tenths import inch, metric

# Its name before numpy 2.
TRAPEZOID = getattr(np, "trapezoid", None) or np.trapz

# The benchmark of T. Insperger and G. Stepan, Int. J. Numerical Methods in Engineering 61 (2004); damping and mass from memory.
FREQUENCY, DAMPING, MASS, TANGENTIAL, RADIAL = 922.0, 0.011, 0.03993, 600.0, 200.0
STIFFNESS = MASS * (2 * math.pi * FREQUENCY) ** 2 / 1000
SLOT, UP, DOWN = (0.0, 180.0), (0.0, 90.0), (90.0, 180.0)


def bench(angles, **given):
    mode = (FREQUENCY, STIFFNESS, DAMPING, 0.0)
    return metric.stability([mode], TANGENTIAL, 2, entry_angle=angles[0], exit_angle=angles[1],
                            radial_force_ratio=RADIAL / TANGENTIAL, **given)  # fmt: skip


def multiplier(depth, speed, angles, steps):
    """The greatest Floquet multiplier of one mode by semi-discretization of the first order, after Insperger and Stepan.

    The state is deflection and speed, and the deflections of the steps before.
    """
    omega = 2 * math.pi * FREQUENCY
    period = 60 / (2 * speed)
    step = period / steps
    fine = 20
    transition = np.eye(steps + 2)
    for k in range(steps):
        # The mean of the directional coefficient over the step, in N/m for a depth in mm.
        time = (k + (np.arange(fine) + 0.5) / fine) * step
        factor = 0.0
        for tooth in range(2):
            angle = np.mod(2 * math.pi * speed / 60 * time + tooth * math.pi, 2 * math.pi)
            inside = (angle >= math.radians(angles[0])) & (angle <= math.radians(angles[1]))
            factor += np.mean(inside * np.sin(angle) * (TANGENTIAL * np.cos(angle) + RADIAL * np.sin(angle)))
        cutting = depth * factor * 1000 / MASS
        system = np.array([[0.0, 1.0], [-(omega**2) - cutting, -2 * DAMPING * omega]])
        values, vectors = np.linalg.eig(system)
        power = ((vectors * np.exp(values * step)) @ np.linalg.inv(vectors)).real
        inverse = np.linalg.inv(system)
        # The delayed deflection runs straight from one end of the step to the other.
        constant = (power - np.eye(2)) @ inverse
        ramp = (inverse @ (constant - step * np.eye(2))) / step
        load = np.array([0.0, cutting])
        moved = power @ transition[:2]
        moved += np.outer((constant - ramp) @ load, transition[steps + 1]) + np.outer(ramp @ load, transition[steps])
        transition = np.vstack([moved, transition[:1], transition[2:-1]])
    return np.abs(np.linalg.eigvals(transition)).max()


def limit(of):
    """What a figure comes to with ever more steps, whose error falls with their square."""
    return (4 * of(64) - of(32)) / 3


def simulated(speed, angles):
    """The depth at which the greatest multiplier is 1."""

    def depth(steps):
        low, high = 0.0, 0.1
        while multiplier(high, speed, angles, steps) < 1:
            low, high = high, high * 1.25
        for _ in range(12):
            middle = 0.5 * (low + high)
            low, high = (middle, high) if multiplier(middle, speed, angles, steps) < 1 else (low, middle)
        return 0.5 * (low + high)

    return limit(depth)


def test_the_simulation_meets_multipliers_of_the_literature():
    # Exact multipliers for a slot at 5000 rev/min, recalled from Y. Ding and others, Int. J. Machine Tools and Manufacture 50
    # (2010), pp. 502-509 (from memory).
    assert limit(lambda steps: multiplier(0.2, 5000, SLOT, steps)) == pytest.approx(0.8192, abs=2e-3)
    assert limit(lambda steps: multiplier(0.7, 5000, SLOT, steps)) == pytest.approx(1.2197, abs=3e-3)


@pytest.mark.parametrize(
    ("angles", "speed", "within"),
    [(SLOT, 5000, 0.12), (SLOT, 10000, 0.07), (SLOT, 14000, 0.05), (UP, 5000, 0.05), (UP, 10000, 0.05), (UP, 14000, 0.05), (DOWN, 5000, 0.12)],
)
def test_milling_agrees_with_a_simulation(angles, speed, within):
    # Where a good part of the cutter is in the work, mean factors are within these shares of the truth.
    assert bench(angles).depth(speed) == pytest.approx(simulated(speed, angles), rel=within)


def test_down_milling_at_high_speed_may_be_half_as_good():
    # The docstring says so: period doubling, which mean factors do not see.
    assert 0.4 < simulated(14000, DOWN) / bench(DOWN).depth(14000) < 0.6


# Residues of the x and y directions of a two-fluted cutter, as used in Y. Altintas, Manufacturing Automation, stability of
# milling (from memory).
RESIDUES = {
    "x": [(452.77, 0.123718, 9.202966e-05 - 0.0001862195j), (1448.53, 0.01651, -4.181562e-05 - 0.0003043618j)],
    "y": [(516.17, 0.0243, -2.3929e-06 - 0.0001721539j), (1407.64, 0.0324, 4.055052e-05 - 0.0003618808j)],
}


def residues(direction, frequency):
    """Compliance in mm/N of modes with complex residues, which were measured in m/N."""
    total = 0
    for natural, damping, residue in RESIDUES[direction]:
        omega = 2 * math.pi * natural
        pole = -damping * omega + 1j * omega * math.sqrt(1 - damping**2)
        total = total + residue / (2j * math.pi * frequency - pole) + np.conj(residue) / (2j * math.pi * frequency - np.conj(pole))
    return 1000 * total


@pytest.mark.libraries
@pytest.mark.parametrize(
    ("exit_angle", "critical", "limits"),
    [
        (90, 2.70979469289, [2.71983743472, 2.85804990717, 6.90653814009]),
        (180, 0.887992699612, [1.25882777336, 0.899691780469, 2.82271137798]),
    ],
)
def test_a_measured_response_in_two_directions(exit_angle, critical, limits):
    # Depths at 6000, 9500 and 14000 rev/min by the zeroth-order law on a grid of frequencies, computed apart from this code.
    frequency = np.arange(100, 4000, 0.5)
    x, y = residues("x", frequency), residues("y", frequency)
    stability = metric.stability_from_response(
        frequency, x.real, x.imag, y.real, y.imag, specific_cutting_force=796, teeth=2, entry_angle=0, exit_angle=exit_angle,
        radial_force_ratio=0.212,
    )  # fmt: skip
    assert stability.critical_depth == pytest.approx(critical, rel=2e-3)
    assert stability.depth([6000, 9500, 14000]) == pytest.approx(limits, rel=2e-3)
    assert pickle.loads(pickle.dumps(stability)) == stability
    frame = stability.lobes(4000, 15000).to_frame()
    assert list(frame.columns) == ["lobe", "spindle_speed", "depth", "frequency"] and len(frame) > 1000


def closed_loop(modes, force, speed, angles, ratio, teeth, depth):
    """The least of the determinant of the loop over frequencies: zero where the cut vibrates at this depth."""
    a, b = np.radians(angles)

    def mean(of):
        angle = np.linspace(a, b, 20001)
        return TRAPEZOID(of(np.sin(angle), np.cos(angle)), angle)

    factors = np.array(
        [
            [mean(lambda s, c: -2 * s * (c + ratio * s)), mean(lambda s, c: -2 * c * (c + ratio * s))],
            [mean(lambda s, c: 2 * s * (s - ratio * c)), mean(lambda s, c: 2 * c * (s - ratio * c))],
        ]
    )
    factors = factors * 0.5
    frequency = np.linspace(300, 3000, 100001)
    matrix = np.zeros((len(frequency), 2, 2), complex)
    for natural, stiffness, damping, direction in modes:
        r = frequency / natural
        response = 1 / (stiffness * (1 - r**2 + 2j * damping * r))
        u = np.array([math.cos(math.radians(direction)), math.sin(math.radians(direction))])
        matrix += response[:, None, None] * np.outer(u, u)
    wave = 1 - np.exp(-2j * math.pi * frequency * 60 / (teeth * speed))
    loop = np.eye(2) - (teeth * depth * force / (2 * math.pi)) * wave[:, None, None] * (factors @ matrix)
    return np.abs(np.linalg.det(loop)).min()


def test_directions_close_the_loop():
    # The loop written out with factors integrated by numpy: 1 - N a K/(2 pi) (1 - exp(-i w T)) A G has no inverse at the limit.
    modes = [(800.0, 20000.0, 0.03, 25.0), (1300.0, 30000.0, 0.02, 140.0)]
    stability = metric.stability(modes, 800, 3, entry_angle=20, exit_angle=120, radial_force_ratio=0.4)
    for speed in (7000, 11000, 16000):
        depth = stability.depth(speed)
        at = closed_loop(modes, 800, speed, (20, 120), 0.4, 3, depth)
        assert at < 2e-3
        assert closed_loop(modes, 800, speed, (20, 120), 0.4, 3, 0.9 * depth) > 20 * at


def test_units_and_forms_of_the_arguments():
    one = metric.stability([(500, 10000, 0.05)], 2000)
    assert one.critical_depth == pytest.approx(0.525)
    other = inch.stability([("0.5 kHz", "10 N/µm", "5 %")], "2000 MPa")
    assert other.critical_depth * 25.4 == pytest.approx(0.525) and other.units == "inch"
    assert metric.stability((500, 10000, 0.05), 2000) == one
    assert "mm" in str(one) and " in," in str(other)
    depths = one.depth(np.array([[10000.0, 15000.0], [np.nan, 3000.0]]))
    assert depths.shape == (2, 2) and np.isnan(depths[1, 0]) and depths[0, 0] == one.depth("10000 rpm")
    force = metric.stability([(500, 10000, 0.05)], 2000, force_angle=60)
    assert force.critical_depth == pytest.approx(1.05)  # By hand: the cosine of 60° halves what bends the tool.
    slot = metric.stability([(922, STIFFNESS, 0.011)], 600, 2, radial_width=10, cutter_diameter=10)
    assert (slot.entry_angle, slot.exit_angle, slot.radial_force_ratio) == (0, 180, 0.3)


def test_an_estimated_tool_says_so():
    tool = metric.tool_mode(10, 40, modulus=600, density=14.5)
    assert tool.estimated and tool.frequency == pytest.approx(metric.cantilever_mode(10, 40, 600, 14.5).frequency)
    stability = metric.stability([tool], 800, 4, radial_width=1, cutter_diameter=10, milling="down")
    assert stability.estimated and "by estimated modes" in str(stability) and "modes estimated" in stability.to_svg()
    with pytest.raises(tenths.DomainError, match="overhang"):
        metric.tool_mode(10, 0, modulus=600, density=14.5)


REFUSED = [
    (lambda: metric.stability([], 2000), "give at least one"),
    (lambda: metric.stability([(500, 10000)], 2000), "natural frequency, stiffness, damping ratio"),
    (lambda: metric.stability("modes", 2000), "must be a list of modes"),
    (lambda: inch.stability([(500, 0, 0.05)], 2000), "stiffness must be greater than 0, not 0 lbf/in"),
    (lambda: metric.stability([(500, 10000, -0.01)], 2000), "damping ratio must be between 0 and 1, not -0.01"),
    (lambda: metric.stability([("500 mm", 10000, 0.05)], 2000), "expected Hz or kHz"),
    (lambda: metric.stability([(500, 10000, 0.05)], 2000, 2.5), "teeth must be a whole number, zero or more, not 2.5"),
    (lambda: metric.stability([(500, 10000, 0.05)], 2000, 0), "teeth must be from 1"),
    (lambda: metric.stability([(500, 10000, 0.05)], 2000, 4), "4 teeth need an engagement"),
    (lambda: metric.stability([(500, 10000, 0.05)], 2000, 4, radial_width=1), "go together"),
    (lambda: metric.stability([(500, 10000, 0.05)], 2000, 4, radial_width=1, cutter_diameter=10), "milling='up' or"),
    (lambda: metric.stability([(500, 10000, 0.05)], 2000, 4, radial_width=11, cutter_diameter=10, milling="up"), "not 11 mm"),
    (lambda: metric.stability([(500, 10000, 0.05)], 2000, 4, radial_width=1, cutter_diameter=10, milling="climb"), "`up` or `down`"),
    (lambda: metric.stability([(500, 10000, 0.05)], 2000, radial_force_ratio=0.3), "goes with milling"),
    (lambda: metric.stability([(500, 10000, 0.05)], 2000, force_angle=90), "force_angle must be between"),
    (lambda: metric.stability([(500, 10000, 0.05)], 0), "specific_cutting_force must be greater than 0, not 0 MPa"),
    (lambda: metric.stability([(500, 10000, 0.05)], 2000).depth(0), "spindle_speed must be greater than 0, not 0 rev/min"),
    (lambda: metric.stability([(500, 10000, 0.05)], 2000).lobes(5000, 4000), "not 5000 to 4000 rev/min"),
    (lambda: metric.stability([(500, 10000, 0.05)], 2000).nearest_stable_speed(0, 5000), "depth must be greater than 0, not 0 mm"),
    (
        lambda: metric.stability([(500, 10000, 0.05)], 2000).nearest_stable_speed(50, 5000, 4000, 6000),
        "no spindle speed from 4000 to 6000 rev/min is stable",
    ),
]


@pytest.mark.parametrize("case", range(len(REFUSED)))
def test_what_cannot_be_is_refused(case):
    call, text = REFUSED[case]
    with pytest.raises((TypeError, ValueError)) as told:
        call()
    assert text in str(told.value)


def test_a_response_with_faults_is_refused():
    frequency = np.arange(100.0, 1000.0)
    r = frequency / 500
    response = 1 / (10000 * (1 - r**2 + 0.1j * r))

    def told(frequency=frequency, real=response.real, imaginary=response.imag, **given):
        with pytest.raises((TypeError, ValueError)) as refused:
            metric.stability_from_response(frequency, real, imaginary, specific_cutting_force=2000, **given)
        return str(refused.value)

    broken = response.real.copy()
    broken[7] = np.nan
    assert "row 7: real must be finite, not NaN" in told(real=broken)
    assert "row 1: frequency 998 Hz is not above the 999 Hz" in told(frequency=frequency[::-1])
    hole = np.r_[0:200, 300:900]
    assert "a hole between 299 Hz and 400 Hz" in told(frequency[hole], response.real[hole], response.imag[hole])
    assert "imaginary is above zero where it is greatest" in told(imaginary=-response.imag)
    assert "real must have as many values" in told(real=response.real[1:])
    assert "go together" in told(real_across=response.real)
    assert "leave out the one across" in told(real_across=response.real, imaginary_across=response.imag)
    assert "at least 3 points" in told(frequency[:2], response.real[:2], response.imag[:2])
