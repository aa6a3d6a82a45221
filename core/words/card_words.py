"""Rows of a set-up card in words, where a row says more than its reason alone."""

from core.plan import setup_codes as codes
from core.plan.reason_codes import INDEX_OBJECT
from core.plan.setup_result import SetupRow
from core.words.reasons import sentence


def why_words(row: SetupRow, *, is_short: bool = False) -> str:
    """Why a control is set so; for an index line first what it is for.

    In short an object is named by its kind alone, without what makes it good to index on.
    """
    why = sentence(row.reason)
    if row.setting.code != codes.SET_INDEX_LINE:
        return why
    if is_short and row.reason.code == INDEX_OBJECT:
        why = why.partition(":")[0]
    role = str(dict(row.setting.values)["role"]).replace("_", "-")
    return f"{role}, {why}"
