#!/bin/sh
# Tests the core on the oldest versions that pyproject.toml allows, in an environment of its own.
# They were built for Python 3.11 and 3.12: with a newer Python there is nothing to test.
set -eu
cd "$(dirname "$0")/.."
python=.venv/bin/python
if ! "$python" -c 'import sys; sys.exit(sys.version_info >= (3, 13))'; then
    echo "Left out: the oldest versions do not run on this Python."
    exit 0
fi
if [ ! -x .venv/bin/uv ]; then
    echo "Left out: this check needs uv."
    exit 0
fi
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
"$python" -m venv "$folder"
"$python" - "$folder" <<'PYTHON'
import sys
from pathlib import Path

sys.path.insert(0, "tools")
from packages import install, install_folder

venv = Path(sys.argv[1])
install(venv, Path("locks/uv.txt"), [Path("locks/lowest.txt")])
install_folder(venv, Path.cwd())
PYTHON
"$folder/bin/python" -m pytest -q -p no:cacheprovider -m "not slow" -n 2 \
    --ignore=tests/setup --ignore=tests/contracts --ignore=tests/docs \
    --ignore=tests/office --ignore=tests/office_pages --ignore=tests/phone --ignore=tests/browser tests
# the office's own packages: what a phone asks, and every page
"$folder/bin/python" -m pytest -q -p no:cacheprovider -n 2 \
    tests/office/test_sync.py tests/office/test_people_service.py tests/office_pages
