"""`asplayed judge`: what is wrong, unusual or worth knowing about a set."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from asplayed.cli.common import console, json_option, load_set, max_size_option, print_json, store_option
from asplayed.cli.fly import conditions_of, conditions_options, player_for, sessions_of

if TYPE_CHECKING:
    from asplayed.clubs import GolfSet
    from asplayed.judgement import Finding
    from asplayed.players.flown import FlownSet

FATAL = ("breach", "flaw")


@click.command("judge")
@click.argument("source", metavar="SET")
@click.option("--fail", is_flag=True, help="Leave with exit code 1 when there is a breach or a flaw.")
@click.option("--local-rule", "local_rules", multiple=True, type=click.Choice(("G-2", "G-10")), help="In force here.")
@click.option("--medical", is_flag=True, help="A medical exception for length is asked for.")
@click.option("--speed", "driver_speed", metavar="SPEED", help="The player's club speed with a driver, such as 105mph.")
@click.option("--handicap", metavar="NUMBER", help="The player's handicap; +2 is two better than scratch.")
@conditions_options
@store_option
@json_option
@max_size_option
@click.pass_context
def command(
    ctx: click.Context,
    /,
    source: str,
    fail: bool,
    local_rules: tuple[str, ...],
    medical: bool,
    store: str | None,
    as_json: bool,
    max_size: int,
    **given: Any,
) -> None:
    """Say what is wrong, unusual or worth knowing about SET, each with a reason and what could be done.

    SET is a stored name, a file with a list or with the JSON of `read`, or - for standard input. Where shots are
    stored with it, or a driver speed or handicap is given, the set is also judged in its player's hands.
    """
    from asplayed.judgement import judge
    from asplayed.quantities import plain

    golf_set = load_set(source, store, max_size)
    flown = in_hands(source, golf_set, store, given)
    findings = judge(golf_set, local_rules, medical=medical, flown=flown)
    if as_json:
        print_json({"findings": [plain(finding) for finding in findings]})
    else:
        tell(findings)
    if fail and any(finding.level in FATAL for finding in findings):
        ctx.exit(1)


def in_hands(source: str, golf_set: GolfSet, store: str | None, given: dict[str, Any]) -> FlownSet | None:
    """The set flown as its player swings it; None where neither shots nor a driver speed are known."""
    conditions = conditions_of(given) if any(given.values()) else None
    sessions = sessions_of(source, store)
    player = player_for(source, golf_set, store, given)
    # A handicap alone gives the usual player of it: worth flying where it was asked for, not at every judgement.
    if not sessions and player.driver_speed is None and given.get("handicap") is None:
        return None
    from asplayed.players.flying import fly_set

    return fly_set(golf_set, player, sessions, conditions=conditions)


def tell(findings: tuple[Finding, ...]) -> None:
    """Every finding in words, the gravest first."""
    from rich.padding import Padding
    from rich.text import Text

    from asplayed.telling.words import LEVELS, counted

    page = console()
    for level, heading in LEVELS.items():
        for finding in findings:
            if finding.level != level:
                continue
            page.print(Text.assemble((f"{heading}: ", "bold"), finding.sentence, (f" [{finding.code}]", "dim")))
            for line in (finding.why, finding.remedy, f"Source: {finding.source}" if finding.source else None):
                if line:
                    page.print(Padding(Text(line), (0, 0, 0, 2), expand=False))
    counts = {level: sum(finding.level == level for finding in findings) for level in LEVELS}
    if not counts["breach"]:
        page.print(Text("No breach found in the figures entered."))
    plurals = {"breach": "breaches", "flaw": "flaws", "unusual": "unusual", "note": "notes"}
    page.print(Text(", ".join(counted(counts[level], level, plurals[level]) for level in LEVELS)))
