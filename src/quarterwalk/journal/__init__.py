"""The journal: entries that phones, desks and tables write, and what a walk's come to.

Pure: knows no clock, no network and no database. An entry is never edited; what was
wrong is struck by a later one.
"""

from quarterwalk.journal.as_walk import called_apart, to_walk
from quarterwalk.journal.batch import split_lines
from quarterwalk.journal.body import (
    Abundance,
    Body,
    DeviceCount,
    Gate,
    HandedOver,
    Kind,
    Lean,
    LostSquares,
    Note,
    PlantChecked,
    PlantSkipped,
    QuadrantNoted,
    Sight,
    Sighted,
    Source,
    Standing,
    Struck,
    WalkClosed,
    WalkOpened,
    WhySkipped,
)
from quarterwalk.journal.entry import LARGEST, Entry, read_entry, time_text, write_entry
from quarterwalk.journal.fault import EntryFault, FaultCode
from quarterwalk.journal.ids import (
    ALPHABET,
    DEVICE_LENGTH,
    FIELD_LENGTH,
    HIGHEST_SEQ,
    PERSON_LENGTH,
    Key,
    is_id,
    opening_key,
    walk_id,
)
from quarterwalk.journal.record import (
    CheckRecord,
    QuadrantNote,
    Remark,
    Sighting,
    WalkRecord,
    WalkState,
)
from quarterwalk.journal.replay import replay

__all__ = [
    "ALPHABET",
    "DEVICE_LENGTH",
    "FIELD_LENGTH",
    "HIGHEST_SEQ",
    "LARGEST",
    "PERSON_LENGTH",
    "Abundance",
    "Body",
    "CheckRecord",
    "DeviceCount",
    "Entry",
    "EntryFault",
    "FaultCode",
    "Gate",
    "HandedOver",
    "Key",
    "Kind",
    "Lean",
    "LostSquares",
    "Note",
    "PlantChecked",
    "PlantSkipped",
    "QuadrantNote",
    "QuadrantNoted",
    "Remark",
    "Sight",
    "Sighted",
    "Sighting",
    "Source",
    "Standing",
    "Struck",
    "WalkClosed",
    "WalkOpened",
    "WalkRecord",
    "WalkState",
    "WhySkipped",
    "called_apart",
    "is_id",
    "opening_key",
    "read_entry",
    "replay",
    "split_lines",
    "time_text",
    "to_walk",
    "walk_id",
    "write_entry",
]
