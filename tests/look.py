"""Looks at all that the program shows, at every size, in every language and theme.

    PYTHONPATH=.:tests/helpers python tests/look.py [--pictures FOLDER] [--languages en]
        [--themes light dark] [--sizes 1024x700] [--percents 100 150]

prints what is cut, what stands on each other and what is too small to be pressed, and their
counts; with a folder it leaves a picture of each.  It takes some minutes, so the suite looks at
the narrowest window only (tests/app/window/test_looked_over.py).  Twice as many pixels come by
QT_SCALE_FACTOR=2.
"""

from __future__ import annotations

import argparse
import json
import os
import tempfile
from collections import Counter
from itertools import product
from pathlib import Path

SCREEN = {"name": "large", "x": 0, "y": 0, "width": 3840, "height": 2400, "dpr": 1}
"""What the windows open on, at one pixel to the pixel (device px)."""
THEMES = ("light", "dark", "contrast", "contrast_dark")
SIZES = ("1024x700", "1280x800", "1920x1080")
PERCENTS = (100, 150, 200)


def main() -> None:
    """Look at each combination, all in one program."""
    parser = argparse.ArgumentParser(description="Look at all that the program shows.")
    parser.add_argument("--pictures", type=Path)
    parser.add_argument("--languages", nargs="+", default=["en", "de"])
    parser.add_argument("--themes", nargs="+", default=list(THEMES))
    parser.add_argument("--sizes", nargs="+", default=list(SIZES))
    parser.add_argument("--percents", nargs="+", type=int, default=list(PERCENTS))
    chosen = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        for name in ("CONFIG", "DATA", "STATE", "CACHE"):
            os.environ[f"XDG_{name}_HOME"] = folder
        screens = Path(folder) / "screens.json"
        told = {**SCREEN, "logicalDpi": 96, "logicalBaseDpi": 96}
        screens.write_text(json.dumps({"windowFrameMargins": True, "screens": [told]}))
        os.environ.setdefault("QT_QPA_PLATFORM", f"offscreen:configfile={screens}")
        _look(chosen)


def _look(chosen: argparse.Namespace) -> None:
    from survey import settled, survey  # noqa: PLC0415

    from app.files.settings import create_settings  # noqa: PLC0415
    from app.files.storage import Document  # noqa: PLC0415
    from app.rider.setup import Setup  # noqa: PLC0415
    from app.window.program import Program  # noqa: PLC0415

    create_settings().change(welcomed=True, motion="reduced")
    program = Program(Document(Setup()), None)
    program.window.show()
    settle, total, seen = settled(500), Counter[str](), set[object]()
    for language, percent, size in product(chosen.languages, chosen.percents, chosen.sizes):
        width, height = map(int, size.split("x"))
        program.preferences._change({"language": language, "text_percent": percent})
        program.window.resize(width, height)
        settle()
        for theme in chosen.themes:
            program.preferences._change({"theme": theme})
            label = f"{language} {theme} {size} {percent} %"

            def keep(name: str, shown: object, label: str = label) -> None:
                if chosen.pictures is not None:
                    file = f"{label} {name}.png".replace(" ", "_").replace("%", "pc")
                    shown.grab().save(str(chosen.pictures / file))  # type: ignore[attr-defined]

            for name, faults in survey(program, settle, keep).items():
                for fault in faults:
                    total[fault.kind] += 1
                    if (fault.kind, fault.what) not in seen:
                        seen.add((fault.kind, fault.what))
                        print(f"{label}, {name}: {fault.kind}: {fault.what}: {fault.details}")
            print(f"{label}: {dict(total)} so far", flush=True)
    print(dict(total))
    program.documents.desk.forget()
    program.keeper.end(forget=True)
    os._exit(0)


if __name__ == "__main__":
    main()
