"""Random cases of each kind, and what other people's libraries say of them.

A kind is a function that draws one case and returns (what is asked of core, what the other library answers).
"""

import math
import statistics
from fractions import Fraction

import numpy
from GTC import ureal
from scipy import special, stats

from opinions import coverage_factor, modified_mckay
from sheets import sheet


def budget(draw):
    """Components with and without degrees of freedom: GTC's uncertain numbers, added."""
    size = 10.0 ** draw.uniform(-6, 6)
    parts = [
        (size * 10.0 ** draw.uniform(-2, 0), draw.choice([None, float(draw.randint(1, 60)), draw.uniform(1.0, 200.0)]))
        for _ in range(draw.randint(1, 8))
    ]
    total = sum(ureal(0, u, math.inf if nu is None else nu) for u, nu in parts)
    level = draw.choice([0.9, 0.95, 0.99, draw.uniform(0.5, 0.999)])
    expanded = coverage_factor(total.df, level) * total.u
    components = [{"standard_uncertainty": u, "degrees_of_freedom": nu} for u, nu in parts]
    return {"components": components, "level": level}, {
        "standard_uncertainty": total.u,
        "degrees_of_freedom": None if math.isinf(total.df) else total.df,
        "expanded": expanded,
    }


def spread(draw):
    """Mean and standard deviation in exact fractions (statistics), range by numpy."""
    middle, scatter = 10.0 ** draw.uniform(-3, 4), 10.0 ** draw.uniform(-4, -0.5)
    values = [abs(draw.gauss(middle, middle * scatter)) for _ in range(draw.randint(2, 40))]
    exact = [Fraction(value) for value in values]
    mean = float(statistics.mean(exact))
    deviation = math.sqrt(statistics.variance(exact))
    return {"values": values}, {
        "mean": mean,
        "standard_deviation": deviation,
        "coefficient_of_variation": deviation / mean,
        "relative_range": float(numpy.ptp(values)) / mean,
    }


def cv_interval(draw):
    seen, count = 10.0 ** draw.uniform(-4, -0.3), draw.randint(2, 200)
    level = draw.choice([0.9, 0.95, 0.99])
    low, high = modified_mckay(seen, count, level)
    return {"seen": seen, "count": count, "level": level}, {"low": low, "high": high}


def probability(draw):
    """In the middle, and down to a millionth at either end."""
    far = 10.0 ** draw.uniform(-6, -1)
    return draw.choice([draw.uniform(0.001, 0.999), far, 1.0 - far])


def student(draw):
    p, nu = probability(draw), draw.choice([10.0 ** draw.uniform(0, 6), float(draw.randint(1, 100))])
    return {"p": p, "degrees_of_freedom": nu}, {"quantile": float(special.stdtrit(nu, p))}


def chi_squared(draw):
    p, nu = probability(draw), draw.choice([10.0 ** draw.uniform(0, 4), float(draw.randint(1, 200))])
    return {"p": p, "degrees_of_freedom": nu}, {"quantile": float(stats.chi2.ppf(p, nu))}


def line(draw):
    """Points that scatter about a line, by scipy.stats.linregress."""
    slope, level = draw.gauss(0, 1) * 10.0 ** draw.uniform(-3, 3), draw.gauss(0, 1) * 10.0 ** draw.uniform(-3, 3)
    middle, extent = draw.uniform(-5, 5), 10.0 ** draw.uniform(-1, 2)
    xs = [middle + draw.uniform(-extent, extent) for _ in range(draw.randint(3, 40))]
    # Not less: linregress takes the scatter from 1 - r², which loses its digits where r² is nearly one.
    scatter = max(abs(slope) * extent, 1e-6) * 10.0 ** draw.uniform(-1.5, 0.5)
    points = [(x, level + slope * x + draw.gauss(0, scatter)) for x in xs]
    found = stats.linregress([x for x, _ in points], [y for _, y in points])
    return {"points": points}, {
        "slope": found.slope,
        "intercept": found.intercept,
        "slope_uncertainty": found.stderr,
        "intercept_uncertainty": found.intercept_stderr,
        "unexplained_share": 1.0 - found.rvalue**2,
    }


KINDS = {
    "budget": budget,
    "spread": spread,
    "cv_interval": cv_interval,
    "student": student,
    "chi_squared": chi_squared,
    "line": line,
    "sheet": sheet,
}
