"""Pages of the book as an officer types them: «1-3, 7»."""

import re

from core.base.errors import InputError
from core.base.language import tr

_SPAN = re.compile(r"(\d{1,6})(?:\s*[-–]\s*(\d{1,6}))?")


def typed_pages(text: str, count: int) -> tuple[int, ...]:
    """Numbers of pages, from 1, in the order of the book; all of them for an empty text.

    Raises
    ------
    InputError
        Something is no page of a book of ``count``.
    """
    if not text.strip():
        return tuple(range(1, count + 1))
    todo = tr("Type pages from 1 to {count}, such as 1-3, 7", count=count)
    chosen: set[int] = set()
    for part in re.split(r"[,;]", text):
        span = _SPAN.fullmatch(part.strip())
        if span is None:
            raise InputError(
                tr("«{pages}» is no page", pages=part.strip()), where=tr("pages"), todo=todo
            )
        first, last = int(span[1]), int(span[2] or span[1])
        if not 1 <= first <= last <= count:
            raise InputError(
                tr(
                    "«{pages}» is not in a book of {page_count} pages",
                    pages=part.strip(),
                    page_count=count,
                ),
                where=tr("pages"),
                todo=todo,
            )
        chosen.update(range(first, last + 1))
    return tuple(sorted(chosen))
