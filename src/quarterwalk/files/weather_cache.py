"""Answers of a service of weather that are kept in a folder, each with the time it came."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path

from quarterwalk.files.weather_request import SETTLED_DAYS, WeatherRequest
from quarterwalk.files.whole_file import whole_file

KEPT_HOURS = 3
"""An answer with days that may still change is asked for again after so long. Models of the
atmosphere run some four times a day; a rule of this project. [h]"""

# Told in each file; files of another form are fetched again.
_FORM = "quarterwalk weather answer 1"
# No kept answer is larger: 4 MB as it came, some characters of it written with a backslash.
# [bytes]
_MOST_BYTES = 16_000_000


@dataclass(frozen=True, slots=True)
class KeptAnswer:
    """An answer as it came, and when.

    Parameters
    ----------
    url : str
        What was asked, less the key.
    fetched : datetime
        With its time zone.
    data : bytes
        The answer.
    """

    url: str
    fetched: datetime
    data: bytes

    def serves(self, request: WeatherRequest, now: datetime) -> bool:
        """Tell whether there is no need to ask again.

        Parameters
        ----------
        request : WeatherRequest
            What is wanted.
        now : datetime
            With its time zone.

        Returns
        -------
        bool
        """
        if self.url != request.url or self.fetched > now:
            return False
        if now - self.fetched < timedelta(hours=KEPT_HOURS):
            return True
        came = self.fetched.astimezone(now.tzinfo).date()
        return request.days is not None and request.days[1] < came - timedelta(days=SETTLED_DAYS)


def kept_answer(folder: Path, request: WeatherRequest) -> KeptAnswer | None:
    """Find what was kept for a request, or for the same with an earlier last day.

    Parameters
    ----------
    folder : Path
        Where answers are kept.
    request : WeatherRequest
        What is wanted.

    Returns
    -------
    KeptAnswer or None
        None where there is none, or the file is broken.
    """
    try:
        with _path(folder, request).open("rb") as file:
            told = json.loads(file.read(_MOST_BYTES).decode("utf-8"))
        if told["form"] != _FORM:
            return None
        fetched = datetime.fromisoformat(told["fetched"])
        kept = KeptAnswer(str(told["url"]), fetched, told["answer"].encode("utf-8"))
    except (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return None
    return kept if fetched.tzinfo is not None else None


def keep_answer(folder: Path, request: WeatherRequest, answer: KeptAnswer) -> bool:
    """Keep an answer in place of the one before.

    Parameters
    ----------
    folder : Path
        Where answers are kept; it is made if it is not there.
    request : WeatherRequest
        What was asked.
    answer : KeptAnswer
        What came, in UTF-8.

    Returns
    -------
    bool
        Whether it could be written.
    """
    told = {
        "form": _FORM,
        "url": answer.url,
        "fetched": answer.fetched.isoformat(),
        "answer": answer.data.decode("utf-8"),
    }
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with whole_file(_path(folder, request)) as file:
            file.write(json.dumps(told).encode("utf-8"))
    except OSError:
        return False
    return True


def _path(folder: Path, request: WeatherRequest) -> Path:
    return folder / f"{request.name}.json"
