"""How much faster a change runs when it is warmer: the Q10 rule and the Arrhenius law."""

from collections.abc import Mapping
from math import log

import numpy as np

from diagnose.process.trace import Numbers
from diagnose.units import kelvin_from_celsius


def q10_speed(temperature_c: Numbers, *, reference_c: float, q10: float) -> Numbers:
    """Speed against the speed at a reference temperature, by the Q10 rule.

    Args:
        temperature_c: temperatures [C].
        reference_c: where the speed counts as 1 [C].
        q10: how many times faster for 10 C more [-].

    Returns:
        Speed [-], in the shape of `temperature_c`.

    Source: Bamforth, Lentini 2009, in Beer: A Quality Perspective, 85-109 (as quoted).
    """
    return np.power(q10, (temperature_c - reference_c) / 10)


def equivalent_time(duration: float, *, kept_c: float, counted_at_c: float, q10: float) -> float:
    """How long a stay at one temperature would take at another for the same effect.

    Args:
        duration: length of the stay [any unit of time].
        kept_c: the temperature of the stay [C].
        counted_at_c: the temperature it is counted at [C].
        q10: how many times faster for 10 C more [-].

    Returns:
        Length at `counted_at_c` [the unit of `duration`].

    Source: Bamforth, Lentini 2009, in Beer: A Quality Perspective, 85-109 (as quoted).
    """
    return duration * float(q10 ** ((kept_c - counted_at_c) / 10))


def arrhenius_speed(
    temperature_c: Numbers,
    *,
    reference_c: float,
    energy_kj_per_mol: float,
    constants: Mapping[str, float],
) -> Numbers:
    """Speed against the speed at a reference temperature, by the Arrhenius law.

    Args:
        temperature_c: temperatures [C].
        reference_c: where the speed counts as 1 [C].
        energy_kj_per_mol: activation energy [kJ/mol].
        constants: reads `gas_constant`.

    Returns:
        Speed [-], in the shape of `temperature_c`.

    Source: the Arrhenius law, textbook physics.
    """
    steepness_k = energy_kj_per_mol * 1000 / constants["gas_constant"]
    here_k = temperature_c + kelvin_from_celsius(0.0)
    return np.exp(steepness_k * (1 / kelvin_from_celsius(reference_c) - 1 / here_k))


def activation_energy_kj_per_mol(
    speed_ratio: float, *, cold_c: float, warm_c: float, constants: Mapping[str, float]
) -> float:
    """The activation energy behind a ratio of speeds at two temperatures.

    Args:
        speed_ratio: speed when warm over speed when cold [-].
        cold_c: the cold temperature [C].
        warm_c: the warm temperature [C].
        constants: reads `gas_constant`.

    Returns:
        Activation energy [kJ/mol].

    Source: the Arrhenius law turned round, textbook physics.
    """
    gap_per_k = 1 / kelvin_from_celsius(cold_c) - 1 / kelvin_from_celsius(warm_c)
    return log(speed_ratio) / gap_per_k * constants["gas_constant"] / 1000


def q10_from_ratio(speed_ratio: float, difference_c: float) -> float:
    """The Q10 behind a ratio of speeds that lie some degrees apart.

    Args:
        speed_ratio: speed when warm over speed when cold [-].
        difference_c: degrees between the two [C].

    Returns:
        How many times faster for 10 C more [-].

    Source: the Q10 rule turned round, first principles.
    """
    return float(speed_ratio ** (10 / difference_c))


def log_between(
    temperature_c: Numbers, cold: tuple[float, float], warm: tuple[float, float]
) -> Numbers:
    """A rate read between two known rates, on a logarithmic scale.

    Args:
        temperature_c: temperatures [C].
        cold: a temperature [C] and the rate at it [any unit], above zero.
        warm: a warmer temperature [C] and the rate at it [the same unit], above zero.

    Returns:
        Rates [the same unit], in the shape of `temperature_c`; on the same line beyond the two.

    Source: a Q10 law through two points, first principles.
    """
    steps = (temperature_c - cold[0]) / (warm[0] - cold[0])
    return cold[1] * np.power(warm[1] / cold[1], steps)
