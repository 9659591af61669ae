"""What a phrase says of a club of a given family: paths of the record with their entries."""

from __future__ import annotations

from itertools import pairwise

from asplayed.intake.bare import Facts, bare, change_path, entry_of, in_zone, length_fits, length_of, loft_fits
from asplayed.intake.drafts import Draft, Moved
from asplayed.intake.phrases import Amount, Phrase

AS_IT_WAS = {"unchanged", "untouched", "nothing changed", "stock"}


def change(phrase: Phrase, draft: Draft, zone: str, *, noun: str = "") -> Facts | None:
    """What "1 weak", "¾ down and upright", "half an inch long", "down to 9" say of this club."""
    way = phrase.directions
    amount = phrase.amounts[0] if phrase.amounts else None
    noun = noun or {"loft": "LOFT", "lie": "LIE", "length": "LENGTH"}.get(zone, "")
    if not way:
        return _standard_plus(phrase, amount) if amount else None
    if phrase.has("STD") and amount is not None and amount.unit != "deg":
        noun = noun or "LENGTH"  # "standard plus a half"
    led = any(one in way and other.terminal == "RANGE" for one, other in pairwise(phrase.tokens))
    if led and amount is not None and not phrase.has("STD") and not bent_by(phrase):
        return _target(amount, phrase, draft, noun)
    if phrase.has("CLICK"):
        text = " ".join(token.text for token in phrase.tokens if token.terminal not in ("SLEEVE", "EQ", "TURNED", "AT"))
        what = "lie" if way[0].terminal in ("UPRIGHT", "FLAT") else "loft"
        if not draft.adjustable:
            return None
        return [
            ("sleeve.position", entry_of(text, "1", phrase)),
            (f"sleeve.{what}_change", entry_of(None, "deg", phrase)),
        ]
    facts: Facts = []
    for index, token in enumerate(way):
        value = amount.value if amount is not None and index == 0 else None
        facts += _direction(token.terminal, value, amount, phrase, draft, noun, zone)
    return facts or None


def bent_by(phrase: Phrase) -> bool:
    """True for "bent to 1 weak": the direction word stands behind its number."""
    way, numbers = phrase.directions, phrase.all("NUM", "SNUM")
    return bool(way and numbers) and phrase.tokens.index(way[0]) > phrase.tokens.index(numbers[0])


def _direction(
    terminal: str, value: float | None, amount: Amount | None, phrase: Phrase, draft: Draft, noun: str, zone: str
) -> Facts:
    length = amount is not None and amount.unit in ("in", "mm", "cm")
    signs = {"WEAK": 1, "STRONG": -1, "UPRIGHT": 1, "FLAT": -1, "UP": 1, "DOWN": -1, "LONG": 1, "SHORT": -1}
    sign = signs.get(terminal)
    if sign is None:
        return []
    moved = None if value is None else sign * abs(value)
    if terminal in ("LONG", "SHORT") or noun == "LENGTH" or (length and terminal in ("UP", "DOWN")):
        if amount is None or moved is None:
            return [("length_change", entry_of(None, "in", phrase))]
        inches = length_of(amount, phrase)
        assert isinstance(inches.value, float)
        if abs(inches.value) > 15:
            return [("length", inches._replace(value=abs(inches.value)))]
        return [("length_change", inches._replace(value=sign * abs(inches.value)))]
    if length:
        return []
    if terminal in ("WEAK", "STRONG"):
        return [change_path(draft, "loft", moved, phrase)]
    if terminal in ("UPRIGHT", "FLAT") or noun == "LIE":
        return [change_path(draft, "lie", moved, phrase, zone)]
    beside = next(reversed(draft.facts), "") in ("length", "length_change") and draft.family == "hybrid"
    beside = beside and zone != "sleeve" and not phrase.has("SLEEVE", "TURNED", "CLICK")
    if noun == "LOFT" or (draft.adjustable and not beside):
        return [change_path(draft, "loft", moved, phrase)]
    return [change_path(draft, "lie", moved, phrase, zone)]  # so too of a hybrid, "std length, 1 up"


def _standard_plus(phrase: Phrase, amount: Amount) -> Facts | None:
    if amount.unit == "deg":
        return None
    return [("length_change", length_of(amount, phrase))]


