"""What each command does: read, compute, write; no window."""

import json
import sys
from dataclasses import fields, replace
from pathlib import Path

from app.base.anchor_arguments import anchorage_in
from app.base.arguments import Arguments
from core.base.errors import InputError
from core.base.language import tr
from core.base.progress import Progress, Span
from core.files.detect_json import detection_json, table_json
from core.files.known_objects_json import read_known_objects
from core.files.observed_json import observed_document
from core.files.offings_json import offings_document
from core.files.project import Options, Project, is_project, read_project
from core.files.revision_json import read_revision
from core.files.writing import check_writable, write_atomic
from core.jobs.check_options import check_options
from core.jobs.compare_observed import compare_observed
from core.jobs.compare_offings import compare_offings
from core.jobs.convert import convert_route
from core.jobs.demo import demo_project
from core.jobs.detect import detect, detect_table
from core.jobs.inspect_data import inspect_paths
from core.jobs.make_request import environment_of, make_request
from core.jobs.offing_shifts import check_shifts
from core.jobs.picture_place import check_picture_words, picture_place
from core.jobs.plan_passage import plan_passage
from core.jobs.reverse_project import left_out_words, reversed_project
from core.jobs.sweep_area import sweep_area
from core.plan.outcome import Outcome
from core.words.detect_words import TABLE_NOTES, detection_lines, table_lines
from core.words.observed_words import observed_lines
from core.words.offing_words import offing_lines
from core.words.summary import summary_lines


def _merged(old: Options, new: Options) -> Options:
    """Options of a project with those typed now on top."""
    given = {
        field.name: getattr(new, field.name)
        for field in fields(Options)
        if getattr(new, field.name) is not None
    }
    return replace(old, **given)


def _project(arguments: Arguments) -> Project:
    assert arguments.file is not None  # noqa: S101 - the parser demands it
    if is_project(arguments.file):
        project = read_project(arguments.file)
    else:
        project = Project(route=arguments.file)
    if arguments.is_reversed:
        left_out = left_out_words(project)
        if left_out and not arguments.is_quiet:
            sys.stderr.write(tr("note: {left_out}", left_out=left_out) + "\n")
        project = reversed_project(project)
    known = project.known_objects
    if arguments.since is not None:
        if project.revisions:
            raise InputError(
                tr("this project keeps its revisions itself"),
                where=str(arguments.file),
                todo=tr("Leave --since out"),
            )
        project = replace(project, revisions=(read_revision(arguments.since),))
        known = known or read_known_objects(arguments.since)
    if arguments.letters is not None:
        if known:
            raise InputError(
                tr("this project keeps its letters itself"),
                where=str(arguments.file),
                todo=tr("Leave --letters out"),
            )
        known = read_known_objects(arguments.letters)
    return replace(
        project,
        known_objects=known,
        land=arguments.paths or project.land,
        ship=arguments.ship or project.ship,
        marks=arguments.marks or project.marks,
        limits=arguments.limits or project.limits,
        streams=arguments.streams or project.streams,
        contingencies=arguments.contingencies or project.contingencies,
        classes=arguments.classes or project.classes,
        anchorage=anchorage_in(arguments.anchor) or project.anchorage,
        options=_merged(project.options, arguments.options),
    )


def _say_findings(outcome: Outcome, *, is_quiet: bool) -> None:
    if is_quiet:
        return
    for finding in outcome.findings:
        sys.stderr.write(f"{finding.severity.shown}: {finding}\n")


def _plan(arguments: Arguments, progress: Progress) -> int:
    from app.paint.outputs import OutputPaths, write_outputs

    paths = OutputPaths(
        pdf=arguments.pdf, json=arguments.json, geojson=arguments.geojson, csv=arguments.csv
    )
    check_writable(paths.named())
    request = replace(make_request(_project(arguments)), note=arguments.note)
    outcome = plan_passage(request, Span(progress, 0.0, 0.95))
    write_outputs(
        outcome, paths, Span(progress, 0.95, 1.0), is_changed_only=arguments.is_changed_only
    )
    _say_findings(outcome, is_quiet=arguments.is_quiet)
    if not paths.named():
        sys.stdout.write("\n".join(summary_lines(outcome)) + "\n")
    return 0


def _offings(arguments: Arguments, progress: Progress) -> int:
    shifts_m = check_shifts(arguments.shifts_m)
    request = make_request(_project(arguments))
    table = compare_offings(request, arguments.leg_number, shifts_m, progress)
    if not arguments.is_quiet:
        for finding in request.findings:
            sys.stderr.write(f"{finding.severity.shown}: {finding}\n")
    if arguments.is_json:
        sys.stdout.write(json.dumps(offings_document(table), indent=1, ensure_ascii=False) + "\n")
    else:
        sys.stdout.write("\n".join(offing_lines(table)) + "\n")
    return 0


