"""What the card says in words, in the language spoken."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from quarterwalk.call.cautions import care_in_the_field, host_weeds, prevails
from quarterwalk.call.doubts import recent_treatment, unsure_season
from quarterwalk.call.figures import listed, number
from quarterwalk.call.nothing import made_with, out_of_season
from quarterwalk.call.rule import full_line
from quarterwalk.call.season import InSeason, in_season
from quarterwalk.card.about import CardFor
from quarterwalk.card.squares import WeekSquares
from quarterwalk.guideline import Floor, Guideline, Line, SeasonEnd
from quarterwalk.walk import Method
from quarterwalk.words import noted, phrase

_ENDS = {
    SeasonEnd.WEEK_3: noted(
        "The season of {guideline} ends after week 3 of squaring, or at first bloom."
    ),
    SeasonEnd.FIRST_BLOOM: noted("The season of {guideline} ends at first bloom."),
    SeasonEnd.WEEK_AFTER_BLOOM: noted("The season of {guideline} ends 7 days after first bloom."),
}


def why_not(about: CardFor) -> str:
    """Say why the phone can't hold this walk.

    Parameters
    ----------
    about : CardFor
        The field.

    Returns
    -------
    str
        Empty where it can.
    """
    if about.guideline is None or about.method is Method.TERMINAL:
        return ""
    return phrase(
        "{guideline} has a line for {asked} only, and the phone holds the terminal check."
        " Write this walk on paper.",
        guideline=about.guideline.name,
        asked=made_with(about.method),
    )


def texts(about: CardFor, squares: Sequence[WeekSquares]) -> dict[str, object]:
    """Word what the phone shows at the gate.

    Parameters
    ----------
    about : CardFor
        The field.
    squares : sequence of WeekSquares
        Which plants get their squares counted.

    Returns
    -------
    dict
        Ready for JSON.
    """
    return {
        "sites": _sites(about, squares),
        "care": list(_care(about)),
        "rule": " ".join(_rule(about)),
        "prevails": prevails(),
    }


def season_words(about: CardFor) -> str:
    """Say where the field stands in the guideline's season on the card's day.

    Parameters
    ----------
    about : CardFor
        The field.

    Returns
    -------
    str
    """
    if about.guideline is None:
        return phrase("No guideline is chosen for this field.")
    if about.stage is None:
        return phrase("No day of first square is given for this field.")
    season = in_season(about.stage, about.guideline)
    outside = out_of_season(about.stage, about.guideline, season)
    if outside is not None:
        return outside.text
    doubts = [
        reason.text for reason in unsure_season(season, about.guideline, about.stage.worked_out)
    ]
    ends = phrase(_ENDS[about.guideline.season_end], guideline=about.guideline.name)
    return " ".join([_weeks(season), ends, *doubts])


def _weeks(season: InSeason) -> str:
    weeks = _week_list(season)
    if not weeks:
        return phrase("The field blooms.")
    return phrase("Week {weeks} of squaring, as far as is known.", weeks=weeks)


def _week_list(season: InSeason) -> str:
    return listed([str(week) for week in season.weeks if week is not None], "or")


def _sites(about: CardFor, squares: Sequence[WeekSquares]) -> str:
    """Say on which plants squares are counted today."""
    if about.guideline is not None and not about.guideline.reads_squares:
        return phrase("Squares: this guideline does not ask for them. Count them if you wish.")
    if about.guideline is None or about.stage is None:
        return phrase("The squaring week is not known: count squares on every plant.")
    season = in_season(about.stage, about.guideline)
    if season.outside is not None:
        return phrase("Outside the season of the guideline no squares are asked for.")
    weeks = _week_list(season)
    today = _today(season, squares)
    if not weeks:
        return phrase(
            "In bloom count squares on {plants} plants in each quarter.", plants=today.plants
        )
    if today.every:
        return phrase("In week {weeks} count squares on every plant.", weeks=weeks)
    return phrase(
        "In week {weeks} count squares on {plants} plants in each quarter.",
        weeks=weeks,
        plants=today.plants,
    )


def _today(season: InSeason, squares: Sequence[WeekSquares]) -> WeekSquares:
    """Take the earliest week that the dates allow: it asks for the most plants."""
    first = season.weeks[0] or squares[-1].week
    return squares[min(first, len(squares)) - 1]


def _care(about: CardFor) -> Iterator[str]:
    yield from care_in_the_field()
    if about.dates is not None:
        recent = recent_treatment(about.on, about.dates.last_treated_before(about.on))
        if recent is not None:
            yield recent.text
    if about.stage is not None:
        yield host_weeds(about.stage, on=about.on).text


def _rule(about: CardFor) -> Iterator[str]:
    guideline = about.guideline
    if guideline is None:
        yield phrase(
            "No guideline is chosen for this field, so no call can be made yet."
            " The walk is kept until the office has chosen one."
        )
        return
    yield _case(guideline, about.line)
    if guideline.half_line is not None:
        yield phrase(
            "At a square set of {set} of 100 or under the line is halved, so the phone shows"
            " no standing; the office makes the call.",
            set=number(100 * guideline.half_line.at_or_below),
        )
    if about.stage is None:
        yield _no_dates()


def _no_dates() -> str:
    return phrase(
        "No day of first square is given, so the phone shows no standing."
        " Tell the office when the first squares were seen."
    )


def _case(guideline: Guideline, chosen: Fraction | None) -> str:
    """Give the case to treat in one sentence."""
    line = _line_words(guideline, chosen)
    if guideline.blasted is not None:
        return phrase(
            "The case to treat: {line}, and of 100 squares {share} or more blasted.",
            line=line,
            share=number(100 * guideline.blasted.at_least),
        )
    if guideline.needs_set:
        floors = [_floor_words(floor) for floor in guideline.floors]
        return phrase(
            "The case to treat: {line}, and of 100 squares fewer healthy than {floors}.",
            line=line,
            floors=listed(floors),
        )
    return phrase("The case to treat: {line}. Squares do not decide.", line=line)


def _line_words(guideline: Guideline, chosen: Fraction | None) -> str:
    if chosen is not None or len(guideline.lines) == 1:
        line = full_line(guideline, 1, chosen)
        return _per_100(guideline.method, line)
    return listed([_weekly(guideline, line) for line in guideline.lines], "or")


def _weekly(guideline: Guideline, line: Line) -> str:
    return phrase(
        "{insects} in week {weeks}",
        insects=_per_100(guideline.method, line.low),
        weeks=listed(list(map(str, line.weeks))),
    )


def _per_100(method: Method, line: Fraction) -> str:
    if method is Method.SWEEP:
        return phrase("{line} or more fleahoppers per 100 sweeps", line=number(line))
    return phrase("{line} or more fleahoppers per 100 plants", line=number(line))


def _floor_words(floor: Floor) -> str:
    of_100 = number(100 * floor.floor)
    if floor.and_later:
        return phrase("{floor} from week {week} on", floor=of_100, week=min(floor.weeks))
    weeks = listed(list(map(str, floor.weeks)))
    return phrase("{floor} in week {weeks}", floor=of_100, weeks=weeks)
