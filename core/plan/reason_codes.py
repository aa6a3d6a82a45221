"""Codes of every ``Reason`` a plan carries, with the values each one brings.

``core.words`` puts them into words. Lengths are in m, angles in deg, times in minutes, slopes and
shares bare; a value that does not apply is left out.
"""

INDEX_OBJECT = "index-object"
"""Why an object is or is not good to index on. Values, in this order, those that apply:

==================== ===========================================================================
``kind``             ``ObjectKind`` value
``window_m``         length of its usable window on this leg
``window_ratio``     the same as a share of the leg; 1 is seen throughout
``cross_m``          distance off the track
``abeam_m``          along the leg where it comes abeam; only if within the leg
``extent_m``         how broad the object is
``paints_inside_m``  how far inside the charted coast its edge paints, where cells can tell
``paint_spread_m``   how much farther off it paints at the worst in its window, when that matters
``slope``            steepness of the shore at its edge, rise over run
``steep_to``         1 when the cells bear out that the tide hardly moves its edge
``shore_unknown``    1 when heights and cells cannot tell how its shore rises
``isolated_m``       distance to the next other coast or mark
``crowded_m``        the same instead, where the two are not told apart half-way out on the screen
``legs``             on how many legs it can be used, if more than one
``sharp``            1 when it has a sharp edge (islet, rock, mark, tip)
``on_chart``         1 for an officer's mark noted as charted
``low_m``            height, when it is low
``tide_moves_m``     how far the tide moves its edge, when that matters
``low_shore_m``      the same at least, for a shore lower than the tide that far in
``shore_blank_m``    how far in from the coast the elevation shows no land at all, at least
``tide_m``           with either, the tidal range it is judged by
``tide_assumed``     with either, 1 when that range is an assumption, else 0
``slides_m``         how far its tangent walks, when that is too far
``straight``         1 for a long straight coast with no point to hold
``masked_ratio``     share of its window lost behind nearer land, when much is lost
``blind_m``          how much of its window is lost in blind sectors of own structure
``near_m``           distance off, when it passes very close
``in_corridor``      1 when it lies inside the corridor
``chosen``           1 when the officer chose it
==================== ===========================================================================
"""

FLOATING = "floating-mark"
"""A floating mark: never indexed. Values: ``cross_m``."""

NO_WINDOW = "no-window"
"""Chosen by the officer but not usable on the leg. Values: ``cross_m``, ``cause``."""

MARGIN = "danger-limit"
"""A margin line. Values: ``limit_m`` as the officer gave it; what it must hold: ``read_m`` the
error of reading it, ``hull_m`` how far the hull reaches that way, ``response_m`` run until she
answers."""

WHEEL_OVER_LINE = "near-wheel-over"
"""Why an object carries the wheel-over line. Values: ``range_m`` at the wheel-over,
``inside`` 1 if it lies on the inside of the turn else 0, ``new_leg_cross_m`` (> 0),
``other_side`` 1 if the line has the object on the other side than the new leg has, and
``paints_inside_m`` as above."""

TURN_BY_LINE = "line-parallel-to-new-course"
"""Method of a wheel-over. Values: ``tangent_m``, ``response_m``."""
TURN_BY_RANGE_BEARING = "range-and-bearing"
"""The alteration is too small for a parallel line. Values: as before, ``alteration_deg`` > 0."""
TURN_IN_STEPS = "two-steps"
"""The alteration is so large that two steps or a ring are better; values as before."""

SCALE_FORCED_BY_LOOK_OUT = "look-out"
"""Values: ``distance_m``, ``closing_mps``, ``decision_minutes``."""
SCALE_FORCED_BY_OBJECT = "index-object-range"
"""Values: ``object`` (id), ``range_m`` (greatest within the stretch)."""
SCALE_FORCED_BY_WHEEL_OVER = "wheel-over-mark"
"""Values: ``object`` (id), ``range_m``."""
SCALE_FORCED_BY_MARGIN = "margin-object"
"""Values: ``object`` (id), ``range_m``."""
SCALE_LONGEST = "longest-scale"
"""Even the longest scale does not hold the look-out distance. Values: ``distance_m``."""
SCALE_SECOND_RADAR = "long-scan"
"""Second radar, longer for traffic. Values: ``main_scale_m``."""
SCALE_SECOND_FOR_LAND = "long-scan-land"
"""Second radar, so long that it holds the nearest land of both sides. Values: ``range_m``."""
SCALE_SECOND_FOR_OBJECT = "long-scan-object"
"""Second radar, so long that it holds what the main one does not. Values: ``object``,
``range_m``."""
SCALE_FORCED_BY_NEXT_LEG = "next-leg-object"
"""The first object of the next leg, at the wheel-over. Values: ``object`` (id), ``range_m``."""
SCALE_NOT_HELD = "not-on-screen"
"""Wanted on the screen, but not on it. Values: ``object`` (id), ``range_m``."""
SCALE_BOTTLENECK = "single-item"
"""The one item that forces a scale. Values: ``item``, ``without_scale_m`` that would do."""
SCALE_NEEDED_BY_BOTH = "several-items"
"""Two items that need a scale each by itself. Values: ``item``, ``other``."""
SCALE_NEEDED_BY_ONE = "item-at-least"
"""One item that no shorter scale holds. Values: ``item``."""
SCALE_CARRIED_ON = "carried-on"
"""Nothing in the stretch needs it, no change is made. Values: ``needed_scale_m``."""
SCAN_ON_LONGEST = "on-longest-scale"
"""No long scan: the radar is on its longest scale already."""
SCAN_TOO_OFTEN = "scan-too-often"
"""No long scan: none of the longer scales lets it be rare enough."""

HEIGHTS_ASSUMED = "heights-assumed"
"""What lowers confidence in an object: only a coast is given there."""
HEIGHT_WITHIN_ERROR = "height-within-error"
"""It is no higher than heights err, so it may not stand out at all. Values: ``height_error_m``."""
HEIGHT_WITHIN_TIDE = "height-within-tide"
"""An islet that may lie under high water, by its error. Values: ``height_m``, both together."""
HEIGHT_COULD_HIDE = "height-could-hide"
"""Lower by as much it would be hidden within its window. Values: ``height_error_m``."""
HEIGHTS_MISSING = "heights-missing"
"""Some heights round it are unknown."""
FEW_CELLS = "few-cells"
"""It is fewer than three elevation cells across. Values: ``cell_side_m``."""
COAST_APART = "coast-apart"
"""Its coast and the elevation's land lie apart. Values: ``coast_apart_m``."""
NO_COAST_DATA = "no-coast-data"
"""Its coast is taken from the elevation."""
WEAK_ECHO = "little-margin"
"""Its echo is little over the threshold somewhere in its window. Values: ``least_db``."""
NOT_SEEN_ON_CHART = "not-seen-on-chart"
"""A mark that the officer did not note as charted."""
FIX_NOTHING = "nothing-to-range"
"""No radar fix: no fixed object with an edge to hold is in sight and paints."""
FIX_ONE_ONLY = "one-object-only"
"""No fix by ranges: one object alone. Values: ``object``."""
FIX_CUT_TOO_FINE = "cut-too-fine"
"""No fix by ranges: the arcs do not cut well. Values: ``cut_deg``, the best there is."""
