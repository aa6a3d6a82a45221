"""Codes of why a leg has no dead range or check spot; units as in ``reason_codes.py``."""

NO_DEAD_RANGE = "no-dead-range"
"""Values: ``angle_deg`` within which an object has to stay."""
NEVER_STEADY = "never-steady"
"""The turns leave no time on one course."""
NO_INDEX_SPOT = "no-index-spot"
NO_HEADING_SPOT = "no-heading-spot"
