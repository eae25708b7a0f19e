"""The rules of the table and the verdict, written again from their statement.

Plain Python on fractions and dates: nothing of the package is used, so that a slip in the
one is not repeated in the other.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, timedelta
from fractions import Fraction as F

from tests.oracle.table import reading, walks_of

FLOORS = {1: F(90, 100), 2: F(85, 100)}
LATER_FLOOR = F(75, 100)
SLACK = F(5, 100)
NAMED = ("finish-walk", "recently-treated", "within-range", "bloom-date")
# name: lower end of the line, upper end, second criterion, end of the season
GUIDELINES = {
    "southern-high-plains": (25, 30, "floor", "bloom"),
    "mid-coast": (15, 15, "", "bloom"),
    "upper-coast": (15, 25, "", "bloom"),
    "coastal-bend": (10, 15, "", "bloom+7"),
    "blacklands": (10, 15, "", "week 3"),
    "oklahoma": (30, 45, "", "week 3"),
    "kansas": (25, 40, "blasted", "week 3"),
    "tennessee-sweep": (16, 16, "half", "week 3"),
}


@dataclass
class Crop:
    """What is known of one field: first square (from, to), bloom, days it was treated."""

    first: date
    last: date
    bloom: date | None = None
    treated: list[date] = field(default_factory=list)


@dataclass
class Options:
    """The guideline, the line asked for, and the crop of every field ("" for all alike)."""

    guideline: str
    crops: dict[str, Crop]
    line: F | None = None

    def crop(self, name: str) -> Crop:
        return self.crops.get(name) or self.crops[""]


def days_since(day: date, crop: Crop) -> list[int]:
    """Return every number of days since first square that the crop's range allows."""
    return list(range((day - crop.last).days, (day - crop.first).days + 1))


