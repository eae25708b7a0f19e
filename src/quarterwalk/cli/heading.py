"""The lines that open what is said of one walk."""

from __future__ import annotations

from quarterwalk.call.figures import counted, day_words, listed
from quarterwalk.cli.screen import Ink, inked, say
from quarterwalk.reading import Reading
from quarterwalk.walk import WalkHead


def heading(head: WalkHead, reading: Reading, *, stage: str = "", about: str = "") -> None:
    """Print which walk it is and what was looked at.

    Parameters
    ----------
    head : WalkHead
        Field, day and scouts.
    reading : Reading
        What was counted.
    stage : str
        Where the crop stands, in words; may be empty.
    about : str
        What is known of the field, such as its area; may be empty.
    """
    print(inked(f"{head.field}, {day_words(head.date)} {head.date.year}", Ink.HEAD))
    swept = reading.sweeps > 0
    looked = counted(reading.sweeps, "sweeps") if swept else counted(reading.plants, "plants")
    parts = [looked]
    if reading.square_plants:
        parts.append(f"squares on {reading.square_plants}")
    if head.scouts:
        parts.append(f"walked by {listed(list(head.scouts))}")
    if stage:
        parts.append(stage)
    say(", ".join(parts) + ".", indent=2)
    if about:
        say(f"{about}.", indent=2)
