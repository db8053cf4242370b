"""numpy, loaded when an array first asks for it: a single stance has none.

A window is seen a tenth of a second sooner for it.  The modules through which a
single stance goes take numpy from here, the others import it as usual.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    import numpy as np
else:

    class _Numpy:
        """Stands for numpy; what was asked for once is kept."""

        def __getattr__(self, name: str) -> Any:
            import numpy  # noqa: PLC0415

            value = getattr(numpy, name)
            setattr(self, name, value)
            return value

    np = _Numpy()

__all__ = ["np"]