def _target(amount: Amount, phrase: Phrase, draft: Draft, noun: str) -> Facts | None:
    """What "to 57" makes of the club: its loft, its lie or its length, by what the number can be."""
    value = amount.value
    if amount.unit in ("in", "mm", "cm"):
        return [("length", length_of(amount, phrase))]
    if noun == "LIE" or (draft.family == "iron" and value >= 57 and noun != "LOFT"):
        return [("as_played.lie", entry_of(value, "deg", phrase))]
    if loft_fits(value, draft) or noun == "LOFT" or amount.unit == "deg":
        if draft.family == "putter" and value > 60:
            return [("as_played.lie", entry_of(value, "deg", phrase))]
        return [("target.loft", entry_of(value, "deg", phrase))]
    if length_fits(value, draft):
        return [("length", entry_of(value, "in", phrase))]
    return None


def _labelled(phrase: Phrase, draft: Draft) -> Facts | None:
    token = phrase.first(
        "LOFT", "LIE", "BOUNCE", "LENGTH", "TORQUE", "FREQUENCY", "TOTALMASS", "TOEHANG", "HEADMASS", "SHAFTWORD",
        "GRIPWORD", "HEADWORD",
    )  # fmt: skip
    assert token is not None
    noun = token.terminal
    if phrase.directions:
        if noun in ("LOFT", "LIE", "LENGTH"):
            return change(phrase, draft, "", noun=noun)
        return None
    if not phrase.amounts:
        return None
    amount = phrase.amounts[0]
    zone = {
        "LOFT": "loft", "LIE": "lie", "BOUNCE": "bounce", "LENGTH": "length", "TORQUE": "torque",
        "FREQUENCY": "frequency", "TOTALMASS": "total", "TOEHANG": "toe_hang", "HEADMASS": "head.mass",
        "SHAFTWORD": "shaft.mass", "GRIPWORD": "grip", "HEADWORD": "head.mass",
    }[noun]  # fmt: skip
    if amount.unit in ("mm", "cm", "m", "in"):
        return bare(amount, phrase, draft, zone) if noun == "LENGTH" else None
    if zone == "grip":
        return [("grip.mass", entry_of(amount.value, "g", phrase))]
    return in_zone(amount, phrase, draft, zone)


def _plainly(phrase: Phrase, draft: Draft, zone: str) -> Facts | None:
    facts: Facts = []
    for token in phrase.tokens:
        if token.terminal == "LOFT":
            facts.append(change_path(draft, "loft", 0.0, phrase))
        elif token.terminal == "LIE":
            facts.append(("bend.lie", entry_of(0.0, "deg", phrase)))  # of the club itself, no sleeve is spoken of
        elif token.terminal == "LENGTH":
            facts.append(("length_change", entry_of(0.0, "in", phrase)))
        elif token.terminal == "LLL":
            facts += [("length_change", entry_of(0.0, "in", phrase)), ("bend.lie", entry_of(0.0, "deg", phrase))]
            if token.value == "3":
                facts.append(change_path(draft, "loft", 0.0, phrase))
        elif token.terminal not in ("STD", "AND", "COMMA", "SLASH", "EQ", "AT", "RANGE", "IN", "BY", "TURNED"):
            return None
    if facts:
        return facts
    if zone not in ("sleeve", "loft", "lie", "length") and phrase.tokens[0].lower in AS_IT_WAS:
        return None  # "irons unchanged": the clubs are the old ones
    if zone == "sleeve":
        return _sleeve_standard(phrase)
    if zone == "lie":
        return [("bend.lie", entry_of(0.0, "deg", phrase))]  # said of no sleeve: the club's own lie
    if zone == "loft":
        return [change_path(draft, zone, 0.0, phrase)]
    if zone in ("grip", "head", "bounce", "sole") or (zone == "shaft" and not draft.has("shaft.name")):
        return None
    if (
        draft.adjustable
        and zone != "length"
        and not any(draft.has(path) for path in ("shaft.name", "shaft.mass", "length"))
    ):
        return _sleeve_standard(phrase)  # "3 wood Gannet 15, std, Lindrake 70 X": said of the head, before the shaft
    return [("length_change", entry_of(0.0, "in", phrase))]


