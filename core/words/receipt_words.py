"""What a plan stands on in words: parameters, and publications by their names."""

from core.base.language import tr
from core.plan.digest import parameters_of
from core.plan.outcome import Outcome
from core.words.bridge_words import Bridge
from core.words.quantities import DASH

REFERENCES = (
    tr("SOLAS V/34 voyage planning; V/27 charts and publications kept up to date; V/28 records"),
    tr("IMO resolution A.893(21) guidelines for voyage planning"),
    tr("STCW Code A-VIII/2 watchkeeping and voyage planning; A-II/1 radar, with parallel indexing"),
    tr("COLREG rules 5, 6(b), 7(b) and (c), 8, 10, 19"),
    tr("IMO resolution MSC.192(79) performance standards for radar"),
    tr("IMO SN.1/Circ.271 siting of radar"),
    tr("IMO resolution A.960(23) exchange between master and pilot"),
)
"""Published names, as references alone: read them in their corrected originals."""

_UNITS = (
    ("_mm_h", "mm/h"),
    ("_mps", "m/s"),
    ("_nm", "NM"),
    ("_kn", "kn"),
    ("_deg", "°"),
    ("_minutes", "min"),
    ("_utc", "UTC"),
    ("_m", "m"),
    ("_s", "s"),
)
"""Ends of names of parameters and what they are printed as."""


def parameter_words(outcome: Outcome) -> tuple[str, ...]:
    """Every parameter of the plan, one a text, in the order of the plan file."""
    return tuple(_words(name, value) for name, value in parameters_of(outcome).items())


def _words(name: str, value: object) -> str:
    label, unit = name, ""
    for end, words in _UNITS:
        if name.endswith(end):
            label, unit = name.removesuffix(end), words
            break
    return f"{label.replace('_', ' ')}: {_value(value, unit)}"


def _value(value: object, unit: str) -> str:
    if value is None:
        return str(Bridge.NOT_GIVEN)
    if isinstance(value, bool):
        return str(Bridge.YES if value else Bridge.NO)
    if isinstance(value, dict):
        return ", ".join(_words(str(name), part) for name, part in value.items()) or str(Bridge.NO)
    if isinstance(value, list | tuple):
        if any(isinstance(part, list | tuple | dict) for part in value):
            return Bridge.ENTRIES.format(count=len(value))
        if value and all(part is None for part in value):
            return str(Bridge.NOT_GIVEN)
        return f"{', '.join(_value(part, '') for part in value)} {unit}".strip() or str(Bridge.NO)
    text = f"{value:g}" if isinstance(value, float) else str(value)
    return f"{text} {unit}".strip() or DASH
