import pickle

import pytest

from core.base.errors import DataGapError, InputError, LegsheetError, OutputError
from core.base.findings import Finding, Severity, Where


@pytest.mark.parametrize("kind", [LegsheetError, InputError, DataGapError, OutputError])
def test_errors_survive_a_pickle(kind: type[LegsheetError]) -> None:
    error = kind("the file is empty", where="a.rtz", todo="Give another")
    copy = pickle.loads(pickle.dumps(error))  # noqa: S301 - our own object
    assert type(copy) is kind
    assert str(copy) == str(error) == "a.rtz: the file is empty. Give another."


def test_an_error_is_one_sentence_without_place_or_remedy() -> None:
    assert str(InputError("the file is empty.")) == "the file is empty."


def test_a_finding_reads_where_what_todo() -> None:
    finding = Finding(
        severity=Severity.CHECK,
        code="speed-assumed",
        what="no speed is given, 12 kn is assumed",
        where=Where(file="a.rtz", leg_number=3),
        todo="Give the speed",
    )
    assert str(finding) == "a.rtz, leg 3: no speed is given, 12 kn is assumed. Give the speed."
