"""The rows of the office, a file for each noun.

What people say of fields and seasons is kept as it stands. What was seen on a walk is kept
as the bytes of its journal entries; the rows of `walks` are a projection of those bytes,
which `quarterwalk rebuild` makes again.
"""

from quarterwalk.office.models.calls import CallRow
from quarterwalk.office.models.cards import CardRow
from quarterwalk.office.models.devices import Device, DeviceKind, PairingCode
from quarterwalk.office.models.districts import District, Grower, Membership, Role
from quarterwalk.office.models.fields import FieldRow, SeasonRow, Treatment
from quarterwalk.office.models.journal import EntryState, JournalEntry
from quarterwalk.office.models.people import Person, SignInLink
from quarterwalk.office.models.seen import SeenRow
from quarterwalk.office.models.walks import CheckRow, QuadrantNoteRow, RemarkRow, WalkRow
from quarterwalk.office.models.weather import StationRow

__all__ = [
    "CallRow",
    "CardRow",
    "CheckRow",
    "Device",
    "DeviceKind",
    "District",
    "EntryState",
    "FieldRow",
    "Grower",
    "JournalEntry",
    "Membership",
    "PairingCode",
    "Person",
    "QuadrantNoteRow",
    "RemarkRow",
    "Role",
    "SeasonRow",
    "SeenRow",
    "SignInLink",
    "StationRow",
    "Treatment",
    "WalkRow",
]
