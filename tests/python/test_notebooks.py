"""The notebooks on tables, stacks and warm fits, run as a reader runs them, against figures from outside of them."""

import math

import numpy as np
import pytest
from test_examples import run


@pytest.mark.libraries
def test_a_table_of_cuts():
    names, shown = run("cut_table")
    made = names["made"]
    # π · 16 · 2400 / 1000 m/min; 4 · 0.06 · 2400 mm/min; 2.5 · 12 · 576 / 1000 cm³/min.
    side = made.loc["side mill"]
    assert (side.surface_speed, side.feed_rate, side.removal_rate) == pytest.approx((120.6372, 576, 17.28), rel=1e-6)
    # The face by Kienzle: 38 mm of a cutter of 50.8 mm, from one side, turn it by acos(1 - 2 · 38 / 50.8); the mean chip is
    # 2 · 0.12 · 38 / (50.8 · that angle), the specific force 1500 / chip^0.22, and the motor gives 0.8 of its power.
    angle = math.acos(1 - 2 * 38 / 50.8)
    force = 1500 / (2 * 0.12 * 38 / (50.8 * angle)) ** 0.22
    face = made.loc["face"]
    assert face.removal_rate == pytest.approx(38 * 1.5 * 540 / 1000, rel=1e-12)
    assert face.motor_power == pytest.approx(force * face.removal_rate / 60_000 / 0.8, rel=1e-9)
    assert made.loc["slip"].drop("why").isna().all() and "radial_width" in made.why["slip"]
    assert shown["judged"] == (["face"], ["slip"]) and shown["units"] == ("N·m", "kW")
    assert shown["time-of"].loc["slot"].tolist() == [5.0, round(6000 / 288, 2)]


def test_a_stack_to_parts_per_million():
    names, shown = run("stack_study")
    # 33 - 15 - 16.25 - 1.5 and 33.1 - 14.88 - 16.15 - 1.44.
    assert shown["worst-case"][0] == "0.25..0.63 mm"

    def out(mean, sigma):
        """Of a normal law, below 0.31 and above 0.6."""
        return sum(math.erfc(far / sigma / math.sqrt(2)) / 2 for far in (mean - 0.31, 0.6 - mean))

    drawn = names["normal"].fraction_out_at(1 - 1e-6)
    assert drawn.lower < out(0.44, math.sqrt(0.1**2 + 0.12**2 + 0.1**2 + 0.06**2) / 6) < drawn.upper
    bearings, spacers, found = names["bearings"], names["spacers"], names["found"]
    variances = {
        "groove": (0.1 / 6) ** 2,
        "bearing": bearings.var(ddof=1),
        "spacer": spacers.var(),
        "ring": (0.06 / 6) ** 2,
    }
    assert found.mean == pytest.approx(33.05 - bearings.mean() - spacers.mean() - 1.47, abs=5 * found.mean_error)
    assert found.sigma == pytest.approx(math.sqrt(sum(variances.values())), abs=5 * found.sigma_error)
    total = sum(variances.values())
    assert shown["contributions"] == {name: round(100 * part / total, 1) for name, part in variances.items()}
    # Capability of the spacers as a handbook has it: the nearer limit over three sigma of the moving range.
    within = np.abs(np.diff(spacers)).mean() / (2 / math.sqrt(math.pi))
    nearer = min(spacers.mean() - 16.15, 16.25 - spacers.mean())
    assert shown["readings"][0] == round(nearer / (3 * within), 2)
    ground = names["centred"].fraction_out_at(1 - 1e-6)
    sigma = math.sqrt(variances["groove"] + variances["bearing"] + spacers.var(ddof=1) + variances["ring"])
    assert ground.lower < out(33.05 - bearings.mean() - 16.2 - 1.47, sigma) < ground.upper


def test_a_fit_that_gets_warm():
    names, shown = run("warm_fit")
    # ISO 286-2, over 30 to 40 mm, in micrometres: H7 0 to 25, s6 43 to 59.
    assert (names["tightest"], names["loosest"]) == pytest.approx((0.059, 0.018), abs=1e-12)
    aluminium, steel = names["aluminium"].expansion, names["steel"].expansion
    assert 20e-6 < aluminium < 26e-6 and 10e-6 < steel < 13e-6
    assert shown["warm"] == round(20 + (0.059 + 0.05) / (40 * aluminium), 1)
    assert shown["loose"] == round(0.018 / (40 * (aluminium - steel)), 1)
    assert shown["lost"] == {t: round(18 - 40_000 * (aluminium - steel) * t, 1) for t in range(0, 101, 20)}
    # Lamé: p = δ / (d · (((D² + d²) / (D² - d²) + ν) / E + (1 - ν) / E)), D = 2 d; torque = µ · p · π · d² · L / 2.
    hub, shaft = names["aluminium"], names["steel"]
    give = (5 / 3 + hub.poisson) / (1000 * hub.modulus) + (1 - shaft.poisson) / (1000 * shaft.modulus)
    cold = 0.1 * 0.018 / (40 * give) * math.pi * 40**2 * 40 / 2 / 1000
    assert shown["holding"][0] == pytest.approx(cold, abs=0.5) and list(shown["holding"]) == [0, 20]
