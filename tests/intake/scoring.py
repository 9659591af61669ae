"""Scores what the reader makes of a list against what its writer meant, field by field.

A corpus file holds cases: a line `=== name`, the list, a line `---`, and what is expected, one club a line:

    driver: head=Kittiwake loft=10.5 shaft="Lindrake Blue" flex=TX mass=65 len=44.75
    5-PW iron: head=Dunlin shaft=Ostrane mass=105/110/115 lie+=1

A range expands to one club a number; values with `/` go one to each. Fields that are not named are expected to be
unknown. `set:`, `ball:`, `aside:`, `note:`, `left:` and `ask:` lines hold the rest. Whatever stands in a case was
written by hand from the rules of how a list is taken, never from the reader's answer.
"""

from __future__ import annotations

import re
import shlex
from collections import Counter
from pathlib import Path
from typing import Any, NamedTuple

from asplayed.errors import BadInput
from asplayed.intake import read
from asplayed.quantities import plain

CORPUS = Path(__file__).parent / "corpus"

# short name in a case -> path in the record
FIELDS = {
    "kind": "kind", "head": "head.name", "loft": "head.loft", "bounce": "head.bounce", "sole": "head.sole",
    "headmass": "head.mass", "pos": "sleeve.position", "sloft": "sleeve.loft_change", "slie": "sleeve.lie_change",
    "weights": "weights", "bend": "bend.loft", "lie+": "bend.lie", "shaft": "shaft.name", "flex": "shaft.flex",
    "mass": "shaft.mass", "torque": "shaft.torque", "launch": "shaft.launch", "spin": "shaft.spin",
    "asc": "shaft.ascending", "grip": "grip.name", "gripmass": "grip.mass", "wraps": "grip.wraps", "len": "length",
    "len+": "length_change", "sw": "stated.swing_weight", "cpm": "stated.frequency", "total": "stated.mass",
    "neck": "putter.neck", "hang": "putter.toe_hang", "lie": "as_played.lie",
}  # fmt: skip
CHECKED_WHEN_NAMED = {"ploft": "as_played.loft", "pbounce": "as_played.bounce", "plen": "as_played.length"}
_KINDS = {
    "driver": "driver", "mini driver": "driver", "wood": "fairway wood", "hybrid": "hybrid",
    "driving iron": "driving iron", "iron": "iron", "wedge": "wedge", "putter": "putter", "chipper": "wedge",
}  # fmt: skip
_LETTERS = {"PW": "pitching wedge", "GW": "gap wedge", "SW": "sand wedge", "LW": "lob wedge"}


class Case(NamedTuple):
    """One list with what is expected of it."""

    name: str
    text: str
    clubs: list[tuple[str, dict[str, Any]]]
    facts: dict[str, Any]
    ball: dict[str, Any] | None
    words: dict[str, list[str]]
    asked: list[tuple[str, str]]


class Score(NamedTuple):
    """How a case went: the count of each outcome, and a line for each that was not right."""

    outcomes: Counter[str]
    faults: list[str]


def cases(path: Path) -> list[Case]:
    """The cases of one corpus file."""
    found = []
    for block in re.split(r"^=== ?", path.read_text(encoding="utf-8"), flags=re.MULTILINE)[1:]:
        name, _, rest = block.partition("\n")
        text, _, expected = rest.partition("\n---\n")
        found.append(_case(name.strip(), text + "\n", expected))
    return found


def _case(name: str, text: str, expected: str) -> Case:
    case = Case(name, text, [], {}, None, {"aside": [], "note": [], "left": []}, [])
    for line in expected.splitlines():
        if not line.strip() or line.startswith("#"):
            continue
        label, _, rest = line.partition(":")
        label = label.strip()
        if label in case.words:
            case.words[label].append(rest.strip())
        elif label == "ask":
            club, _, about = rest.strip().rpartition(" ")
            case.asked.append((club.strip(), about))
        elif label == "set":
            case.facts.update(_pairs(rest))
        elif label == "ball":
            case = case._replace(ball=_pairs(rest))
        else:
            case.clubs.extend(_expand(label, _pairs(rest)))
    return case


def _pairs(text: str) -> dict[str, Any]:
    found: dict[str, Any] = {}
    lexer = shlex.shlex(text, posix=True, punctuation_chars=False)
    lexer.whitespace_split = True
    lexer.quotes = '"'
    lexer.escape = ""
    for word in lexer:
        key, _, value = word.partition("=")
        found[key] = value
    return found


def _expand(label: str, fields: dict[str, Any]) -> list[tuple[str, dict[str, Any]]]:
    match = re.fullmatch(r"(\d+)-(\d+|PW|GW|SW) iron", label)
    if match:
        last = int(match[2]) if match[2].isdigit() else 9
        names = [f"{number} iron" for number in range(int(match[1]), last + 1)]
        if match[2] in _LETTERS:
            order = list(_LETTERS)
            names += [_LETTERS[letter] for letter in order[: order.index(match[2]) + 1]]
        fields = {"kind": "iron", **fields}
    elif "," in label:
        names = [part.strip() for part in label.split(",")]
    else:
        names = [label]
    found = []
    for index, name in enumerate(names):
        own = {}
        for key, value in fields.items():
            parts = value.split("/") if key not in ("weights", "head", "shaft", "grip", "flex") else [value]
            own[key] = parts[index] if len(parts) == len(names) and len(parts) > 1 else value
        own = {key: value for key, value in own.items() if value != ""}
        found.append((_LETTERS.get(name, name), own))
    return found


