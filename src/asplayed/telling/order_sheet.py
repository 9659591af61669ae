"""The order on paper: large type, one club a block, a box to tick and a line to write on at every step."""

from __future__ import annotations

import io
from collections.abc import Sequence
from importlib import resources
from typing import TYPE_CHECKING, Any

from asplayed.errors import BadInput
from asplayed.quantities import Figure, write_quantity
from asplayed.telling.typesetting import Paper, typeset
from asplayed.telling.words import value_text, with_unit

if TYPE_CHECKING:
    from asplayed.workshop import ClubOrder, Order, Step

_LONGEST_ADDRESS = 200
_LABELLED = ("length", "loft", "lie", "swing_weight", "grip_size")


def target_text(step: Step) -> str:
    """A step's target with its tolerance, lengths in sixteenths, decimals and millimetres.

    >>> from asplayed.quantities import figure
    >>> from asplayed.workshop import Step
    >>> cut = Step(operation="butt cut", target=figure(4.9375, "in", "computed"),
    ...            tolerance=figure(0.03125, "in", "common practice"))
    >>> target_text(cut)
    '4 15/16 in (4.938 in, 125.4 mm) ±1/32 in'
    """
    target = step.target
    if target is None or target.value is None or target.value == step.operation:
        return ""
    from asplayed.workshop.job import shop_inches

    if target.has_number and target.unit == "in":
        told = shop_inches(target.number)
    elif target.has_number and target.unit == "s":
        told = f"{write_quantity(target.number / 3600, '1')} h"
    else:
        told = target.value if isinstance(target.value, str) else value_text(target)
    return f"{told} {tolerance_text(step.tolerance)}".strip()


def in_both(entry: Figure | None) -> str:
    """A figure's value, a length in inches and in millimetres, for a bench that may have either rule.

    >>> from asplayed.quantities import figure
    >>> in_both(figure(44.5, "in", "measured")), in_both(figure(56, "deg", "measured"))
    ('44½ in (1130.3 mm)', '56°')
    """
    told = value_text(entry)
    if entry is None or not entry.has_number or entry.unit != "in":
        return told
    return f"{told} ({entry.number * 25.4:.1f} mm)"


def tolerance_text(tolerance: Figure | None) -> str:
    """A tolerance as ±, in points for a swing weight.

    >>> from asplayed.quantities import figure
    >>> tolerance_text(figure(0.5, "1", "computed")), tolerance_text(figure(0.5, "deg", "stated"))
    ('±0.5 points', '±0.5°')
    """
    if tolerance is None or not tolerance.has_number:
        return ""
    value = tolerance.number
    if tolerance.unit == "in":
        shop = {0.0625: "1/16 in", 0.03125: "1/32 in", 0.125: "⅛ in"}.get(value)
        return f"±{shop or f'{value:.3f} in'}"
    if tolerance.unit == "1":
        return f"±{value:.2g} points"
    return f"±{with_unit(write_quantity(value, '1', places=1 if value >= 1 else 2), tolerance.unit)}"


def order_sheet(order: Order, *, web: str | None = None, paper: Paper = "a4") -> bytes:
    """The printed order as PDF: what to ask first, the parts, each club's steps and cautions, sign-off, labels.

    The code on it holds the order's name, or the address of its page where the web app's address is given. The same
    order gives the same bytes.
    """
    source = resources.files("asplayed.telling").joinpath("templates", "order.typ").read_text(encoding="utf-8")
    if web is not None and len(web) > _LONGEST_ADDRESS:
        raise BadInput(f"the web app's address is {len(web)} characters long; give one of {_LONGEST_ADDRESS} at most")
    address = f"{web.rstrip('/')}/orders/{order.order}" if web else order.order
    return typeset(source, _told(order), paper=paper, files={"code.svg": _code(address)})


def _code(text: str) -> bytes:
    """A QR code as SVG."""
    import segno

    into = io.BytesIO()
    segno.make(text, error="m", micro=False).save(
        into, kind="svg", xmldecl=False, border=2, svgclass=None, lineclass=None
    )
    return into.getvalue()


def _told(order: Order) -> dict[str, Any]:
    version = f"version {order.set_version}" if order.set_version else ""
    facts = (order.player, f"{order.hand}-handed", order.set_name, version, order.made)
    return {
        "title": f"Order {order.order}",
        "order": order.order,
        "facts": ", ".join(word for word in facts if word),
        "questions": [{"club": question.club or "", "text": question.text} for question in order.questions],
        "parts": [
            {
                "count": f"{part.count} ×",
                "name": part.part if part.name == part.part else f"{part.part}: {part.name}",
                "clubs": ", ".join(part.clubs),
            }
            for part in order.parts
        ],
        "clubs": [_club(club) for club in order.clubs],
        "labels": [_label(order, club) for club in order.clubs],
    }


def _club(club: ClubOrder) -> dict[str, Any]:
    work = [step for step in club.steps if step.operation != "measure"]
    measures = [step for step in club.steps if step.operation == "measure"]
    chance = f"{club.chance.number:.0f} % likely inside every tolerance once built so" if club.chance else ""
    return {
        "club": club.club,
        "work": club.work,
        "chance": chance,
        "steps": [_step(number, step) for number, step in enumerate(work, 1)],
        "measures": [_step(len(work) + number, step) for number, step in enumerate(measures, 1)],
        "cautions": _once(measures),
    }


def _once(steps: Sequence[Step]) -> list[str]:
    return list(dict.fromkeys(caution for step in steps for caution in step.cautions))


def _step(number: int, step: Step) -> dict[str, Any]:
    return {
        "number": str(number),
        "operation": (step.figure or step.operation).replace("_", " ")
        if step.operation == "measure"
        else step.operation,
        "target": target_text(step),
        "start": value_text(step.start) if step.start is not None and step.start.value is not None else "",
        "tool": step.tool,
        "words": step.words,
        "how": step.words.removeprefix((step.figure or "").replace("_", " ").capitalize()).strip(" ,:."),
        "cautions": list(step.cautions),
    }


def _label(order: Order, club: ClubOrder) -> dict[str, Any]:
    figures = {step.figure: step.target for step in club.steps if step.operation == "measure"}
    told = [
        f"{name.replace('_', ' ')} {value_text(figures[name])}" for name in _LABELLED if figures.get(name) is not None
    ]
    return {"club": club.club, "player": order.player or "", "order": order.order, "figures": " · ".join(told)}
