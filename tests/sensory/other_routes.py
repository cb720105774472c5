"""How often tasters are right, by scipy alone and by other formulas than ours."""

from math import inf, sqrt

from scipy import integrate, stats

NORMAL = stats.norm


def _integral(function, low=-inf, high=inf):
    return integrate.quad(function, low, high, epsabs=1e-13, epsrel=1e-13, limit=400)[0]


def _triangle(d):
    """Tail of the non-central F distribution."""
    return stats.ncf.sf(3.0, 1, 1, 2.0 * d * d / 3.0) if d else 1.0 / 3.0


def _duo_trio(d):
    """Chance that both differences, reference less each sample, agree in the right way."""
    near, far = NORMAL.cdf(d / sqrt(2)), NORMAL.cdf(d / sqrt(6))
    return near * far + (1.0 - near) * (1.0 - far)


def _tetrad(d):
    """All of one beer below all of the other, either way round, over the lower of two maxima."""
    up = _integral(lambda x: 2 * NORMAL.pdf(x) * NORMAL.cdf(x) * NORMAL.sf(x - d) ** 2, -9, 9)
    down = _integral(
        lambda x: 2 * NORMAL.pdf(x - d) * NORMAL.cdf(x - d) * NORMAL.sf(x) ** 2, -9, 9 + d
    )
    return up + down


def _tetrad_specified(d):
    return _integral(lambda x: 2 * NORMAL.pdf(x) * NORMAL.cdf(x) * NORMAL.sf(x - d) ** 2, -9, 9)


OTHER_ROUTES = {
    "triangle": _triangle,
    "duo-trio": _duo_trio,
    "2-afc": lambda d: NORMAL.sf(0.0, loc=d, scale=sqrt(2)),
    "2-afc-two-sided": lambda d: NORMAL.sf(0.0, loc=d, scale=sqrt(2)),
    "3-afc": lambda d: _integral(lambda x: NORMAL.pdf(x - d) * NORMAL.cdf(x) ** 2, d - 9, d + 9),
    "tetrad": _tetrad,
    "tetrad-specified": _tetrad_specified,
}