def _sleeve_standard(phrase: Phrase) -> Facts:
    word = phrase.first("STD", "PLACE")
    return [
        ("sleeve.position", entry_of(word.text.lower() if word else "standard", "1", phrase)),
        ("sleeve.loft_change", entry_of(0.0, "deg", phrase)),
        ("sleeve.lie_change", entry_of(0.0, "deg", phrase)),
    ]


def _set(phrase: Phrase, draft: Draft, zone: str) -> Facts | None:
    """What a sleeve's or a turned club's phrase says."""
    position = phrase.first("POSCODE", "SWV")
    if position is not None:
        if phrase.rule != "turned" or draft.adjustable:
            return [("sleeve.position", entry_of(position.text, "1", phrase))]
        return None
    place = phrase.first("PLACE")
    if place is not None:
        if place.value == "neutral":
            return _sleeve_standard(phrase)
        return [
            ("sleeve.position", entry_of(place.text, "1", phrase)),
            ("sleeve.loft_change", entry_of(None, "deg", phrase)),
        ]
    if phrase.has("STD") and not phrase.amounts:
        if phrase.rule == "sleeve" or draft.adjustable:
            return _sleeve_standard(phrase)
        return _plainly(phrase, draft, zone)
    if phrase.directions:
        return change(phrase, draft, zone)
    amount = phrase.amounts[0]
    if phrase.rule == "sleeve":
        return in_zone(amount, phrase, draft, "sleeve")
    if amount.signed or amount.unit in ("g", "cpm"):
        return bare(amount, phrase, draft, "sleeve" if draft.adjustable else zone)
    stamp = draft.value("head.loft")
    if draft.adjustable and stamp is not None and amount.value > 5 and 0 < abs(amount.value - stamp) <= 2.5:
        return [("target.loft", entry_of(amount.value, "deg", phrase))]  # "the lower setting, so it plays eight"
    if phrase.has("RANGE", "AT", "EQ") and not (draft.adjustable and not draft.has("head.loft")):
        return _target(amount, phrase, draft, "")
    return bare(amount, phrase, draft, zone)


def _bent(phrase: Phrase, draft: Draft) -> Facts | None:
    if phrase.tokens[-1].terminal == "BENT":  # "60/8, 60.5 bent"
        stamp, value = draft.value("head.loft"), phrase.amounts[0].value
        near = stamp is not None and abs(stamp - value) <= 4
        return [("target.loft", entry_of(value, "deg", phrase))] if near else None
    if len(phrase.amounts) == 2:
        first = entry_of(phrase.amounts[0].value, "deg", phrase)
        return [("head.loft", first), ("target.loft", first._replace(value=phrase.amounts[1].value))]
    noun = phrase.first("LOFT", "LIE")
    word = noun.terminal if noun else ""
    if phrase.has("STD"):
        return [(f"bend.{word.lower() or 'loft'}", entry_of(0.0, "deg", phrase))]
    facts: Facts | None
    if phrase.directions:
        facts = change(phrase, draft, "", noun=word)
    else:
        amount = phrase.amounts[0]
        if amount.signed:
            facts = [(f"bend.{word.lower() or 'loft'}", entry_of(amount.value, "deg", phrase))]
        elif amount.value > 8:
            facts = _target(amount, phrase, draft, word)
        else:
            facts = [(f"bend.{word.lower() or 'loft'}", entry_of(None, "deg", phrase))]
    if facts:
        renamed = {"sleeve.loft_change": "bend.loft", "sleeve.lie_change": "bend.lie"}
        facts = [(renamed.get(path, path), entry) for path, entry in facts]
    return facts


def _tendency(phrase: Phrase) -> Facts:
    word = phrase.first("ASCENDING")
    if word is not None:
        return [("shaft.ascending", entry_of(word.value == "ascending", "1", phrase))]
    column = phrase.first("LAUNCHLEVEL", "SPINLEVEL")
    if column is not None:  # in a table's column of launch or spin
        what = "launch" if column.terminal == "LAUNCHLEVEL" else "spin"
        return [(f"shaft.{what}", entry_of(str(column.value), "1", phrase))]
    level = phrase.first("LEVEL")
    assert level is not None and isinstance(level.value, str)
    facts: Facts = []
    both = phrase.all("LEVEL")
    if len(both) == 2:  # "low/mid": launch, then spin
        return [(f"shaft.{what}", entry_of(str(token.value), "1", phrase))
                for what, token in zip(("launch", "spin"), both, strict=True)]  # fmt: skip
    if phrase.has("LAUNCH"):
        facts.append(("shaft.launch", entry_of(level.value, "1", phrase)))
    if phrase.has("SPIN"):
        facts.append(("shaft.spin", entry_of(level.value, "1", phrase)))
    return facts


