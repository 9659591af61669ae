"""`asplayed calc`: one bench calculation, or the list of them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import click

from asplayed.calc import Answer, Calculation, calculations, compute
from asplayed.calc.calculation import find
from asplayed.errors import BadInput


class Calculations(click.Group):
    """One command a calculation, made from the table of calculations."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The calculations in the order of the table."""
        return list(calculations())

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command:
        """The command of one calculation."""
        return _command(find(cmd_name))


def _command(calculation: Calculation) -> click.Command:
    arguments = click.Argument(["given"], nargs=-1, metavar="KEY=VALUE…")
    as_json = click.Option(["--json", "as_json"], is_flag=True, help="Answer in JSON.")

    @click.pass_context
    def run(ctx: click.Context, given: Sequence[str], as_json: bool) -> None:
        answer = compute(calculation.name, _pairs(calculation.name, given))
        if as_json or ctx.obj:
            _print_json(answer)
        else:
            _print_table(answer, calculation)

    return click.Command(
        calculation.name,
        params=[arguments, as_json],
        callback=run,
        help=_help(calculation),
        short_help=calculation.does,
    )


def _help(calculation: Calculation) -> str:
    lines = [calculation.does, "", "\b", "Keys:"]
    width = max((len(key.name) for key in calculation.keys), default=0)
    for key in calculation.keys:
        alternatives = any(key.name in group for group in calculation.either) and key.default == ""
        default = " (see below)" if alternatives else "" if key.default is None else f" [{key.default or 'optional'}]"
        unit = "" if key.dimension in ("text", "swing weight") else f", {key.accepted}"
        choices = f": {', '.join(key.choices)}" if key.choices else ""
        lines.append(f"  {key.name.ljust(width)}  {key.about}{unit}{choices}{default}")
    if calculation.free:
        from asplayed.judgement.rules import keys

        lines.append(f"  any of {', '.join(keys())}; local_rules")
    if calculation.either:
        groups = [" and ".join(group) for group in calculation.either if group]
        lines.append(f"  Give {', or '.join(groups)}.")
    lines += ["", "\b", "Results:"]
    width = max(len(result.name) for result in calculation.results)
    for result in calculation.results:
        lines.append(f"  {result.name.ljust(width)}  {result.about}{'' if result.unit == '1' else f' [{result.unit}]'}")
    lines += ["", f"Formula: {calculation.formula}", "", f"Source: {calculation.source}", ""]
    lines += ["\b", "Example:", f"  asplayed calc {calculation.name} {calculation.example}"]
    return "\n".join(lines)


def _pairs(name: str, given: Sequence[str]) -> dict[str, str]:
    found: dict[str, str] = {}
    for word in given:
        key, equals, value = word.partition("=")
        key = key.strip()
        if not equals or not key:
            raise BadInput(f"{word!r} is not key=value; see asplayed calc {name} --help")
        if key in found:
            raise BadInput(f"{key} is given twice; give it once")
        found[key] = value
    return found


def _print_json(answer: Answer) -> None:
    import json

    from asplayed.quantities.plain import plain

    click.echo(json.dumps(plain(answer._asdict()), ensure_ascii=False, allow_nan=False, indent=2))


def _shown(entry: Any) -> tuple[str, str, str]:
    """Value, unit and remark of a figure as text."""
    value = entry.value
    if isinstance(value, bool):
        text = "yes" if value else "no"
    elif isinstance(value, float):
        text = f"{value:.5g}" if abs(value) < 1e5 else f"{value:.0f}"
    else:
        text = "none" if value is None else str(value)
    return (
        f"−{text[1:]}" if isinstance(value, float) and text.startswith("-") else text,
        "" if entry.unit == "1" else entry.unit,
        entry.why or "",
    )


def _print_table(answer: Answer, calculation: Calculation) -> None:
    if calculation.free:
        _print_verdicts(answer)
        return
    about = {result.name: result.about for result in calculation.results}
    rows = [(name, *_shown(entry)) for name, entry in answer.results.items()]
    widths = [max(len(row[column]) for row in rows) for column in range(3)]
    for name, value, unit, why in rows:
        remark = f"{about[name]}{f' ({why})' if why else ''}"
        click.echo(f"{name.ljust(widths[0])}  {value.rjust(widths[1])} {unit.ljust(widths[2])}  {remark}".rstrip())
    click.echo(f"Source: {calculation.source}.")


def _print_verdicts(answer: Answer) -> None:
    verdicts = answer.results["verdicts"]
    width = max((len(verdict.item) for verdict in verdicts), default=0)
    for verdict in verdicts:
        click.echo(f"{verdict.item.ljust(width)}  {verdict.verdict.ljust(16)}  {verdict.section}: {verdict.sentence}")
    if not any(verdict.verdict == "breach" for verdict in verdicts):
        click.echo("No breach found in the figures entered.")


@click.group("calc", cls=Calculations, invoke_without_command=True, subcommand_metavar="NAME KEY=VALUE…")
@click.option("--json", "as_json", is_flag=True, help="Answer in JSON.")
@click.pass_context
def command(ctx: click.Context, as_json: bool) -> None:
    """One bench calculation; without NAME, the list of them.

    Values carry units: ball_speed=145mph, launch_angle=13deg, length=36.5in, humidity=50percent; lists are
    comma-separated, pure numbers bare. `asplayed calc NAME --help` tells the keys, the source and an example.
    """
    ctx.obj = as_json
    if ctx.invoked_subcommand is not None:
        return
    if as_json:
        import json

        listed = [{"calc": name, "does": entry.does} for name, entry in calculations().items()]
        click.echo(json.dumps({"calculations": listed}, ensure_ascii=False, indent=2))
        return
    width = max(len(name) for name in calculations())
    for name, entry in calculations().items():
        click.echo(f"{name.ljust(width)}  {entry.does}")
    click.echo("\nasplayed calc NAME --help tells the keys, the source and an example.")
