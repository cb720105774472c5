"""Carbon dioxide in a closed room."""

from collections.abc import Mapping

from diagnose.process.salts import molar_mass_g
from diagnose.process.validity import require_within
from diagnose.units import kelvin_from_celsius

_ROOM_C = 20.0
_PA_PER_BAR = 1e5


def gas_m3(gas_kg: float, constants: Mapping[str, float]) -> float:
    """Room that an amount of carbon dioxide takes at 20 C and sea level.

    Args:
        gas_kg: gas [kg], none or more.
        constants: reads `gas_constant`, `standard_atmosphere_bar` and the atomic masses.

    Returns:
        Volume [m3].

    Raises:
        OutsideValidity: less than no gas.

    Source: gas law.
    """
    require_within(gas_kg, (0.0, 1e6), "carbon dioxide in kg of")
    moles = 1000.0 * gas_kg / molar_mass_g({"C": 1, "O": 2}, constants)
    pressure_pa = _PA_PER_BAR * constants["standard_atmosphere_bar"]
    return moles * constants["gas_constant"] * kelvin_from_celsius(_ROOM_C) / pressure_pa


def gas_in_room_ppm(gas_kg: float, room_m3: float, constants: Mapping[str, float]) -> float:
    """Carbon dioxide that a closed room comes to hold.

    Args:
        gas_kg: gas let out into it [kg].
        room_m3: the room [m3], above zero.
        constants: as for `gas_m3`.

    Returns:
        Share by volume [ppm]; 40,000 is a danger to life.

    Raises:
        OutsideValidity: less than no gas, or no room.

    Source: gas law, none of it leaking away. A printed 1,000 ppm for 0.45 kg in 1,000 cubic feet
        is nine times too low, and unsafe.
    """
    require_within(room_m3, (0.1, 1e6), "a room of m3")
    return 1e6 * gas_m3(gas_kg, constants) / room_m3
