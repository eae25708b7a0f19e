"""The call: reading, stage and guideline in; verdict, reasons and next look out."""

from quarterwalk.call.explain import Section, explain
from quarterwalk.call.make import CallOptions, check_line, make_call
from quarterwalk.call.verdict import (
    Call,
    Caution,
    Chances,
    GuidelineUsed,
    Look,
    Reason,
    Sureness,
    Verdict,
)

__all__ = [
    "Call",
    "CallOptions",
    "Caution",
    "Chances",
    "GuidelineUsed",
    "Look",
    "Reason",
    "Section",
    "Sureness",
    "Verdict",
    "check_line",
    "explain",
    "make_call",
]
