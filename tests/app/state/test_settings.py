from pathlib import Path

import pytest

from app.state.settings import COLUMNS, ENTRIES, FOLDER, OFFICER, PALETTE, RECENT, Settings


def test_what_was_put_is_read_by_the_next_window(tmp_path: Path) -> None:
    path = tmp_path / "a" / "settings.ini"
    settings = Settings(path)
    settings.put(PALETTE, "night")
    settings.put(COLUMNS, b"\x00\xff=;")
    settings.put(FOLDER, "C:/é, x")
    settings.put(RECENT, ("C:/a, b/é.legsheet", '/x "y"/ñ'))
    settings.put(OFFICER, "2/O A. Example, Mr")
    settings.flush()
    again = Settings(path)
    assert again.get(PALETTE) == "night"
    assert again.get(COLUMNS) == b"\x00\xff=;"
    assert again.get(FOLDER) == "C:/é, x"
    assert again.get(RECENT) == ("C:/a, b/é.legsheet", '/x "y"/ñ')
    assert again.get(OFFICER) == "2/O A. Example, Mr"


@pytest.mark.parametrize("stored", ["bright", "", "night, day"])
def test_a_value_that_means_nothing_falls_back(tmp_path: Path, stored: str) -> None:
    path = tmp_path / "settings.ini"
    path.write_text(f"[window]\npalette={stored}\ncolumns=***\n", encoding="utf-8")
    assert Settings(path).get(PALETTE) == "day"
    assert Settings(path).get(COLUMNS) == b""


def test_every_setting_has_its_own_key_and_a_text() -> None:
    assert len({entry.key for entry in ENTRIES}) == len(ENTRIES)
    assert all(entry.text for entry in ENTRIES)


@pytest.mark.parametrize("stored", ["x", "{}", "[1]", "[" * 20000])
def test_a_list_of_files_that_means_nothing_is_empty(tmp_path: Path, stored: str) -> None:
    path = tmp_path / "settings.ini"
    path.write_text(f'[files]\nrecent="{stored}"\n', encoding="utf-8")
    assert Settings(path).get(RECENT) == ()
