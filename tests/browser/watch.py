"""What a browser says and asks for while pages are open, held against the content policy."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from urllib.parse import urlsplit

from playwright.sync_api import BrowserContext, ConsoleMessage, Request, Response

from tests.browser.server import Server

REPORT = """addEventListener('securitypolicyviolation', (event) =>
  console.error(`Content Security Policy: ${event.violatedDirective} ${event.blockedURI}`));"""

OFFICE_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:;"
    " font-src 'self'; connect-src 'self'; manifest-src 'self'; worker-src 'self';"
    " base-uri 'none'; form-action 'self'; frame-ancestors 'none'"
)
PHONE_POLICY = OFFICE_POLICY.replace("form-action 'self'", "form-action 'none'")

HEADERS = {
    "x-content-type-options": "nosniff",
    "referrer-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
}


class Watch:
    """What a browser said and asked for while pages were open."""

    def __init__(self, origin: str) -> None:
        self.origin = origin
        self.faults: list[str] = []
        self.answered = 0

    def said(self, message: ConsoleMessage) -> None:
        expected = "the server responded with a status of"  # a page that is not there says so
        if message.type == "error" and expected not in message.text:
            self.faults.append(f"console: {message.text}")

    def asked(self, request: Request) -> None:
        parts = urlsplit(request.url)
        if parts.scheme not in ("data", "blob") and not request.url.startswith(self.origin + "/"):
            self.faults.append(f"asked for {request.url}")

    def got(self, response: Response) -> None:
        if not response.url.startswith(self.origin + "/"):
            return
        self.answered += 1
        path = urlsplit(response.url).path
        headers = response.headers
        policy = PHONE_POLICY if path.startswith("/phone/") else OFFICE_POLICY
        wanted = {"content-security-policy": policy, **HEADERS}
        if response.from_service_worker:
            return
        self.faults += [
            f"{path} has {name}: {headers.get(name)}"
            for name, value in wanted.items()
            if headers.get(name) != value
        ]

    def told(self) -> list[str]:
        """Give each fault once."""
        return list(dict.fromkeys(self.faults))


@contextmanager
def watching(context: BrowserContext, office: Server) -> Iterator[Watch]:
    watch = Watch(office.url)
    context.add_init_script(REPORT)
    context.on("console", watch.said)
    context.on("request", watch.asked)
    context.on("response", watch.got)
    yield watch
