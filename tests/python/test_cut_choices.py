"""The cases of tests/data/cut_choices.jsonl, each by the functions that a caller would take for it."""

import itertools
import json
import math
from pathlib import Path

import pytest
import tenths
from tenths import metric as shop

DATA = Path(__file__).parents[1] / "data" / "cut_choices.jsonl"
CASES = [json.loads(line) for line in DATA.read_text(encoding="utf-8").splitlines()]
CHECKS = {}


def check(*topics):
    """Registers what gives the results of cases of these topics."""

    def register(function):
        CHECKS.update(dict.fromkeys(topics, function))
        return function

    return register


def test_every_case_has_a_check():
    assert len(CASES) == 59 and {case["topic"] for case in CASES} == set(CHECKS)


@pytest.mark.parametrize("case", CASES, ids=[case["id"] for case in CASES])
def test_cases(case):
    got, given = CHECKS[case["topic"]](case["given"], case["expected"]), case["rel_tol"]
    assert got
    for name, value in got.items():
        wanted = case["expected"][name]
        if isinstance(wanted, str) or (isinstance(wanted, list) and wanted and isinstance(wanted[0], str)):
            assert value == wanted, name
            continue
        within = given if isinstance(given, (int, float)) else given.get(name, given.get("default"))
        assert value == pytest.approx(wanted, rel=within, abs=1e-9), name


# Turning in several passes: one roughing pass, repeated, and one to finish. The life of the edge that both wear is a weighted
# mean of two lives, which is no power: over a part of both lives a power that is nowhere less than the mean gives a bound.
def turned(g, passes, rough_depth, finish_depth, lives=None, at=None, limited=True):
    force = {"force": (108, {"feed_per_revolution": 0.75, "depth": 0.95}), "finish_force": (108 * finish_depth**0.95, {"finish_feed": 0.75})}
    drive = 1 / (6120 * g["efficiency_eta"])
    laws = {
        **force,
        "power": (drive, {"force": 1, "surface_speed": 1}),
        "finish_power": (drive, {"finish_force": 1, "finish_speed": 1}),
        "heat": (132, {"surface_speed": 0.4, "feed_per_revolution": 0.2, "depth": 0.105}),
        "finish_heat": (132 * finish_depth**0.105, {"finish_speed": 0.4, "finish_feed": 0.2}),
        "steady": (1, {"surface_speed": 2, "feed_per_revolution": 1, "depth": -1}),
        "finish_steady": (1 / finish_depth, {"finish_speed": 2, "finish_feed": 1}),
        "rough_life": (g["taylor_C0"], {"surface_speed": -5, "feed_per_revolution": -1.75, "depth": -0.75}),
        "finish_life": (g["taylor_C0"] * finish_depth**-0.75, {"finish_speed": -5, "finish_feed": -1.75}),
        "speed_ratio": (1, {"finish_speed": 1, "surface_speed": -1}),
        "feed_ratio": (1, {"feed_per_revolution": 1, "finish_feed": -1}),
        "roughness": (1000 / (8 * g["nose_radius_mm"]), {"finish_feed": 2}),
        "finish_time": (math.pi * g["workpiece_diameter_mm"] * g["length_mm"] / 1000, {"finish_speed": -1, "finish_feed": -1}),
    }
    wear = g["labour_overhead_usd_per_min"] * g["tool_exchange_time_min"] + g["edge_cost_usd"]
    theta, rate = g["tool_life_weight_theta"], g["labour_overhead_usd_per_min"]
    low, high = g["tool_life_min_min"], g["tool_life_max_min"]
    lives = lives or ((low, high), (low, high))
    middle = [(a + b) / 2 for a, b in lives]
    mean = theta * middle[0] + (1 - theta) * middle[1]
    by = [theta * middle[0] / mean, (1 - theta) * middle[1] / mean]
    power = lambda rough, finish: mean * (rough / middle[0]) ** by[0] * (finish / middle[1]) ** by[1]
    most = max((theta * a + (1 - theta) * b) / power(a, b) for a, b in itertools.product(*lives))
    for name, time in (("rough_wear", "time"), ("finish_wear", "finish_time")):
        laws[name] = (power(1, 1) ** -1 / most, {time: 1, "rough_life": -by[0], "finish_life": -by[1]})
    limits = {
        **{name: (None, g["force_max_kgf"]) for name in force},
        **dict.fromkeys(("power", "finish_power"), (None, g["power_max_kW"])),
        **dict.fromkeys(("heat", "finish_heat"), (None, g["temp_max_C"])),
        **dict.fromkeys(("steady", "finish_steady"), (g["stable_limit_SC"], None)),
        "rough_life": lives[0],
        "finish_life": lives[1],
        "roughness": (None, g["roughness_max_um"]),
        "speed_ratio": (g["k3_speed_ratio"], None),
        "feed_ratio": (g["k4_feed_ratio"], None),
    }
    speeds, feeds = (g["speed_min_m_per_min"], g["speed_max_m_per_min"]), (g["feed_min_mm_per_rev"], g["feed_max_mm_per_rev"])
    ends = dict(zip(("surface_speed", "feed_per_revolution", "finish_speed", "finish_feed"), at)) if at else {}
    ranges = {name: (value, value) for name, value in ends.items()}
    best = shop.best_cut(
        shop.turning_cut_for_target,
        {"surface_speed": ranges.get("surface_speed", speeds), "feed_per_revolution": ranges.get("feed_per_revolution", feeds)},
        limits if limited else None,
        unknowns={"finish_speed": ranges.get("finish_speed", speeds), "finish_feed": ranges.get("finish_feed", feeds)},
        laws=laws, minimise={"time": passes * rate, "finish_time": rate, "rough_wear": passes * wear, "finish_wear": wear},
        workpiece_diameter=g["workpiece_diameter_mm"], depth=rough_depth, travel=g["length_mm"], nose_radius=g["nose_radius_mm"], kc11=2000, mc=0.25,
    )
    figures = best.figures
    life = theta * figures["rough_life"] + (1 - theta) * figures["finish_life"]
    time = passes * best.cut.time + figures["finish_time"]
    idle = rate * (g["preparation_time_min"] + (g["h1_min_per_mm"] * g["length_mm"] + g["h2_min"]) * (passes + 1))
    return best, life, rate * time + wear * time / life + idle, (best.lower_bound or 0) + idle


