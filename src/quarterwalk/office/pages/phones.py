"""Pages of the phones that are paired."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import segno
from django.urls import reverse
from django.utils.safestring import SafeString

from quarterwalk.office.models import Device, District
from quarterwalk.office.pages.days import moment
from quarterwalk.office.pages.drawn import safe_drawing
from quarterwalk.office.pages.may import May

# A clock that is off by less than this is as good as right. [ms]
_HARMLESS_MS = 120_000
_MINUTE_MS = 60_000


@dataclass(frozen=True, slots=True)
class PhoneLine:
    """One phone."""

    name: str
    person: str
    paired: str
    seen: str
    clock: str
    ended: str
    end_to: str


@dataclass(frozen=True, slots=True)
class PhonesPage:
    """The phones that somebody may see."""

    title: str
    said: tuple[str, ...]
    phones: tuple[PhoneLine, ...]


def phones_page(devices: Iterable[Device], district: District, may: May) -> PhonesPage:
    """List phones.

    Parameters
    ----------
    devices : iterable of Device
        Those that somebody may see.
    district : District
        Its zone tells the times.
    may : May
        Who looks.

    Returns
    -------
    PhonesPage
    """
    whose = "All phones of the district." if may.lead else "Your phones."
    return PhonesPage(
        "Phones",
        (
            whose,
            "What a phone has not sent yet is not known here; look at the phone itself.",
        ),
        tuple(_phone(device, district.time_zone) for device in devices),
    )


def _phone(device: Device, zone: str) -> PhoneLine:
    ended = device.revoked_at
    return PhoneLine(
        name=device.label or "A phone without a name",
        person=device.person.name if device.person is not None else "",
        paired=moment(device.paired_at, zone),
        seen=moment(device.seen_at, zone) if device.seen_at is not None else "not yet",
        clock=_clock(device.skew_ms),
        ended=f"Ended {moment(ended, zone)}" if ended is not None else "",
        end_to=reverse("phone-revoke", args=[device.device_id]) if ended is None else "",
    )


def _clock(skew_ms: int | None) -> str:
    if skew_ms is None or abs(skew_ms) < _HARMLESS_MS:
        return ""
    minutes = round(abs(skew_ms) / _MINUTE_MS)
    return f"Its clock is {minutes} minutes {'ahead' if skew_ms > 0 else 'behind'}."


@dataclass(frozen=True, slots=True)
class CodePage:
    """A code that pairs one phone, shown once."""

    title: str
    code: str
    link: str
    square: SafeString
    said: tuple[str, ...]


def code_page(code: str, link: str) -> CodePage:
    """Show a pairing code.

    Parameters
    ----------
    code : str
        As it is typed.
    link : str
        What the camera opens.

    Returns
    -------
    CodePage
    """
    return CodePage(
        "Pair a phone",
        code,
        link,
        _square(link),
        (
            "Point the phone's camera at the square, or open the phone page and type the code.",
            "It pairs one phone, once, within 15 minutes. It will not be shown again.",
        ),
    )


def _square(link: str) -> SafeString:
    drawn = segno.make(link, micro=False, error="m").svg_inline(
        scale=1, border=4, omitsize=True, svgclass="qr", lineclass=None, title="Pairing link"
    )
    return safe_drawing(drawn)
