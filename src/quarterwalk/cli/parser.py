"""The words of the command line. Nothing heavy is imported here: ``--help`` answers at once."""

from __future__ import annotations

import argparse

from quarterwalk import __version__
from quarterwalk.cli.joined_words import WordJoiningParser
from quarterwalk.cli.option_types import (
    count,
    day,
    day_or_range,
    degrees,
    level,
    near,
    positive,
    share,
    split,
    week,
)
from quarterwalk.cli.plan_options import planning
from quarterwalk.cli.zone_option import SHEET_CLOCK, WALK_CLOCK, zone_option

_JOB = """\
Lay out the walks through squaring cotton, read their plant checks and say how each
field stands: hold, look sooner or treat, with the reason, how sure and when to come
back; on the screen, and on a page for the grower."""

_START = """\
examples:
  quarterwalk guidelines                     the regions whose rules are kept here
  quarterwalk quarters fields.geojson        where to walk: quarters, stops and loops
  quarterwalk stage plantings.csv --weather station.csv   where each field's season stands
  quarterwalk read walks.csv                 what each walk says of its field
  quarterwalk call walks.csv --guideline southern-high-plains --first-square 2026-06-12
  quarterwalk demo                           try it all on an invented district
  quarterwalk serve                          the office, in a browser and on phones

exit status: 0 done, 2 the command line is wrong, 3 an input was refused."""

_FIELDS = "boundaries: GeoJSON, Shapefile (.shp or .zip), KML, KMZ or GeoPackage"
_WEATHER = "weather: a table of days or hours, or a station's file of the daily archive"
_STATIONS = "the archive's list of stations, for names and places"
_SEEN = "table of what was seen of the crop: leaves, pinhead squares, branches, white flowers"
_WALKS = "walk table, CSV or XLSX, one row a plant; - reads CSV from standard input"


