"""Starts a server that only saves, again and again, to be killed. Run as a program: SHOP ROUNDS SEED.

Everything is imported once and each server is a fork, so that a hundred of them take seconds. For each
round it forks a server, saves through it from two threads, kills it (SIGKILL) at a random moment, and
prints one JSON line for each acknowledged save: {"id", "hash"}.
"""

import json
import os
import random
import secrets
import signal
import sys
import threading
import time
from pathlib import Path

from hooks.serve.keeper import Keeper, Maker
from hooks.serve.pages import Pages
from hooks.serve.server import listen, make_server
from hooks.serve.watch import Watch
from tests.serve.client import Client

LETTERS = "0123456789abcdefghjkmnpqrstvwxyz"
LONGEST_SECONDS = 0.12


def serve(sock: object, shop: Path) -> None:
    """A server without pages, in this process, until it is killed."""
    pages = Pages()
    keeper = Keeper(shop, shop.parent / "none", Maker(lambda _: {}, lambda _: None), pages, Watch([shop]))
    make_server(sock, keeper, pages).run()


def save_until_gone(port: int, told: list[dict[str, str]]) -> None:
    """Save lessons, and edit each once, until the server is gone; keep what was acknowledged."""
    client = Client(port)
    try:
        token = client.hello()["token"]
        while True:
            id_ = "20261125-063051-" + "".join(secrets.choice(LETTERS) for _ in range(5))
            fields = {"kind": "crash", "when": "2026-11-25T07:30:51+01:00", "said": "x" * 200}
            told.append(_saved(client.post("/api/lessons", {"id": id_, "fields": fields}, X_Shop_Token=token)))
            edit = {"base": told[-1]["hash"], "changes": {"said": "y" * 250}}
            told.append(_saved(client.post(f"/api/lessons/{id_}", edit, X_Shop_Token=token)))
    except (OSError, ValueError, EOFError):
        return  # killed in the middle of an answer
    except Exception as error:
        if type(error).__module__ != "http.client":
            raise


def _saved(reply: object) -> dict[str, str]:
    if reply.status not in (200, 201):
        sys.exit(f"a save was refused: {reply.body!r}")
    return {"id": reply.json["id"], "hash": reply.json["hash"]}


def one_round(shop: Path, chance: random.Random) -> list[dict[str, str]]:
    """Fork, save, kill; what was acknowledged in the meantime, in order for each lesson."""
    sock, told = listen(0), []
    port = sock.getsockname()[1]
    child = os.fork()
    if child == 0:
        serve(sock, shop)
        os._exit(0)
    sock.close()
    threads = [threading.Thread(target=save_until_gone, args=(port, told)) for _ in range(2)]
    for thread in threads:
        thread.start()
    time.sleep(chance.uniform(0, LONGEST_SECONDS))
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    for thread in threads:
        thread.join()
    return told


def main(shop: str, rounds: str, seed: str) -> None:
    """Run the rounds and print what was acknowledged."""
    chance = random.Random(int(seed))
    for _ in range(int(rounds)):
        for saved in one_round(Path(shop), chance):
            print(json.dumps(saved), flush=True)


if __name__ == "__main__":
    main(*sys.argv[1:])
