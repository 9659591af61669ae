"""A list's words as a set: read, its questions answered as before, settled against the stored catalogue, and named."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING

from asplayed.clubs import GolfSet
from asplayed.errors import BadInput

if TYPE_CHECKING:
    from asplayed.intake.answers import Answer
    from asplayed.keeping import SetEntry
    from asplayed.keeping.places import Where


def understand(text: str, called: str, store: Where, given: Sequence[Answer] = ()) -> GolfSet:
    """A list's words, or the JSON of `read`, as a set settled against the stored catalogue.

    `given` answers questions the words leave; what is still open is answered as it was for the same part before, and
    a note says so.
    """
    if text.lstrip().startswith("{"):
        if given:
            raise BadInput(f"{called} is JSON: answer the questions of the list it was read from instead")
        return set_from_json(text, called)
    from asplayed.catalogue import settle
    from asplayed.intake import read
    from asplayed.intake.answers import answer
    from asplayed.keeping import stored_parts

    parts = stored_parts(store)
    golf_set = answer(read(text, parts=parts), given)
    settled = settle(golf_set, parts)
    before = answered_before(settled, store)
    return settle(noted(answer(golf_set, before), before), parts) if before else settled


def answered_before(golf_set: GolfSet, store: Where) -> list[Answer]:
    """The answers remembered for what this set leaves open about its parts."""
    from asplayed.intake.answers import Answer
    from asplayed.keeping.answers import recall
    from asplayed.keeping.reading import reading

    found = []
    with reading(store) as read:
        for question in golf_set.questions:
            for club in golf_set.clubs:
                value = recall(read, club, question.about) if club.club == question.club else None
                if value is not None:
                    found.append(Answer(question.club, question.about, value))
    return found


def noted(golf_set: GolfSet, before: Iterable[Answer]) -> GolfSet:
    """The set with a note for each answer that was given before, for another list."""
    from msgspec.structs import replace

    from asplayed.clubs import Passage

    lines = {club.club: club.lines[0] for club in golf_set.clubs if club.lines}
    notes = [
        Passage(
            line=lines.get(told.club or "", 1), club=told.club, text=f"{told.about} {told.value}, as answered before"
        )
        for told in before
    ]
    return replace(golf_set, notes=(*golf_set.notes, *notes))


def set_from_json(text: str, called: str) -> GolfSet:
    """The set in the JSON that `read` and `show` answer."""
    import msgspec

    from asplayed.clubs import GolfSet

    try:
        return msgspec.json.decode(text, type=GolfSet)
    except msgspec.ValidationError as fault:
        raise BadInput(f"{called} is JSON, but not of a set: {fault}; it should be what `read --json` wrote") from None
    except (msgspec.DecodeError, RecursionError) as fault:
        raise BadInput(f"{called} begins like JSON but cannot be read as such: {fault}") from None


def about_parts(asked: GolfSet, answered: Iterable[Answer]) -> dict[str, str]:
    """The answers that hold wherever the part turns up, by the key they are remembered under.

    `asked` is the set before the answers: a part is known again by the words of the list.
    """
    from asplayed.keeping.answers import key

    found = {
        key(club, told.about): told.value for told in answered for club in asked.clubs if told.club in (None, club.club)
    }
    return {name: value for name, value in found.items() if name is not None}


def usual_name(golf_set: GolfSet, file_name: str, stored: Mapping[str, SetEntry]) -> str:
    """The name a set gets when none is given: its player's, its title's, its file's; never another player's set's."""
    facts = golf_set.set
    name = slug(facts.player or "") or slug(facts.title or "") or slug(file_name) or "set"
    if name in stored and stored[name].player != facts.player:
        raise BadInput(
            f"{name} is stored already, for {stored[name].player or 'a player without a name'}; "
            "nothing was stored: give this set a name of its own (--as NAME)"
        )
    return name


def slug(words: str) -> str:
    """Words as a plain name: small letters, digits and hyphens.

    >>> slug("Ada Brandt’s set, 2025"), slug("Ólafur")
    ('ada-brandts-set-2025', 'olafur')
    """
    bare = unicodedata.normalize("NFKD", words.casefold().replace("’", "").replace("'", ""))
    plain = "".join(character for character in bare if not unicodedata.combining(character))
    return "-".join(re.findall(r"\w+", plain))[:60].strip("-")