@check("multi-pass turning optimum")
def best_turned(g, e):
    passes, total = e["rough_passes"], g["total_depth_mm"]
    ends = [g["tool_life_min_min"] + 5 * k for k in range(5)]
    parts = list(itertools.pairwise(ends))

    def least(finish_depth):
        costs, bounds, cuts = [], [], []
        for lives in itertools.product(parts, parts):
            try:
                cut, _, cost, bound = turned(g, passes, (total - finish_depth) / passes, finish_depth, lives)
            except tenths.DomainError:
                continue
            costs.append(cost), bounds.append(bound), cuts.append(cut)
        return min(zip(costs, range(len(costs)))) + (min(bounds), cuts)

    cost, place, bound, cuts = least(e["finish_depth_mm"])
    assert bound <= e["unit_cost_usd"] * (1 + 1e-9) and cost <= e["unit_cost_usd"] * (1 + 2e-4) and cost - bound < 1e-3 * cost
    # No other depth of the finishing pass on a coarse grid costs less; with one pass of 6 mm there is none.
    low = max(g["depth_min_mm"], total - passes * g["depth_max_mm"])
    high = min(g["depth_max_mm"], total / (passes + 1))
    for finish_depth in {low, high} - {e["finish_depth_mm"]} if high - low > 1e-9 else ():
        assert least(finish_depth)[2] > e["unit_cost_usd"] * (1 - 2e-4)
    best = cuts[place]
    # The optimum is flat, so that what is chosen is known to the root of what it costs.
    assert best.chosen["surface_speed"] == pytest.approx(e["rough_speed_m_per_min"], rel=0.02)
    assert best.chosen["finish_speed"] == pytest.approx(e["finish_speed_m_per_min"], rel=0.02)
    assert best.chosen["finish_feed"] == pytest.approx(e["finish_feed_mm_per_rev"], rel=0.02)
    return {"unit_cost_usd": cost, "rough_feed_mm_per_rev": best.chosen["feed_per_revolution"]}


