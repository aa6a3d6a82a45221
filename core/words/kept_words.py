"""Words that files and tables keep in English, as they are shown; an officer's own stay his own."""

from core.base.language import tr

_SHOWN = {
    # Kinds of marks.
    "anchorage": tr("anchorage"),
    "beacon": tr("beacon"),
    "breakwater": tr("breakwater"),
    "breakwater end": tr("breakwater end"),
    "bridge": tr("bridge"),
    "buoy": tr("buoy"),
    "chimney": tr("chimney"),
    "fairway": tr("fairway"),
    "ferry landing": tr("ferry landing"),
    "ferry slip": tr("ferry slip"),
    "harbour entrance": tr("harbour entrance"),
    "harbour mouth": tr("harbour mouth"),
    "jetty": tr("jetty"),
    "light vessel": tr("light vessel"),
    "lighthouse": tr("lighthouse"),
    "marina": tr("marina"),
    "mark": tr("mark"),
    "mole": tr("mole"),
    "pier": tr("pier"),
    "pier end": tr("pier end"),
    "pilot station": tr("pilot station"),
    "place": tr("place"),
    "racon": tr("racon"),
    "river mouth": tr("river mouth"),
    "slipway": tr("slipway"),
    "tower": tr("tower"),
    "traffic lane": tr("traffic lane"),
    # What a set is taken as, and its pulses where the ship file states none.
    "minimum standard": tr("minimum standard"),
    "typical": tr("typical"),
    "short": tr("short"),
    "medium": tr("medium"),
    "long": tr("long"),
    # Uses, sides and directions.
    "primary": tr("primary"),
    "check": tr("check"),
    "port": tr("port"),
    "starboard": tr("starboard"),
    "ahead": tr("ahead"),
    "astern": tr("astern"),
    "blind": tr("blind"),
    "shadow": tr("shadow"),
    # Targets of the performance standard.
    "buoy with corner reflector": tr("buoy with corner reflector"),
    "channel marker": tr("channel marker"),
    "ship over 500 GT": tr("ship over 500 GT"),
    "ship over 5000 GT": tr("ship over 5000 GT"),
    "shoreline rising to 3 m": tr("shoreline rising to 3 m"),
    "shoreline rising to 6 m": tr("shoreline rising to 6 m"),
    "shoreline rising to 60 m": tr("shoreline rising to 60 m"),
    "small vessel with reflector": tr("small vessel with reflector"),
    "typical buoy": tr("typical buoy"),
    "vessel of 10 m, no reflector": tr("vessel of 10 m, no reflector"),
}
_KEPT = {said: word for word, said in _SHOWN.items()}


def shown(word: str) -> str:
    """A word of a file for who reads it."""
    return _SHOWN.get(word, word)


def kept(said: str) -> str:
    """What a file keeps for a word that was shown or typed."""
    return _KEPT.get(said, said)
