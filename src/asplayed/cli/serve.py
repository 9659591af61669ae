"""`asplayed serve`: the web app on this machine, or a shop's with accounts."""

from __future__ import annotations

import os
import socket
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from asplayed.cli.common import store_option, who
from asplayed.errors import BadInput

if TYPE_CHECKING:
    from asplayed.web import Settings

USUAL_PORT = 8460
LOOPBACK = ("127.0.0.1", "::1", "localhost")


@click.command("serve")
@click.option(
    "--port",
    type=click.IntRange(0, 65535),
    default=USUAL_PORT,
    show_default=True,
    help="Where to listen; 0 takes any that is free.",
)
@click.option("--no-browser", is_flag=True, help="Do not open a browser.")
@click.option("--shop", is_flag=True, help="With accounts, roles and sign-in, for several people.")
@click.option("--host", default="127.0.0.1", show_default=True, metavar="ADDRESS", help="The address to listen on.")
@click.option("--name", "names", multiple=True, metavar="NAME", help="A name by which other machines reach it.")
@click.option("--certificate", type=click.Path(path_type=Path), metavar="FILE", help="For TLS: the certificate (PEM).")
@click.option("--key", type=click.Path(path_type=Path), metavar="FILE", help="For TLS: the certificate's key (PEM).")
@store_option
def command(
    port: int,
    no_browser: bool,
    shop: bool,
    host: str,
    names: tuple[str, ...],
    certificate: Path | None,
    key: Path | None,
    store: str | None,
) -> None:
    """Serve the app in the browser, on this machine alone, and print the address to open.

    The address holds the key of this start: whoever has it may do what you may. A shop (--shop) has accounts instead,
    and may be reached from other machines (--host, --name) over TLS (--certificate, --key).
    """
    from asplayed.web import Settings
    from asplayed.web.settings import new_token

    if host not in LOOPBACK:
        _for_others(shop=shop, encrypted=certificate is not None, names=names)
    if (certificate is None) != (key is None):
        raise BadInput("a certificate and its key belong together; give both --certificate and --key")
    for path in (certificate, key):
        if path is not None and not path.is_file():
            raise BadInput(f"there is no file {path}; check the name")
    listening = _listen(host, port)
    settings = Settings(
        port=listening.getsockname()[1],
        token=new_token(),
        shop=shop,
        secure=certificate is not None,
        names=names,
        who=who(),
        warm=True,
    )
    with listening:
        _serve(store, settings, listening, certificate, key, browser=not no_browser)


def _for_others(*, shop: bool, encrypted: bool, names: tuple[str, ...]) -> None:
    """Refuse to be reached from other machines without accounts, without TLS, or without a name."""
    if not shop:
        raise BadInput("only a shop with accounts may be reached from other machines; add --shop, or leave --host out")
    if not encrypted:
        raise BadInput("other machines reach it over TLS only; give --certificate and --key, or leave --host out")
    if not names:
        raise BadInput("say by what name other machines reach it: --name bench.example; other names are turned away")


def _listen(host: str, port: int) -> socket.socket:
    """The socket, bound before anything is promised."""
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    made = socket.socket(family, socket.SOCK_STREAM)
    made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        made.bind((host, port))
    except OSError as fault:
        made.close()
        reason = os.strerror(fault.errno) if fault.errno else str(fault)
        raise BadInput(f"cannot listen on {host}:{port} ({reason.lower()}); give another with --port") from None
    return made


def _serve(
    store: str | None,
    settings: Settings,
    listening: socket.socket,
    certificate: Path | None,
    key: Path | None,
    *,
    browser: bool,
) -> None:
    import uvicorn

    from asplayed.web import application

    app: Any = application(store, settings)
    server = uvicorn.Server(
        uvicorn.Config(
            app,
            log_config=None,
            access_log=False,
            server_header=False,
            proxy_headers=False,
            lifespan="on",
            ws="none",
            ssl_certfile=certificate,
            ssl_keyfile=key,
            timeout_graceful_shutdown=3,
        )
    )
    here = "[::1]" if listening.family == socket.AF_INET6 else "127.0.0.1"
    name = settings.names[0] if settings.names else here
    address = f"{settings.scheme}://{name}:{settings.port}{app.first_way()}"
    listening.listen(128)
    click.echo(address)
    sys.stdout.flush()
    if browser and sys.stdout.isatty() and (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")):
        import webbrowser

        webbrowser.open(address)
    server.run(sockets=[listening])
