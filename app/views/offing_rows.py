"""The comparison of offings as rows of the window."""

from app.views.table_model import Row
from core.plan.offing_result import OffingTable
from core.words.offing_words import offing_head, offing_rows


def offing_heads(table: OffingTable) -> tuple[str, ...]:
    """Heads of the columns: what, then every offing."""
    return ("", *(offing_head(offing) for offing in table.offings))


def offing_table_rows(table: OffingTable) -> tuple[Row, ...]:
    """One row a fact; what must not be overlooked comes first and stands out."""
    is_alert = any(o.warnings or not o.is_complete for o in table.offings)
    return tuple(
        Row(cells=(label, *cells), is_alert=number == 0 and is_alert)
        for number, (label, cells) in enumerate(offing_rows(table))
    )
