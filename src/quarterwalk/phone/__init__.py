"""The offline page: plain files that the office serves and a phone keeps.

Knows nothing of the office; the page and the office speak in journal entries and walk cards.
"""

from __future__ import annotations

from quarterwalk.phone.files import content_type, phone_files

__all__ = ["content_type", "phone_files"]