def score(case: Case) -> Score:
    """Read the case's list and compare every field."""
    outcomes: Counter[str] = Counter()
    faults: list[str] = []
    try:
        got = plain(read(case.text))
    except BadInput as fault:
        got = {"set": {}, "clubs": [], "ball": None, "questions": [], "aside": [], "notes": [], "not_understood": []}
        faults.append(f"{case.name}: refused: {fault}")
    asked = {(question["club"], question["about"]) for question in got["questions"]}
    pool = list(got["clubs"])
    for name, fields in case.clubs:
        club = _take(pool, name, fields)
        _compare_club(case, name, fields, club, asked, outcomes, faults)
    for club in pool:
        known = sum(_value(_find(club, path)) is not None for path in FIELDS.values()) + 1
        outcomes["wrong"] += known
        faults.append(f"{case.name}: a {club['club']} that is not in the list ({known} fields wrong)")
    for key, default in (("player", None), ("hand", "right"), ("event", None), ("date", None), ("title", None)):
        _note(case, "set", key, case.facts.get(key, default), got["set"].get(key), False, outcomes, faults)
    ball = got["ball"] or {}
    for key in ("name", "colour"):
        _note(case, "ball", key, (case.ball or {}).get(key), ball.get(key), False, outcomes, faults)
    _compare_words(case, got, asked, outcomes, faults)
    return Score(outcomes, faults)


def _take(pool: list[dict[str, Any]], name: str, fields: dict[str, Any]) -> dict[str, Any] | None:
    same = [club for club in pool if club["club"] == name]
    if len(same) > 1 and "loft" in fields:
        exact = [club for club in same if str(_value(_find(club, "head.loft"))) == str(fields["loft"])]
        same = exact or same
    if not same:
        return None
    pool.remove(same[0])
    return same[0]


def _kind(name: str) -> str:
    return _KINDS[max((word for word in _KINDS if name.endswith(word)), key=len)]


def _compare_club(
    case: Case,
    name: str,
    fields: dict[str, Any],
    club: dict[str, Any] | None,
    asked: set[tuple[str | None, str]],
    outcomes: Counter[str],
    faults: list[str],
) -> None:
    unknown = set(fields) - set(FIELDS) - set(CHECKED_WHEN_NAMED)
    assert not unknown, f"{case.name}: {name}: no field {unknown}"
    wanted = {"kind": _kind(name), **fields}
    for key, path in FIELDS.items():
        if key == "len" and "len+" in fields and "len" not in fields:
            continue
        expected = wanted.get(key)
        value = _value(_find(club, path)) if club is not None else None
        if expected is None and value is None:
            continue
        question = (name, path) in asked or ((None, "club") in asked and club is None)
        _note(case, name, key, expected, value, question, outcomes, faults)
    for key, path in CHECKED_WHEN_NAMED.items():
        if key in fields:
            value = _value(_find(club, path)) if club is not None else None
            _note(case, name, key, fields[key], value, (name, path) in asked, outcomes, faults)


def _find(record: dict[str, Any], path: str) -> Any:
    if path == "weights":
        return "+".join(
            f"{weight['place']}:{_short(_value(weight['mass'])) or ''}"
            + (f"@{weight['step']}" if weight["step"] is not None else "")
            for weight in sorted(record["weights"], key=lambda weight: str(weight["place"]))
        ) or None  # fmt: skip
    here: Any = record
    for step in path.split("."):
        if here is None:
            return None
        here = here.get(step)
    return here


def _value(found: Any) -> Any:
    if isinstance(found, dict) and "unit" in found:
        if found["value"] is None and found.get("low") is not None:
            return f"{found['low']:g}..{found['high']:g}"
        return found["value"]
    return found


def _short(value: Any) -> str | None:
    return f"{value:g}" if isinstance(value, int | float) else value


def same(expected: str, value: Any) -> bool:
    """True when what was read is what was meant: numbers to 0.002, words without regard to case.

    A number worked out by hand to two places (42.99 in, of 109.2 cm) holds to its last place.
    """
    if isinstance(value, bool):
        return str(value).lower() == expected.lower()
    if isinstance(value, int | float):
        places = len(expected.partition(".")[2])
        try:
            return abs(float(expected) - value) < (0.0051 if places == 2 and value != round(value, 2) else 0.002)
        except ValueError:
            return False
    return str(value).casefold() == expected.casefold()


def _note(
    case: Case,
    where: str,
    key: str,
    expected: str | None,
    value: Any,
    question: bool,
    outcomes: Counter[str],
    faults: list[str],
) -> None:
    if expected is None and value is None:
        return
    if expected is not None and value is not None and same(expected, value):
        outcomes["right"] += 1
        return
    outcome = "wrong" if value is not None else "question" if question else "missing"
    outcomes[outcome] += 1
    faults.append(f"{case.name}: {where} {key}: expected {expected}, got {value} ({outcome})")


def _compare_words(
    case: Case, got: dict[str, Any], asked: set[tuple[str | None, str]], outcomes: Counter[str], faults: list[str]
) -> None:
    places = {"aside": "aside", "note": "notes", "left": "not_understood"}
    for label, wanted in case.words.items():
        texts = [passage["text"].casefold() for passage in got[places[label]]]
        for words in wanted:
            fine = any(words.casefold() in text for text in texts)
            outcomes["right" if fine else "missing"] += 1
            if not fine:
                faults.append(f"{case.name}: {label} {words!r} is not in {texts}")
    if "left" not in case.words or not case.words["left"]:
        for passage in got["not_understood"]:
            faults.append(f"{case.name}: (left over: {passage['text']!r})")
    for club, about in case.asked:
        fine = ((club or None), about) in asked
        outcomes["right" if fine else "missing"] += 1
        if not fine:
            faults.append(f"{case.name}: no question about {club} {about}; asked {sorted(map(str, asked))}")
