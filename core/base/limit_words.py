"""The sentence for a number that is out of its limits."""

from core.base.language import tr


def not_between(what: str, value: str, low: float, high: float, unit: str) -> str:
    """Say that a value, as it is read, is not within its limits; some have no unit."""
    if not unit:
        return tr(
            "the {what} {value} is not between {low:g} and {high:g}",
            what=what,
            value=value,
            low=low,
            high=high,
        )
    return tr(
        "the {what} {value} {unit} is not between {low:g} and {high:g} {unit}",
        what=what,
        value=value,
        low=low,
        high=high,
        unit=unit,
    )
