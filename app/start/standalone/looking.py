"""Runs a script inside the stand-alone, as Python would: the script's file and its words.

Beside the program in the folder in which it was built, and not given away.
"""

import runpy
import sys

sys.argv = sys.argv[1:]
runpy.run_path(sys.argv[0], run_name="__main__")
