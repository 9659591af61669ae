"""A maker and a model that stand apart, each with its label: "Make Tessel, model Waltz 10" names a Tessel Waltz 10."""

from __future__ import annotations

from asplayed.intake.model_letters import join
from asplayed.intake.scene import Scene
from asplayed.intake.tokens import Token

_MAKERS = {"maker", "make", "brand", "manufacturer"}
_MODELS = {"model", "modell"}
_PARTED = {"COMMA", "NEWLINE", "SLASH", "PIPE", "STOP", "BULLET"}
_LONGEST = 4  # words of a maker's name


def put_makers_before_models(scene: Scene) -> None:
    """Take each maker's label and name out of the walk; the name opens that of the model labelled next."""
    tokens = scene.tokens
    for at in range(len(tokens) - 4):
        if tokens[at].lower not in _MAKERS or scene.claims[at]:
            continue
        start = _over_marks(tokens, at + 1)
        end = _name_end(tokens, start)
        label = end
        while label < min(len(tokens), end + 3) and tokens[label].terminal in _PARTED:
            label += 1
        model = _over_marks(tokens, label + 1)
        told = start < end < label < len(tokens) and tokens[label].lower in _MODELS
        if not told or model >= len(tokens) or tokens[model].kind not in ("word", "number"):
            continue
        scene.makers[model] = scene.words(start, end)
        if tokens[model].text[:1].isupper():
            join(tokens[model])  # "Model: Sixty", "Model: Plate 5"
        tokens[label].terminal = "HEADWORD"
        if at and tokens[at - 1].terminal in ("SHAFTWORD", "GRIPWORD"):
            tokens[label].terminal = tokens[at - 1].terminal  # "Shaft make Plover, model Dart"
        scene.hide(at, start)
        scene.claims[start:end] = ["club"] * (end - start)
        if tokens[end].terminal == "COMMA":
            scene.hide(end, label)


def _over_marks(tokens: list[Token], at: int) -> int:
    """Behind a colon or a small "is"."""
    while at < len(tokens) and tokens[at].terminal == "EQ":
        at += 1
    return at


def _name_end(tokens: list[Token], start: int) -> int:
    """Where the capital words end that begin at `start`."""
    end = start
    while end < min(len(tokens), start + _LONGEST) and tokens[end].kind == "word" and tokens[end].text[:1].isupper():
        if tokens[end].lower in _MODELS:
            break
        end += 1
    return end
