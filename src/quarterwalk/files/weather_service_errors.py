"""What can go wrong between us and a service of weather.

::

    QuarterwalkError
    ├── UsageError
    │   ├── UnsafeAddress        an address that nothing is sent to
    │   └── DaysNotServed        days that no service has
    └── WeatherServiceError
        ├── ServiceNotReached    no connection, no answer in time, too busy until the end
        ├── RequestRefused       it answered, and refused
        └── AnswerNotRead        it answered, but not in the form that is read
"""

from __future__ import annotations

from quarterwalk.errors import QuarterwalkError, UsageError, shown


class UnsafeAddress(UsageError):
    """An address that no request is sent to."""

    def __init__(self, address: str, why: str) -> None:
        super().__init__(address, why)
        self.address = address
        self.why = why

    def __str__(self) -> str:
        return (
            f"the address of a weather service must {self.why}, "
            f'got "{shown(self.address, most=100)}". Give it as https://host/path.'
        )


class DaysNotServed(UsageError):
    """Days were asked for that no service has."""


class WeatherServiceError(QuarterwalkError):
    """A service of weather gave no weather.

    Parameters
    ----------
    address : str
        Whom was asked, without what was asked.
    what : str
        What happened, as the end of a sentence.
    """

    next_step = "Give weather from a file instead, or try again later."

    def __init__(self, address: str, what: str) -> None:
        super().__init__(address, what)
        self.address = address
        self.what = what

    def __str__(self) -> str:
        return f"{self.address}: {self.what}. {self.next_step}"


class ServiceNotReached(WeatherServiceError):
    """No connection, no answer in time, or a server that stayed too busy."""

    next_step = "Look after the connection, try again later, or give weather from a file."


class RequestRefused(WeatherServiceError):
    """The service answered, and refused."""

    next_step = "Change what it complains of, or give weather from a file."


class AnswerNotRead(WeatherServiceError):
    """The answer did not have the form that is read; nothing of it was taken."""

    next_step = (
        "Look whether the address is that of a service with this form of answer; "
        "if it is, try again later, or give weather from a file."
    )
