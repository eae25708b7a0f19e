"""Made-up walk tables that aim at the edges of the rules: the lines, floors, days and sizes."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction as F
from random import Random

from tests.oracle.plain import GUIDELINES, Crop, Options
from tests.oracle.table import QUADRANTS, SQUARES
from tests.oracle.writing import Row, arguments_of, plantings_of, written

SIZES = (
    *((20, 20, 20, 20), (25, 25, 25, 25), (24, 24, 24, 24), (30, 30, 30, 30), (60, 60, 60, 60)),
    *((10, 10, 10, 10), (10, 10, 10, 9), (20, 20, 20, 19), (40, 40, 40, 0), (30, 30, 30, 4)),
    *((30, 30, 30, 5), (20, 40, 20, 60), (12, 24, 36, 48), (8, 20, 40, 16), (30, 60, 30, 90)),
    *((13, 27, 31, 18), (80, 0, 0, 0), (37, 1, 1, 1), (15, 15, 15, 15), (0, 0, 0, 0)),
)
PARTS = (F(1), F(2, 3), F(1, 3), F(1), F(3, 2), F(1, 6), F(1, 3))
SHARP_SIZES = ((24, 24, 24, 24), (12, 24, 36, 48), (60, 60, 60, 60), (20, 40, 20, 60))
DAYS = (
    *(-8, -1, 0, 1, 5, 6, 7, 10, 13, 14, 17, 20, 21, 25, 30, 31, 38, 45, 46, 60),
    *(0, 2, 4, 6, 7, 9, 11, 13, 14, 16, 18, 20),
)
SPANS = (0, 0, 0, 0, 1, 2, 3, 6, 7, 8, 14, 25)
SETS = tuple(F(n, 100) for n in (95, 90, 89, 86, 85, 84, 80, 79, 75, 74, 70, 69, 50))
TOTALS = (0, 4, 49, 50, 51, 99, 100, 101, 120, 160, 200, 300, 400)


@dataclass
class Case:
    """One table and how it is called."""

    text: str
    options: Options
    arguments: list[str]
    plantings: str | None
    level: float


def split(random: Random, total: int, cells: int, *, least: int = 0) -> list[int]:
    """Share a total out over cells at random, each at least so much."""
    shares = [least] * cells
    for _ in range(max(0, total - least * cells)):
        shares[random.randrange(cells)] += 1
    return shares


def density_goals(guideline: str, line: F | None) -> list[F]:
    low, high, second, _ = GUIDELINES[guideline]
    ends = [F(low), F(high), line or F(low)]
    if second == "half":
        ends = [F(16), F(30), F(8), F(15)]
    return [end * part for end in ends for part in PARTS] + [F(0)]


def insects_of(random: Random, efforts: list[int], goal: F, odd: float) -> list[int]:
    """Return the insects of every quadrant: mostly at the goal, at times one off."""
    found = [round(goal * effort / 100) for effort in efforts]
    if random.random() < odd:
        at = random.randrange(len(found))
        found[at] = max(0, found[at] + random.choice((-1, 1, 2)))
    return found


def insect_cells(random: Random, row: Row, count: int) -> None:
    adults = random.randint(0, count)
    row["adults"], row["nymphs"] = str(adults), str(count - adults)
    if adults == 0 and count and random.random() < 0.5:
        row["adults"] = ""
    elif adults == count and random.random() < 0.2:
        row["nymphs"] = ""


def square_cells(random: Random, row: Row, healthy: int, lost: list[int]) -> None:
    values = dict(zip(SQUARES, (healthy, *lost), strict=True))
    bare = random.random() < 0.3
    for name, value in values.items():
        row[name] = "" if bare and value == 0 else str(value)
    if not any(row[name] for name in SQUARES):
        row[random.choice(SQUARES)] = "0"


def put_squares(random: Random, rows: list[Row], sites: int, goal: F) -> None:
    """Give some plants of one quadrant (or walk) so many sites, close to a set or blasted share."""
    if not rows:
        return
    checked = rows if random.random() < 0.6 else random.sample(rows, (len(rows) + 1) // 2)
    half = (len(checked) + 1) // 2
    few = random.choice((half, half, half - 1, len(checked)))
    with_sites = min(max(few, -(-sites // 40)), len(checked), sites)
    sites = min(sites, 40 * len(checked))
    healthy = round(sites * goal)
    healthy = min(sites, max(0, healthy + random.choice((0, 0, 0, -1, 1))))
    each = split(random, sites, with_sites, least=1) if with_sites else []
    each += [0] * (len(checked) - len(each))
    bad = sorted(random.sample(range(sum(each)), sum(each) - min(healthy, sum(each))))
    kinds = random.choice(((0, 1, 2), (1,), (1, 1, 1, 2)))
    start = 0
    for row, own in zip(checked, each, strict=True):
        lost = [0, 0, 0]
        for _ in (b for b in bad if start <= b < start + own):
            lost[random.choice(kinds)] += 1
        square_cells(random, row, own - sum(lost), lost)
        start += own


def exact_squares(random: Random, quadrants: list[list[Row]], second: str, off: float) -> None:
    """Put every quadrant's squares exactly at an edge, but for one square at times."""
    edges = {"floor": (90, 85, 80, 75, 70), "blasted": (90, 85), "half": (80,)}
    goal = F(random.choice(edges.get(second, (90,))), 100)
    kind = 1 if second == "blasted" else random.randrange(3)
    odd = random.randrange(4) if random.random() < off else None
    for number, rows in enumerate(quadrants):
        sites = random.choice((20, 40, 60))
        lost = int(sites * (1 - goal)) + (random.choice((-1, 1)) if number == odd else 0)
        marks = [True] * lost + [False] * (sites - lost)
        random.shuffle(marks)
        own = rows[: random.choice((10, 20, 60))]
        for at, row in enumerate(own):
            mine = marks[at :: len(own)]
            bad = [0, 0, 0]
            bad[kind] = sum(mine)
            square_cells(random, row, len(mine) - sum(mine), bad)


