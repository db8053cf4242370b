"""What makes a checkout run: its own Python environment, the command and the menu entry.

Standard library only, for it runs before anything is installed; the wheel leaves it out.
"""
