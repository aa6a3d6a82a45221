"""An invented language: every text of the program marked and a third longer."""

import json
import re
from pathlib import Path

OPEN, CLOSE = "\u27e6", "\u27e7"


def foreign(text: str) -> str:
    """A text of the invented language; its parts stay."""
    return f"{OPEN}{text}{'~' * max(1, round(0.3 * len(text)) - 2)}{CLOSE}"


def write_catalogue(path: Path) -> None:
    """The catalogue of the invented language."""
    from core.base.catalogue import plurals_in_code, texts_in_code
    from core.base.catalogue_file import plural_key

    texts: dict[str, object] = {text: foreign(text) for text in texts_in_code()}
    for one, many in plurals_in_code():
        texts[plural_key(one, many)] = [foreign(one), foreign(many)]
    path.write_text(json.dumps(texts))


def is_english(text: str) -> bool:
    """Whether a text has a word and none of the invented language."""
    return OPEN not in text and re.search(r"[A-Za-z]{3}", text) is not None