def add_squares(random: Random, quadrants: list[list[Row]], second: str, sharp: bool) -> None:
    if sharp or random.random() < 0.3:
        exact_squares(random, quadrants, second, 0.1 if sharp else 0.5)
        return
    goal = random.choice((*SETS, *SETS, F(90, 100), F(85, 100)))
    style = random.random()
    if style < 0.1:
        return
    if style < 0.55:
        pieces = split(random, random.choice(TOTALS), 4)
        per = random.randint(5, 30)
        for rows, sites in zip(quadrants, pieces, strict=True):
            put_squares(random, random.sample(rows, min(per, len(rows))), sites, goal)
        return
    if style < 0.8:
        put_squares(random, [r for rows in quadrants for r in rows], random.choice(TOTALS), goal)
        return
    for rows in quadrants:
        put_squares(random, rows, random.choice((20, 40, 60, 100)), goal)


def terminal_rows(random: Random, goal: F, sharp: bool) -> list[list[Row]]:
    efforts = list(random.choice(SHARP_SIZES if sharp else SIZES))
    random.shuffle(efforts)
    quadrants = []
    for name, size, found in zip(
        QUADRANTS, efforts, insects_of(random, efforts, goal, 0 if sharp else 0.4), strict=True
    ):
        rows = [{"quadrant": name, "plant": str(n + 1)} for n in range(size)]
        for row, count in zip(rows, split(random, found, size) if size else [], strict=True):
            insect_cells(random, row, min(count, 99))
        quadrants.append(rows)
    if random.random() < 0.1:  # squares only, on plants nobody searched for insects
        for rows in quadrants:
            rows.extend(
                {"quadrant": rows[0]["quadrant"], "plant": str(500 + n)} for n in range(3) if rows
            )
    if random.random() < 0.06:
        for row in (row for rows in quadrants for row in rows):
            row.update(adults="", nymphs="")
    return quadrants


def sweep_rows(random: Random, goal: F, sharp: bool) -> list[list[Row]]:
    sweeps = [random.choice((25, 25, 25, 24, 50, 50, 100)) for _ in QUADRANTS]
    if random.random() < 0.6:
        sweeps = [random.choice((25, 50, 100))] * 4
    quadrants = []
    for name, total, found in zip(
        QUADRANTS, sweeps, insects_of(random, sweeps, goal, 0 if sharp else 0.4), strict=True
    ):
        samples = random.choice((1, 1, 2, 3))
        efforts = split(random, total, samples, least=1)
        rows = []
        for n, (effort, count) in enumerate(
            zip(efforts, split(random, found, samples), strict=True)
        ):
            row = {"quadrant": name, "plant": str(n + 1), "sweeps": str(effort)}
            insect_cells(random, row, min(count, 99))
            rows.append(row)
        rows += [{"quadrant": name, "plant": str(900 + n)} for n in range(random.choice((0, 8)))]
        quadrants.append(rows)
    return quadrants


