"""What to take care of, said where the decision is made. Nothing here is a rate or an interval."""

from __future__ import annotations

from quarterwalk.call.verdict import Caution, Reason, Verdict
from quarterwalk.crop import Stage, StageName

_COMMON = "common practice"

_LABEL = Caution(
    "label",
    "The label and local rules decide what may be used, how much and when, before anything"
    " said here; a licensed applicator has the last word.",
    _COMMON,
)
_BEES = Caution(
    "bees",
    "Look for bees and for anything in flower, in the field and beside it, before spraying.",
    _COMMON,
)
_DRIFT = Caution(
    "drift",
    "Mind wind and still evening air: spray must stay on the field.",
    _COMMON,
)
_RE_ENTRY = Caution(
    "re-entry",
    "Nobody walks the field after a spray until the re-entry time on the label has passed;"
    " of several products the longest holds.",
    _COMMON,
)
_FLARE = Caution(
    "flare",
    "A broad spray also kills the insects that keep aphids and bollworms down.",
    _COMMON,
)


def cautions_for(verdict: Verdict, *, recently_treated: bool) -> tuple[Caution, ...]:
    """Give the cautions that go with a verdict.

    Parameters
    ----------
    verdict : Verdict
        What the call says.
    recently_treated : bool
        Whether the field was treated in the last days.

    Returns
    -------
    tuple of Caution
    """
    if verdict is Verdict.TREAT:
        return (_LABEL, _BEES, _DRIFT, _RE_ENTRY, _FLARE)
    return (_RE_ENTRY,) if recently_treated else ()


def host_weeds(stage: Stage) -> Reason:
    """Say what to do about host weeds at a stage (common practice).

    Parameters
    ----------
    stage : Stage
        Where the crop stands.

    Returns
    -------
    Reason
    """
    if stage.name is StageName.BEFORE_SQUARING:
        text = (
            "Clear host weeds now, while there is no square yet;"
            " once squaring has begun, leave them until after bloom."
        )
    elif stage.name is StageName.SQUARING:
        text = (
            "Leave host weeds standing until after bloom:"
            " cutting or spraying them now sends the insects into the cotton."
        )
    else:
        text = "The field blooms, so host weeds around it may be cleared."
    return Reason(f"host-weeds-{stage.name}", text)
