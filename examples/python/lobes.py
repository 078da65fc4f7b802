"""At which speed to mill a pocket so deep without chatter: lobes, the nearest stable speed, and the feeds of a path.

    python examples/python/lobes.py [--units inch|metric] [--svg FILE]

The tool, the spindle and the path are invented: put your own in their place. The tool's mode is an estimate, and the spindle's
stands for a measured one. All figures are starting points: approach a limit from below, and mind the lowest limit of spindle,
holder and tool. A wrong grip, tool or guard is not judged here.
"""

import argparse
import pathlib
from types import ModuleType

import tenths

DIAMETER, OVERHANG, TEETH = "10 mm", "45 mm", 3
# A carbide end mill bends like a bar of 0.8 of its diameter: common practice.
SHANK, MODULUS, DENSITY = "8 mm", "600 GPa", "14.5 g/cm³"
SPINDLE = ("720 Hz", "25 N/µm", 0.04)
FORCE = "800 MPa"  # tangential, of an aluminium alloy
WIDTH, DEPTH, WANTED_SPEED, TOP_SPEED = "3 mm", "2 mm", "16500 rpm", "24000 rpm"
CHIP, KC11, MC = "0.06 mm", "700 MPa", 0.25
# Length, and curvature of the path of the cutter's centre: a pocket with rounded corners.
PATH = [("40 mm", 0), ("7.9 mm", "200 1/m"), ("60 mm", 0), ("7.9 mm", "200 1/m")] * 2


def lobes(shop: ModuleType) -> tenths.Stability:
    """How deep the cut may be at each speed."""
    tool = shop.tool_mode(SHANK, OVERHANG, modulus=MODULUS, density=DENSITY)
    cut: tenths.Stability = shop.stability([tool, SPINDLE], FORCE, TEETH, radial_width=WIDTH, cutter_diameter=DIAMETER, milling="up")
    return cut


def feeds(shop: ModuleType, spindle_speed: float) -> tenths.PathFeeds:
    """The feeds of the pocket at a speed."""
    lengths, curvatures = zip(*PATH)
    made: tenths.PathFeeds = shop.path_feeds(
        list(lengths), WIDTH, DEPTH, list(curvatures), cutter_diameter=DIAMETER, teeth=TEETH, spindle_speed=spindle_speed,
        chip_thickness=CHIP, kc11=KC11, mc=MC, greatest_power="2.5 kW", greatest_feed_rate="6 m/min", acceleration="3 m/s²",
    )  # fmt: skip
    return made


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--units", choices=("inch", "metric"), default="metric")
    parser.add_argument("--svg", help="write the picture of the lobes to this file")
    given = parser.parse_args()
    shop = tenths.inch if given.units == "inch" else tenths.metric
    length = "in" if given.units == "inch" else "mm"

    cut = lobes(shop)
    print(cut)
    print(f"{WANTED_SPEED}: stable to {cut.depth(WANTED_SPEED):.3f} {length}")
    stable = cut.nearest_stable_speed(DEPTH, WANTED_SPEED, "6000 rpm", TOP_SPEED)
    print(f"nearest speed for {DEPTH}: {stable.spindle_speed:.0f} rev/min")
    deepest = cut.deepest("6000 rpm", TOP_SPEED)
    print(f"deepest to {TOP_SPEED}: {deepest.depth:.3f} {length} at {deepest.spindle_speed:.0f} rev/min")
    print(feeds(shop, stable.spindle_speed))
    if given.svg:
        pathlib.Path(given.svg).write_text(cut.to_svg("6000 rpm", TOP_SPEED), encoding="utf-8")


if __name__ == "__main__":
    main()