def one_walk(random: Random, guideline: str, line: F | None) -> list[Row]:
    """Return the rows of one walk, without field and date."""
    usual = "sweep" if guideline == "tennessee-sweep" else "terminal"
    method = usual if random.random() < 0.93 else random.choice(("whole-plant", "bucket", "sweep"))
    goal = random.choice(density_goals(guideline, line))
    sweep = method == "sweep"
    sharp = random.random() < 0.3  # at every edge at once
    quadrants = (sweep_rows if sweep else terminal_rows)(random, goal, sharp)
    apart = random.random() < 0.5
    checked = [[r for r in rows if "sweeps" not in r or not apart] for rows in quadrants]
    add_squares(random, checked, GUIDELINES[guideline][2], sharp)
    rows = [row for own in quadrants for row in own]
    unsaid = method == "terminal" and random.random() < 0.5
    for row in rows:
        row["method"] = "" if unsaid else method
    if random.random() < 0.2:
        sites = random.choice(("all", "top3"))
        for row in rows:
            row["sites"] = sites
    pass_over(random, rows)
    sign(random, rows)
    return rows


def pass_over(random: Random, rows: list[Row]) -> None:
    """Mark plants as skipped, or add some that were."""
    if not rows or random.random() < 0.75:
        return
    for row in random.sample(rows, random.randint(0, min(3, len(rows)))):
        row["skipped"] = "1"
    rows.append({**random.choice(rows), "plant": "777", "skipped": "1"})
    rows[0].setdefault("skipped", "0")


def sign(random: Random, rows: list[Row]) -> None:
    """Give the rows scouts and stops."""
    scouts = random.choice(([""], ["Ana"], ["Ana", "Bo"], ["Bo", "Cy", "Ana"]))
    for number, row in enumerate(rows):
        row["scout"] = scouts[number * len(scouts) // len(rows)]
        row["stop"] = random.choice(("", "1", "2"))


def dated(random: Random, rows: list[Row], name: str, day: date) -> list[Row]:
    """Name the field and the day; at times one walk over several days, by its id."""
    days = [day]
    if random.random() < 0.2:
        days = [day - timedelta(2), day - timedelta(1), day]
        for row in rows:
            row["walk"] = f"w-{name}-{day}"
    for number, row in enumerate(rows):
        row["field"] = name
        row["date"] = days[number * len(days) // len(rows)].isoformat()
    return rows


def a_crop(random: Random, day: date, *, many: bool) -> Crop:
    first = day - timedelta(random.choice(DAYS))
    last = first + timedelta(random.choice(SPANS))
    bloom = None
    if random.random() < 0.3:
        soon = max(
            day + timedelta(random.choice((-8, -7, -6, -1, 0, 1, 9))),
            last + timedelta(random.choice((1, 10))),
        )
        bloom = soon
    ago = random.choice(((), (), (), (), (), (), (0,), (1,), (7,), (8,), (-1,)))
    if many:
        ago = random.choice((ago, (0, 3), (9, 30), (8, 7), (-2, 1), (0, 12), (-5, 20)))
    return Crop(first, last, bloom, [day - timedelta(n) for n in ago])


def options_of(random: Random, guideline: str, days: dict[str, date], line: F | None) -> Options:
    if len(days) == 1 and random.random() < 0.7:
        return Options(guideline, {"": a_crop(random, *days.values(), many=False)}, line)
    crops = {name: a_crop(random, day, many=True) for name, day in days.items()}
    return Options(guideline, crops, line)


def a_line(random: Random, guideline: str) -> F | None:
    low, high, _, _ = GUIDELINES[guideline]
    if low == high or random.random() < 0.6:
        return None
    return random.choice((F(low), F(high), F(low + high, 2), F(low + 1)))


def make(seed: int) -> Case:
    """Return the case of this number."""
    random = Random(seed)
    guideline = random.choice((*GUIDELINES, *("southern-high-plains", "kansas") * 2))
    line = a_line(random, guideline)
    rows, days = [], {}
    for number in range(random.choice((1, 1, 1, 2, 3))):
        name = ("North 40", "Gin", "Río")[number]
        days[name] = date(2019, 6, 1) + timedelta(random.randint(0, 60))
        own = one_walk(random, guideline, line)
        rows += dated(random, own, name, days[name]) if own else []
    if not rows:
        return make(seed + 1_000_000)
    if random.random() < 0.1:
        random.shuffle(rows)
    options = options_of(random, guideline, days, line)
    plantings = None if "" in options.crops else plantings_of(options.crops)
    level = random.choice((0.9, 0.9, 0.9, 0.5, 0.8, 0.95))
    arguments = [*arguments_of(options), "--level", str(level)]
    return Case(written(random, rows), options, arguments, plantings, level)
