"""Where the saw goes: what is taken off tip and butt so that a club comes out at its length. Lengths in inches.

Length is measured with the sole on a 60° plane to the top of the grip's cap, so it does not depend on the lie. From
the sole line upward along the shaft follow: bottom of bore to sole, the shaft from the bottom of the bore to its butt,
and the cap.
"""

from __future__ import annotations

from typing import NamedTuple

from asplayed.errors import BadInput
from asplayed.workshop.bench import entry


class Cuts(NamedTuple):
    """What comes off a raw shaft [in], and what is left: its length, and how much of it stands out of the head."""

    tip: float
    butt: float
    left: float
    beyond_hosel: float


def cuts(
    *, raw_length: float, length: float, bore_to_sole: float, bore_depth: float, cap: float, tip_trim: float = 0.0
) -> Cuts:
    """The cuts that bring a club to `length` (60° plane, top of cap), all in inches; a shaft too short is refused.

    The ferrule sits on the shaft above the hosel and changes nothing.

    >>> cuts(raw_length=41, length=37, bore_to_sole=1.25, bore_depth=1.125, cap=0.1875, tip_trim=0.5)
    Cuts(tip=0.5, butt=4.9375, left=35.5625, beyond_hosel=34.4375)
    """
    for name, value, most in (
        ("raw length", raw_length, 60.0),
        ("length", length, 60.0),
        ("bore to sole", bore_to_sole, 5.0),
        ("bore depth", bore_depth, 4.0),
        ("cap", cap, 1.0),
        ("tip trim", tip_trim, 6.0),
    ):
        if not 0 <= value <= most or (value == 0 and name in ("raw length", "length", "bore depth")):
            raise BadInput(f"a {name} of {value:g} in cannot be; it lies between 0 and {most:g} in")
    left = length - bore_to_sole - cap
    if left <= bore_depth:
        raise BadInput(f"a length of {length:g} in leaves no shaft above the hosel; check it and the bore")
    butt = raw_length - tip_trim - left
    if butt < -1e-9:
        raise BadInput(
            f"the raw shaft of {raw_length:g} in is {-butt:.3g} in too short: {left:.4g} in are needed beyond a tip "
            f"trim of {tip_trim:g} in; take a longer blank or trim its tip less"
        )
    return Cuts(tip_trim, max(0.0, round(butt, 9)), round(left, 9), round(left - bore_depth, 9))


def tip_kind(diameter: float | None) -> str | None:
    """`parallel` or `taper` by the tip's diameter [in]; None for one that is not usual.

    >>> tip_kind(0.37), tip_kind(0.355), tip_kind(0.42)
    ('parallel', 'taper', None)
    """
    if diameter is None:
        return None
    for kind in ("parallel", "taper"):
        if any(abs(diameter - usual) < 0.003 for usual in entry("tips")[kind]):
            return kind
    return None


def check_tip(tip: float | None, bore: float | None, tip_trim: float) -> None:
    """Refuse a tip that does not go with the bore, and a trim of a taper tip; diameters and trim in inches."""
    if tip_kind(tip) == "taper" and tip_trim > 0:
        raise BadInput(
            f"a taper tip of {tip:g} in is not trimmed: it would stand loose in its bore; "
            "take the blank made for this club"
        )
    if tip is not None and bore is not None:
        gap = (bore - tip) / 2
        most = 2 * float(entry("bond_line")["high"])
        if gap < 0:
            raise BadInput(f"a tip of {tip:g} in does not go into a bore of {bore:g} in; take another shaft")
        if gap > most:
            raise BadInput(
                f"a tip of {tip:g} in stands {gap:.3g} in loose all round in a bore of {bore:g} in, more than epoxy "
                "bridges; sleeve the tip with a shim made for it, or take another shaft"
            )
