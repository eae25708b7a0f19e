"""How likely the field's true values are past the lines, and what would settle it.

The two measures are taken as independent given the walk; see the method page "The call".
"""

from __future__ import annotations

from collections.abc import Sequence

from quarterwalk.call.rule import Bounds
from quarterwalk.call.verdict import Chances, Sureness, Verdict
from quarterwalk.guideline import Guideline
from quarterwalk.reading import BetaOdds, GammaOdds, Reading

# The words that a call uses for how sure it is begin at these chances (this
# project's rule; the method page says how often each word holds). [fraction]
CLEAR_FROM = 0.9
CLOSE_FROM = 0.6


def chances_of(
    reading: Reading, guideline: Guideline, bounds: Sequence[Bounds], *, times: float = 1.0
) -> Chances:
    """Give the chances that the true values are past the lines.

    Parameters
    ----------
    reading : Reading
        What the walk says.
    guideline : Guideline
        The region's rule.
    bounds : sequence of Bounds
        One for each squaring week that the dates allow; `over` and `under` are
        those of the first, `treat` is their mean.
    times : float
        Imagine a walk so many times as long that found the same. [ratio]

    Returns
    -------
    Chances
    """
    if reading.density_odds is None or not bounds:
        return Chances()
    density = reading.density_odds if times == 1.0 else reading.density_odds.scaled(times)
    readable = reading.set_readable
    kept = _scaled(reading.set_odds, times) if readable else None
    dead = _scaled(reading.blasted_odds, times) if readable else None
    over = density.at_least(float(bounds[0].line) / 100)
    under = None
    if kept is not None and bounds[0].floor is not None:
        under = kept.below(float(bounds[0].floor))
    each = [_treat(guideline, b, density, kept, dead) for b in bounds]
    known = [p for p in each if p is not None]
    treat = sum(known) / len(each) if len(known) == len(each) else None
    return Chances(over, under, treat)


def _scaled(odds: BetaOdds | None, times: float) -> BetaOdds | None:
    return odds if odds is None or times == 1.0 else odds.scaled(times)


def _treat(
    guideline: Guideline,
    bounds: Bounds,
    density: GammaOdds,
    kept: BetaOdds | None,
    dead: BetaOdds | None,
) -> float | None:
    """Chance that the rule, applied to the true values, says treat in one week."""
    over_full = density.at_least(float(bounds.full_line) / 100)
    if guideline.needs_set:
        if bounds.blasted is not None:
            return (
                None if dead is None else over_full * dead.at_least(float(bounds.blasted.at_least))
            )
        if kept is None or bounds.floor is None:
            return None
        return over_full * kept.below(float(bounds.floor))
    if bounds.half_at is not None and kept is not None:
        low_set = kept.below(float(bounds.half_at))
        over_half = density.at_least(float(bounds.full_line) / 200)
        return low_set * over_half + (1.0 - low_set) * over_full
    return over_full


def borne_out(chances: Chances, verdict: Verdict) -> float | None:
    """Give the chance that the true values bear the verdict out.

    Parameters
    ----------
    chances : Chances
        Of this walk.
    verdict : Verdict
        What the call says.

    Returns
    -------
    float or None
        [fraction]; None for verdict ``none``.
    """
    if verdict is Verdict.NONE or chances.over is None:
        return None
    treat = chances.over if chances.treat is None else chances.treat
    return treat if verdict is Verdict.TREAT else 1.0 - treat


def sureness(chance: float | None) -> Sureness | None:
    """Put a chance in the words that growers are given.

    Parameters
    ----------
    chance : float or None
        That the verdict is borne out. [fraction]

    Returns
    -------
    Sureness or None
    """
    if chance is None:
        return None
    if chance >= CLEAR_FROM:
        return Sureness.CLEAR
    return Sureness.CLOSE if chance >= CLOSE_FROM else Sureness.CANT_TELL
