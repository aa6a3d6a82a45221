"""Ship files: our own TOML, read into a ``Ship``; and the invented ships that come built in.

The format is explained by the comments of the built-in files in ``resources/ships``. Places on
board count from the stern, the aftmost point of the hull. Limits of values are those of common
practice (no source), wide enough for anything from a launch to the largest carrier.
"""

import importlib.resources
import math
from functools import lru_cache
from itertools import pairwise
from pathlib import Path

from core.base.errors import InputError
from core.base.findings import Finding, Severity, Where
from core.base.language import tr
from core.base.units import mps_from_kn
from core.files.reading import Blob
from core.files.ship_radar import LONGEST_M, read_radar, standard_findings
from core.files.toml_table import TomlTable, read_toml
from core.radar.installation import ACCURACY, InstallationStandard, standard_in
from core.ship.ship import Ship, ShipPoint, TurnAtSpeed, turn_radius_at_m

DEFAULT_SHIP = "general_cargo"
"""Stem of the built-in ship that is used when none is given."""

_TRIM_RATIO = 0.03
"""Trim over length above which a draught is probably mistyped (common practice, no source)."""


def read_ship(source: Path | Blob) -> tuple[Ship, tuple[Finding, ...], str]:
    """Read a ship file.

    Returns
    -------
    tuple
        The ship, findings, and the SHA-256 of the file.

    Raises
    ------
    InputError
        The file or one of its values cannot be used, in one sentence naming file and key.
    """
    top, findings, sha256 = read_toml(source)
    ship, more = _ship(top)
    return ship, findings + more + top.unknown_keys(), sha256


def builtin_ships() -> tuple[str, ...]:
    """Stems of the built-in ship files, sorted; each is an invented ship of a common class."""
    return tuple(sorted(path.stem for path in _folder().glob("*.toml")))


def builtin_ship_path(stem: str) -> Path:
    """Path of a built-in ship file.

    Raises
    ------
    InputError
        There is none of that name.
    """
    if stem not in builtin_ships():
        raise InputError(
            tr("there is no built-in ship «{stem}»", stem=stem),
            todo=tr("Choose {builtin_ships}", builtin_ships=tr(" or ").join(builtin_ships())),
        )
    return _folder() / f"{stem}.toml"


@lru_cache(maxsize=8)
def builtin_ship(stem: str) -> Ship:
    """A built-in ship; see ``builtin_ships`` for the names."""
    ship, _findings, _sha256 = read_ship(builtin_ship_path(stem))
    return ship


def default_ship() -> Ship:
    """The general, invented ship that is used when no ship file is given."""
    return builtin_ship(DEFAULT_SHIP)


def _folder() -> Path:
    return Path(str(importlib.resources.files("resources") / "ships"))


