"""Listens on this machine only, with bounds on how long and how much a client may send."""

import os
import secrets
import socket
import time
from contextlib import suppress
from typing import Any

from waitress.adjustments import Adjustments
from waitress.channel import HTTPChannel
from waitress.parser import HTTPRequestParser
from waitress.server import TcpWSGIServer
from waitress.wasyncore import close_all

from hooks.serve.api import Api
from hooks.serve.guards import SHEET_LIMIT
from hooks.serve.headers import App, with_headers
from hooks.serve.keeper import Keeper

LOOPBACK = "127.0.0.1"
REQUEST_SECONDS = 20  # a request must have arrived by then, however slowly it drips
SETTINGS: dict[str, Any] = {
    "threads": 6,
    "channel_timeout": 30,  # seconds that a silent connection is kept
    "cleanup_interval": 2,
    "connection_limit": 200,
    "max_request_header_size": 16 * 1024,
    "max_request_body_size": 2 * SHEET_LIMIT,  # up to here the refusal is ours, in JSON
    "ident": None,
    "clear_untrusted_proxy_headers": True,
    "expose_tracebacks": False,
    "log_socket_errors": False,
}


class Parser(HTTPRequestParser):
    """Knows when its request began, and does not hide that a body came in pieces."""

    def __init__(self, adj: Adjustments) -> None:
        super().__init__(adj)
        self.began = time.time()

    def parse_header(self, header_plus: bytes) -> None:
        """Parse as ever, but leave the header that waitress takes away, so that we can refuse it."""
        super().parse_header(header_plus)
        if self.chunked:
            self.headers["TRANSFER_ENCODING"] = "chunked"


class Channel(HTTPChannel):
    """A connection whose requests are timed."""

    parser_class = Parser


class Server(TcpWSGIServer):
    """Closes connections whose request does not arrive in time, also where bytes keep dripping."""

    channel_class = Channel
    stopping = False

    def run(self) -> None:
        """Serve until `stop()`, or until the process is asked to end."""
        super().run()
        close_all(self._map, ignore_all=True)

    def stop(self) -> None:
        """End `run()`, from another thread."""
        self.stopping = True
        with suppress(OSError):  # the loop may have come round and ended by itself meanwhile
            self.pull_trigger()

    def readable(self) -> bool:
        """Whether to take connections; asked in every round of the loop, so this is where it can end."""
        if self.stopping:
            raise SystemExit
        return super().readable()

    def maintenance(self, now: float) -> None:
        """Close the silent connections, as waitress does, and the dripping ones."""
        super().maintenance(now)
        for channel in self.active_channels.values():
            request = channel.request
            if request is not None and request.began < now - REQUEST_SECONDS:
                channel.will_close = True


def listen(port: int) -> socket.socket:
    """A socket on the loopback address; port 0 takes any free one. Raises OSError where it is taken."""
    found = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    if os.name == "nt":  # the plain option would let two servers share a port there
        found.setsockopt(socket.SOL_SOCKET, socket.SO_EXCLUSIVEADDRUSE, 1)
    else:
        found.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        found.bind((LOOPBACK, port))
        found.listen(64)
    except OSError:
        found.close()
        raise
    return found


def make_server(sock: socket.socket, keeper: Keeper, pages: App) -> Server:
    """The server over an open socket; `run()` serves until the process ends or `stop()`."""
    port = sock.getsockname()[1]
    app = with_headers(Api(keeper, pages, secrets.token_urlsafe(24), port))
    info = (sock.family, sock.type, sock.proto, sock.getsockname())
    return Server(app, {}, True, sock, adj=Adjustments(**SETTINGS), sockinfo=info, bind_socket=False)