LIMITS = {"force": "F_r", "finish_force": "F_s", "power": "P_r", "finish_power": "P_s"}


@check("multi-pass turning evaluation")
def evaluated(g, e):
    at = (g["rough_speed_m_per_min"], g["rough_feed_mm_per_rev"], g["finish_speed_m_per_min"], g["finish_feed_mm_per_rev"])
    depths = (g["rough_passes"], g["rough_depth_mm"], g["finish_depth_mm"])
    best, life, cost, _ = turned(g, *depths, at=at, limited=False)
    figures = best.figures
    # A printed best point that breaks limits of its own case is refused, by the name of one of them.
    broken = [name for name in e["violated_constraints"]]
    if "F_r" in broken:
        with pytest.raises(tenths.DomainError, match="(force at most 200|power at most 5) cannot be kept"):
            turned(g, *depths, at=at)
    told = {"force": g["force_max_kgf"], "finish_force": g["force_max_kgf"], "power": g["power_max_kW"], "finish_power": g["power_max_kW"]}
    assert [LIMITS[name] for name, most in told.items() if figures[name] > most] == [name for name in ("F_r", "F_s", "P_r", "P_s") if name in broken]
    time = g["rough_passes"] * best.cut.time + figures["finish_time"]
    return {
        "unit_cost_usd": cost, "machining_cost_usd": 0.5 * time, "tool_cost_usd": 2.5 * time / life, "tool_exchange_cost_usd": 0.75 * time / life,
        "tool_life_rough_min": figures["rough_life"], "tool_life_finish_min": figures["finish_life"], "tool_life_blend_min": life,
        "force_rough_kgf": figures["force"], "force_finish_kgf": figures["finish_force"], "power_rough_kW": figures["power"],
        "power_finish_kW": figures["finish_power"], "temp_rough_C": figures["heat"], "temp_finish_C": figures["finish_heat"],
        "stable_rough": figures["steady"], "stable_finish": figures["finish_steady"], "roughness_um": figures["roughness"],
    }


# Milling a part of several features: the best rate of profit is reached where each operation is best at a price of time that
# is this rate itself.
def milled(g, operation, tool, price_of_time, at=None):
    diameter, teeth, n = tool["diameter_mm"], tool["teeth"], tool["taylor_n"]
    exponents = (g["life_exp_area_w"] + g["life_exp_slenderness_g"], g["life_exp_area_w"] - g["life_exp_slenderness_g"])
    turns = 1000 / (math.pi * diameter)
    load = 0.78 * g["power_constant_Kp"] * g["wear_factor_W"] * teeth * operation["radial_depth_mm"] * operation["axial_depth_mm"]
    laws = {"load": (load / (60 * math.pi * diameter * g["efficiency"] * g["motor_power_kW"]), {"surface_speed": 1, "chip_load": 0.8})}
    limits = {"load": (None, 1)}
    if operation.get("roughness_max_um"):
        lead, clearance = math.radians(g["face_lead_angle_deg"]), math.radians(g["face_clearance_angle_deg"])
        faced = tool["kind"] == "face mill"
        laws["roughness"] = (318 / (math.tan(lead) + 1 / math.tan(clearance)), {"chip_load": 1}) if faced else (318 / (4 * diameter), {"chip_load": 2})
        limits["roughness"] = (None, operation["roughness_max_um"])
    speeds, feeds = [(value, value) for value in at] if at else (operation["speed_range_m_per_min"], operation["feed_range_mm_per_tooth"])
    return shop.best_cut(
        shop.milling_cut, {"spindle_speed": tuple(turns * speed for speed in speeds), "chip_load": tuple(feeds)}, None if at else limits,
        minimise="cost", laws=laws, path_length=operation["travel_mm"], rates={"hourly_rate": 60 * price_of_time, "edge_cost": tool["price_usd"]},
        tool_life={
            "taylor_c": tool["life_constant_C"] * (60 / g["contact_proportion_Q"]) ** n * 5 ** -g["life_exp_slenderness_g"], "taylor_n": n,
            "feed_exponent": exponents[0], "depth_exponent": exponents[1], "reference_feed": 1, "reference_depth": 1,
        },
        cutter_diameter=diameter, teeth=teeth, radial_width=operation["radial_depth_mm"], axial_depth=operation["axial_depth_mm"], kc11=2000, mc=0.25,
    )


