#!/bin/sh
# Brings the translations up to date with the texts in the source:    sh tests/texts.sh
# New texts are added to assets/texts/*.po untranslated; run it again once they are translated.
set -eu

root=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
python=$(python3 -I "$root/app/start/environment.py" python test) || exit $?
exec "$python" "$root/tests/house/texts.py"
