"""A thread that computes gives way to the one that shows."""

import os
import sys
import threading

_NICE = 10


def give_way() -> None:
    """Let every other thread of the program go first where there are not cores enough.

    Threads that this one starts inherit it. On Linux alone is niceness a thread's own; elsewhere
    nothing is done.
    """
    if sys.platform == "linux":
        os.setpriority(os.PRIO_PROCESS, threading.get_native_id(), _NICE)
