"""The command line: thin; each verb reads a request, calls one function, shows what came back."""

from __future__ import annotations

import importlib
import sys
from typing import Any

import click

from asplayed import __version__
from asplayed.errors import AsplayedError

# verb -> the module of this room that holds it; a verb's imports wait until it is asked for.
VERBS: dict[str, str] = {}


class Verbs(click.Group):
    """The verbs, each loaded from its own module when asked for."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The verbs in the order of the work."""
        return list(VERBS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """The command behind one verb."""
        if cmd_name not in VERBS:
            return None
        module = importlib.import_module(f"asplayed.cli.{VERBS[cmd_name]}")
        command: click.Command = module.command
        return command


@click.group(cls=Verbs, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, prog_name="asplayed")
def asplayed() -> None:
    """From a terse list of golf clubs to every club as it is really played."""


def main(argv: list[str] | None = None) -> None:
    """Run the command line; every known fault ends as one sentence on standard error and its exit code."""
    try:
        result: Any = asplayed.main(args=argv, standalone_mode=False)
    except AsplayedError as fault:
        click.echo(f"asplayed: {fault}"[:1900], err=True)
        sys.exit(fault.exit_code)
    except click.ClickException as fault:
        click.echo(f"asplayed: {fault.format_message()}"[:1900], err=True)
        sys.exit(2)
    except click.Abort:
        sys.exit(130)
    except BrokenPipeError:
        sys.stderr.close()
        sys.exit(0)
    sys.exit(result if isinstance(result, int) else 0)


if __name__ == "__main__":
    main()
