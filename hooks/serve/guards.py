"""What a request must show before it may save. Each guard raises `Refused` or returns what it read."""

import hmac
from typing import Any

from hooks.serve.headers import Environ
from hooks.shop import strict_json
from hooks.shop.ids import is_id

NAMES = ("localhost", "127.0.0.1", "[::1]")
BODY_LIMIT = 64 * 1024  # bytes; the longest lesson the declaration allows is far shorter
SHEET_LIMIT = 4_200_000  # bytes; the largest spreadsheet in base64, and what is said about it


class Refused(Exception):
    """A request turned down: the HTTP status and what is said to the client."""

    def __init__(self, status: int, error: str, **more: Any) -> None:
        super().__init__(error)
        self.status = status
        self.answer = {"error": error, **more}


def hosts(port: int) -> frozenset[str]:
    """Every `Host` that means this server."""
    return frozenset(f"{name}:{port}" for name in NAMES)


def check_host(environ: Environ, port: int) -> None:
    """Another name that points at this machine is a page elsewhere trying to read us: refused."""
    if environ.get("HTTP_HOST", "").lower() not in hosts(port):
        raise Refused(421, "This server answers to localhost only.")


def check_origin(environ: Environ) -> None:
    """A save must come from a page of ours, under the very name it was asked by."""
    host = environ["HTTP_HOST"].lower()
    if environ.get("HTTP_ORIGIN", "").lower() != f"http://{host}":
        raise Refused(403, "Only a page of this server may save.")


def check_not_elsewhere(environ: Environ) -> None:
    """Where the browser says which page asks, it must be one of ours, or nobody's (typed by hand)."""
    if environ.get("HTTP_SEC_FETCH_SITE", "none") not in ("same-origin", "none"):
        raise Refused(403, "Only a page of this server may ask this.")
    if "HTTP_ORIGIN" in environ:
        check_origin(environ)


def check_token(environ: Environ, token: str) -> None:
    """The token is new at every start; compared in constant time."""
    shown = environ.get("HTTP_X_SHOP_TOKEN", "").encode("latin-1", "replace")
    if not hmac.compare_digest(shown, token.encode("ascii")):
        raise Refused(403, "The server was started anew: load the page again.")


def read_json(environ: Environ, limit: int = BODY_LIMIT) -> dict[str, Any]:
    """The request's body as a JSON object. Raises Refused: not JSON, too long, in pieces, not an object."""
    kind, _, rest = environ.get("CONTENT_TYPE", "").partition(";")
    charset = rest.replace(" ", "").lower()
    if kind.strip().lower() != "application/json" or charset not in ("", "charset=utf-8"):
        raise Refused(415, "Send application/json.")
    if environ.get("HTTP_TRANSFER_ENCODING"):
        raise Refused(411, "Send the body whole, with its length.")
    return parse_json(_body(environ, limit))


def _body(environ: Environ, limit: int) -> bytes:
    length = int(environ.get("CONTENT_LENGTH") or 0)
    if length > limit:
        raise Refused(413, f"That is too long to be sent: {length / 1000:.0f} kB, at most {limit / 1000:.0f} kB.")
    return environ["wsgi.input"].read(length)


def parse_json(body: bytes) -> dict[str, Any]:
    """Strict JSON (`hooks.shop.strict_json`), an object at the top."""
    try:
        found = strict_json.loads(body)
    except ValueError as error:
        raise Refused(400, f"That is not JSON as expected: {error}.") from None
    if not isinstance(found, dict):
        raise Refused(400, "That is not a JSON object.")
    return found


def take(body: dict[str, Any], **kinds: Any) -> tuple[Any, ...]:
    """The values of exactly these keys, each of its type."""
    if body.keys() != kinds.keys():
        raise Refused(400, f"Send exactly {' and '.join(kinds)}.")
    for key, kind in kinds.items():
        if not isinstance(body[key], kind):
            raise Refused(400, f"{key} is not what was expected.")
    return tuple(body[key] for key in kinds)


def check_id(text: str) -> str:
    """`text`, where it is a lesson's id: the file's name is made from it."""
    if not is_id(text):
        raise Refused(400, "That is no lesson's id.")
    return text
