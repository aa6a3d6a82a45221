"""On which screen to look for an echo, in words."""

from core.base.language import tr
from core.plan.look_on import LookOn, Way
from core.ship.ship import Ship
from core.words import quantities


def look_cell(look: LookOn | None, ship: Ship) -> tuple[str, str]:
    """For a column: radar and scale, and below it how the scale comes to be set."""
    if look is None:
        return quantities.DASH, tr("no scale")
    under = {Way.IN_USE: "", Way.SCAN: tr("scan"), Way.TO_SET: tr("SET IT")}[look.way]
    return _screen(look, ship), under


def look_words(look: LookOn | None, ship: Ship) -> str:
    """For an entry of the watch; nothing where the main radar's scale in use holds it."""
    if look is None:
        return tr("beyond every scale of the main radar")
    screen = _screen(look, ship)
    if look.way is Way.TO_SET:
        return tr("SET {screen} to look", screen=screen)
    if look.way is Way.SCAN:
        return tr("look on {screen}, scan", screen=screen)
    return "" if look.is_main else tr("look on {screen}", screen=screen)


def _screen(look: LookOn, ship: Ship) -> str:
    """Radar and scale, the radar by its band where no other has the same."""
    same = sum(radar.band is look.radar.band for radar in ship.radars)
    name = look.radar.band.value if same == 1 else look.radar.name
    return tr("{radar} {scale}", radar=name, scale=quantities.scale(look.scale_m))
