"""The best cut of a shaft on a small lathe, its passes, and what the limits are worth.

    python examples/python/best_cut.py

Prices, constants of tool life and the machine are invented: put your own in their place. Speeds and feeds are starting
points for a competent person; the makers' data of machine, tool and workholding come first. A wrong grip, tool or guard is
not judged here.
"""

from typing import Any

import tenths
from tenths import metric as shop

LATHE = shop.Machine(
    name="small lathe",
    least_spindle_speed=70,
    greatest_spindle_speed=2000,
    curve=[{"spindle_speed": 300, "power": 2.2}, {"spindle_speed": 900, "power": 4.0}],
)
SHARED: dict[str, Any] = {
    "minimise": "cost",
    "rates": {"hourly_rate": 72, "edge_cost": 1.6, "tool_change_time": 2},
    "tool_life": {"taylor_c": 230, "taylor_n": 0.22, "feed_exponent": 0.3},
    "machine": LATHE,
    "workpiece_diameter": "60 mm",
    "travel": "150 mm",
    "nose_radius": "0.8 mm",
    "kc11": 1700,
    "mc": 0.25,
}
ROUGH: dict[str, Any] = {"choose": {"surface_speed": (40, 300), "feed_per_revolution": (0.1, 0.4)}, "limits": {"tool_life": ("10 min", None)}}
FINISH: dict[str, Any] = {"choose": {"surface_speed": (40, 350), "feed_per_revolution": (0.05, 0.25)}, "limits": {"roughness_ra": (None, "1.6 um")}}


def main() -> None:
    rough = shop.best_cut(shop.turning_cut_for_target, **ROUGH, **SHARED, depth="2 mm", steps={"spindle_speed": [355, 500, 710, 1000]})
    print(rough)
    for name, price in rough.prices.items():
        print(f"  one unit more of {name} is worth {price:.4f} a piece")
    print(f"  proven: no cut costs less than {rough.lower_bound:.6f}")
    print(f"  as set: {rough.set['surface_speed']:.1f} m/min, {rough.set['feed_per_revolution']:.3f} mm, cost {rough.set_objective:.4f}")

    passes = shop.best_passes(
        shop.turning_cut_for_target, "6 mm", rough=ROUGH, finish=FINISH, rough_depths=("1 mm", "3 mm"),
        finish_depths=("0.3 mm", "0.6 mm"), step="0.1 mm", pass_time=0.15, **SHARED,
    )
    print(passes)

    try:
        shop.best_cut(shop.turning_cut_for_target, ROUGH["choose"], {"removal_rate": (150, None)}, **SHARED, depth="2 mm")
    except tenths.DomainError as error:
        print(error)


if __name__ == "__main__":
    main()
