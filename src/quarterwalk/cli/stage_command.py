"""``quarterwalk stage``: where each field's season stands, and what comes next."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from datetime import date
from pathlib import Path

from quarterwalk.call.explain import Section
from quarterwalk.call.figures import day_words, listed
from quarterwalk.cli.chosen import refuse_two_streams
from quarterwalk.cli.clocks import chosen_clocks
from quarterwalk.cli.folder import folder_for, refuse_taken, write
from quarterwalk.cli.ground import fields_by_name
from quarterwalk.cli.reports import PAPERS, no_pdf, pdfs_can_be_made
from quarterwalk.cli.screen import Ink, inked, print_json, say
from quarterwalk.cli.seasons import LeftOut, Season, asked_fields, days_for, told_seasons
from quarterwalk.cli.stage_brief import print_stages
from quarterwalk.cli.stage_walks import chosen_walked
from quarterwalk.files.file_names import file_names
from quarterwalk.files.plantings import read_plantings
from quarterwalk.files.stage_json import StageTold, stages_json
from quarterwalk.report.pdf import Paper
from quarterwalk.report.season_doubts import disagreement_told, set_aside_told
from quarterwalk.report.season_page import season_html
from quarterwalk.report.season_pdf import season_pdf
from quarterwalk.report.season_report import SeasonReport
from quarterwalk.report.season_text import season_sections, shared_section

# Weather that ends so long before the day told is no longer a day or two late: what is told
# is mostly a guess. A rule of this project. [days]
_LONG_BEFORE = 14


def run(options: argparse.Namespace) -> None:
    """Read each field's clock on a day, and print or write what it tells."""
    seasons, left_out, today = read_seasons(options)
    # written first, so that nothing is lost where the reader of the screen goes away
    written = "" if options.out is None else _write(seasons, options.out, PAPERS[options.paper])
    if options.json:
        told = stages_json([_told(each) for each in seasons])
        print_json({**told, "left_out": [_left_out_json(each) for each in left_out]})
        return
    if options.brief:
        print_stages(seasons, left_out)
    else:
        _print_all([each.report for each in seasons])
        for each in left_out:
            say(f"{each.name}, {each.why}.")
    for sentence in _ends_early(seasons):
        say(sentence)
    if options.on is None:
        say(_which_day(today, seasons))
    if written:
        say(written)


def read_seasons(
    options: argparse.Namespace,
) -> tuple[list[Season], list[LeftOut], date]:
    """Read the clock of each field asked for.

    Parameters
    ----------
    options : argparse.Namespace
        Of ``quarterwalk stage``.

    Returns
    -------
    (list of Season, list of LeftOut, date)
        The seasons, the fields in whose season the day asked for does not lie, and today.
    """
    refuse_two_streams(options)
    plantings = read_plantings(options.plantings, need_first_square=False)
    for notice in plantings.notices:
        print(notice, file=sys.stderr)
    names = asked_fields(plantings, options.field)
    fields = fields_by_name(options.fields, names)
    # before the walks, which may take long: several stations may need --fields
    clocks = chosen_clocks(options, plantings, fields)
    walked = chosen_walked(options, plantings)
    today = date.today()  # noqa: DTZ011 - the day on the scout's own calendar
    days, left_out = days_for(clocks, names, options.on, today)
    return told_seasons(options, clocks, days, walked, fields), left_out, today


def _print_all(reports: Sequence[SeasonReport]) -> None:
    """Print each season, and what all of them stand on once."""
    alone = len(reports) == 1
    for report in reports:
        head = ", ".join(part for part in (report.field, report.grower, report.about) if part)
        print(inked(head, Ink.HEAD))
        for section in season_sections(report, alone=alone):
            _print_section(section)
        print()
    if not alone:
        _print_section(shared_section(reports[0]), under=False)
        print()


def _print_section(section: Section, *, under: bool = True) -> None:
    """Print a section, as a rule under the name of a field."""
    if under:
        print()
    print(f"{'  ' * under}{inked(section.title, Ink.HEAD)}")
    for sentence in section.sentences:
        say(sentence, indent=4 if under else 2)


def _ends_early(seasons: Sequence[Season]) -> list[str]:
    """Say of which stations the weather ends so long before the day told that it matters."""
    ends = dict.fromkeys(
        (each.weather.weather.station.label, until)
        for each in seasons
        if (until := each.known_until) is not None and (each.clock.on - until).days > _LONG_BEFORE
    )
    return [
        f"Weather of {name} is known until {day_words(until)} {until.year}." for name, until in ends
    ]


def _which_day(today: date, seasons: Sequence[Season]) -> str:
    """Say for which day the fields are told, where nobody asked for one."""
    told = f"Told for today, {day_words(today)} {today.year}; --on DATE asks for another day."
    others = [f"{each.name} for {each.clock.on}" for each in seasons if each.clock.on != today]
    if others:
        told += f" Today is not in the season of some, told for its nearest day: {listed(others)}."
    return told


def _left_out_json(out: LeftOut) -> dict[str, str]:
    return {"field": out.name, "planted": out.planted.isoformat(), "text": out.why}


def _told(season: Season) -> StageTold:
    """Put the sentences of what disagrees, and of what was set aside, beside their records."""
    clock = season.clock
    return StageTold(
        season.name,
        clock,
        season.weather,
        tuple(disagreement_told(clock, each) for each in clock.disagreements),
        tuple(set_aside_told(clock, each) for each in clock.set_aside),
    )


def _write(seasons: Sequence[Season], out: str, paper: Paper) -> str:
    """Write a page and a PDF of each field, and say what was written."""
    pdfs = pdfs_can_be_made()
    with folder_for(out) as folder:
        write_seasons(seasons, folder, paper)
    what = "1 season," if len(seasons) == 1 else f"{len(seasons)} seasons, each"
    if pdfs:
        return f"{folder} holds {what} as a page and as a PDF."
    return f"{folder} holds {what} as a page. {no_pdf()}"


def write_seasons(seasons: Sequence[Season], folder: Path, paper: Paper = Paper.LETTER) -> None:
    """Write a page of each season, and a PDF where PDFs can be made.

    Parameters
    ----------
    seasons : sequence of Season
        The seasons.
    folder : Path
        Where; it is there already. [folder name]
    paper : Paper
        The sheet.
    """
    pdfs = pdfs_can_be_made()
    names = file_names(each.name for each in seasons)
    ends = (".html", ".pdf") if pdfs else (".html",)
    refuse_taken(folder, [f"{name}{end}" for name in names for end in ends])
    for each, name in zip(seasons, names, strict=True):
        _write_one(each.report, folder, name, paper if pdfs else None)


def _write_one(report: SeasonReport, folder: Path, name: str, paper: Paper | None) -> None:
    write(folder / f"{name}.html", season_html(report))
    if paper is not None:
        write(folder / f"{name}.pdf", season_pdf([report], paper=paper))
