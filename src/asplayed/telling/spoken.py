"""A talk as it was really given, from a timed transcript: captions and chapters moved to it, misspoken figures listed.

The transcript is WebVTT or SubRip, as every recogniser writes them. What was said is laid beside what was written word
by word; numbers are compared as numbers, whether written in digits or in words.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from asplayed.errors import BadInput
from asplayed.telling.aloud import cardinal, sentence_aloud
from asplayed.telling.captions import Caption, spread
from asplayed.telling.cues import Cue, clock
from asplayed.telling.words import contained

_LIMIT = 4_000_000  # bytes of a transcript
_WORDS = 10_000  # in a transcript: more than an hour of talk
_TIMES = re.compile(
    r"(?:(\d{1,3}):)?(\d{2}):(\d{2})[.,](\d{3})\s*-->\s*(?:(\d{1,3}):)?(\d{2}):(\d{2})[.,](\d{3})(?:\s.*)?"
)
_NUMBERS = frozenset(
    (
        *(cardinal(number) for number in (*range(20), *range(20, 100, 10))),
        *("hundred", "thousand", "point", "half", "quarter", "quarters", "eighth", "eighths"),
        *("sixteenth", "sixteenths", "minus", "oh", "zero"),
    )
)


class Word(NamedTuple):
    """One spoken word and when it was said, in seconds."""

    text: str
    start: float
    end: float


class Misspoken(NamedTuple):
    """A figure said otherwise than the record has it: when, in which cue, what stands written, what was heard."""

    time: float
    cue: str
    sentence: str
    written: str
    heard: str


class Aligned(NamedTuple):
    """The talk as given: its cues at their real times, its captions, and the figures that were misspoken."""

    cues: tuple[Cue, ...]
    captions: tuple[Caption, ...]
    misspoken: tuple[Misspoken, ...]
    said: float
    """How much of what was written was heard, 0 to 1."""


def read_transcript(path: str | Path) -> list[Caption]:
    """The captions of a WebVTT or SubRip file, in the order of their times."""
    path = Path(path)
    try:
        with path.open("rb") as stream:
            content = stream.read(_LIMIT + 1)
    except (OSError, ValueError) as fault:
        raise BadInput(f"the transcript {path} cannot be read: {getattr(fault, 'strerror', fault)}") from None
    return transcript_of(content, str(path))


def transcript_of(content: bytes, path: str) -> list[Caption]:
    """The captions in what a WebVTT or SubRip file called `path` holds, in the order of their times."""
    if len(content) > _LIMIT:
        raise BadInput(f"the transcript {path} is larger than {_LIMIT // 1_000_000} MB; give that of one talk")
    try:
        text = content.decode("utf-8-sig").replace("\r\n", "\n").replace("\r", "\n")
    except UnicodeDecodeError:
        raise BadInput(f"the transcript {path} is not text in UTF-8; save it as such") from None
    found = []
    for block in re.split(r"\n\s*\n", text):
        lines = block.strip("\n").split("\n")
        at = next((place for place, row in enumerate(lines[:2]) if "-->" in row), None)
        if at is None:
            continue
        times = _TIMES.fullmatch(lines[at].strip())
        if times is None:
            raise BadInput(f"{path}: {lines[at].strip()[:60]!r} is no time; write 00:01:02.500 --> 00:01:04.000")
        hours, minutes, seconds, rest = ([int(part or 0) for part in times.groups()][place::4] for place in range(4))
        start, end = (
            hours[n] * 3600 + minutes[n] * 60 + seconds[n] + rest[n] / 1000 for n in (0, 1)
        )  # fmt: skip
        words = re.sub(r"<[^>]*>", "", " ".join(lines[at + 1 :]))
        found.append(Caption(start, max(end, start), contained(words).replace("&lt;", "<").replace("&amp;", "&")))
    if not found:
        raise BadInput(f"{path} holds no timed words; give WebVTT or SubRip, each caption under its times")
    count = sum(len(caption.text.split()) for caption in found)
    if count > _WORDS:
        raise BadInput(f"{path} has {count} words, and a talk has up to {_WORDS}; cut it to the talk about this set")
    return sorted(found)


def _words(text: str) -> list[str]:
    """The words of a sentence as they sound: lower case, numbers in words, hyphens apart."""
    heard = re.sub(r"(?<![\w.])\d{1,6}(?:\.\d+)?(?![\w.]*\d)", _number, sentence_aloud(text))
    return re.findall(r"[a-z’']+|\d+", heard.lower().replace("-", " ").replace(" and ", " "))


def _number(found: re.Match[str]) -> str:
    """Bare digits in words."""
    whole, _, decimals = found[0].partition(".")
    digits = " ".join(cardinal(int(digit)) for digit in decimals)
    return cardinal(int(whole)) + (f" point {digits}" if digits else "")


def _timed(transcript: Sequence[Caption]) -> list[Word]:
    """Every heard word with its share of its caption's time."""
    found = []
    for caption in transcript:
        words = _words(caption.text)
        step = (caption.end - caption.start) / max(len(words), 1)
        found += [
            Word(word, caption.start + place * step, caption.start + (place + 1) * step)
            for place, word in enumerate(words)
        ]
    return found


