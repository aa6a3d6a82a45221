"""A file of texts in another language: read, and passed over where it would lose what they tell.

A JSON object from English texts to texts of the language. A text that counts stands under both its
English forms, with as many forms as ``"plural rule"`` has; that is one of ``PLURAL_RULES``.
"""

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from string import Formatter

RULE_KEY = "plural rule"
USUAL_RULE = "one, many"


def _east_slavic(count: int) -> int:
    if count % 10 == 1 and count % 100 != 11:
        return 0
    return 1 if count % 10 in (2, 3, 4) and count % 100 not in (12, 13, 14) else 2


def _polish(count: int) -> int:
    if count == 1:
        return 0
    return 1 if count % 10 in (2, 3, 4) and count % 100 not in (12, 13, 14) else 2


def _czech(count: int) -> int:
    return 0 if count == 1 else 1 if count in (2, 3, 4) else 2


def _slovene(count: int) -> int:
    return {1: 0, 2: 1, 3: 2, 4: 2}.get(count % 100, 3)


PLURAL_RULES: dict[str, tuple[int, Callable[[int], int]]] = {
    "one form": (1, lambda _count: 0),
    USUAL_RULE: (2, lambda count: int(count != 1)),
    "up to one, many": (2, lambda count: int(count > 1)),
    "east slavic": (3, _east_slavic),
    "polish": (3, _polish),
    "czech": (3, _czech),
    "slovene": (4, _slovene),
}
"""How many forms a language has, and which of them a count takes."""


def plural_key(one: str, many: str) -> str:
    """Where the forms of a text that counts stand in a catalogue."""
    return f"{one} | {many}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Catalogue:
    """Texts of a language that can be used."""

    texts: Mapping[str, str] = field(default_factory=dict)
    plurals: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    rule: str = USUAL_RULE

    def form(self, one: str, many: str, count: int) -> str:
        """The text for a count, its parts not filled in yet."""
        forms = self.plurals.get(plural_key(one, many))
        if forms is None:
            return one if count == 1 else many
        return forms[PLURAL_RULES[self.rule][1](count)]


def read_catalogue(path: Path) -> Catalogue:
    """Texts of a catalogue; none where the file is no catalogue.

    A translation that lost a part, or rounds it otherwise, is passed over: English says it all.

    Parameters
    ----------
    path : Path
        A JSON object from English texts to others.
    """
    try:
        stated = json.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return Catalogue()
    if not isinstance(stated, dict):
        return Catalogue()
    rule = stated.pop(RULE_KEY, USUAL_RULE)
    if rule not in PLURAL_RULES:
        rule = USUAL_RULE
    texts = {
        key: text
        for key, text in stated.items()
        if isinstance(text, str) and text and _parts(text) == _parts(key)
    }
    plurals = {
        key: tuple(forms)
        for key, forms in stated.items()
        if isinstance(forms, list) and _are_forms(key, forms, PLURAL_RULES[rule][0])
    }
    return Catalogue(texts=texts, plurals=plurals, rule=rule)


def _are_forms(key: str, forms: list[object], how_many: int) -> bool:
    """Whether there is a form for each count, each with the parts that an English one has."""
    # One and several may say different parts; a form that serves for 1 and 21 needs those of many.
    known = [_parts(one) for one in key.split(" | ")]
    return len(forms) == how_many and all(
        isinstance(form, str) and form != "" and _parts(form) in known for form in forms
    )


def _parts(text: str) -> set[tuple[str, str | None, str | None]] | None:
    """Parts of a text and how they are written; None where its braces do not close."""
    try:
        found = {part[1:] for part in Formatter().parse(text)}
    except ValueError:
        return None
    return {(name, how, kind) for name, how, kind in found if name is not None}
