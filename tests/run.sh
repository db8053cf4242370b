#!/bin/sh
# Checks and tests everything, without a screen:    sh tests/run.sh
# Runs pytest alone, with what follows as its words: sh tests/run.sh tests/geometry -k sole
set -eu

if ! command -v python3 >/dev/null 2>&1; then
    echo "kneeline: python3 is missing: install Python 3.11 or newer and start again" >&2
    exit 2
fi
root=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
python=$(python3 -I "$root/app/start/environment.py" python test) || exit $?
cd -- "$root"
unset PYTHONPATH PYTHONHOME
export QT_QPA_PLATFORM=offscreen

if [ $# -gt 0 ]; then
    exec "$python" -m pytest "$@"
fi

# One that fails does not stop the others: a single run shows all there is to mend.
failed=
check() {
    echo "== $*"
    "$python" -m "$@" || failed="$failed${failed:+, }$1"
}
# The web page is tried in a real browser.
if ! command -v chromium >/dev/null 2>&1; then
    echo "== no Chromium here, so the web page is not tried in it: apt-get install chromium"
fi
check ruff check .
check ruff format --check .
check mypy
check pytest -n auto
if [ -n "$failed" ]; then
    echo "kneeline: not content: $failed" >&2
    exit 1
fi
