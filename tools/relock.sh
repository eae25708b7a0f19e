#!/bin/sh
# Renews every lock from pyproject.toml and locks/*.in. Run it by hand; ./run never does.
# Needs the environment that `./run test` makes. Newest versions: tools/relock.sh --upgrade
set -eu
cd "$(dirname "$0")/.."
lock() {
    out=$1
    shift
    .venv/bin/uv pip compile --quiet --python-version 3.11 --generate-hashes \
        --no-header --no-annotate --no-emit-index-url --no-emit-find-links --output-file "$out" "$@"
    echo "wrote $out"
}
lock locks/base.txt --universal "$@" pyproject.toml
lock locks/demo.txt --universal "$@" --constraints locks/base.txt --extra office pyproject.toml
lock locks/build.txt --universal "$@" --constraints locks/base.txt locks/build.in
lock locks/test.txt --universal "$@" --constraints locks/demo.txt --constraints locks/build.txt \
    --extra office --extra report pyproject.toml locks/build.in locks/test.in
lock locks/uv.txt --universal "$@" locks/uv.in
lock locks/lowest.txt --resolution lowest-direct "$@" \
    --constraints locks/build.txt --extra office --extra report \
    pyproject.toml locks/build.in locks/lowest.in
