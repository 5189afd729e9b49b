"""Losses in hoses and fittings by general reference libraries: the rows of kind `independent` in
published/inlet-pressure.csv. Run it in an environment with requirements.txt; it prints, it changes nothing.

fluids gives the friction factor (Colebrook) and the loss, iapws the water (SR6-08).
"""

from math import pi

from fluids.friction import Colebrook
from iapws._iapws import _Liquid

# L/min, mm, m, micrometres, Celsius, sum of loss coefficients
HOSES = [
    (8, 12.7, 3, 1.5, 15, 0),
    (4, 9.5, 2, 1.5, 5, 0),
    (10, 12.7, 5, 1.5, 5, 6),
    (2, 6.35, 1, 1.5, 20, 0),
    (15, 19, 10, 7, 10, 4),
    (12, 12.7, 7.5, 1.5, 8, 3.5),
    (6, 9.525, 4, 1.5, 12, 2),
    (3, 6.0, 1.5, 1.5, 25, 1),
    (1, 10, 2, 1.5, 10, 0),
]


def loss(flow, bore, length, roughness, celsius, coefficients):
    """Velocity in m/s, Reynolds number, friction factor, loss in kPa."""
    water = _Liquid(celsius + 273.15, 0.1)
    bore /= 1e3
    velocity = flow / 60e3 / (pi / 4 * bore**2)
    reynolds = water["rho"] * velocity * bore / water["mu"]
    factor = 64 / reynolds if reynolds <= 2040 else Colebrook(reynolds, roughness / 1e6 / bore)
    pressure = water["rho"] * velocity**2 / 2
    return velocity, reynolds, factor, (factor * length / bore + coefficients) * pressure / 1e3


if __name__ == "__main__":
    for hose in HOSES:
        print(hose, "%.4f m/s, Re %.1f, f %.6f, %.4f kPa" % loss(*hose))
