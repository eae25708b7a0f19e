"""Nothing in the repository ties it to one machine, or to one place to fetch packages from."""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path

import pytest

from tests.contracts.source import ROOT, short

# Written in pieces, so that this file does not hold what it looks for.
DOT = r"\."
HOSTS = (
    "pypi" + DOT + "org",
    "python" + "hosted" + DOT,
    "files" + DOT + "python",
    "npm" + "js" + DOT,
    "debian" + DOT + "org",
    "conda" + DOT + "anaconda",
)
PATHS = tuple("(?<![\\w.])/" + top + "/" for top in ("work", "root", "opt", "home", "tmp"))
MARKS = ("TO" + "DO", "FIX" + "ME", "X" * 3)
OPTIONS = ("--index-url", "--extra-index-url", "--find-links", "--trusted-host")
FOUND = re.compile("|".join((*HOSTS, *PATHS, *(rf"\b{mark}\b" for mark in MARKS))))

needs_git = pytest.mark.skipif(
    shutil.which("git") is None or not (ROOT / ".git").exists(),
    reason="needs git, and a clone: only tracked files are looked at",
)


def tracked() -> list[Path]:
    """Give the files that the repository holds, and those that it would hold next."""
    listed = subprocess.run(
        ["git", "-c", "safe.directory=*", "ls-files", "-z", "-co", "--exclude-standard"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )
    return [path for name in listed.stdout.split("\0") if name and (path := ROOT / name).is_file()]


def lines_that_tell(path: Path) -> list[str]:
    try:
        text = path.read_text(encoding="utf-8")
    except UnicodeDecodeError:
        return []
    return [
        f"{short(path)} line {number}: {line.strip()[:100]}"
        for number, line in enumerate(text.splitlines(), 1)
        if FOUND.search(line)
    ]


@needs_git
def test_no_tracked_file_names_a_registry_a_machine_or_unfinished_work() -> None:
    files = tracked()
    found = [what for path in files for what in lines_that_tell(path)]
    assert files
    assert not found, "\n".join(found)


def test_a_lock_holds_exact_versions_and_hashes_and_no_place_to_fetch_from() -> None:
    locks = sorted((ROOT / "locks").glob("*.txt"))
    assert locks
    for lock in locks:
        text = lock.read_text(encoding="utf-8")
        assert "://" not in text
        assert not any(option in text for option in OPTIONS)
        for entry in re.split(r"\n(?=\S)", text.strip()):
            assert re.match(r"[a-z0-9.-]+==\S+", entry), entry[:80]
            assert "--hash=sha256:" in entry, entry[:80]


@pytest.mark.parametrize(
    "line",
    [
        "see https://" + "pypi" + ".org/simple",
        'open("/' + 'root/x")',
        "# TO" + "DO later",
    ],
)
def test_the_search_finds_what_must_not_be_there(line: str) -> None:
    assert FOUND.search(line)


@pytest.mark.parametrize("line", ["a/work/b", "docs/home/page", "per 100 at the top"])
def test_the_search_leaves_plain_words_alone(line: str) -> None:
    assert not FOUND.search(line)