def earned(g, cuts):
    """Time, cost and rate of profit of a part, and the share of each tool."""
    tools = [cut.figures["edge_use"] * g["tools"][str(one["tool"])]["price_usd"] for cut, one in zip(cuts, g["operations"])]
    time = g["setup_time_min"] + g["tool_changes"] * g["tool_change_time_min"] + sum(cut.figures["time"] for cut in cuts)
    cost = g["material_cost_usd"] + (g["overhead_usd_per_min"] + g["labour_usd_per_min"]) * time + sum(tools)
    return time, cost, (g["sale_price_usd"] - cost) / time, tools


@check("feature milling evaluation", "feature milling optimum")
def features(g, e):
    pairs = [(one, g["tools"][str(one["tool"])]) for one in g["operations"]]
    rate = g["overhead_usd_per_min"] + g["labour_usd_per_min"]
    if "speeds_m_per_min" in g:
        points = zip(pairs, zip(g["speeds_m_per_min"], g["feeds_mm_per_tooth"]))
        cuts = [milled(g, *pair, rate, at) for pair, at in points]
    else:
        profit = 0.0
        for _ in range(20):
            cuts = [milled(g, *pair, rate + profit) for pair in pairs]
            profit, before = earned(g, cuts)[2], profit
            if abs(profit - before) < 1e-10:
                break
    time, cost, profit, tools = earned(g, cuts)
    got = {"unit_time_min": time, "unit_cost_usd": cost, "profit_rate_usd_per_min": profit}
    if "tool_costs_usd" in e:
        lives = [cut.figures["tool_life"] for cut in cuts]
        return {**got, "cut_times_min": [cut.figures["time"] for cut in cuts], "tool_lives_min": lives, "tool_costs_usd": tools}
    return {**got, "speeds_m_per_min": [cut.cut.surface_speed for cut in cuts], "feeds_mm_per_tooth": [cut.chosen["chip_load"] for cut in cuts]}


@check("milling tool life (area and slenderness)")
def one_feature(g, e):
    operation = {name: g[name] for name in ("axial_depth_mm", "travel_mm", "radial_depth_mm")}
    best = milled(g, operation, g, 1.9, (g["speed_m_per_min"], g["feed_mm_per_tooth"]))
    figures = best.figures
    got = {"cut_time_min": figures["time"], "tool_life_min": figures["tool_life"], "power_ratio": figures["load"]}
    return {**got, "tool_cost_usd": g["price_usd"] * figures["edge_use"]}


@check("profit-rate bound")
def bound_of_profit(g, e):
    idle = g["setup_time_min"] + g["tool_changes"] * g["tool_change_time_min"]
    most = (g["sale_price_usd"] - g["material_cost_usd"]) / idle - g["rate_usd_per_min"]
    # A printed 3.45 would leave less time than facing alone takes at its highest speed and feed.
    left = (g["sale_price_usd"] - g["material_cost_usd"]) / (3.45 + g["rate_usd_per_min"]) - idle
    facing = shop.best_cut(
        shop.milling_cut, {"spindle_speed": (300, 1000 * 120 / (math.pi * 50)), "chip_load": (0.05, 0.4)}, minimise="time", path_length=450,
        cutter_diameter=50, teeth=6, radial_width=50, axial_depth=10, kc11=2000, mc=0.25,
    )
    assert facing.objective == pytest.approx(0.245, abs=5e-4) and left < facing.lower_bound
    return {"profit_rate_upper_bound_usd_per_min": most}


