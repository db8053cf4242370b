"""Where the formulas and the figures in them come from; citations are the same in all languages."""

from __future__ import annotations

from typing import Final

from app.words.language import msgid

TRIANGLE: Final = msgid("Plane trigonometry of a right triangle.")
LEG: Final = msgid("Own derivation, told in the help.")
TRADE: Final = msgid("Rule of the trade; no published study of it was found.")
COSINES: Final = msgid("Law of cosines in the triangle of ankle, knee and hip.")
TYPED: Final = msgid("As typed for this boot; no published range was found.")
MEASURED: Final = msgid("As measured on this rider, or estimated.")
CHOICE: Final = msgid("An engineering choice, told in the help.")
OWN: Final = msgid("This rider's own trials.")
MASSES: Final = msgid("Shares of the body: {source}.")
PLAY: Final = msgid(
    "Half of the passive side play at full extension, 6.7°: {source}. No clinical limit."
)
RANGES: Final = msgid("Usual ranges: {source}.")

LEVA: Final = "de Leva 1996, J Biomech 29:1223–1230"
MARKOLF: Final = "Markolf, Graff-Radford & Amstutz 1978, J Bone Joint Surg Am 60:664–674"
AAOS: Final = "AAOS 1965"
KOUYOUMDJIAN: Final = "Kouyoumdjian et al. 2012, Orthop Traumatol Surg Res 98:17–23"
AXES: Final = "Grood & Suntay 1983, J Biomech Eng 105:136–144; Wu et al. 2002, J Biomech 35:543–548"
