#!/bin/sh
# Makes the stand-alone, which runs without Python:    sh app/package.sh [FOLDER]
# FOLDER, else the checkout's dist, gets the folder kneeline and, on Debian and Ubuntu, a .deb.
set -eu

if ! command -v python3 >/dev/null 2>&1; then
    echo "kneeline: python3 is missing: install Python 3.11 or newer and start again" >&2
    exit 2
fi
app=$(CDPATH='' cd -- "$(dirname -- "$0")" && pwd)
exec python3 -I "$app/start/environment.py" package "$@"