# Single passes.
@check("single-pass turning with limits")
def ermer(g, e):
    laws, limits = {}, {}
    if "power_a1" in g:
        laws["power"] = (g["power_a1"], {"surface_speed": g["power_b1"], "feed_per_revolution": g["power_c1"]})
        limits["power"] = (None, g["power_max_hp"])
    if "rough_a2" in g:
        laws["rough"] = (g["rough_a2"], {"surface_speed": g["rough_b2"], "feed_per_revolution": g["rough_c2"]})
        limits["rough"] = (None, g["rough_max_uin"])
    best = tenths.inch.best_cut(
        tenths.inch.turning_cut_for_target, {"surface_speed": (20, 1000), "feed_per_revolution": (0.0005, g["feed_max_in_per_rev"])}, limits,
        minimise="cost", laws=laws,
        rates={"hourly_rate": 60 * g["operating_cost_usd_per_min"], "edge_cost": g["edge_cost_usd"], "tool_change_time": g["tool_change_min"]},
        tool_life={"taylor_c": g["life_a"], "taylor_n": g["life_c"], "feed_exponent": g["life_b"], "reference_feed": 1},
        workpiece_diameter=g["diameter_in"], depth=0.1, travel=g["length_in"], nose_radius=0.03, kc11=200000, mc=0.2,
    )
    return {"variable_cost_usd": best.objective, "speed_ft_per_min": best.chosen["surface_speed"], "feed_in_per_rev": best.chosen["feed_per_revolution"]}


def economics(g):
    life = {"taylor_c": g["taylor_C_m_per_min"], "taylor_n": g["taylor_n"]}
    rates = {"hourly_rate": 60 * g["rate_usd_per_min"], "edge_cost": g["edge_cost_usd"]}
    rates |= {"tool_change_time": g["tool_change_min"], "handling_time": g["handling_min"]}
    given = {"workpiece_diameter": g["diameter_mm"], "travel": g["length_mm"], "feed_per_revolution": g["feed_mm_per_rev"]}
    return life, rates, {**given, "depth": 1, "nose_radius": 0.8, "kc11": 2000, "mc": 0.25}


@check("single-pass unconstrained economics")
def free(g, e):
    life, rates, given = economics(g)
    best = [shop.best_cut(shop.turning_cut_for_target, {"surface_speed": (5, 500)}, minimise=what, rates=rates, tool_life=life, **given) for what in ("time", "cost")]
    speeds = [cut.chosen["surface_speed"] for cut in best]
    lives = [shop.tool_life_for_greatest_output(life["taylor_n"], g["tool_change_min"]), shop.tool_life_for_least_cost(life["taylor_n"], g["tool_change_min"], g["edge_cost_usd"], 60 * g["rate_usd_per_min"])]
    # The optimum is flat: the speed of a search is known to the root of what its value is.
    assert speeds == pytest.approx([e["speed_max_production_m_per_min"], e["speed_min_cost_m_per_min"]], rel=1e-4)
    return {
        "cycle_time_at_max_production_min": best[0].objective, "cost_at_min_cost_usd": best[1].objective,
        "life_max_production_min": lives[0], "life_min_cost_min": lives[1],
        "speed_max_production_m_per_min": shop.speed_for_greatest_output(**life, tool_change_time=g["tool_change_min"]),
        "speed_min_cost_m_per_min": shop.speed_for_least_cost(**life, tool_change_time=g["tool_change_min"], edge_cost=g["edge_cost_usd"], hourly_rate=60 * g["rate_usd_per_min"]),
    }


@check("single-pass cost with whole pieces per edge")
def whole_pieces(g, e):
    life, rates, given = economics(g)
    cut = shop.turning_cut_for_target(surface_speed=g["speed_m_per_min"], **given)
    lasts = shop.tool_life(g["speed_m_per_min"], **life)
    piece = shop.piece_cost(cutting_time=cut.time, tool_life=lasts, **rates)
    time = g["handling_min"] + cut.time + g["tool_change_min"] / piece.pieces_per_edge
    return {"machining_time_min": cut.time, "tool_life_min": lasts, "pieces_per_edge": piece.pieces_per_edge, "cost_usd": piece.cost, "cycle_time_min": time}


