"""The crop's clock: dates of a field's season, and the stage and squaring week on a day."""

from quarterwalk.crop.bbch import bbch
from quarterwalk.crop.clock import (
    RANGE,
    SEASON_DAYS,
    CropClock,
    Disagreement,
)
from quarterwalk.crop.dates import CropDateError, CropDates
from quarterwalk.crop.day_odds import DayOdds
from quarterwalk.crop.needs import Event, Needs, load_needs
from quarterwalk.crop.outlook import Outlook, outlook_of
from quarterwalk.crop.read_clock import clock_for, read_clock
from quarterwalk.crop.seen import Flowers, Given, Seen, SetAside, Sign, given_by, of_stand
from quarterwalk.crop.stage import (
    Stage,
    StageName,
    WorkedOut,
    given_standing,
    stage_on,
    weeks_between,
)
from quarterwalk.crop.week_odds import WeekOdds

__all__ = [
    "RANGE",
    "SEASON_DAYS",
    "CropClock",
    "CropDateError",
    "CropDates",
    "DayOdds",
    "Disagreement",
    "Event",
    "Flowers",
    "Given",
    "Needs",
    "Outlook",
    "Seen",
    "SetAside",
    "Sign",
    "Stage",
    "StageName",
    "WeekOdds",
    "WorkedOut",
    "bbch",
    "clock_for",
    "given_by",
    "given_standing",
    "load_needs",
    "of_stand",
    "outlook_of",
    "read_clock",
    "stage_on",
    "weeks_between",
]
