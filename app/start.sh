#!/bin/sh
# Starts Kneeline from a checkout: sh app/start.sh [FILE] [OPTIONS]
# The first start makes .kneeline-env beside the checkout's files; later ones find it ready.
set -eu

if ! command -v python3 >/dev/null 2>&1; then
    echo "kneeline: python3 is missing: install Python 3.11 or newer and start again" >&2
    exit 2
fi
app=$(CDPATH='' cd -- "$(dirname -- "$0")" && pwd)
python=$(python3 -I "$app/start/environment.py") || exit $?
# -I: neither the folder it is started from nor PYTHONPATH may shadow the program's modules.
exec "$python" -I -m app "$@"