def _observed(arguments: Arguments) -> int:
    if arguments.file is None or arguments.seen is None:
        raise InputError(
            tr("a plan and what was seen are needed"), todo=tr("Give PLAN.json and --seen")
        )
    report, findings = compare_observed(arguments.file, arguments.seen)
    if not arguments.is_quiet:
        for finding in findings:
            sys.stderr.write(f"{finding.severity.shown}: {finding}\n")
    if arguments.is_json:
        sys.stdout.write(json.dumps(observed_document(report), indent=1, ensure_ascii=False) + "\n")
    else:
        sys.stdout.write("\n".join(observed_lines(report)) + "\n")
    return 0


def _sweep(arguments: Arguments, progress: Progress) -> int:
    if arguments.position is None or arguments.output is None:
        raise InputError(tr("a place and an output are needed"), todo=tr("Give --at and -o"))
    check_writable([arguments.output])
    options = arguments.options
    if options.antenna_height_m is None:
        raise InputError(tr("no antenna height is given"), todo=tr("Give --antenna in metres"))
    check_options(options)
    environment = environment_of(options)
    sweep_area(
        arguments.paths,
        position=arguments.position,
        antenna_height_m=options.antenna_height_m,
        radius_m=environment.radius_m,
        target_height_m=arguments.target_height_m,
        refraction_k=environment.refraction_k,
        water_level_m=environment.water_level_m,
        height_error_m=environment.height_error_m,
        is_exact=arguments.is_exact,
        target=arguments.output,
        progress=progress,
    )
    return 0


def _picture(arguments: Arguments, progress: Progress) -> int:
    from app.paint.palette import DAY, NIGHT
    from app.paint.picture_paint import picture_png

    words = arguments.picture
    if arguments.output is None:
        raise InputError(tr("an output is needed"), todo=tr("Give -o"))
    check_picture_words(words)
    check_writable([arguments.output])
    made = picture_place(words, Span(progress, 0.0, 0.95))
    png = picture_png(made.picture, made.caption, NIGHT if words.is_night else DAY)
    write_atomic(arguments.output, png)
    if not arguments.is_quiet:
        for finding in made.findings:
            sys.stderr.write(f"{finding.severity.shown}: {finding}\n")
    return 0


def _detect(arguments: Arguments) -> int:
    words = arguments.detect
    if words.is_table:
        bands = detect_table(words)
        if arguments.is_json:
            answer = table_json([budget for budget, _ in bands], [lines for _, lines in bands])
        else:
            for budget, lines in bands:
                sys.stdout.write("\n".join(table_lines(budget, lines)) + "\n\n")
            sys.stdout.write("\n".join(TABLE_NOTES) + "\n")
            return 0
    else:
        detection = detect(words)
        if not arguments.is_json:
            sys.stdout.write("\n".join(detection_lines(detection)) + "\n")
            return 0
        answer = detection_json(detection)
    sys.stdout.write(json.dumps(answer, indent=1, ensure_ascii=False) + "\n")
    return 0


def _inspect(arguments: Arguments) -> int:
    report = inspect_paths(arguments.paths)
    if arguments.is_json:
        sys.stdout.write(json.dumps(report.to_dict(), indent=1, ensure_ascii=False) + "\n")
    else:
        sys.stdout.write("\n".join(report.lines()) + "\n")
    return 0 if report.is_usable else 2


def _convert(arguments: Arguments) -> int:
    if arguments.file is None or arguments.output is None:
        raise InputError(tr("a route and an output are needed"), todo=tr("Give ROUTE and -o"))
    for finding in convert_route(arguments.file, arguments.output):
        if not arguments.is_quiet:
            sys.stderr.write(f"{finding.severity.shown}: {finding}\n")
    return 0


def _demo(arguments: Arguments, progress: Progress) -> int:
    from app.paint.outputs import OutputPaths, write_outputs

    folder = arguments.file or Path("demo")
    if folder.exists() and not folder.is_dir():
        raise InputError(
            tr("this is a file, not a folder"), where=str(folder), todo=tr("Name a folder")
        )
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as exc:
        raise InputError(
            tr("the folder cannot be made ({strerror})", strerror=exc.strerror),
            where=str(folder),
            todo=tr("Name another"),
        ) from exc
    paths = OutputPaths(
        pdf=folder / "sheets.pdf",
        json=folder / "plan.json",
        geojson=folder / "coverage.geojson",
        csv=folder / "index.csv",
    )
    check_writable(paths.named())
    outcome = plan_passage(make_request(demo_project()), Span(progress, 0.0, 0.95))
    write_outputs(outcome, paths, Span(progress, 0.95, 1.0))
    _say_findings(outcome, is_quiet=arguments.is_quiet)
    sys.stderr.write(tr("The invented demo passage is in {folder}", folder=folder) + "\n")
    return 0


def run_command(arguments: Arguments, progress: Progress) -> int:
    """Run any command but the window and return its exit code."""
    if arguments.command == "plan":
        return _plan(arguments, progress)
    if arguments.command == "offings":
        return _offings(arguments, progress)
    if arguments.command == "observed":
        return _observed(arguments)
    if arguments.command == "sweep":
        return _sweep(arguments, progress)
    if arguments.command == "picture":
        return _picture(arguments, progress)
    if arguments.command == "detect":
        return _detect(arguments)
    if arguments.command == "inspect":
        return _inspect(arguments)
    if arguments.command == "convert":
        return _convert(arguments)
    return _demo(arguments, progress)
