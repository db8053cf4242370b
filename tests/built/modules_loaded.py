"""Loads every module that is named to it and prints what cannot be, with the reason."""

from __future__ import annotations

import sys
from importlib import import_module

for name in sys.argv[1:]:
    try:
        import_module(name)
    except ImportError as error:
        print(name, error)
