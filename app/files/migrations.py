"""Older layouts of set-up files, each brought to the next by a step of its own.

A step takes all that a file of its layout holds and gives what the next layout
holds; it carries along every key that it does not know.  Steps are kept for
ever, since files are.  One that meets something it cannot take raises
:class:`~app.files.safe_files.RefusalError`.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, Final, TypeAlias

Migration: TypeAlias = Callable[[dict[str, Any]], dict[str, Any]]

MIGRATIONS: Final[Mapping[int, Migration]] = {}
"""By the number of a layout, the step from it to the next.  None yet: layout 1
is the first that left the house."""


def migrated(
    raw: dict[str, Any], schema: int, newest: int, steps: Mapping[int, Migration]
) -> dict[str, Any]:
    """What a file holds, brought from its own layout to the newest, step by step.

    A file of the newest layout, or of one newer still, stays as it is.

    Args:
        raw: all that the file holds.
        schema: number of its layout.
        newest: number of the layout wanted.
        steps: by the number of a layout, the step from it to the next.
    """
    for number in range(schema, newest):
        raw = {**steps[number](raw), "schema": number + 1}
    return raw
