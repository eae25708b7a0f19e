"""The demo's last part: the office, filled with the season, open in a browser."""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from datetime import UTC, date, datetime, timedelta
from http import HTTPStatus
from http.cookiejar import CookieJar
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.error import URLError
from urllib.request import HTTPCookieProcessor, build_opener
from zoneinfo import ZoneInfo

from quarterwalk.cli.office import (
    bound_server,
    office_is_here,
    run_until_stopped,
    running,
    set_up,
)
from quarterwalk.cli.screen import Ink, inked, say
from quarterwalk.demo import PLANTINGS, SEEN, WALKS, WEATHER, Season
from quarterwalk.errors import QuarterwalkError
from quarterwalk.files import read_plantings, read_walks
from quarterwalk.files.seen_table import read_seen
from quarterwalk.files.weather_file import read_weather

if TYPE_CHECKING:
    from quarterwalk.office.services.demo import DemoLink

OFFICE = "office"
"""Folder of the demo's office, inside the demo's folder."""

# As the office's environment names it; what is of it in an old demo goes, nothing else.
DATABASE_FILE = "office.sqlite3"

_DAY_MS = 24 * 3600 * 1000
_PATIENCE_S = 20


class OfficeSilent(QuarterwalkError):
    """The demo's office was opened and did not answer as it should."""


def open_office(season: Season, folder: Path) -> None:
    """Fill an office with the season and open it; without a terminal, see that it answers.

    Parameters
    ----------
    season : Season
        The invented season.
    folder : Path
        The demo's folder, with its tables. [folder name]
    """
    print()
    print(inked("THE OFFICE", Ink.HEAD))
    print()
    if not office_is_here():
        say(
            "Fields, walks and calls in a browser, and the walk on a phone without signal,"
            " need the office extra. Add it, then run the demo again:",
            indent=2,
        )
        print("    pip install 'quarterwalk[office]'")
        return
    links = _fill(season, folder)
    server = bound_server("127.0.0.1", 0)
    where = f"http://127.0.0.1:{server.effective_port}"
    if not sys.stdin.isatty():
        with running(server):
            _see_that_it_answers(where, links[0], season)
        return
    _say_links(where, links, _today(season))
    run_until_stopped(server)


def _fill(season: Season, folder: Path) -> Sequence[DemoLink]:
    """Make the demo's own office afresh: never one that holds anybody's records."""
    data = folder / OFFICE
    for old in data.glob(f"{DATABASE_FILE}*"):
        old.unlink()
    for name in ("DATABASE_URL", "QUARTERWALK_ORIGIN", "QUARTERWALK_BEHIND_PROXY"):
        os.environ.pop(name, None)
    zone = ZoneInfo(season.district.time_zone)
    ahead = days_ahead(datetime.now(UTC), _today(season), zone)
    os.environ["QUARTERWALK_SHIFT_MS"] = str(ahead * _DAY_MS)
    set_up(data.absolute())
    from quarterwalk.office.services.demo import DemoTables, fill

    tables = DemoTables(
        read_walks(folder / WALKS),
        read_plantings(folder / PLANTINGS),
        read_weather(folder / WEATHER),
        read_seen(folder / SEEN),
    )
    return fill(season, tables)


def days_ahead(now: datetime, day: date, zone: ZoneInfo) -> int:
    """Give by how many days a clock is moved so that it is one day in a district.

    Parameters
    ----------
    now : datetime
        The time, with its zone.
    day : date
        The day that it shall be.
    zone : ZoneInfo
        The district's.

    Returns
    -------
    int
        Whole days, so that the hour stays as far as summer time lets it. [days]
    """
    ahead = (day - now.astimezone(zone).date()).days
    # in summer the district's midnight comes at another hour than in winter
    there = (now.astimezone(UTC) + timedelta(days=ahead)).astimezone(zone).date()
    return ahead + (day - there).days


def _today(season: Season) -> date:
    """Say on which day the demo's office lives: the Monday after the season's last walks."""
    return season.district.last_day + timedelta(days=1)


def _say_links(where: str, links: Sequence[DemoLink], day: date) -> None:
    say(
        "Open one of these in a browser on this machine. Each signs you in as somebody of the"
        f" district, on {day.day} {day:%B} {day.year}:",
        indent=2,
    )
    print()
    width = max(len(f"{link.name}, {link.role}") for link in links)
    for link in links:
        who = f"{link.name}, {link.role}"
        print(f"    {who:<{width}}  {where}{link.path}")
    print()
    say(
        "To try the phone here, sign in as a scout and choose Phones. Everything you change is"
        " gone when the demo runs again. Stop it with Ctrl-C.",
        indent=2,
    )
    sys.stdout.flush()


def _see_that_it_answers(where: str, link: DemoLink, season: Season) -> None:
    """Sign in as the first person and look whether every field is listed."""
    browser = build_opener(HTTPCookieProcessor(CookieJar()))
    try:
        with browser.open(where + link.path, timeout=_PATIENCE_S) as answer:
            status, page = answer.status, answer.read().decode("utf-8")
    except (URLError, TimeoutError) as error:
        raise OfficeSilent(f"the demo's office did not answer: {error}") from error
    lacking = [field.name for field in season.district.fields if field.name not in page]
    if status != HTTPStatus.OK or lacking:
        raise OfficeSilent(
            f"the demo's office must list every field, got {status} without {', '.join(lacking)}."
        )
    say(
        f"The office answers and lists {len(season.district.fields)} fields. In a terminal the"
        " demo keeps it open, with links to sign in.",
        indent=2,
    )
