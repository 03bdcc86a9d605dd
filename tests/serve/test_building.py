"""Builds while the site is read and written. The rules are the project's own."""

import threading
import time
from collections.abc import Callable

from tests.serve.client import ID
from tests.serve.conftest import Served

OTHER_ID = "20261125-063052-zzzz9"


def test_what_is_saved_during_a_build_is_in_it(served: Served) -> None:
    """Two threads save after the build has read the shop: both pages are in the new folder."""
    old = served.keeper.folder

    def save_two() -> None:
        threads = [threading.Thread(target=served.client.save, args=(id_,)) for id_ in (ID, OTHER_ID)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()

    served.maker.during.append(save_two)
    assert served.keeper.build()
    assert served.keeper.folder != old
    for id_ in (ID, OTHER_ID):
        assert served.client.ask("GET", f"/lessons/{id_}/").body == served.lesson(id_)


def test_a_save_during_a_build_does_not_wait_for_it(served: Served) -> None:
    """The build stands still until the save has been answered."""
    answers = []
    served.maker.during.append(lambda: answers.append(served.client.save()))
    assert served.keeper.build()
    assert answers[0].status == 201


def test_no_read_fails_while_folders_are_swapped(served: Served) -> None:
    """Four readers, twenty builds and saves between them: every answer is 200 and whole."""
    stop, wrong, count = threading.Event(), [], [0] * 4

    def read(number: int) -> None:
        while not stop.is_set():
            reply = served.client.ask("GET", "/")
            count[number] += 1
            if reply.status != 200 or not reply.body.endswith(b"end"):
                wrong.append(reply)

    readers = [threading.Thread(target=read, args=(number,)) for number in range(4)]
    for reader in readers:
        reader.start()
    for number in range(20):
        assert served.keeper.build()
        assert served.client.save(f"20261125-0630{number:02}-k7q2d").status == 201
    stop.set()
    for reader in readers:
        reader.join()
    assert not wrong
    assert min(count) >= 5


def test_old_folders_go(served: Served) -> None:
    """The folder served and the one before are kept, no more."""
    for _ in range(5):
        served.keeper.build()
    assert len(list(served.keeper.folder.parent.iterdir())) == 2


def test_a_failing_build_keeps_the_pages(served: Served) -> None:
    """Old pages stay, hello says so, a save still works, and the next good build clears it."""
    build, folder = served.client.hello()["build"], served.keeper.folder
    served.maker.during.append(lambda: 1 / 0)
    assert not served.keeper.build()
    told = served.client.hello()
    assert (told["build"], served.keeper.folder) == (build, folder)
    assert "division by zero" in told["trouble"]
    assert served.client.ask("GET", "/").status == 200
    assert served.client.save().status == 201
    served.maker.during.clear()
    assert served.keeper.build()
    assert served.client.hello()["trouble"] is None


def test_a_build_that_ends_the_program_is_caught(served: Served) -> None:
    """MkDocs leaves by SystemExit on a bad setting; the server goes on."""

    def leave() -> None:
        raise SystemExit(1)

    served.maker.during.append(leave)
    assert not served.keeper.build()
    assert served.client.ask("GET", "/").status == 200


def test_a_file_changed_by_hand_is_noticed_when_a_page_asks(served: Served) -> None:
    """Nothing happens until hello is asked; then a build runs and the page is there."""
    served.client.save()
    path = served.shop / "lessons" / ID[:4] / f"{ID}.yaml"
    path.write_bytes(path.read_bytes() + b"# by hand\n")
    builds = served.maker.builds
    time.sleep(0.3)
    assert served.maker.builds == builds
    _wait_until(lambda: served.client.hello() and served.maker.builds == builds + 1)
    _wait_until(lambda: b"# by hand" in served.client.ask("GET", f"/lessons/{ID}/").body)


def test_a_lesson_deleted_by_hand_leaves_no_page(served: Served) -> None:
    """A build starts from an empty folder."""
    served.client.save()
    (served.shop / "lessons" / ID[:4] / f"{ID}.yaml").unlink()
    _wait_until(lambda: served.client.hello() and served.client.ask("GET", f"/lessons/{ID}/").status == 404)


def test_our_own_saves_start_no_build(served: Served) -> None:
    """A save writes its page itself: pages that ask afterwards find nothing to build."""
    builds = served.maker.builds
    first = served.client.hello()["build"]
    served.client.save()
    time.sleep(1.1)  # longer than the shortest time between two looks
    assert served.client.hello()["build"] != first
    assert served.maker.builds == builds


def test_hello_tells_what_a_page_needs(served: Served) -> None:
    """The names that the pages' scripts read."""
    told = served.client.hello()
    assert told.keys() == {"token", "build", "writable", "shop", "demo", "building", "trouble"}
    assert (told["writable"], told["shop"], told["demo"]) == (True, "A shop for tests", False)


def test_a_new_start_has_a_new_token(served: Served) -> None:
    """A token is long and random, and hello gives the one that works."""
    token = served.client.hello()["token"]
    assert len(token) >= 32
    assert served.client.hello()["token"] == token


def _wait_until(true: Callable[[], object], seconds: float = 10) -> None:
    end = time.monotonic() + seconds
    while not true():
        assert time.monotonic() < end, "it did not happen in time"
        time.sleep(0.1)