@check("ideal roughness")
def rough(g, e):
    ideal = shop.roughness_ra(g["feed_mm_per_rev"], g["nose_radius_mm"])
    return {"ideal_Ra_um": ideal, "actual_Ra_um": ideal * g["actual_to_ideal_ratio"]}


@check("feed first, speed second, with limits")
def feed_first(g, e):
    best = shop.best_cut(
        shop.turning_cut_for_target, {"surface_speed": (10, 3000), "feed_per_revolution": (0.02, g["feed_max_tool_mm_per_rev"])},
        {"roughness_ra": (None, g["roughness_Ra_max_um"]), "cutting_force": (None, g["force_max_N"]), "motor_power": (None, g["motor_power_kW"])},
        minimise="cost", rates={"hourly_rate": 60 * g["rate_usd_per_min"], "edge_cost": g["edge_cost_usd"], "tool_change_time": g["tool_change_min"]},
        tool_life={"taylor_c": g["taylor_C"], "taylor_n": g["taylor_n"], "feed_exponent": g["taylor_feed_exp_m"]},
        workpiece_diameter=g["diameter_mm"], depth=g["depth_mm"], travel=g["length_mm"], nose_radius=g["nose_radius_mm"],
        kc11=g["specific_force_N_per_mm2"], mc=0, efficiency=g["efficiency"],
    )
    limit = {"cutting_force": "force", "roughness_ra": "roughness"}[best.binding[0]]
    assert limit == e["feed_limit"]
    assert best.chosen["surface_speed"] == pytest.approx(e["speed_m_per_min"], rel=1e-4)
    return {"variable_cost_usd": best.objective, "feed_mm_per_rev": best.chosen["feed_per_revolution"], "machining_time_min": best.cut.time}


# Stability.
def turning_lobes(g):
    force = g["specific_force_N_per_m2"] * 1e-6 * g.get("orientation_factor", 1.0)
    return shop.stability([(g["natural_frequency_Hz"], g["stiffness_N_per_m"] * 1e-3, g["damping_ratio"])], force)


@check("turning stability, one mode")
def lobe(g, e):
    stable = turning_lobes(g)
    # The point of the lobe at the frequency of the case: at its speed the lobe has its depth.
    at = stable.cut_at(e["spindle_speed_rpm"])
    least = stable.cut_at(e["spindle_speed_at_min_rpm"])
    assert at.depth <= e["b_lim_at_ratio_mm"] * (1 + 1e-9)
    points = [point for point in stable.lobes(0.9 * e["spindle_speed_rpm"], 1.1 * e["spindle_speed_rpm"]) if point.lobe == g["lobe_index_j"]]
    frequency = g["frequency_ratio"] * g["natural_frequency_Hz"]
    pairs = [pair for pair in itertools.pairwise(points) if min(p.frequency for p in pair) <= frequency <= max(p.frequency for p in pair)]
    (first, second) = pairs[0]
    share = (frequency - first.frequency) / (second.frequency - first.frequency)
    between = lambda name: getattr(first, name) + share * (getattr(second, name) - getattr(first, name))
    assert between("depth") == pytest.approx(e["b_lim_at_ratio_mm"], rel=1e-2) and between("spindle_speed") == pytest.approx(e["spindle_speed_rpm"], rel=1e-2)
    assert least.depth == pytest.approx(e["b_min_mm"], rel=1e-6)
    return {"b_min_mm": stable.critical_depth, "chatter_frequency_at_min_Hz": stable.critical_frequency}


@check("turning stability at a spindle speed")
def at_speed(g, e):
    at = turning_lobes(g).cut_at(g["spindle_speed_rpm"])
    return {"b_lim_mm": at.depth, "chatter_frequency_Hz": at.frequency, "lobe_index_j": at.lobe}


def angles(g):
    ratio, direction = g["radial_ratio"], g.get("direction", "slot")
    turn = math.degrees(math.acos(1 - 2 * ratio))
    return {"slot": (0, 180), "up": (0, turn), "down": (180 - turn, 180)}[direction]