def _ship(top: TomlTable) -> tuple[Ship, tuple[Finding, ...]]:
    name = top.needed_text("name")
    invented = top.flag("invented")
    load_condition = top.text("load_condition")

    size = top.table("dimensions")
    length_m = size.needed_number("length_overall_m", 5.0, LONGEST_M)
    beam_m = size.needed_number("beam_m", 1.0, 100.0)
    aft_marks_m = size.number_or("aft_draught_marks_from_stern_m", 0.0, 0.0, length_m / 2.0)
    between_m = size.number_or(
        "between_draught_marks_m", length_m - aft_marks_m, length_m / 4.0, length_m - aft_marks_m
    )
    draughts = top.table("draughts")
    forward_m = draughts.needed_number("forward_m", 0.05, 40.0)
    aft_m = draughts.needed_number("aft_m", 0.05, 40.0)

    errors = top.table("errors")
    gyro_error_deg = errors.number_or("gyro_error_deg", 0.0, -30.0, 30.0)
    turning = top.table("turning")
    turns, turn_radius_m = _turns(turning)

    radar_tables = top.tables("radar")
    if not radar_tables:
        raise top.fail(tr("there is no radar"), tr("Add one under a heading [[radar]]"))
    radars = tuple(
        read_radar(
            table,
            length_m=length_m,
            beam_m=beam_m,
            aft_marks_m=aft_marks_m,
            load_condition=load_condition,
        )
        for table in radar_tables
    )
    reference, reference_findings = _reference(top, length_m, beam_m)
    # What the main radar was approved to permits, unless the file says what it does.
    standard = standard_in(radars[0].installation_standard) or InstallationStandard.MSC_192
    permitted = ACCURACY[standard]
    ship = Ship(
        name=name,
        invented=invented,
        length_m=length_m,
        beam_m=beam_m,
        length_between_marks_m=between_m,
        aft_marks_from_stern_m=aft_marks_m,
        draught_forward_m=forward_m,
        draught_aft_m=aft_m,
        turn_radius_m=turn_radius_m,
        turns=turns,
        response_distance_m=turning.number_or("response_distance_m", length_m, 0.0, 5000.0),
        heading_error_deg=errors.number_or("heading_uncertainty_deg", 0.7, 0.01, 10.0),
        range_error_ratio=errors.number_or(
            "range_uncertainty_percent", 100.0 * permitted.range_error_ratio, 0.01, 10.0
        )
        / 100.0,
        range_error_least_m=errors.number_or(
            "range_uncertainty_least_m", permitted.range_error_least_m, 1.0, 500.0
        ),
        gyro_error_deg=gyro_error_deg,
        conning=_point(top.table("conning_position"), length_m, beam_m),
        reference=reference,
        load_condition=load_condition,
        radars=radars,
    )
    findings = list(reference_findings)
    if not turning.has("response_distance_m"):
        findings.append(
            turning.finding(
                "response-assumed",
                tr(
                    "response_distance_m is missing, one ship's length ({length_m:g} m) is used",
                    length_m=length_m,
                ),
                tr("Take it from the manoeuvring data"),
            )
        )
    if abs(aft_m - forward_m) > _TRIM_RATIO * length_m:
        findings.append(
            draughts.finding(
                "large-trim",
                tr("the trim of {trim_m:.1f} m is large", trim_m=abs(aft_m - forward_m)),
                tr("Check both"),
            )
        )
    findings += _antenna_findings(ship, radar_tables)
    for radar, table in zip(radars, radar_tables, strict=True):
        findings += standard_findings(radar, table)
    findings += _load_findings(ship, top)
    findings += _known_error_findings(ship, top.where)
    return ship, tuple(findings)


def _point(table: TomlTable, length_m: float, beam_m: float) -> ShipPoint | None:
    to_starboard_m = table.number_or("to_starboard_m", 0.0, -beam_m, beam_m)
    from_stern_m = table.number("from_stern_m", 0.0, length_m)
    if from_stern_m is None:
        if table.has("to_starboard_m"):
            raise table.fail(tr("from_stern_m is missing"), tr("Add a line «from_stern_m = ...»"))
        return None
    return ShipPoint(from_stern_m=from_stern_m, to_starboard_m=to_starboard_m)


def _reference(
    top: TomlTable, length_m: float, beam_m: float
) -> tuple[ShipPoint | None, tuple[Finding, ...]]:
    """The reference point of the radars: from the stern, or by the distance to the bow."""
    table = top.table("radar_reference_point")
    bow_m = table.number("bow_offset_m", 0.0, length_m)
    if bow_m is not None and not table.has("from_stern_m"):
        side_m = table.number_or("to_starboard_m", 0.0, -beam_m, beam_m)
        return ShipPoint(from_stern_m=length_m - bow_m, to_starboard_m=side_m), ()
    point = _point(table, length_m, beam_m)
    if bow_m is None or point is None or abs(length_m - point.from_stern_m - bow_m) <= 1.0:
        return point, ()
    return point, (
        table.finding(
            "bow-offset-differs",
            tr(
                "bow_offset_m {bow_m:g} and from_stern_m {from_stern_m:g} do "
                "not add up to the length of {length_m:g} m; from_stern_m is "
                "used",
                bow_m=bow_m,
                from_stern_m=point.from_stern_m,
                length_m=length_m,
            ),
            tr("Correct one of them"),
        ),
    )


