"""`asplayed judge`: what is wrong, unusual or worth knowing about a set."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from asplayed.cli.common import console, json_option, load_set, max_size_option, print_json, store_option

if TYPE_CHECKING:
    from asplayed.judgement import Finding

FATAL = ("breach", "flaw")


@click.command("judge")
@click.argument("source", metavar="SET")
@click.option("--fail", is_flag=True, help="Leave with exit code 1 when there is a breach or a flaw.")
@store_option
@json_option
@max_size_option
@click.pass_context
def command(ctx: click.Context, source: str, fail: bool, store: str | None, as_json: bool, max_size: int) -> None:
    """Say what is wrong, unusual or worth knowing about SET, each with a reason and what could be done.

    SET is a stored name, a file with a list or with the JSON of `read`, or - for standard input.
    """
    from asplayed.judgement import judge
    from asplayed.quantities import plain

    findings = judge(load_set(source, store, max_size))
    if as_json:
        print_json({"findings": [plain(finding) for finding in findings]})
    else:
        tell(findings)
    if fail and any(finding.level in FATAL for finding in findings):
        ctx.exit(1)


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