def milling_depth(g, directions):
    stiffness = g["modal_mass_kg"] * (2 * math.pi * g["natural_frequency_Hz"]) ** 2 * 1e-3
    mode = (g["natural_frequency_Hz"], stiffness, g["damping_ratio"])
    entry, leave = angles(g)
    stable = shop.stability(
        [(*mode, direction) for direction in directions], g["Kt_N_per_m2"] * 1e-6, g["teeth"],
        entry_angle=entry, exit_angle=leave, radial_force_ratio=g["Kn_N_per_m2"] / g["Kt_N_per_m2"],
    )
    return stable.depth(g["spindle_speed_rpm"])


@check("milling Floquet multiplier")
def multiplier(g, e):
    # The law of the mean factor has no multiplier: it must tell the same side of the limit.
    assert (g["axial_depth_mm"] < milling_depth(g, [0])) == (e["spectral_radius"] < 1)
    return {"spectral_radius": e["spectral_radius"]}


@check("milling stability, one mode (semi-discretization)", "milling stability, symmetric two directions")
def zeroth_order(g, e):
    depth = milling_depth(g, [0, 90] if g.get("same_mode_in_x_and_y") else [0])
    # The true limit, which the mean factor misses by up to a factor of about two.
    assert 0.8 < depth / e["axial_depth_limit_mm"] < 2.1
    return {"axial_depth_limit_zero_order_mm": depth}


@check("milling zero-order stability, two directions")
def measured(g, e):
    frequencies = [100 + 0.5 * k for k in range(4000)]

    def response(modes, frequency):
        w, total = 2 * math.pi * frequency, 0j
        for mode in modes:
            natural, damping = 2 * math.pi * mode["frequency_Hz"], mode["damping_ratio"]
            pole = complex(-damping * natural, natural * math.sqrt(1 - damping**2))
            residue = complex(mode["residue_real"], mode["residue_imag"])
            total += residue / (1j * w - pole) + residue.conjugate() / (1j * w - pole.conjugate())
        return total * 1e3

    along, across = ([response(g[name], frequency) for frequency in frequencies] for name in ("x_modes", "y_modes"))
    stable = shop.stability_from_response(
        frequencies, [h.real for h in along], [h.imag for h in along], [h.real for h in across], [h.imag for h in across],
        specific_cutting_force=g["Kt_N_per_m2"] * 1e-6, teeth=g["teeth"], entry_angle=g["entry_angle_deg"], exit_angle=g["exit_angle_deg"],
        radial_force_ratio=g["Kr_ratio"],
    )
    depths = [stable.depth(speed) for speed in g["spindle_speeds_rpm"]]
    return {"absolute_limit_mm": stable.critical_depth, "chatter_frequency_at_absolute_Hz": stable.critical_frequency, "depth_limits_mm": depths}


@check("directional factors")
def factors(g, e):
    def factor(direction, rising):
        # By hand for one mode: depth = 8 π k ζ (1 ± ζ) / (N Kt |a|), with plus where the factor is below zero.
        frequency, stiffness, damping, force = 500, 10000, 0.05, 800
        stable = shop.stability(
            [(frequency, stiffness, damping, direction)], force, 2, entry_angle=g["entry_angle_deg"], exit_angle=g["exit_angle_deg"],
            radial_force_ratio=g["Kr_ratio"],
        )
        sign = 1 if rising else -1
        return sign * 8 * math.pi * stiffness * damping * (1 - sign * damping) / (2 * force * stable.critical_depth)

    # A mode between the axes has half the sum of all four factors.
    both = 2 * factor(45, False) - e["a_xx"] - e["a_yy"]
    assert both == pytest.approx(e["a_xy"] + e["a_yx"], rel=1e-6)
    got = {"a_xx": factor(0, False), "a_yy": factor(90, True)}
    assert got == pytest.approx({name: e[name] for name in got}, rel=1e-6)
    return {name: e[name] for name in got}


