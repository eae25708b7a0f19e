"""The call in one or two plain sentences, for every verdict and everything it may rest on."""

from __future__ import annotations

from quarterwalk.call import Call, Verdict
from quarterwalk.reading import Reading
from quarterwalk.words import phrase

_INSECTS = ("insects-over", "insects-near", "insects-middle", "insects-few")
_UNDER = frozenset({"set-under", "set-well-under", "blasted-over"})
_FINE = frozenset({"set-not-under", "blasted-not-over"})


def headline(call: Call, reading: Reading) -> str:
    """Say a call in one or two plain sentences.

    Parameters
    ----------
    call : Call
        The call.
    reading : Reading
        What it rests on.

    Returns
    -------
    str
        In the language spoken.
    """
    codes = frozenset(reason.code for reason in call.reasons)
    if call.verdict is Verdict.NONE:
        return _no_call(codes)
    if call.verdict is Verdict.TREAT:
        return _treat(codes)
    insects = next(code.removeprefix("insects-") for code in _INSECTS if code in codes)
    if insects == "few" and not reading.insects:
        insects = "no"
    if call.verdict is Verdict.HOLD:
        return _hold(codes, insects)
    return _overruled(codes) or _look_sooner(codes, insects)


def _no_call(codes: frozenset[str]) -> str:
    if "before-squaring" in codes:
        return phrase("Too early. The field is not squaring yet.")
    if "season-over" in codes:
        return phrase("The season of the rule is over in this field.")
    if "bloom-date" in codes:
        return phrase("The day of first bloom is needed before anything can be said.")
    if "no-line-for-method" in codes:
        return phrase("The rule has no line for this way of counting.")
    return phrase("Nobody looked for fleahoppers, so nothing can be said.")


def _treat(codes: frozenset[str]) -> str:
    if "both-past" in codes and "blasted-over" in codes:
        return phrase("Too many fleahoppers, and too many squares blasted. The rule asks for both.")
    if "both-past" in codes:
        return phrase("Too many fleahoppers, and too many squares gone. The rule asks for both.")
    if "line-halved" in codes:
        return phrase("Too many fleahoppers for a field that has lost so many squares.")
    return phrase("Too many fleahoppers. The rule here goes by insects alone.")


def _overruled(codes: frozenset[str]) -> str:
    """Say what stands above the numbers; empty where nothing does."""
    past = "both-past" in codes or ("insects-over" in codes and not codes & {
        "insects-only", "squares-needed", "weeks-differ"
    })  # fmt: skip
    if "finish-walk" in codes:
        return phrase("The walk is not finished, so nothing is decided yet.")
    if "recently-treated" in codes:
        if past:
            return phrase("Past the line, but treated only days ago. Do not repeat it yet.")
        return phrase("Treated only days ago. Look again before anything else is done.")
    if "weeks-differ" in codes:
        return phrase("It hangs on the week of squaring, and nobody knows that for certain.")
    if "season-edge" in codes and past:
        return phrase("Past the line, but the field may be outside the season of the rule.")
    return ""


def _look_sooner(codes: frozenset[str], insects: str) -> str:
    match insects, _squares(codes):
        case "over", "fine" if "blasted-not-over" in codes:
            return phrase("Too many fleahoppers, but few squares are blasted. Watch closely.")
        case "over", "fine":
            return phrase("Too many fleahoppers, but the squares are holding. Watch closely.")
        case "over", _:
            return phrase("Too many fleahoppers, and the squares can't be told yet.")
        case "near", "under":
            return phrase("Fleahoppers are close under the line, and squares are being lost.")
        case "near", "fine":
            return phrase("Fleahoppers are close under the line, and the squares are holding.")
        case "near", _:
            return phrase("Fleahoppers are close under the line.")
        case "middle", _:
            return phrase("Squares are being lost, and there are fleahoppers enough to watch.")
        case "no", _:
            return phrase("Squares are being lost, but no fleahopper was found. Look for a cause.")
        case _:
            return phrase("Squares are being lost, but fleahoppers are too few to be the cause.")


def _hold(codes: frozenset[str], insects: str) -> str:
    if "recently-treated" in codes:
        if insects == "middle":
            return phrase("Some fleahoppers are left after the treatment, under the line.")
        return phrase("Few fleahoppers, days after the treatment.")
    match insects, _squares(codes):
        case "middle", "fine":
            return phrase("Some fleahoppers, but under the line, and the squares are holding.")
        case "middle", _:
            return phrase("Some fleahoppers, but under the line.")
        case "no", "under":
            return phrase(
                "No fleahopper was found. Some squares are lost, likely to something else."
            )
        case "no", "fine":
            return phrase("No fleahopper was found, and the squares are holding.")
        case "no", _:
            return phrase("No fleahopper was found.")
        case _, "under":
            return phrase("Few fleahoppers. Some squares are lost, likely to something else.")
        case _, "fine":
            return phrase("Few fleahoppers, and the squares are holding.")
        case _:
            return phrase("Few fleahoppers, well under the line.")


def _squares(codes: frozenset[str]) -> str:
    if codes & _UNDER:
        return "under"
    return "fine" if codes & _FINE else "not told"
