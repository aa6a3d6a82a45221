from PySide6.QtCore import QObject
from pytestqt.qtbot import QtBot

from app.base.throttle import LatestCall, RateGate


def test_a_gate_opens_at_its_rate() -> None:
    now_s = [100.0]
    gate = RateGate(20.0, clock=lambda: now_s[0])
    assert gate.is_due()
    assert not gate.is_due()
    now_s[0] += 0.049
    assert not gate.is_due()
    now_s[0] += 0.002
    assert gate.is_due()


def test_many_requests_make_one_call(qtbot: QtBot) -> None:
    parent, calls = QObject(), []
    call = LatestCall(lambda: calls.append(1), 5, parent)
    for _ in range(10):
        call.request()
    qtbot.waitUntil(lambda: bool(calls))
    qtbot.wait(15)
    assert calls == [1]
    call.request()
    call.stop()
    qtbot.wait(15)
    assert calls == [1]
