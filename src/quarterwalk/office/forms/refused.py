"""What a service refuses, put back on the form that asked for it."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from django import forms

from quarterwalk.office.services.refused import ServiceRefused


@contextmanager
def refusals(form: forms.BaseForm) -> Iterator[None]:
    """Turn what is refused inside into a fault of a form.

    Parameters
    ----------
    form : BaseForm
        The one that asked. [form]
    """
    try:
        yield
    except ServiceRefused as refused:
        form.add_error(refused.about if refused.about in form.fields else None, str(refused))