def _turns(table: TomlTable) -> tuple[tuple[TurnAtSpeed, ...], float]:
    """Radius by speed, and the radius at passage speed (the highest speed if none is stated)."""
    turns = []
    for row in table.tables("at_speed"):
        speed_mps = mps_from_kn(row.needed_number("speed_kn", 0.5, 60.0))
        radius_m = row.number("radius_m", 5.0, 20000.0)
        rate = row.number("rate_deg_per_min", 0.5, 720.0)
        if (radius_m is None) == (rate is None):
            raise row.fail(
                tr("needs one of radius_m and rate_deg_per_min"),
                tr("Give the one your data states"),
            )
        if radius_m is None and rate is not None:
            # A steady turn: speed = rate x radius, with the rate in radians a second.
            radius_m = speed_mps / (math.radians(rate) / 60.0)
        turns.append(TurnAtSpeed(speed_mps=speed_mps, radius_m=radius_m or 0.0))
    if not turns:
        raise table.fail(
            tr("there is no turning radius"), tr("Add speed and radius under [[turning.at_speed]]")
        )
    turns.sort(key=lambda turn: turn.speed_mps)
    for slow, fast in pairwise(turns):
        if slow.speed_mps == fast.speed_mps:
            raise table.fail(
                tr("the same speed stands twice under at_speed"), tr("Take one of them out")
            )
    speed_kn = table.number("passage_speed_kn", 0.5, 60.0)
    speed_mps = turns[-1].speed_mps if speed_kn is None else mps_from_kn(speed_kn)
    return tuple(turns), turn_radius_at_m(tuple(turns), speed_mps)


def _antenna_findings(ship: Ship, tables: tuple[TomlTable, ...]) -> list[Finding]:
    """Refuse antennas under water; say where two statements of a height disagree."""
    findings = []
    for radar, table in zip(ship.radars, tables, strict=True):
        height_m = ship.antenna_height_above_water_m(radar)
        if height_m <= 0.0:
            raise table.fail(
                tr(
                    "antenna_above_keel_m {antenna_above_keel_m:g} puts the "
                    "antenna {depth_m:.1f} m under water at these draughts",
                    antenna_above_keel_m=radar.antenna_above_keel_m,
                    depth_m=abs(height_m),
                ),
                tr("Correct the height or the draughts"),
            )
        if radar.antenna_above_water_m is not None and radar.antenna_above_keel_m is not None:
            findings.append(
                table.finding(
                    "antenna-height-twice",
                    tr(
                        "antenna_above_water_m and antenna_above_keel_m are both "
                        "given; the height above the water, {height_m:g} m, is used",
                        height_m=height_m,
                    ),
                    tr("Check that it fits the draughts"),
                )
            )
    return findings


def _load_findings(ship: Ship, top: TomlTable) -> list[Finding]:
    names = {case.name for radar in ship.radars for case in radar.load_conditions}
    if not names or ship.load_condition in names:
        return []
    listed = ", ".join(sorted(names))
    if not ship.load_condition:
        what = tr("no load_condition is chosen, so no blind sectors are used")
    else:
        what = tr(
            "no radar has the load condition «{load_condition}», no blind sectors are used",
            load_condition=ship.load_condition,
        )
    return [
        top.finding(
            "load-condition", what, tr("Choose one of {load_conditions}", load_conditions=listed)
        )
    ]


def _known_error_findings(ship: Ship, file: str) -> list[Finding]:
    known = (
        [tr("gyro {gyro_error_deg:+g} deg", gyro_error_deg=ship.gyro_error_deg)]
        if ship.gyro_error_deg
        else []
    )
    for radar in ship.radars:
        if radar.range_index_error_m:
            known.append(
                tr(
                    "{radar_name} range {range_index_error_m:+g} m",
                    radar_name=radar.name,
                    range_index_error_m=radar.range_index_error_m,
                )
            )
        if radar.heading_marker_error_deg:
            known.append(
                tr(
                    "{radar_name} heading marker {heading_marker_error_deg:+g} deg",
                    radar_name=radar.name,
                    heading_marker_error_deg=radar.heading_marker_error_deg,
                )
            )
    if not known:
        return []
    return [
        Finding(
            severity=Severity.CHECK,
            code="known-errors-not-applied",
            what=tr(
                "known errors ({known}) are not applied to the numbers of the "
                "plan, but widen the errors stated with them",
                known=", ".join(known),
            ),
            where=Where(file=file),
            todo=tr("Apply them when setting lines and reading ranges"),
        )
    ]
