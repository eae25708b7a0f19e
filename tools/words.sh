#!/bin/sh
# Renews the catalogues of other languages from the sentences in src. Run it by hand; ./run never
# does. Needs a Python with Babel, which nothing else here needs; docs/translating.md says more.
set -eu
cd "$(dirname "$0")/.."
python=${PYTHON:-python3}
babel() {
    "$python" -m babel.messages.frontend --quiet "$@"
}
sheet=$(mktemp)
trap 'rm -f "$sheet"' EXIT
babel extract --no-default-keywords \
    --keyword phrase:1 --keyword phrase_as:1c,2 --keyword phrase_for:2,3 --keyword noted:1 \
    --add-location file --sort-by-file --omit-header --output-file "$sheet" src/quarterwalk
for catalogue in src/quarterwalk/locale/*/LC_MESSAGES/quarterwalk.po; do
    language=${catalogue#src/quarterwalk/locale/}
    babel update --no-fuzzy-matching --ignore-obsolete --width 100 \
        --locale "${language%%/*}" --input-file "$sheet" --output-file "$catalogue"
    # A day, a version or a name that Babel puts in would hide what did change; and it takes the
    # sign in "100 % healthy" for a gap of another kind, which its own compiler then refuses.
    sed -i -e 's/^"\(POT-Creation\|PO-Revision\)-Date:.*/"\1-Date: 2026-01-01 00:00+0000\\n"/' \
        -e 's/^"Project-Id-Version:.*/"Project-Id-Version: quarterwalk words\\n"/' \
        -e 's/^"\(Report-Msgid-Bugs-To\|Last-Translator\|Language-Team\):.*/"\1: none yet\\n"/' \
        -e '/^"Generated-By:/d' -e '/^#, python-format$/d' -e '/^#,/s/, python-format//' \
        "$catalogue"
    "$python" - "$catalogue" <<'PYTHON'
import sys
from pathlib import Path

from babel.messages import mofile, pofile

path = Path(sys.argv[1])
with path.open("rb") as file:
    catalogue = pofile.read_po(file)
with path.with_suffix(".mo").open("wb") as file:
    mofile.write_mo(file, catalogue)
worded = sum(all(m.string) if m.pluralizable else bool(m.string) for m in catalogue if m.id)
print(f"{path}: {worded} of {len(catalogue)} sentences worded")
PYTHON
done