def _spread(phrase: Phrase) -> Facts:
    low, high = phrase.amounts[0].value, phrase.amounts[1].value
    return [("shaft.mass_range", entry_of(None, "g", phrase, low=low, high=high))]


def _played(phrase: Phrase, draft: Draft) -> Facts | None:
    """ "Playing at 9¼", "measures 57": the loft it has now; a gauge's reading stands as measured."""
    facts = _target(phrase.amounts[0], phrase, draft, "")
    word = phrase.first("PLAYING")
    if facts and word is not None and word.value == "measured":
        path, entry = facts[0]
        return [("as_played.loft" if path == "target.loft" else path, entry._replace(source="measured"))]
    return facts


def _word(phrase: Phrase, draft: Draft) -> Facts | None:
    """What a phrase of words alone says: flex, neck, sole, toe hang of a face-balanced head."""
    rule = phrase.rule
    if rule == "flex":
        token = phrase.first("FLEX", "FLEXCODE")
        assert token is not None and isinstance(token.value, str)
        return [("shaft.flex", entry_of(token.value, "1", phrase))]
    if rule == "neck":
        if draft.family != "putter":
            return None
        token = phrase.first("NECK")
        return [("putter.neck", entry_of(str(token.value) if token else "long", "1", phrase))]
    if rule == "hang":
        return [("putter.toe_hang", entry_of(0.0, "deg", phrase))] if draft.family == "putter" else None
    token = phrase.first("SOLE", "LETTER", "FLEXCODE")
    assert token is not None
    if draft.family not in ("wedge", "iron") or (draft.family == "iron" and token.terminal != "SOLE"):
        return None
    return [("head.sole", entry_of(str(token.value) if token.terminal == "SOLE" else token.text, "1", phrase))]


def moved(phrase: Phrase) -> Moved:
    """The movable mass a phrase speaks of. A small bare number is a step until a heavier one beside it says grams."""
    place = phrase.first("PLACE")
    assert place is not None
    amount = phrase.amounts[0] if phrase.amounts else None
    if amount is None:
        return Moved(str(place.value), None, None, phrase.line)
    if phrase.has("CLICK") or (not amount.unit and amount.whole and amount.value <= 4):
        return Moved(str(place.value), int(amount.value), None, phrase.line)
    return Moved(str(place.value), None, amount.value, phrase.line)


def facts_of(phrase: Phrase, draft: Draft, zone: str, *, at: bool = False) -> Facts | None:
    """What this phrase says of this club, or None where it says nothing that can be taken; `at` as in `bare`."""
    rule = phrase.rule
    if rule == "bare":
        return bare(phrase.amounts[0], phrase, draft, zone, at=at)
    if rule == "change":
        return change(phrase, draft, zone)
    if rule == "labelled":
        return _labelled(phrase, draft)
    if rule == "plainly":
        return _plainly(phrase, draft, zone)
    if rule == "playing":
        return _played(phrase, draft)
    if rule in ("turned", "sleeve"):
        return _set(phrase, draft, zone)
    if rule == "bent":
        return _bent(phrase, draft)
    if rule == "tendency":
        return _tendency(phrase)
    if rule == "wraps" and phrase.amounts[0].unit:
        return None  # "4 mm of tape": no count
    if rule == "wraps":
        return [("grip.wraps", entry_of(phrase.amounts[0].value, "1", phrase))]
    if rule == "swing":
        token = phrase.first("SWV")
        return [("stated.swing_weight", entry_of(str(token.value), "1", phrase))] if token else None
    if rule in ("span", "dashed") and len(phrase.amounts) == 2:
        return _spread(phrase)
    if rule in ("flex", "neck", "hang", "sole"):
        return _word(phrase, draft)
    return None