def align(laid_out: Sequence[Cue], transcript: Sequence[Caption]) -> Aligned:
    """The talk moved to the times of a transcript, and every number that was heard otherwise than written."""
    heard = _timed(transcript)
    written = [
        (word, cue_place, sentence_place)
        for cue_place, cue in enumerate(laid_out)
        for sentence_place, said in enumerate(cue.sentences)
        for word in _words(said.said)
    ]
    matcher = difflib.SequenceMatcher(
        None, [word for word, _, _ in written], [word.text for word in heard], autojunk=False
    )
    blocks = matcher.get_opcodes()
    spans: dict[tuple[int, int], tuple[float, float]] = {}
    matched = 0
    misspoken = []
    for kind, one, other, start, end in blocks:
        if kind == "equal":
            matched += other - one
            for place in range(other - one):
                key, word = written[one + place][1:], heard[start + place]
                first, last = spans.get(key, (word.start, word.end))
                spans[key] = (min(first, word.start), max(last, word.end))
        elif kind in ("replace", "delete"):
            misspoken += _misspoken(laid_out, written, heard, (one, other), (start, end))
    cues, captions = _moved(laid_out, spans)
    return Aligned(cues, captions, tuple(misspoken), matched / max(len(written), 1))


def _misspoken(
    laid_out: Sequence[Cue],
    written: Sequence[tuple[str, int, int]],
    heard: Sequence[Word],
    here: tuple[int, int],
    there: tuple[int, int],
) -> list[Misspoken]:
    """What differs, where a number of a sentence with figures is among it and something was said in its place."""
    if not any(word in _NUMBERS for word, _, _ in written[here[0] : here[1]]) or here[1] - here[0] > 12:
        return []
    if there[0] == there[1] and (here[0] == 0 or here[1] == len(written)):
        return []
    first, last = _whole_number(written, here)
    _, cue_place, sentence_place = written[here[0]]
    said = laid_out[cue_place].sentences[sentence_place]
    if not said.figures:
        return []
    before, after = here[0] - first, last - here[1]
    start, end = max(there[0] - before, 0), min(there[1] + after, len(heard))
    words = " ".join(word.text for word in heard[start:end])
    time = heard[min(there[0], len(heard) - 1)].start if heard else 0.0
    told = " ".join(word for word, _, _ in written[first:last])
    return [Misspoken(time, laid_out[cue_place].name, said.text, told, words or "nothing")]


def _whole_number(written: Sequence[tuple[str, int, int]], here: tuple[int, int]) -> tuple[int, int]:
    """The stretch widened to the whole number it is part of, within its own sentence."""
    first, last = here
    while first > 0 and written[first - 1][0] in _NUMBERS and written[first - 1][1:] == written[here[0]][1:]:
        first -= 1
    while last < len(written) and written[last][0] in _NUMBERS and written[last][1:] == written[here[0]][1:]:
        last += 1
    return first, last


def _moved(
    laid_out: Sequence[Cue], spans: dict[tuple[int, int], tuple[float, float]]
) -> tuple[tuple[Cue, ...], tuple[Caption, ...]]:
    """Cues and captions at the times they were heard; what was not heard has none."""
    cues: list[Cue] = []
    captions: list[Caption] = []
    for cue_place, cue in enumerate(laid_out):
        times = [spans[cue_place, n] for n in range(len(cue.sentences)) if (cue_place, n) in spans]
        if not times:
            continue
        cues.append(cue._replace(start=min(start for start, _ in times), end=max(end for _, end in times)))
        for n, said in enumerate(cue.sentences):
            if (cue_place, n) not in spans:
                continue
            start, end = spans[cue_place, n]
            captions += spread(said.text, start, end - start)
    return tuple(sorted(cues, key=lambda cue: cue.start)), tuple(sorted(captions))


def report(found: Aligned) -> str:
    """What was misspoken, as plain text."""
    lines = [f"{found.said:.0%} of what was written was heard word for word."]
    if not found.misspoken:
        lines.append("No figure was heard otherwise than the record has it.")
    lines += [
        f"{clock(each.time)} {each.cue}: heard “{each.heard}”, the record says “{each.written}” ({each.sentence})"
        for each in found.misspoken
    ]
    return "\n".join(lines) + "\n"
