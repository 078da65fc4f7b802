"""Clamps by kind, and their safety: figures of fixture design, and what is refused."""

import pickle

import numpy
import pytest

import tenths
from tenths import inch, metric


def test_a_clamp_by_its_kind_is_its_formula():
    assert metric.clamp_force("screw", 60, 12) == metric.screw_preload(60, 12) == pytest.approx(25000)
    assert metric.clamp_force("toggle", knee_force=1, arm_angle=5) == pytest.approx(5.715, abs=5e-4)
    assert inch.clamp_force("strap", 600, 2, 2) == pytest.approx(300)
    assert inch.clamp_force("cylinder", 1000, 2) == pytest.approx(3141.6, abs=0.05)
    assert metric.clamp_force("wedge", 1000, 10, 0.1, 0.1) == pytest.approx(2622.7, abs=0.05)
    assert metric.clamp_force("cam", 150, 200, 5, 30, 20, 0.1) == pytest.approx(3812.2, abs=0.05)
    assert metric.clamp_force("collet", 10000, 8, 0.1) == pytest.approx(40989, abs=0.5)
    table = metric.clamp_force("screw", [30, 60], "12 mm")
    assert isinstance(table, numpy.ndarray) and table == pytest.approx([12500, 25000])
    with pytest.raises(tenths.DomainError, match="`bolt` is not a kind of clamp; expected screw, strap"):
        metric.clamp_force("bolt", 60, 12)
    with pytest.raises(TypeError, match="screw_diameter"):
        metric.clamp_force("screw", 60)


def test_safety_against_slip_and_lift():
    vice = metric.clamp_safety(9375, 1500, 0.2, holding="vice")
    assert vice.safety == vice.slip == pytest.approx(2.5) and vice.lift is None and vice.bound_by == "slip"
    assert vice.enough and vice.required_force == pytest.approx(7500) and vice.holding_force == pytest.approx(3750)
    assert "comes loose is thrown" in vice.caution and "comes loose is thrown" in type(vice).__doc__
    assert repr(vice) == "<holds 2.5 times the forces of the cut before the work slips, enough for 2>"
    assert pickle.loads(pickle.dumps(vice)) == vice
    strap = metric.clamp_safety(5400, 900, 0.25)
    assert strap.safety == pytest.approx(1.5) and not strap.enough
    lifted = metric.clamp_safety("1 kN", (0, 0, 400), 0.2, faces=2)
    assert lifted.bound_by == "lift" and lifted.safety == pytest.approx(2.5)
    # A force toward the rest goes with the cut, so it does not count.
    assert metric.clamp_safety(1000, (30, 40, -400), 0.2).safety == pytest.approx(4)


def test_a_chuck_holds_less_at_speed():
    lost = metric.jaw_centrifugal_force(jaw_mass=1.2, jaw_radius=75, jaws=3, spindle_speed=3000)
    forces = {"cutting_forces": (3000, 3000, 0), "friction": 0.2, "holding": "chuck", "force_diameter": 80, "grip_diameter": 60}
    at_rest, at_speed = metric.clamp_safety(60000, **forces), metric.clamp_safety(60000, **forces, grip_lost=lost)
    assert at_rest.safety == pytest.approx(12000 / 5000) and at_speed.safety == pytest.approx(6670.41362 / 5000)
    assert at_speed.required_force == pytest.approx(50000 + lost)
    cut = metric.turning_cut(1000, 50, 0.2, 2, 50, nose_radius=0.8, kc11=1700, mc=0.25)
    shares = metric.turning_force_components(cut.cutting_force, 0.5, 0.25)
    safe = metric.clamp_safety(20000, (cut.cutting_force, shares.feed_force, shares.passive_force), 0.2, holding="collet")
    assert safe.safety > 2
    with pytest.raises(TypeError, match="not the results of a formula"):
        metric.clamp_safety(20000, shares, 0.2, holding="chuck")


def test_both_sides_agree():
    one = metric.clamp_safety(4448.2216152605, (444.82216152605, 0, 222.411080763025), 0.15, holding="v_block", vee_angle=120)
    other = inch.clamp_safety(1000, (100, 0, 50), 0.15, holding="v_block", vee_angle=120)
    assert one.safety == pytest.approx(other.safety, rel=1e-12)
    assert one.required_force == pytest.approx(other.required_force * 4.4482216152605, rel=1e-12)


@pytest.mark.parametrize(
    ("arguments", "more", "error", "why"),
    [
        ((0, 100, 0.2), {}, tenths.DomainError, "clamp_force must be greater than 0"),
        ((100, 100, 0), {}, tenths.DomainError, "friction must be greater than 0"),
        ((100, 0, 0.2), {}, tenths.DomainError, "side_force or lifting_force must be greater than zero"),
        ((100, float("nan"), 0.2), {}, tenths.DomainError, "cutting_forces must be finite, not NaN"),
        ((100, float("inf"), 0.2), {}, tenths.DomainError, "cutting_forces must be finite"),
        ((100, (1, 2, 3, 4), 0.2), {}, TypeError, "one force or up to three, not 4"),
        ((100, (), 0.2), {}, TypeError, "one force or up to three, not 0"),
        ((100, "5 mm", 0.2), {}, tenths.DomainError, "mm"),
        ((100, 50, 0.2), {"holding": "magnet"}, tenths.DomainError, "`magnet` is not a way of holding; expected strap, vice"),
        ((100, 50, 0.2), {"holding": "chuck", "faces": 2}, tenths.DomainError, "faces are of straps"),
        ((100, 50, 0.2), {"grip_diameter": 2}, tenths.DomainError, "go together"),
        ((100, 50, 0.2), {"force_diameter": 2, "grip_diameter": 2}, tenths.DomainError, "diameters are of round work"),
        ((100, 50, 0.2), {"grip_lost": 20}, tenths.DomainError, "grip_lost is of a chuck"),
        ((100, 50, 0.2), {"holding": "chuck", "grip_lost": 100}, tenths.DomainError, "would be thrown"),
        ((100, 50, 0.2), {"wanted": 0}, tenths.DomainError, "wanted must be greater than zero"),
        ((100, 50, 0.2), {"holding": "v_block", "vee_angle": 180}, tenths.DomainError, "vee_angle must be"),
        (([100, 200], 50, 0.2), {}, TypeError, "must be one number"),
    ],
)
def test_what_has_no_answer_is_refused(arguments, more, error, why):
    with pytest.raises(error, match=why):
        metric.clamp_safety(*arguments, **more)


def test_rings_and_marks_are_plausible():
    thin = metric.ring_in_jaws(1000, 100, 5, 20, 200)
    assert thin.roundness_error == pytest.approx(thin.inward + thin.outward)
    assert metric.ring_in_jaws(1000, 100, 5, 20, 200, jaws=6).roundness_error < thin.roundness_error / 5
    # At the force that begins to mark, the pressure is that of first yield.
    force = metric.bar_marking_force(400, 25, 40, 207, 0.3, 110, 0.25)
    assert metric.bar_contact(force, 25, 40, 207, 0.3, 110, 0.25).pressure == pytest.approx(1.67 * 400)
    force = metric.ball_marking_force(400, 20, 207, 0.3, 70, 0.33)
    assert metric.ball_contact(force, 20, 207, 0.3, 70, 0.33).pressure == pytest.approx(1.6 * 400)
