"""Where the body's weight is: shares of its segments and centres along them.

The mean of men and women in de Leva 1996, J Biomech 29:1223-1230, table 4 (read
from a transcription).  Head, arms and trunk count in one, at 0.18 of the stature
above the hips (Winter, *Biomechanics and Motor Control of Human Movement*, 4th ed.
2009, table 4.1; from memory); a hip height is 0.515 of the stature (ANSUR II,
Gordon et al. 2014, NATICK/TR-15/007).  Boots and clothes are left out.
"""

from __future__ import annotations

from typing import Final

THIGH: Final = 0.1447
"""Share of one thigh in the weight of the body."""
SHANK: Final = 0.0457
"""Share of one shank."""
FOOT: Final = 0.0133
"""Share of one foot."""
UPPER_BODY: Final = 0.5926
"""Share of head, arms and trunk together."""

ALONG_THIGH: Final = 0.3854
"""Centre of the thigh, from the hip, as a share of its length."""
ALONG_SHANK: Final = 0.4438
"""Centre of the shank, from the knee, as a share of its length."""
AHEAD_OF_ANKLE: Final = 0.22
"""Centre of the foot ahead of the ankle, as a share of the foot's length; it lies on the sole."""
ABOVE_HIPS: Final = 0.35
"""Centre of the upper body over the middle of the hips, as a share of the mean hip height."""

OF_HIP: Final = THIGH * (1.0 - ALONG_THIGH)
"""What a hip joint centre counts in the centre of mass; three points carry a leg's shares."""
OF_KNEE: Final = THIGH * ALONG_THIGH + SHANK * (1.0 - ALONG_SHANK)
"""What a knee centre counts."""
OF_ANKLE: Final = SHANK * ALONG_SHANK
"""What an ankle centre counts; the foot comes on top."""
