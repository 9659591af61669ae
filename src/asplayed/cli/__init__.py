"""The command line: thin; each verb reads a request, calls one function, shows what came back."""

from __future__ import annotations

import importlib
import io
import os
import sys
from typing import Any, NoReturn

import click

from asplayed import __version__
from asplayed.errors import AsplayedError, BadInput

# verb -> the module of this room that holds it; a verb's imports wait until it is asked for.
VERBS: dict[str, str] = {
    "demo": "demo",
    "read": "read",
    "take": "take",
    "show": "show",
    "judge": "judge",
    "fly": "fly",
    "try": "try_",
    "choose": "choose",
    "order": "order",
    "check": "check",
    "bench": "bench",
    "tell": "tell",
    "keep": "keep",
    "parts": "parts",
    "shots": "shots",
    "calc": "calc",
    "sweep": "sweep",
    "serve": "serve",
}


class Verbs(click.Group):
    """The verbs, each loaded from its own module when asked for."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The verbs in the order of the work."""
        return list(VERBS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """The command behind one verb."""
        if cmd_name not in VERBS:
            from asplayed.errors import nearest

            hint = nearest(cmd_name, VERBS) or "; asplayed --help lists them"
            raise BadInput(f"there is no verb {cmd_name[:100]!r}{hint}")
        module = importlib.import_module(f"asplayed.cli.{VERBS[cmd_name]}")
        command: click.Command = module.command
        return command


@click.group(cls=Verbs, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, prog_name="asplayed")
def asplayed() -> None:
    """From a terse list of golf clubs to every club as it is really played."""


def main(argv: list[str] | None = None) -> None:
    """Run the command line; every fault ends as one sentence on standard error and its exit code."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")  # a terminal that cannot show ° still shows the rest
    try:
        result: Any = asplayed.main(args=argv, standalone_mode=False)
        sys.stdout.flush()
    except AsplayedError as fault:
        complain(str(fault), fault.exit_code)
    except click.exceptions.NoArgsIsHelpError as fault:
        click.echo(fault.format_message(), err=True)
        sys.exit(2)
    except click.UsageError as fault:
        path = fault.ctx.command_path if fault.ctx else "asplayed"
        complain(f"{fault.format_message().rstrip('.')} (see {path} --help)", 2)
    except click.ClickException as fault:
        complain(fault.format_message(), 2)
    except click.Abort:
        sys.exit(130)
    except BrokenPipeError:
        # The reader of our output went away; what is still buffered must not fail once more at exit.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        sys.exit(0)
    except SystemExit:
        sys.exit(0)  # verbs answer their exit code; only click leaves so, when the reader of our output went away
    except Exception as fault:
        if "ASPLAYED_TRACEBACK" in os.environ:
            raise
        # An input nobody foresaw: still one sentence, never a traceback.
        complain(f"this could not be done ({type(fault).__name__}: {fault}); please report it with what was given", 2)
    sys.exit(result if isinstance(result, int) else 0)


def complain(sentence: str, exit_code: int) -> NoReturn:
    """Say what is wrong on standard error, in at most 2,000 bytes, and leave with the exit code."""
    said = f"asplayed: {sentence}".encode("utf-8", "replace")
    if len(said) > 1990:
        said = said[:1980].decode("utf-8", "ignore").encode() + " …".encode()
    click.echo(said, err=True)
    sys.exit(exit_code)