def stage(day: date, crop: Crop) -> dict:
    if crop.bloom and day >= crop.bloom:
        return {"name": "blooming", "squaring_weeks": []}
    if day < crop.first:
        return {"name": "before-squaring", "squaring_weeks": []}
    weeks = sorted({since // 7 + 1 for since in days_since(day, crop) if since >= 0})
    return {"name": "squaring", "squaring_weeks": weeks}


def in_season(since: int, day: date, crop: Crop, ends: str) -> bool:
    """Say whether the guideline gives advice, were first square so many days ago."""
    late = timedelta(7 if ends == "bloom+7" else 0)
    if since < 0 or (crop.bloom and day >= crop.bloom + late):
        return False
    if ends == "week 3" and since >= 21:
        return False
    return crop.bloom is not None or since <= 45


def line_of(options: Options, week: int, read: dict) -> F:
    """Return the line in force in one squaring week."""
    low, _, second, _ = GUIDELINES[options.guideline]
    line = F(low if options.line is None else options.line)
    if second != "half":
        return line
    line = F(30) if week == 3 else F(16)
    halved = read["set_readable"] and read["square_set"] <= F(80, 100)
    return line / 2 if halved else line


def losses(second: str, week: int, read: dict) -> tuple[bool | None, bool]:
    """Say whether the squares are under (nothing: not readable), and by more than 0.05."""
    if not read["set_readable"]:
        return None, False
    if second == "blasted":
        return read["blasted_share"] >= F(10, 100), read["blasted_share"] > F(15, 100)
    floor = FLOORS.get(week, LATER_FLOOR)
    return read["square_set"] < floor, floor - read["square_set"] > SLACK


def verdict_in(week: int, options: Options, read: dict) -> tuple[str, int]:
    """Return the verdict of one squaring week and the days to the next look."""
    second = GUIDELINES[options.guideline][2]
    line, found = line_of(options, week, read), read["per_100"]
    under, much = losses(second, week, read) if second in ("floor", "blasted") else (True, False)
    if found >= line:
        verdicts = {True: ("treat", 3), False: ("look-sooner", 4), None: ("look-sooner", 3)}
        return verdicts[under]
    if found >= line * F(2, 3):
        return "look-sooner", 4
    if second in ("floor", "blasted") and under:
        if found >= line / 3 or much:
            return "look-sooner", 4
        return "hold", 5
    return "hold", 7


def unfinished(read: dict) -> bool:
    if read["method"] == "sweep":
        return min(read["effort"].values()) < 25
    return read["plants"] < 40 or min(read["effort"].values()) == 0


def thin(read: dict, second: str, plan: str) -> bool:
    """Say whether the walk itself makes the call provisional."""
    few = second and read["set_readable"] and read["squares"] < 100
    if read["method"] == "sweep":
        return bool(few)
    under_80 = read["plants"] < 80 and not plan
    return bool(few or under_80 or min(read["effort"].values()) < 5)


def recent(day: date, crop: Crop) -> bool:
    before = [treated for treated in crop.treated if treated < day]
    return bool(before) and (day - max(before)).days <= 7


def none_call(day: date, crop: Crop, *, outside: bool) -> dict:
    """Return a call that gives no advice: due in a week, never, or at once."""
    look: date | None = day
    if outside:
        look = day + timedelta(7) if day < crop.first else None
    made = {"verdict": "none", "next_look": look, "provisional": False, "line": None}
    return {**made, "floor": None}


def call(rows: list[dict[str, str]], read: dict, options: Options) -> dict:
    """Return the verdict and all that hangs on it."""
    day = date.fromisoformat(max(row["date"] for row in rows))
    crop = options.crop(rows[0]["field"])
    _, _, second, ends = GUIDELINES[options.guideline]
    needed = "sweep" if second == "half" else "terminal"
    since = days_since(day, crop)
    inside = [n for n in since if in_season(n, day, crop, ends)]
    if not inside:
        return none_call(day, crop, outside=True)
    if read["method"] != needed or read["per_100"] is None:
        return none_call(day, crop, outside=False)
    weeks = sorted({n // 7 + 1 for n in inside})
    each = [verdict_in(week, options, read) for week in weeks]
    verdict, look = each[0][0], min(days for _, days in each)
    split = len({name for name, _ in each}) > 1
    reaches_out = len(inside) < len(since)
    asks_bloom = crop.bloom is None and max(inside) > 30
    plan = rows[0].get("plan", "")
    if split:
        verdict, look = "look-sooner", 4
    if verdict == "treat" and (recent(day, crop) or reaches_out):
        verdict, look = "look-sooner", 4
    if unfinished(read):
        verdict, look = "look-sooner", 1
    weak = unfinished(read) or thin(read, second, plan)
    return {
        "verdict": verdict,
        "next_look": day + timedelta(look),
        "provisional": weak or split or reaches_out or asks_bloom,
        "line": line_of(options, weeks[0], read),
        "floor": FLOORS.get(weeks[0], LATER_FLOOR) if second == "floor" else None,
        "one_floor": second == "floor" and len({FLOORS.get(w, LATER_FLOOR) for w in weeks}) == 1,
    }


def codes(rows: list[dict[str, str]], read: dict, made: dict, options: Options) -> dict[str, bool]:
    """Say which reasons have to be there (true) and which must not be (false)."""
    day = date.fromisoformat(max(row["date"] for row in rows))
    crop = options.crop(rows[0]["field"])
    low, high, _, ends = GUIDELINES[options.guideline]
    since = days_since(day, crop)
    if made["verdict"] == "none":
        late = crop.bloom is None and min(since) > 45 and ends != "week 3"
        return {**dict.fromkeys(NAMED, False), "bloom-date": late}
    asked = [n for n in since if in_season(n, day, crop, ends) and n > 30]
    return {
        "finish-walk": unfinished(read),
        "recently-treated": recent(day, crop),
        "within-range": low <= read["per_100"] < high,
        "bloom-date": bool(asked) and crop.bloom is None,
    }


def nulls(read: dict, made: dict, options: Options) -> dict[str, bool]:
    """Say which of the probabilities have to be null."""
    if made["verdict"] == "none":
        return {"p_over": True, "p_under": True, "p_treat": True}
    second = GUIDELINES[options.guideline][2]
    return {
        "p_over": False,
        "p_under": second != "floor" or not read["set_readable"],
        "p_treat": second in ("floor", "blasted") and not read["set_readable"],
    }


def sure(verdict: str, p_treat: float | None, p_over: float | None) -> str | None:
    """Return how sure a call is, from the tool's own probabilities."""
    if verdict == "none":
        return None
    treat = p_over if p_treat is None else p_treat
    p = treat if verdict == "treat" else 1 - treat
    return "clear" if p >= 0.9 else "close" if p >= 0.6 else "can't tell"


def expected(text: str, options: Options) -> list[dict]:
    """Return what has to be said of every walk of a table."""
    said = []
    for rows in walks_of(text):
        read = reading(rows)
        made = call(rows, read, options)
        day = max(row["date"] for row in rows)
        said.append(
            {
                "field": rows[0]["field"],
                "date": day,
                "scouts": {row["scout"] for row in rows if row.get("scout")},
                "reading": read,
                "stage": stage(date.fromisoformat(day), options.crop(rows[0]["field"])),
                "call": made,
                "codes": codes(rows, read, made, options),
                "alone": made["verdict"] != "none" and not GUIDELINES[options.guideline][2],
                "one_floor": made.get("one_floor", False),
                "nulls": nulls(read, made, options),
            }
        )
    return said
