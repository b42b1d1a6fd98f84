"""Abbreviations and letter symbols of the sheets, and what they stand for."""

from __future__ import annotations

import re
from collections.abc import Iterable

_MEANINGS = (
    ("AC", "alternating current"),
    ("AFCI", "arc-fault circuit interrupter"),
    ("AHJ", "authority having jurisdiction"),
    ("AIC", "ampere interrupting capacity"),
    ("ANSI", "American National Standards Institute"),
    ("ASCE", "American Society of Civil Engineers"),
    ("ASD", "allowable stress design"),
    ("AWC", "American Wood Council"),
    ("AWG", "American wire gauge"),
    ("AZIM.", "azimuth"),
    ("CAT.", "category"),
    ("CB", "circuit breaker"),
    ("CBC", "California Building Code"),
    ("CEBC", "California Existing Building Code"),
    ("CEC", "California Electrical Code"),
    ("CFC", "California Fire Code"),
    ("CFR", "Code of Federal Regulations"),
    ("CRC", "California Residential Code"),
    ("CONV", "dc-to-dc converters of a string"),
    ("CONT.", "continued"),
    ("CD", "load duration factor"),
    ("CF", "size factor of lumber"),
    ("CL", "beam stability factor"),
    ("CM", "wet service factor"),
    ("Cs", "slope factor, snow"),
    ("Ct", "temperature factor"),
    ("CU", "copper"),
    ("DC", "direct current"),
    ("DEG", "degrees"),
    ("DIA", "diameter"),
    ("DISC", "disconnect"),
    ("DN", "down"),
    ("(E)", "existing"),
    ("EGC", "equipment grounding conductor"),
    ("EMT", "electrical metallic tubing"),
    ("EXP.", "exposure"),
    ("FT", "feet"),
    ("GCp", "external pressure coefficient"),
    ("GEC", "grounding electrode conductor"),
    ("GM", "gas meter"),
    ("IBC", "International Building Code"),
    ("IEBC", "International Existing Building Code"),
    ("IFC", "International Fire Code"),
    ("Imp", "current at maximum power"),
    ("INV", "inverter"),
    ("IRC", "International Residential Code"),
    ("Isc", "short-circuit current"),
    ("JB", "junction box"),
    ("Kd", "wind directionality factor"),
    ("kAIC", "thousands of amperes of interrupting capacity"),
    ("kVA", "kilovolt-ampere"),
    ("kW", "kilowatt"),
    ("Kz", "velocity pressure coefficient"),
    ("Kzt", "topographic factor"),
    ("LB", "pound"),
    ("Lr", "roof live load"),
    ("MAX.", "maximum"),
    ("MIN.", "minimum"),
    ("MPPT", "maximum power point tracking, the range of input voltage"),
    ("MPH", "miles per hour"),
    ("MSP", "main service panel"),
    ("N/A", "not applicable"),
    ("NDS", "National Design Specification for Wood Construction"),
    ("NEC", "National Electrical Code"),
    ("NEG", "negative"),
    ("NFPA", "National Fire Protection Association"),
    ("NO.", "number"),
    ("NTS", "not to scale"),
    ("O.C.", "on center"),
    ("OCPD", "overcurrent protective device"),
    ("pf", "snow load of a flat roof"),
    ("PCF", "pounds per cubic foot"),
    ("PL", "property line"),
    ("PLF", "pounds per foot"),
    ("PM", "production meter"),
    ("POS", "positive"),
    ("PSF", "pounds per square foot"),
    ("PSI", "pounds per square inch"),
    ("PV", "photovoltaic"),
    ("PVC", "polyvinyl chloride"),
    ("qh", "velocity pressure at the mean roof height"),
    ("QTY", "quantity"),
    ("RHW-2", "thermoset insulation, 90 C in wet places"),
    ("RSD", "rapid shutdown device"),
    ("SCCR", "short-circuit current rating"),
    ("SQ", "square"),
    ("TC-ER", "tray cable for exposed runs"),
    ("THWN-2", "thermoplastic insulation, 90 C in wet places"),
    ("TYP.", "typical"),
    ("UL", "a listing laboratory, with its standard"),
    ("UM", "utility meter"),
    ("UTIL", "utility"),
    ("Vmp", "voltage at maximum power"),
    ("Voc", "open-circuit voltage"),
)

_SPELLINGS = {
    "AZIM.": ("AZIM",),
    "DN": ("DN.",),
    "kVA": ("KVA",),
    "MAX.": ("MAX",),
    "MIN.": ("MIN",),
    "MPH": ("mph",),
    "NO.": ("No.",),
    "PSF": ("psf",),
    "PSI": ("psi",),
}
"""Other ways in which the sheets write one."""


def abbreviations_in(words: Iterable[str]) -> list[tuple[str, str]]:
    """The abbreviations that stand in texts, each with its meaning, in the order of the alphabet.

    A number may follow one, as in the tags of equipment: INV1.
    """
    whole = "\n".join(words)
    found = [pair for pair in _MEANINGS if any(_stands(one, whole) for one in _written(pair[0]))]
    return sorted(found, key=lambda pair: pair[0].strip("(").casefold())


def _written(abbreviation: str) -> tuple[str, ...]:
    return (abbreviation, *_SPELLINGS.get(abbreviation, ()))


def _stands(abbreviation: str, words: str) -> bool:
    if abbreviation not in words:
        return False
    after = "" if abbreviation[-1] in ".)" else r"(?![A-Za-z])"
    letters = re.escape(abbreviation)  # first: what begins with letters is sought much faster
    return re.search(rf"{letters}(?<![A-Za-z0-9.-]{letters}){after}", words) is not None
