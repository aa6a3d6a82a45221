"""Expected pictures of a finished plan: at any place of a leg, or off the route.

pictures = pictures_of(outcome)                       once an outcome (prepares its land)
picture = pictures.at(leg_index=0, along_m=5000.0)    for every viewpoint
picture = picture.under(controls)                     for every change of a control
"""

from dataclasses import dataclass, field

import numpy as np

from core.base.angles import wrap_360_deg
from core.base.units import m_from_nm
from core.coverage.terrain import Terrain, prepare_terrain
from core.geodesy.position import Position
from core.jobs.picture_marks import mark_targets
from core.jobs.picture_set import pulse_named
from core.passage.passage import Side
from core.picture.controls import Controls
from core.picture.echo_rows import NamedPlace
from core.picture.expected_picture import (
    LineKind,
    Picture,
    PictureLine,
    frame_of,
    make_picture,
)
from core.picture.picture_view import view_place
from core.picture.screen_frame import Orientation
from core.plan.outcome import Outcome
from core.plan.plan_result import IndexLine, LegPlan, ScaleStretch
from core.radar.echo_budget import Conditions, EchoBudget
from core.radar.presets import radar_set
from core.radar.radar_set import Preset, RadarPulse, RadarSet
from core.words.picture_words import caption_lines, leg_place_words, water_words
from core.words.quantities import index_range

