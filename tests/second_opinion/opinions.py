"""What both single numbers and whole sheets are held against."""

import math

from GTC import inf_dof, reporting
from scipy import special, stats


def coverage_factor(df, level):
    """GTC's own. From 100,000 degrees of freedom on GTC takes the normal distribution (off by up to 1e-5); there scipy's t."""
    if inf_dof < df < math.inf:
        return float(special.stdtrit(df, (1 + level) / 2))
    return reporting.k_factor(df, 100 * level)


def modified_mckay(seen, count, level):
    """Vangel 1996, with scipy's chi-squared. The exact interval, from the noncentral t distribution, is another method."""
    degrees, tail = count - 1, (1 - level) / 2

    def end(u):
        under = ((u + 2) / count - 1) * seen**2 + u / degrees
        return seen / math.sqrt(under) if under > 0 else None

    low, high = end(stats.chi2.isf(tail, degrees)), end(stats.chi2.ppf(tail, degrees))
    return (None, None) if low is None or high is None else (low, high)
