"""What can be wrong with a guideline although each of its values is possible."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from quarterwalk.guideline.locate import Path
from quarterwalk.guideline.rule import CLOSEST_WATCH_WEEKS, SeasonEnd
from quarterwalk.walk.kinds import Method

UNITS = {
    Method.TERMINAL: "insects per 100 terminals",
    Method.WHOLE_PLANT: "insects per 100 plants",
    Method.BUCKET: "insects per 100 plants",
    Method.SWEEP: "insects per 100 sweeps",
}


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing wrong at one path of a guideline's content."""

    path: Path
    value: object
    expected: str
    hint: str = ""


def rule_faults(content: Mapping[str, Any]) -> Iterator[Fault]:
    """Find what does not hang together in a guideline that fits the schema.

    Parameters
    ----------
    content : mapping
        Content that fits the schema. [TOML content]

    Yields
    ------
    Fault
        A source not named, a range upside down, weeks twice or left out, a unit of
        another method, squares that can both make and halve the case.
    """
    yield from _unknown_sources(content, sorted(content["sources"]), ())
    yield from _line_numbers(content)
    yield from _weeks("lines", content)
    yield from _weeks("floors", content)
    yield from _squares(content)


def _unknown_sources(value: Any, known: Sequence[str], path: Path) -> Iterator[Fault]:
    if isinstance(value, Mapping):
        for key, item in value.items():
            if key == "source" and item not in known:
                yield Fault((*path, key), item, f"the key of a source: {_listed(known)}")
            elif key != "sources" or path:
                yield from _unknown_sources(item, known, (*path, key))
    elif isinstance(value, list):
        for place, item in enumerate(value):
            yield from _unknown_sources(item, known, (*path, place))


def _line_numbers(content: Mapping[str, Any]) -> Iterator[Fault]:
    method = Method(content["guideline"]["method"])
    for place, table in enumerate(content["lines"]):
        per_100, path = table["per_100"], ("lines", place, "per_100")
        if per_100["unit"] != UNITS[method]:
            expected = f'"{UNITS[method]}", since the method is {method}'
            yield Fault((*path, "unit"), per_100["unit"], expected)
        if per_100.get("to", per_100["value"]) < per_100["value"]:
            expected = f"at least {per_100['value']}, the lower end of the range"
            yield Fault((*path, "to"), per_100["to"], expected, "Swap the two ends?")


def _weeks(name: str, content: Mapping[str, Any]) -> Iterator[Fault]:
    """Look for weeks named twice, left out, or out of order, in the lines or the floors."""
    tables: Sequence[Mapping[str, Any]] = content.get(name, ())
    if len(tables) == 1 and "weeks" not in tables[0]:
        return
    due = 1
    for place, table in enumerate(tables):
        path, weeks = (name, place, "weeks"), table.get("weeks")
        if weeks is None:
            yield Fault(path, "", "given, since there is more than one line", "Add weeks = [...].")
            return
        fault = _out_of_turn(path, weeks, due)
        if fault:
            yield fault
            return
        due = max(weeks) + 1
        if table.get("and_later") and table is not tables[-1]:
            yield Fault((name, place, "and_later"), "true", "false in all tables but the last")
    if tables:
        yield from _end_of_weeks(name, tables, content["guideline"]["season"]["to"])


def _out_of_turn(path: Path, weeks: Sequence[int], due: int) -> Fault | None:
    if weeks[0] < due:
        return Fault(path, weeks, f"weeks from {due} on", f"Week {weeks[0]} is named twice.")
    if list(weeks) != list(range(due, due + len(weeks))):
        return Fault(path, weeks, f"weeks in order, from {due} on, with none left out")
    return None


def _end_of_weeks(
    name: str, tables: Sequence[Mapping[str, Any]], season_end: str
) -> Iterator[Fault]:
    """Look for a last table that stops before the season does.

    The last line simply holds on; a floor has to say so, since in some regions the
    square set stops counting after week 3.
    """
    place, last = len(tables) - 1, tables[-1]
    if last.get("and_later"):
        return
    if name == "floors" and season_end != SeasonEnd.WEEK_3:
        yield Fault(
            (name, place, "and_later"),
            last.get("and_later", ""),
            "true in the last table, since the season goes on after its weeks",
        )
    elif max(last["weeks"]) < CLOSEST_WATCH_WEEKS:
        expected = f"weeks up to {CLOSEST_WATCH_WEEKS} at least, the end of the season"
        yield Fault((name, place, "weeks"), last["weeks"], expected)


def _squares(content: Mapping[str, Any]) -> Iterator[Fault]:
    if "floors" in content and "blasted" in content:
        hint = "Keep the floors, or the blasted share, not both."
        yield Fault(("blasted",), "both", "the only second criterion", hint)
    if "blasted" in content:
        low, high = (content["blasted"][key]["value"] for key in ("at_least", "well_over"))
        if high < low:
            yield Fault(("blasted", "well_over", "value"), high, f"at least {low}")


def _listed(keys: Sequence[str], most: int = 8) -> str:
    return ", ".join(keys[:most]) + (", …" if len(keys) > most else "")
