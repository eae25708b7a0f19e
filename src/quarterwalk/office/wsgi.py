"""The office as a WSGI application, for whatever serves it."""

from __future__ import annotations

import os

from django.core.wsgi import get_wsgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "quarterwalk.office.settings")

application = get_wsgi_application()
