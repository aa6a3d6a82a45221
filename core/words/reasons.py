"""Reason codes of the plan into sentences."""

from core.plan.result import Reason
from core.words import quantities

TEMPLATES: dict[str, str] = {
    "steep-and-narrow": "steep and narrow, {height}",
    "near-the-new-track": "near the new track",
    "forced-by-object": "forced by {object} at {range}",
    "look-out": "look-out distance",
    "tangent-and-response": "tangent length plus response distance",
}
"""Sentence of each code; names in braces are values of the reason without their unit."""


def sentence(reason: Reason) -> str:
    """A reason in words; a code without a sentence of its own is spelled out with its values."""
    values = {_bare(name): _word(name, value) for name, value in reason.values}
    template = TEMPLATES.get(reason.code)
    if template is not None:
        try:
            return template.format(**values)
        except KeyError:
            pass
    plain = reason.code.replace("-", " ").replace("_", " ")
    if not values:
        return plain
    numbers = ", ".join(f"{name.replace('_', ' ')} {value}" for name, value in values.items())
    return f"{plain} ({numbers})"


def _bare(name: str) -> str:
    """The name of a value without its unit."""
    for unit in _UNITS:
        if name.endswith(unit):
            return name[: -len(unit)]
    return name


def _word(name: str, value: float | str) -> str:
    """A value in words, by the unit at the end of its name."""
    if isinstance(value, str):
        return value
    if name.endswith("_m") and name.removesuffix("_m").endswith(("height", "level", "draught")):
        return quantities.height(value)
    if name.endswith("_m"):
        return quantities.distance(value, 2)
    if name.endswith("_deg"):
        return f"{value:.0f}°"
    if name.endswith("_mps"):
        return quantities.speed(value)
    if name.endswith("_s"):
        return f"{value / 60.0:.0f} min"
    if name.endswith("_minutes"):
        return f"{value:.0f} min"
    if name.endswith("_ratio"):
        return quantities.percent(value)
    return f"{value:g}"


_UNITS = ("_deg_per_min", "_mps", "_deg", "_ratio", "_minutes", "_m", "_s")
