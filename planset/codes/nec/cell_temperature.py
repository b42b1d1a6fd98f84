"""Temperature of cells in the sun; the NEC's notes leave the model to SAND2004-3535."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from planset.codes import _check

FIXED_RISE_C: Mapping[str, float] = MappingProxyType({"flush": 35.0, "raised": 30.0, "open": 25.0})
"""Rise over the 2 % summer ambient: flush on a roof, over 6 in above one, on the ground [C].

Common practice, no published text; the model it stands for is that of the source.

Source: SAND2004-3535 2004, Equation 11.
"""


@dataclass(frozen=True, slots=True)
class ThermalModel:
    """Constants of the model for one way of mounting.

    Attributes:
        a: Constant of the irradiance (no unit).
        b: Constant of the wind [s/m].
        difference_c: Cell over back of module at 1000 W/m2 [degrees C].

    Source: SAND2004-3535 2004, Equation 11 and Table 1.
    """

    a: float
    b: float
    difference_c: float


THERMAL_MODELS: Mapping[str, ThermalModel] = MappingProxyType(
    {
        "open_rack_glass_glass": ThermalModel(-3.47, -0.0594, 3.0),
        "close_mount_glass_glass": ThermalModel(-2.98, -0.0471, 1.0),
        "open_rack_glass_polymer": ThermalModel(-3.56, -0.0750, 3.0),
        "insulated_back_glass_polymer": ThermalModel(-2.81, -0.0455, 0.0),
    }
)
"""Mounting to the constants of the model.

Source: SAND2004-3535 2004, Equation 11 and Table 1.
"""


def cell_temperature_by_rise_c(ambient_c: float, rise_c: float) -> float:
    """Cell temperature as a fixed rise over the ambient.

    Args:
        ambient_c: Summer design ambient [degrees C].
        rise_c: Rise, such as one of `FIXED_RISE_C` [degrees C].

    Returns:
        Their sum [degrees C].

    Raises:
        ValueError: Rise negative.

    Source: SAND2004-3535 2004, Equation 11, which the rise stands for.
    """
    _check.not_negative(rise_c, "rise of the cells, C,")
    return ambient_c + rise_c


def cell_temperature_by_noct_c(ambient_c: float, noct_c: float, irradiance: float) -> float:
    """Cell temperature from the nominal operating cell temperature.

    Args:
        ambient_c: Ambient [degrees C].
        noct_c: Nominal operating cell temperature, at 800 W/m2 and 20 C [degrees C].
        irradiance: On the plane of the module [W/m2].

    Returns:
        Ambient and (NOCT - 20) / 800 times the irradiance [degrees C].

    Raises:
        ValueError: NOCT outside 20 to 80 C, or irradiance negative.

    Source: IEC 61215 2005, Section 10.5 [from memory].
    """
    _check.within(noct_c, 20.0, 80.0, "nominal operating cell temperature, C,")
    _check.not_negative(irradiance, "irradiance, W/m2,")
    return ambient_c + (noct_c - 20.0) / 800.0 * irradiance


def cell_temperature_by_model_c(
    ambient_c: float, irradiance: float, wind_m_per_s: float, mounting: str
) -> float:
    """Cell temperature by mounting and wind.

    Args:
        ambient_c: Ambient [degrees C].
        irradiance: On the plane of the module [W/m2].
        wind_m_per_s: Wind at 10 m height [m/s].
        mounting: A name of `THERMAL_MODELS`.

    Returns:
        G exp(a + b v) over the ambient, and the difference through the module [degrees C].

    Raises:
        ValueError: Irradiance or wind negative, or no such mounting.

    Source: SAND2004-3535 2004, Equation 11 and Table 1.
    """
    _check.not_negative(irradiance, "irradiance, W/m2,")
    _check.not_negative(wind_m_per_s, "wind, m/s,")
    if mounting not in THERMAL_MODELS:
        msg = f"mounting is {mounting!r}; expected one of {', '.join(THERMAL_MODELS)}"
        raise ValueError(msg)
    model = THERMAL_MODELS[mounting]
    back_c = ambient_c + irradiance * math.exp(model.a + model.b * wind_m_per_s)
    return back_c + irradiance / 1000.0 * model.difference_c