def make_parser() -> argparse.ArgumentParser:
    """Make the parser of the whole command line.

    Returns
    -------
    argparse.ArgumentParser
    """
    parser = WordJoiningParser(
        prog="quarterwalk",
        description=_JOB,
        epilog=_START,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.add_argument("--version", action="version", version=f"quarterwalk {__version__}")
    commands = parser.add_subparsers(dest="command", metavar="COMMAND", required=True)
    _guidelines(commands)
    _quarters(commands)
    _sheet(commands)
    _plan(commands)
    _card(commands)
    _weather(commands)
    _stage(commands)
    _read(commands)
    _call(commands)
    _report(commands)
    _demo(commands)
    _serve(commands)
    _rebuild(commands)
    _completion(commands)
    return parser


HEAT_METHODS = (
    "simple-average", "held-extremes", "four-case", "single-triangle", "double-triangle",
    "single-sine", "double-sine",
)  # fmt: skip
"""Ways to count heat units, as `quarterwalk.weather.heat_units` names them."""

CUT_OFFS = ("horizontal", "intermediate", "vertical")
"""What heat above the cap may be worth."""

_Commands = "argparse._SubParsersAction[argparse.ArgumentParser]"


def _command(commands: _Commands, name: str, does: str) -> argparse.ArgumentParser:  # type: ignore[valid-type]
    made: argparse.ArgumentParser = commands.add_parser(  # type: ignore[attr-defined]
        name, help=does, description=does[0].upper() + does[1:] + ".", allow_abbrev=False
    )
    return made


def _guidelines(commands: _Commands) -> None:  # type: ignore[valid-type]
    parser = _command(commands, "guidelines", "list the regions' published rules, or print one")
    parser.add_argument("name", nargs="?", metavar="NAME|FILE", help="print this one, with sources")
    _json(parser)


def _quarters(commands: _Commands) -> None:  # type: ignore[valid-type]
    parser = _command(commands, "quarters", "lay out each field's quarters, stops and two loops")
    parser.add_argument(
        "fields", metavar="FIELDS", help=_FIELDS + "; - reads GeoJSON from standard input"
    )
    _laying(parser)
    parser.add_argument(
        "--out", metavar="DIR", help="folder for a sketch and a GPX file of each field, and GeoJSON"
    )
    _units(parser)
    _json(parser)


def _sheet(commands: _Commands) -> None:  # type: ignore[valid-type]
    parser = _command(commands, "sheet", "write a blank walk sheet of each field, to print")
    parser.add_argument(
        "fields", metavar="FIELDS", help=_FIELDS + "; - reads GeoJSON from standard input"
    )
    _laying(parser)
    parser.add_argument("--out", metavar="DIR", required=True, help="folder for the sheets")
    parser.add_argument(
        "--field", action="append", metavar="NAME", help="this field only; may be given again"
    )
    parser.add_argument(
        "--guideline", metavar="NAME|FILE", help="name the region's rule on the sheet"
    )
    parser.add_argument(
        "--week",
        type=week,
        metavar="N",
        help="week of squaring: marks the plants whose squares are counted",
    )
    zone_option(parser, SHEET_CLOCK)
    _printed(parser)


def _plan(commands: _Commands) -> None:  # type: ignore[valid-type]
    parser = _command(commands, "plan", "say when a walk may end early, and what that saves")
    planning(parser, _FIELDS, _WALKS)
    _json(parser)


def _card(commands: _Commands) -> None:  # type: ignore[valid-type]
    parser = _command(commands, "card", 'write the card "May I stop yet?" for the field, to print')
    planning(parser, _FIELDS)
    parser.add_argument("--out", metavar="DIR", required=True, help="folder for the cards")
    _printed(parser)


def _report(commands: _Commands) -> None:  # type: ignore[valid-type]
    parser = _command(commands, "report", "write a page for the grower about each walk")
    _walks(parser)
    _judging(parser)
    parser.add_argument(
        "--out", metavar="DIR", required=True, help="folder for pages, PDFs, texts and their list"
    )
    parser.add_argument(
        "--day",
        type=day,
        metavar="DATE",
        help="walks of this day only (default: all in the table)",
    )
    parser.add_argument("--advisor", default="", metavar="NAME", help="who to ask, on every page")
    parser.add_argument("--contact", default="", metavar="TEXT", help="how to reach the advisor")
    parser.add_argument(
        "--one-pdf", action="store_true", help="all PDFs as one file, in place of one a walk"
    )
    _printed(parser)


def _laying(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--date", type=day, metavar="DATE", help="day of the walk (default: today)")
    parser.add_argument(
        "--loops",
        type=split,
        default=(2, 3),
        metavar="N+N",
        help="stops a quarter in each loop, such as 2+3 (the default), 1+2+2 or 5",
    )
    parser.add_argument(
        "--plants", type=count, metavar="N", help="plants in a row at each stop (default: 5)"
    )


def _printed(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--language",
        choices=("en", "es"),
        default="en",
        help="language of what is printed (default: %(default)s)",
    )
    parser.add_argument(
        "--paper",
        choices=("letter", "a4"),
        default="letter",
        help="size of the paper (default: %(default)s)",
    )


def _units(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--units",
        choices=("us", "metric"),
        default="us",
        help="units shown: acres or hectares (default: %(default)s); what is stored stays the same",
    )


def _weather(commands: _Commands) -> None:  # type: ignore[valid-type]
    parser = _command(commands, "weather", "say what stations measured, and its heat units")
    parser.add_argument(
        "files", nargs="*", metavar="FILE", help=_WEATHER + "; - reads from standard input"
    )
    parser.add_argument("--stations", metavar="LIST", help=_STATIONS)
    parser.add_argument(
        "--near",
        type=near,
        metavar="LAT,LON",
        help="a place, such as 33.6,-101.9: the nearest station is told first",
    )
    parser.add_argument(
        "--from",
        dest="first",
        type=day,
        metavar="DATE",
        help="first day that is told (default: the last year of each station)",
    )
    parser.add_argument(
        "--to", dest="last", type=day, metavar="DATE", help="last day (default: the last there is)"
    )
    _heat(parser)
    _service(parser)
    parser.add_argument(
        "--walk-on",
        type=day,
        metavar="DATE",
        help="sun, shadow and heat of this day for whoever walks",
    )
    zone_option(parser, WALK_CLOCK)
    parser.add_argument(
        "--out", metavar="TABLE", help="write the days as a table, CSV or XLSX, gaps filled"
    )
    _json(parser)


def _heat(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--method",
        choices=HEAT_METHODS,
        default="simple-average",
        help="how heat units are counted (default: %(default)s)",
    )
    parser.add_argument(
        "--base",
        type=degrees,
        default=60.0,
        metavar="N",
        help="heat counts above this, in °F (default: 60)",
    )
    parser.add_argument(
        "--cap", type=degrees, metavar="N", help="above this, in °F, more heat counts no more"
    )
    parser.add_argument(
        "--cutoff",
        choices=CUT_OFFS,
        default="horizontal",
        help="what heat above the cap is worth (default: %(default)s)",
    )


def _service(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--service",
        action="store_true",
        help="ask a weather service on the internet, for --near from --from on",
    )
    for kind in ("forecast", "history"):
        parser.add_argument(
            f"--service-{kind}",
            metavar="URL",
            help=f"another address to ask for the {kind}; goes with --service",
        )
    parser.add_argument(
        "--service-cache",
        metavar="DIR",
        help="where its answers are kept (default: the user's cache folder); goes with --service",
    )


def _stage(commands: _Commands) -> None:  # type: ignore[valid-type]
    parser = _command(commands, "stage", "say where each field's season stands, and what is next")
    parser.add_argument(
        "plantings",
        metavar="PLANTINGS",
        help="table with one row a field: field, planted, first_square, bloom, treated",
    )
    parser.add_argument(
        "--weather",
        action="append",
        required=True,
        metavar="FILE",
        help=_WEATHER + "; may be given again",
    )
    parser.add_argument("--stations", metavar="LIST", help=_STATIONS)
    parser.add_argument("--seen", metavar="TABLE", help=_SEEN)
    _square_share(parser)
    parser.add_argument("--walks", metavar="WALKS", help=_WALKS)
    parser.add_argument("--fields", metavar="FIELDS", help=_FIELDS)
    parser.add_argument(
        "--guideline", metavar="NAME|FILE", help="the region's rule, to judge the walks by"
    )
    parser.add_argument("--on", type=day, metavar="DATE", help="the day asked for (default: today)")
    parser.add_argument(
        "--field", action="append", metavar="NAME", help="this field only; may be given again"
    )
    parser.add_argument("--out", metavar="DIR", help="folder for a page and a PDF of each field")
    _printed(parser)
    parser.add_argument("--brief", action="store_true", help="one line a field")
    _json(parser)


def _square_share(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--square-share",
        type=share,
        metavar="P",
        help="share of plants with a pinhead square that makes first square (default: 0.5)",
    )


def _read(commands: _Commands) -> None:  # type: ignore[valid-type]
    parser = _command(commands, "read", "say what each walk says of its field, without a rule")
    _walks(parser)
    _json(parser)


def _call(commands: _Commands) -> None:  # type: ignore[valid-type]
    parser = _command(commands, "call", "judge each walk by a region's guideline, and say why")
    _walks(parser)
    _judging(parser)
    parser.add_argument("--brief", action="store_true", help="one line a walk")
    _json(parser)


def _judging(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--guideline",
        required=True,
        metavar="NAME|FILE",
        help="the region's rule, or a guideline file of your own (no region is taken for granted)",
    )
    dates = parser.add_mutually_exclusive_group(required=True)
    dates.add_argument(
        "--first-square",
        type=day_or_range,
        metavar="DATE[/DATE]",
        help="day of first square, or the first and last day it may have been (YYYY-MM-DD)",
    )
    dates.add_argument(
        "--plantings",
        metavar="TABLE",
        help="table with one row a field: field, planted, first_square, bloom, treated",
    )
    parser.add_argument(
        "--weather",
        action="append",
        metavar="FILE",
        help=_WEATHER + "; works out a first_square that is blank; may be given again",
    )
    parser.add_argument("--stations", metavar="LIST", help=_STATIONS)
    parser.add_argument("--seen", metavar="TABLE", help=_SEEN)
    _square_share(parser)
    parser.add_argument("--bloom", type=day, metavar="DATE", help="day of first bloom")
    parser.add_argument("--treated", type=day, metavar="DATE", help="day of the last treatment")
    parser.add_argument(
        "--line",
        type=positive,
        metavar="N",
        help="insects per 100 to treat at, inside the published range (default: its lower end)",
    )
    parser.add_argument("--fields", metavar="FIELDS", help=_FIELDS)


def _demo(commands: _Commands) -> None:  # type: ignore[valid-type]
    parser = _command(commands, "demo", "make an invented district's walks and judge them all")
    parser.add_argument(
        "--out",
        default="quarterwalk-demo",
        metavar="DIR",
        help="folder for the tables and calls (default: %(default)s)",
    )
    parser.add_argument("--seed", type=int, default=1, metavar="N", help="another season's dice")
    parser.add_argument("--fields", metavar="FIELDS", help="your own boundaries for its fields")
    parser.add_argument(
        "--calls-only", action="store_true", help="end after the calls, without opening the office"
    )
    _units(parser)


def _serve(commands: _Commands) -> None:  # type: ignore[valid-type]
    parser = _command(commands, "serve", "open the office: fields, walks, calls and phones")
    parser.add_argument(
        "--host", default="127.0.0.1", help="where it listens (default: this machine only)"
    )
    parser.add_argument(
        "--port", type=int, default=8340, metavar="N", help="its port (default: %(default)s)"
    )
    _data(parser)


def _rebuild(commands: _Commands) -> None:  # type: ignore[valid-type]
    parser = _command(commands, "rebuild", "make the rows of every walk again from the journal")
    parser.add_argument(
        "--check", action="store_true", help="change nothing; say which walks differ"
    )
    _data(parser)


def _data(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--data", metavar="DIR", help="folder of the office's data (default: the user's own)"
    )


def _completion(commands: _Commands) -> None:  # type: ignore[valid-type]
    parser = _command(commands, "completion", "print a script that completes commands in a shell")
    parser.add_argument("shell", choices=("bash", "zsh", "tcsh"), help="the shell")


def _walks(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("walks", metavar="WALKS", help=_WALKS)
    parser.add_argument(
        "--level",
        type=level,
        default=0.90,
        metavar="P",
        help="chance that a printed range holds the true value (default: 0.90)",
    )


def _json(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--json", action="store_true", help="print JSON for scripts")
