"""Whole calibration sheets: text as a person enters it, judged by core, and once more here from the formulas.

Written from the definition of the computation (catch, ratio of sums, budget of four terms), with exact fractions for
what was entered and GTC for the uncertainty; nothing of it was taken from core's code.
"""

import math
from fractions import Fraction

from GTC import ureal

from opinions import coverage_factor, modified_mckay

KG = {"g": Fraction(1, 1000), "kg": Fraction(1), "lb": Fraction(45359237, 10**8), "oz": Fraction(45359237, 16 * 10**8)}
METRE = {"m": Fraction(1), "ft": Fraction(3048, 10_000), "in": Fraction(254, 10_000), "cm": Fraction(1, 100)}


def last_place(text):
    return Fraction(1, 10 ** len(text.partition(".")[2]))


def mass_of(text):
    """Text such as "2.110 kg" or "5 lb 8 oz" as (kg, step in kg), exact."""
    words = text.split()
    if len(words) == 4:
        return Fraction(words[0]) * KG["lb"] + Fraction(words[2]) * KG["oz"], last_place(words[2]) * KG["oz"]
    return Fraction(words[0]) * KG[words[1]], last_place(words[0]) * KG[words[1]]


def length_of(text):
    number, unit = text.split()
    return Fraction(number) * METRE[unit]


def mass_text(draw, kg, how):
    if how == "lb oz":
        ounces = round(kg / float(KG["oz"]) * 10)
        return f"{ounces // 160} lb {ounces % 160 / 10:.1f} oz"
    places = {"g": draw.choice([0, 1]), "kg": draw.choice([2, 3]), "lb": draw.choice([2, 3]), "oz": 1}[how]
    return f"{kg / float(KG[how]):.{places}f} {how}"


def revolutions(draw, about, ratio):
    """Entered one of four ways; (what is sent, revolutions, their step)."""
    way = draw.choice(["counted", "counted", "pulses", "turns", "distance"])
    if way == "counted":
        text = f"{about:.{draw.choice([0, 1, 2])}f}"
        return {"counted": text}, Fraction(text), last_place(text)
    if way == "pulses":
        per_rev = draw.choice([1, 4, 20, 360])
        pulses = round(about * per_rev)
        sent = {"pulses": {"pulses": str(pulses), "pulses_per_rev": str(per_rev)}}
        return sent, Fraction(pulses, per_rev), Fraction(1, per_rev)
    if way == "turns":
        text = f"{about / float(ratio):.{draw.choice([0, 1])}f}"
        return {"turns": {"turns": text}}, Fraction(text) * ratio, ratio / 4
    around = f"{draw.uniform(1.5, 3.0):.2f} m" if draw.random() < 0.5 else f"{draw.uniform(60, 120):.1f} in"
    metres = about / float(ratio) * float(length_of(around))
    driven = f"{metres:.1f} m" if draw.random() < 0.5 else f"{metres / 0.3048:.0f} ft"
    count = length_of(driven) / length_of(around) * ratio
    return {"distance": {"distance": driven, "circumference": around}}, count, ratio * Fraction(1, 10) / length_of(around)


