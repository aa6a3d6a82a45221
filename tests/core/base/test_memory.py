"""A memory gives what would be made anew, and keeps no more than the last plans used."""

import pytest

from core.base.memory import NOTHING_KEPT, Memory


class _Maker:
    def __init__(self) -> None:
        self.made: list[str] = []

    def __call__(self, memory: Memory, key: str) -> str:
        def make() -> str:
            self.made.append(key)
            return key.upper()

        return memory.of(key, make)


def test_what_is_known_is_not_made_again() -> None:
    memory, ask = Memory(), _Maker()
    assert [ask(memory, k) for k in "aba"] == ["A", "B", "A"]
    assert ask.made == ["a", "b"]


def test_without_a_memory_everything_is_made() -> None:
    ask = _Maker()
    assert [ask(NOTHING_KEPT, k) for k in "aa"] == ["A", "A"]
    assert ask.made == ["a", "a"]
    assert len(NOTHING_KEPT) == 0


def test_what_a_finished_computation_did_not_use_goes() -> None:
    memory, ask = Memory(), _Maker()
    for keys in ("abc", "bc"):
        memory.begin()
        for key in keys:
            ask(memory, key)
        memory.finish()
    assert len(memory) == 2
    ask(memory, "a")
    assert ask.made == ["a", "b", "c", "a"]


def test_a_stopped_computation_leaves_what_it_found_to_the_next() -> None:
    memory, ask = Memory(), _Maker()
    memory.begin()
    ask(memory, "a")
    memory.finish()
    memory.begin()
    ask(memory, "b")  # stopped here
    memory.begin()
    for key in "abc":
        ask(memory, key)
    memory.finish()
    assert ask.made == ["a", "b", "c"]


def test_many_stopped_computations_do_not_pile_up() -> None:
    memory, ask = Memory(), _Maker()
    memory.begin()
    ask(memory, "finished")
    memory.finish()
    for number in range(50):
        memory.begin()
        ask(memory, f"stopped {number}")
    assert len(memory) <= 4
    memory.begin()
    ask(memory, "finished")
    assert ask.made.count("finished") == 1


def test_what_fails_is_not_kept() -> None:
    memory = Memory()

    def fail() -> str:
        raise RuntimeError("no")

    with pytest.raises(RuntimeError):
        memory.of("a", fail)
    assert memory.of("a", lambda: "A") == "A"
