"""The values of the self-test, each reckoned in another way than the sheet does."""

import math

import numpy as np
import pandas as pd
from scipy import integrate, optimize

from tests.oracles.tools import Oracle, Room


def _saturation(celsius: float) -> float:
    """Benson & Krause: a polynomial in the inverse of the temperature."""
    terms = np.array([-139.34411, 1.575701e5, -6.642308e7, 1.243800e10, -8.621949e11])
    return float(np.exp(np.polynomial.polynomial.polyval(1 / (celsius + 273.15), terms)))


def _resting(mass: float, celsius: float) -> float:
    """Clarke & Johnston: millimoles an hour of a 50 g fish, by mass to the power 0.8."""
    millimoles = math.exp(15.7 - 5020 / (celsius + 273.15)) * (mass / 50) ** 0.80
    return millimoles * 31.9988


def _bow(chord: float, depth: float) -> float:
    """The bow by integration over the width of the pane."""
    radius = (chord**2 / 4 + depth**2) / (2 * depth)
    return float(
        integrate.quad(lambda x: math.sqrt(radius**2 - x**2) - (radius - depth), -chord / 2, chord / 2, epsabs=1e-10)[0]
    )


def _settled(rise: float, share: float, source: float) -> float:
    """Nitrate before a change after many cycles, change by change."""
    level = source
    for _ in range(2000):
        level = (level + rise) * (1 - share) + source * share
    return level + rise


REACHED = {
    "ammonia_kilogram": 1000 * 0.35 * 0.092,
    "saturation_15": _saturation(15),
    "saturation_25": _saturation(25),
    "saturation_30": _saturation(30),
    "pressure_1000": (1 - 2.25577e-5 * 1000) ** 5.25588,
    "resting_1_20": _resting(1, 20),
    "resting_50_25": _resting(50, 25),
    "mass_10": 0.01122 * 10**3.04,
    "bow": _bow(90, 10),
    "cylinder": math.pi * (40 / 2) ** 2 * 50 / 1000,
    "steady": _settled(12.83, 0.25, 5),
    "needed": optimize.brentq(lambda share: 5 + 12.83 / share - 40, 0.01, 1, xtol=1e-15),
    "nitrification": 41.4 * 4.57 / 24,
    "gallon": 75.70823568 / (231 * 2.54**3 / 1000),
    "fahrenheit": 26 * 9 / 5 + 32,
    "as_fed": 1 / 0.20,
}


def _value(number: float) -> Oracle:
    def told(room: Room) -> pd.Series:
        return pd.Series([number])

    return told


globals().update({key: _value(number) for key, number in REACHED.items()})