def sheet(draw):
    runs_in_use = draw.randint(1, 12)
    ratio_text = draw.choice(["1", "2.5", "5:2", "1:3", "0.85"])
    above, _, below = ratio_text.partition(":")
    ratio = Fraction(above) / Fraction(below or 1)
    factor = 10.0 ** draw.uniform(-3, -1)  # kg per revolution per run
    scatter, uneven = draw.uniform(0.001, 0.02), draw.uniform(0.005, 0.05)
    how = draw.choice(["g", "kg", "lb", "oz", "lb oz"])
    scale = draw.choice(["1 g", "5 g", "0.01 lb", "0.1 oz", None])
    standing = draw.choice(["never_checked", "passed_within", "passed_long_ago", "failed"])
    policy = {
        "pooled_repeatability_percent": round(draw.uniform(0.5, 3.0), 2),
        "pooled_repeatability_degrees_of_freedom": draw.choice([0, 1, 5, 10, 40]),
        "scale_error_limit_percent": round(draw.uniform(0.1, 1.0), 2),
        "catch_resolution_limit_percent": round(draw.uniform(0.5, 2.0), 1),
    }
    catches = draw.randint(1, runs_in_use)
    each = draw.randint(1, runs_in_use // catches)
    repeats, figures = [], []
    for position in range(draw.randint(1, 6)):
        sent, count, step = revolutions(draw, draw.uniform(30, 300), ratio)
        bags = []
        for _ in range(catches):
            tare = "0 kg" if draw.random() < 0.2 else mass_text(draw, draw.uniform(0.1, 0.6), how)
            seed = factor * float(count) * each * (1 + draw.gauss(0, uneven)) * (1 + draw.gauss(0, scatter))
            bags.append((tare, mass_text(draw, float(mass_of(tare)[0]) + max(seed, 0.02), how)))
        aside = position > 0 and draw.random() < 0.15
        repeats.append(
            {
                "revolutions": sent,
                "catches": [{"label": None, "runs": each, "tare": tare, "gross": gross} for tare, gross in bags],
                "set_aside": "spilled" if aside else None,
            }
        )
        if not aside:
            figures.append((count, step, bags))
    circumstances = {
        "runs_in_use": runs_in_use,
        "drive_ratio": ratio_text,
        "drive_range": None,
        "roller_speed_rpm": None,
        "planned": None,
        "working_width_m": 6.0,
        "scale": scale and {"readability": scale, "capacity": "500 kg", "last_check": standing},
        "thousand_seed_weight_g": None,
        "expected": None,
        "policy": policy,
    }
    asked = {"sheet": {"repeats": repeats}, "circumstances": circumstances}
    in_force = scale is not None and standing == "passed_within"
    return asked, opinion(figures, each, runs_in_use, scale, in_force, policy)


def opinion(repeats, each, runs_in_use, scale, in_force, policy):
    """Sections catch, repeats, runs and uncertainty of the computation, on its own feet."""
    def steps(tare, gross):
        if scale is not None:
            return (mass_of(scale)[0],) * 2
        # A tare of zero was read off the same display as its gross.
        return (mass_of(tare)[1] if mass_of(tare)[0] else mass_of(gross)[1], mass_of(gross)[1])

    nets = [[mass_of(gross)[0] - mass_of(tare)[0] for tare, gross in bags] for _, _, bags in repeats]
    runs = each * len(nets[0])
    mass = sum(sum(net) for net in nets)
    run_revolutions = sum(runs * count for count, _, _ in repeats)
    factor = mass / run_revolutions
    own = [sum(net) / (runs * count) for net, (count, _, _) in zip(nets, repeats)]
    r, mean = len(own), sum(own) / len(own)

    squares = [sum(step**2 for step in steps(*bag)) / 12 for _, _, bags in repeats for bag in bags]
    u_read = math.sqrt(sum(squares)) / float(mass)
    u_rev = math.sqrt(sum((runs * step) ** 2 for _, step, _ in repeats) / 6) / float(run_revolutions)
    error = policy["scale_error_limit_percent"] / 100 * (1 if in_force else 2)
    u_scale = error / math.sqrt(3)
    s0, nu0 = policy["pooled_repeatability_percent"] / 100, policy["pooled_repeatability_degrees_of_freedom"]
    own_squares = float(sum((q - mean) ** 2 for q in own) / mean**2)
    nu = nu0 + r - 1
    # One repeat under a policy without earlier catches: the policy's scatter at one degree of freedom.
    variance, nu = ((nu0 * s0**2 + own_squares) / nu, nu) if nu else (s0**2, 1)
    u_rep = math.sqrt(variance / r)

    # The factor is a product of what was read and three corrections of one, each as uncertain as its term.
    result = ureal(float(factor), 0) * ureal(1, u_rep, nu) * ureal(1, u_read) * ureal(1, u_scale) * ureal(1, u_rev)
    combined = result.u / float(factor)
    k = coverage_factor(result.df, 0.95)

    cvs = []
    for net in nets:
        if len(net) > 1:
            middle = sum(net) / len(net)
            cvs.append(math.sqrt(sum((x - middle) ** 2 for x in net) / (len(net) - 1)) / float(middle))
    cv = max(cvs, default=None)
    low, high = modified_mckay(cv, len(nets[0]), 0.95) if cv else (None, None)
    percent = lambda value: None if value is None else 100 * value  # noqa: E731
    coarsest = math.sqrt(max(squares))
    return {
        "factor": float(factor),
        "factor_unit_total": float(factor * runs_in_use),
        "terms": [100 * u for u in (u_rep, u_read, u_scale, u_rev)],
        "combined_percent": 100 * combined,
        "degrees_of_freedom": None if math.isinf(result.df) else result.df,
        "coverage_factor": k,
        "expanded_percent": 100 * k * combined,
        "spread_percent": 100 * float((max(own) - min(own)) / mean) if r > 1 else None,
        "run_cv_percent": percent(cv),
        "run_cv_low_percent": percent(low),
        "run_cv_high_percent": percent(high),
        "minimum_catch_kg": coarsest / (policy["catch_resolution_limit_percent"] / 100),
    }