_SLACK_M = 0.5
_USUAL_SCALE_M = m_from_nm(6.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureChoice:
    """What an officer may choose for a picture of a plan; None takes what the plan says."""

    radar_index: int = 0
    """Which of the ship's radars."""
    preset: Preset | None = None
    scale_m: float | None = None
    pulse: str | None = None
    """Name of a pulse; the one for the scale if None."""
    heading_deg: float | None = None
    """True; the leg's heading to steer if None, which is its course without a stream."""
    leeway_deg: float | None = None
    """How far the heading may be off that, either way; what the leg's leeway makes of it if None,
    or nothing where a heading is chosen."""
    orientation: Orientation = Orientation.COURSE_UP
    off_centre_ratio: float | None = None
    conditions: Conditions | None = None
    """Weather and air; those of the plan if None."""
    size_px: int = 700


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PassagePictures:
    """Makes pictures of one outcome; may be used from any thread, one picture at a time each."""

    outcome: Outcome
    terrain: Terrain = field(repr=False)

    def at(
        self,
        *,
        leg_index: int,
        along_m: float,
        choice: PictureChoice | None = None,
        controls: Controls | None = None,
    ) -> Picture:
        """The picture on the track, with scale, course and index lines of the leg there.

        Parameters
        ----------
        leg_index : int
            From 0.
        along_m : float
            Distance along the leg, m.
        choice : PictureChoice, optional
            What the officer chose.
        controls : Controls, optional
            Set-up; well set if None.

        Raises
        ------
        InputError
            The radar has no pulse of the name chosen.
        """
        line = self.outcome.plan.passage.line(leg_index)
        _lats, _lons, courses = line.at(np.array([along_m]))
        leg = self.outcome.plan.legs[leg_index]
        return self._picture(
            line.position_at(along_m),
            course_deg=wrap_360_deg(float(courses[0])),
            leg=leg,
            along_m=along_m,
            choice=choice or PictureChoice(),
            controls=controls,
        )

    def off_route(
        self,
        position: Position,
        *,
        course_deg: float,
        choice: PictureChoice | None = None,
        controls: Controls | None = None,
    ) -> Picture:
        """The picture at any place, without index lines; beyond the plan's land all is a gap."""
        return self._picture(
            position,
            course_deg=course_deg,
            leg=None,
            along_m=0.0,
            choice=choice or PictureChoice(),
            controls=controls,
        )

    def caption(
        self, picture: Picture, *, leg_index: int | None = None, along_m: float = 0.0
    ) -> tuple[str, ...]:
        """The words under a picture of this outcome."""
        place = ""
        if leg_index is not None:
            place = leg_place_words(self.outcome.plan.passage, leg_index, along_m)
        environment = self.outcome.request.environment
        return caption_lines(
            picture,
            place=place,
            sources=self.outcome.land.sources,
            water=water_words(environment.tide_m, environment.mean_sea_level_m),
        )

    def _picture(
        self,
        position: Position,
        *,
        course_deg: float,
        leg: LegPlan | None,
        along_m: float,
        choice: PictureChoice,
        controls: Controls | None,
    ) -> Picture:
        request = self.outcome.request
        radar = request.ship.radars[choice.radar_index]
        fitted = radar_set(radar, choice.preset)
        height_m = request.antenna_height_m if choice.radar_index == 0 else None
        stretch = None if leg is None else _stretch_at(leg, radar.name, along_m)
        heading_deg, leeway_deg = _headed(choice, leg, course_deg)
        scale_m, off_centre, planned = _switched(choice, stretch, radar.range_scales_m)
        environment = request.environment
        view = view_place(
            self.terrain,
            position,
            EchoBudget(
                radar=fitted,
                pulse=pulse_named(fitted, choice.pulse)
                if choice.pulse
                else _planned_pulse(fitted, planned, scale_m),
                antenna_height_m=request.ship.antenna_height_above_water_m(radar)
                if height_m is None
                else height_m,
                conditions=choice.conditions
                or Conditions(
                    refraction_k=environment.refraction_k,
                    sea_state=environment.sea_state,
                    rain_mm_h=environment.rain_mm_h,
                ),
            ),
            scale_m=scale_m,
            heading_deg=heading_deg,
            leeway_deg=leeway_deg,
            off_centre_ratio=off_centre,
            sectors=radar.blind_sectors,
            targets=mark_targets(request.marks, fitted.band),
        )
        return make_picture(
            view,
            frame_of(view, choice.orientation, size_px=choice.size_px, course_deg=course_deg),
            orientation=choice.orientation,
            controls=controls,
            names=self._names(),
            lines=() if leg is None else _lines_at(leg, along_m),
        )

    def _names(self) -> tuple[NamedPlace, ...]:
        """Lettered land; marks are echoes of their own."""
        marks = {mark.name for mark in self.outcome.request.marks}
        return tuple(
            NamedPlace(name=thing.id, position=thing.position)
            for thing in self.outcome.plan.objects
            if thing.id not in marks
        )


def pictures_of(outcome: Outcome) -> PassagePictures:
    """Prepare an outcome's land for pictures: some nanoseconds a cell."""
    return PassagePictures(outcome=outcome, terrain=prepare_terrain(outcome.land))


def _switched(
    choice: PictureChoice, stretch: ScaleStretch | None, scales_m: tuple[float, ...]
) -> tuple[float, float, str]:
    """Scale, off-centring and the name of the planned pulse, empty where another scale is chosen.

    Without a plan for this radar the scale nearest to the usual one.
    """
    off_centre = choice.off_centre_ratio
    usual_m = min(scales_m, key=lambda scale_m: abs(scale_m - _USUAL_SCALE_M))
    if stretch is None:
        return choice.scale_m or usual_m, off_centre or 0.0, ""
    if choice.scale_m is not None and abs(choice.scale_m - stretch.scale_m) > _SLACK_M:
        return choice.scale_m, off_centre or 0.0, ""
    planned = stretch.off_centre_ratio if off_centre is None else off_centre
    return stretch.scale_m, planned, stretch.pulse


def _headed(choice: PictureChoice, leg: LegPlan | None, course_deg: float) -> tuple[float, float]:
    """Heading, and how far it may be off that either way, deg."""
    motion = None if leg is None else leg.motion
    if choice.heading_deg is not None:
        return choice.heading_deg % 360.0, choice.leeway_deg or 0.0
    if motion is None:
        return course_deg, choice.leeway_deg or 0.0
    steer = motion.steer_off_deg
    either_way = max(motion.most_heading_off_deg - steer, steer - motion.least_heading_off_deg)
    leeway_deg = either_way if choice.leeway_deg is None else choice.leeway_deg
    return motion.heading_deg(course_deg), leeway_deg


def _planned_pulse(radar: RadarSet, name: str, scale_m: float) -> RadarPulse:
    return next(
        (pulse for pulse in radar.pulses if pulse.name == name), radar.pulse_for_scale(scale_m)
    )


def _stretch_at(leg: LegPlan, radar: str, along_m: float) -> ScaleStretch | None:
    """A radar's planned scale at a place; the nearest stretch's outside them all."""
    return min(
        (stretch for stretch in leg.scales if stretch.radar == radar),
        key=lambda s: max(s.from_along_m - along_m, along_m - s.to_along_m, 0.0),
        default=None,
    )


def _lines_at(leg: LegPlan, along_m: float) -> tuple[PictureLine, ...]:
    """The lines in use at a place, as they lie from own ship on her track."""
    return tuple(
        _picture_line(line)
        for line in leg.lines
        if line.from_along_m - _SLACK_M <= along_m <= line.to_along_m + _SLACK_M
    )


def _picture_line(line: IndexLine) -> PictureLine:
    sign = 1.0 if line.side is Side.STARBOARD else -1.0
    return PictureLine(
        kind=LineKind(line.role.value),
        label=f"{line.object.id} {index_range(line.cross_index_range_m, line.range_scale_m)}",
        bearing_deg=line.line_bearing_deg,
        cross_m=sign * line.cross_index_range_m,
    )
