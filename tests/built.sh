#!/bin/sh
# Builds the stand-alone into dist and holds it to the source:    sh tests/built.sh
set -eu

root=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
sh "$root/app/package.sh"
exec sh "$root/tests/run.sh" -n auto tests/built