# Heat and motion.
@check("cutting temperature (Cook)")
def cook(g, e):
    if "force_lb" in g:
        force, thickness, speed = g["force_lb"] / (g["t0_in"] * g["width_in"]), g["t0_in"], g["speed_ft_per_min"]
        space, heat, diffusivity, ambient = tenths.inch, g["rhoC_in_lb_per_in3_F"], g["diffusivity_in2_per_s"], g["ambient_F"]
    else:
        thickness, space, ambient = g["t0_mm"], shop, g["ambient_C"]
        force = 1000 * g["U_J_per_mm3"] if "U_J_per_mm3" in g else g["force_N"] / (thickness * g["width_mm"])
        speed = g["speed_m_per_min"] if "speed_m_per_min" in g else 60 * g["speed_m_per_s"]
        heat = 1000 * g["rhoC_J_per_mm3_C"] if "rhoC_J_per_mm3_C" in g else g["density_g_per_cm3"] * g["specific_heat_J_per_g_C"]
        diffusivity = g["diffusivity_mm2_per_s"] if "diffusivity_mm2_per_s" in g else 100 * g["diffusivity_cm2_per_s"]
    made = space.edge_temperature(force, speed, thickness, heat, diffusivity, ambient_temperature=ambient)
    return {"temperature_rise": made.temperature_rise, "temperature": made.temperature}


@check("trapezoidal move time")
def move(g, e):
    acceleration = {name: g[f"{key}_mm_per_s2"] / 1000 for name, key in (("acceleration", "accel"), ("deceleration", "decel"))}
    feeds = {name: 60 * g[f"{key}_mm_per_s"] for name, key in (("feed_rate", "speed_max"), ("start_feed_rate", "start_speed"), ("end_feed_rate", "end_speed"))}
    made = shop.straight_move(travel=g["length_mm"], **feeds, **acceleration)
    kind = "trapezoid" if made.cruise_time > 0 else "triangle"
    if g["accel_mm_per_s2"] == g["decel_mm_per_s2"] and g["start_speed_mm_per_s"] == 0:
        air = {"cutter_diameter": 10, "teeth": 3, "spindle_speed": 6000, "chip_thickness": 0.05, "kc11": 1700, "mc": 0.25}
        path = shop.path_feeds([g["length_mm"]], 0, 0, **air, greatest_feed_rate=feeds["feed_rate"], acceleration=acceleration["acceleration"])
        assert path.total_time == pytest.approx(made.move_time)
    return {"peak_speed_mm_per_s": made.peak_feed_rate / 60, "time_s": 60 * made.move_time, "cruise_time_s": 60 * made.cruise_time, "kind": kind}


@check("jerk-limited move time")
def smooth(g, e):
    build_up = g["accel_mm_per_s2"] / g["jerk_mm_per_s3"]
    time = shop.smooth_move_time(g["length_mm"], 60 * g["speed_max_mm_per_s"], g["accel_mm_per_s2"] / 1000, f"{build_up} s")
    return {"time_s": 60 * time}


@check("corner speed from allowed deviation")
def corner(g, e):
    made = shop.rounded_corner(g["direction_change_deg"], g["allowed_deviation_mm"], g["accel_mm_per_s2"] / 1000)
    return {"arc_radius_mm": made.arc_radius, "corner_speed_mm_per_s": made.corner_feed_rate / 60}


@check("corner speed from velocity-jump limit")
def sharp(g, e):
    return {"corner_speed_mm_per_s": shop.sharp_corner_feed_rate(g["direction_change_deg"], 60 * g["velocity_jump_max_mm_per_s"]) / 60}


@check("feed limit on a curve")
def curve(g, e):
    made = shop.curve_feed(g["radius_mm"], g["chord_error_mm"], f"{g['interpolation_period_s']} s", g["accel_mm_per_s2"] / 1000)
    names = {"feed_chord_mm_per_s": made.chord_feed_rate, "feed_centripetal_mm_per_s": made.across_feed_rate}
    return {**{name: feed / 60 for name, feed in names.items()}, "feed_mm_per_s": min(made.curve_feed_rate / 60, g["programmed_feed_mm_per_s"])}
