"""What a desktop is told of the program: its entry in the menu, and its type of files."""

from __future__ import annotations

MIME_TYPE = "application/x-kneeline+json"

_ENTRY = """[Desktop Entry]
Type=Application
Version=1.0
Name=Kneeline
GenericName=Stance visualiser
GenericName[de]=Darstellung des Stands
Comment=Set a snowboarder's bindings so that each knee bends in its hinge plane
Comment[de]=Bindungen so einstellen, dass jedes Knie in seiner Scharnierebene beugt
Exec={command} %f
Icon={icon}
Terminal=false
StartupWMClass=Kneeline
Categories=Education;
MimeType={mime_type};
"""

FILE_TYPE = f"""<?xml version="1.0" encoding="UTF-8"?>
<mime-info xmlns="http://www.freedesktop.org/standards/shared-mime-info">
  <mime-type type="{MIME_TYPE}">
    <comment>Kneeline set-up</comment>
    <comment xml:lang="de">Kneeline-Setup</comment>
    <sub-class-of type="application/json"/>
    <glob pattern="*.kneeline"/>
    <icon name="kneeline"/>
    <generic-icon name="text-x-generic"/>
  </mime-type>
</mime-info>
"""
"""Set-ups as a type of files, as the shared MIME-info specification has it."""


def menu_entry(command: str, icon: str) -> str:
    """The entry, as the Desktop Entry Specification has it.

    Args:
        command: what starts the program, as the key Exec takes it.
        icon: name or file of the picture.
    """
    return _ENTRY.format(command=command, icon=icon, mime_type=MIME_TYPE)
