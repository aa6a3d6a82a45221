"""The embedded demo passage planned once for all tests of a run that only look at it."""

from functools import lru_cache

from core.base.progress import Quiet
from core.jobs.demo import demo_project
from core.jobs.make_request import make_request
from core.jobs.plan_passage import plan_passage
from core.plan.outcome import Outcome


@lru_cache(maxsize=1)
def demo_outcome() -> Outcome:
    """The whole job on the demo."""
    return plan_passage(make_request(demo_project()), Quiet())
