"""Grounding electrode conductors and bonding jumpers of a service by NEC article 250."""

from collections.abc import Mapping

from planset.codes.nec import _tables, conductors

LARGEST_TO_ROD = {"copper": "6", "aluminum": "4"}
"""Largest grounding electrode conductor that is asked for to rods, pipes or plates only, AWG.

Source: NEC 2023, 250.66(A); NEC 2017 and 2020, and the aluminum size, 250.66(A) [from memory].
"""

LARGEST_TO_CONCRETE = {"copper": "4"}
"""Largest one asked for to a concrete-encased electrode only, AWG.

Source: NEC 2017, 2020 and 2023, 250.66(B) [from memory].
"""

_CAPS: Mapping[str, Mapping[str, str]] = {
    "water_pipe": {},
    "rod": LARGEST_TO_ROD,
    "concrete_encased": LARGEST_TO_CONCRETE,
}


def grounding_electrode_size(
    supply_size: str, supply_material: str, material: str = "copper", electrode: str = "water_pipe"
) -> str:
    """Smallest grounding electrode conductor of an ac service or system.

    Args:
        supply_size: Largest ungrounded supply conductor.
        supply_material: "copper" or "aluminum".
        material: Material of the grounding electrode conductor.
        electrode: "water_pipe" or another that asks for the table's size, "rod" or
            "concrete_encased" where the conductor goes to nothing else.

    Returns:
        Size.

    Raises:
        ValueError: No such size, material or electrode.

    Source: NEC 2017, 2020 and 2023, Table 250.66; 250.66(A) and (B) [partly from memory].
    """
    if electrode not in _CAPS:
        msg = f"electrode is {electrode!r}; expected one of {', '.join(_CAPS)}"
        raise ValueError(msg)
    size = _size("grounding_electrode", supply_size, supply_material, material)
    assert size is not None, "the last line of this table has no end"
    cap = _CAPS[electrode].get(material)
    return size if cap is None else min(size, cap, key=conductors.area_cmil)


def supply_bonding_jumper_size(
    supply_size: str, supply_material: str, material: str = "copper"
) -> str:
    """Smallest supply-side or main bonding jumper of one set of supply conductors.

    Args:
        supply_size: Largest ungrounded supply conductor.
        supply_material: "copper" or "aluminum".
        material: Material of the jumper; of the supply's where that is over the table.

    Returns:
        Size of the table; over its end the first size of 12.5 % of the supply conductor's area.

    Raises:
        ValueError: No such size or material, or materials that differ over the end of the table.

    Source: NEC 2023, Table 250.102(C)(1); NEC 2017 and 2020, Table 250.102(C)(1) [from memory].
    """
    size = _size("supply_bonding_jumper", supply_size, supply_material, material)
    if size is not None:
        return size
    if material != supply_material:
        msg = f"bonding jumper is of {material}; expected {supply_material} as the {supply_size}"
        raise ValueError(msg)
    return conductors.smallest_size_of_area(0.125 * conductors.area_cmil(supply_size))


def dc_grounding_electrode_size(largest_size: str, material: str = "copper") -> str:
    """Grounding electrode conductor of a solidly grounded dc system.

    Args:
        largest_size: Largest conductor the system supplies.
        material: "copper" or "aluminum".

    Returns:
        That size, at least 8 AWG copper or 6 AWG aluminum.

    Raises:
        ValueError: No such size or material.

    Source: NEC 2017, 2020 and 2023, 250.166(B) [from memory].
    """
    least = {"copper": "8", "aluminum": "6"}
    if material not in least:
        msg = f"material is {material!r}; expected one of {', '.join(least)}"
        raise ValueError(msg)
    return max(largest_size, least[material], key=conductors.area_cmil)


def _size(table: str, supply_size: str, supply_material: str, material: str) -> str | None:
    for name in (supply_material, material):
        if name not in conductors.MATERIALS:
            msg = f"material is {name!r}; expected one of {', '.join(conductors.MATERIALS)}"
            raise ValueError(msg)
    area = conductors.area_cmil(supply_size)
    return _tables.size_for_supply(table, area, supply_material, material)
