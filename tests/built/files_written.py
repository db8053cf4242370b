"""Writes one file of each kind that the program makes, into the folder that is named to it."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path

import ezdxf

from app.drawing.theme import LIGHT
from app.features.clip.encoding import ENDINGS
from app.features.clip.making import Look, clip_file
from app.features.clip.model import Extras, film_of, strip_of
from app.features.paper.fit_sheet import fit_sheet, fit_sheet_pdf
from app.features.paper.fit_sheet_text import parts_under
from app.features.paper.handout import handout_of, handout_pdf
from app.features.paper.view_svg import view_svgs
from app.features.player.model import Sweep
from app.features.wedge.page import WRITERS
from app.features.wedge.words import Part
from app.frame import frame
from app.rider.setup import Setup
from app.window.window import prepared_application
from geometry.hardware.footprint import rectangle
from geometry.hardware.wedge import NO_SCREWS, Wedge

# No times and no numbers that are given once only.
ezdxf.options.write_fixed_meta_data_for_testing = True
folder = Path(sys.argv[1])
prepared_application()
shown = frame(Setup())
sheet = fit_sheet(shown, date(2026, 1, 2), parts=parts_under(shown.setup))
(folder / "sheet.pdf").write_bytes(fit_sheet_pdf(sheet, "A4"))
handout = handout_of(shown, date(2026, 1, 2))
(folder / "handout.pdf").write_bytes(handout_pdf(handout, "A4"))
film = film_of(Setup(), Sweep("knee_bend_deg", 30.0, 60.0), Extras(1.0))
for ending in ENDINGS:
    clip = clip_file(strip_of(film, frame), Look(), ending, date(2026, 1, 2))
    (folder / f"clip{ending}").write_bytes(clip)
for name, svg in view_svgs(shown, LIGHT).items():
    (folder / f"{name}.svg").write_bytes(svg)
wedge = Wedge(rectangle(180.0, 110.0, 20.0), 0.05, 0.1, 3.0, NO_SCREWS, None)
for ending, write in WRITERS.items():
    write(folder / f"wedge.{ending}", Part("front", "left", wedge))
