"""Day, dusk and night, and how bright each is; kept from session to session."""

from app.paint.palette import PALETTES, Palette
from app.state.settings import BRIGHTNESS, PALETTE, Settings
from core.base.language import tr

LIGHTS = ("day", "dusk", "night")
STEPS = (100, 85, 70, 55, 42, 32)
"""Percent of the light that the palette gives at most."""


class Lighting:
    """The palette of the window now."""

    def __init__(self, settings: Settings) -> None:
        self._settings = settings
        self.choose(settings.get(PALETTE))

    def choose(self, name: str) -> Palette:
        """Change to the colours of day, dusk or night; day for any other name."""
        self._name = name if name in LIGHTS else LIGHTS[0]
        self._settings.put(PALETTE, self._name)
        return self.palette

    def next(self) -> Palette:
        """Change to the next of day, dusk and night."""
        return self.choose(LIGHTS[(LIGHTS.index(self._name) + 1) % len(LIGHTS)])

    def step(self, steps: int) -> Palette:
        """So many steps brighter, or dimmer where negative."""
        at = min(max(STEPS.index(self.percent) - steps, 0), len(STEPS) - 1)
        kept = self._settings.get(BRIGHTNESS)
        self._settings.put(BRIGHTNESS, {**kept, self._name: STEPS[at]})
        return self.palette

    @property
    def percent(self) -> int:
        """How bright the colours are."""
        percent = self._settings.get(BRIGHTNESS).get(self._name, STEPS[0])
        return percent if percent in STEPS else STEPS[0]

    @property
    def palette(self) -> Palette:
        """The colours as they are shown."""
        return PALETTES[self._name].dimmed(self.percent / 100.0)

    @property
    def words(self) -> str:
        """What is shown, for the status line."""
        said = {
            "day": tr("Day colours, {percent} % of their light", percent=self.percent),
            "dusk": tr("Dusk colours, {percent} % of their light", percent=self.percent),
            "night": tr("Night colours, {percent} % of their light", percent=self.percent),
        }
        return said[self._name]
