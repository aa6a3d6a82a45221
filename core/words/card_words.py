"""Rows of a set-up card in words, where a row says more than its reason alone."""

from core.plan import setup_codes as codes
from core.plan.setup_result import SetupRow
from core.words.reasons import sentence


def why_words(row: SetupRow) -> str:
    """Why a control is set so; for an index line first what it is for."""
    why = sentence(row.reason)
    if row.setting.code != codes.SET_INDEX_LINE:
        return why
    role = str(dict(row.setting.values)["role"]).replace("_", "-")
    return f"{role}, {why}"
