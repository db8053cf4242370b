#!/bin/sh
# Checks and tests everything, without a screen:    sh tests/run.sh
# Runs pytest alone, with what follows as its words: sh tests/run.sh tests/geometry -k sole
set -eu

if ! command -v python3 >/dev/null 2>&1; then
    echo "kneeline: python3 is missing: install Python 3.11 or newer and start again" >&2
    exit 2
fi
root=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
python=$(python3 -I "$root/app/environment.py" test) || exit $?
cd -- "$root"
unset PYTHONPATH PYTHONHOME
export QT_QPA_PLATFORM=offscreen

check() {
    echo "== $*"
    "$python" -m "$@" || { code=$?; echo "kneeline: $1 is not content: nothing else was run" >&2; exit $code; }
}

if [ $# -eq 0 ]; then
    check ruff check .
    check ruff format --check .
    check mypy
    echo "== pytest"
fi
exec "$python" -m pytest "$@"
