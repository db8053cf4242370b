"""What makes the stand-alone: a folder that runs without Python, and a Debian package of it.

Standard library only, for it runs before anything is installed; the wheel leaves it out.
"""
