#!/bin/sh
# Starts Kneeline from a checkout:            sh app/start.sh [FILE] [OPTIONS]
# Command kneeline and menu entry, and away:  sh app/start.sh --install | --uninstall
# The first start makes .kneeline-env beside the checkout's files; later ones find it ready.
set -eu

if ! command -v python3 >/dev/null 2>&1; then
    echo "kneeline: python3 is missing: install Python 3.11 or newer and start again" >&2
    exit 2
fi
# The command kneeline is a link to this file.
me=$0
while [ -L "$me" ]; do
    target=$(readlink -- "$me")
    case $target in
        /*) me=$target ;;
        *) me=$(dirname -- "$me")/$target ;;
    esac
done
app=$(CDPATH='' cd -- "$(dirname -- "$me")" && pwd)
exec python3 -I "$app/start/environment.py" run "$@"
