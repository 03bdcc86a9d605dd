"""Saving through the endpoint: once, in conflict, edited, at once. The rules are the project's own."""

import hashlib
import threading

from tests.serve.client import ID
from tests.serve.conftest import Served

OTHER_ID = "20261125-063052-zzzz9"
HOSTILE = (
    "<script>alert(1)</script>",
    "../../etc/passwd",
    "a\u202eb",
    "'; DROP TABLE lessons; --",
    "{{ 7*7 }}",
    "&amp; <b>",
    "!!python/object:os.system",
    "*anchor &anchor",
    "# not a comment",
    "yes",
    "07:24",
    "\U0001f527",
)


def test_a_saved_lesson_is_on_disk_and_on_its_page(served: Served) -> None:
    """201, the hash of the file's bytes, and the page answers at once."""
    reply = served.client.save()
    assert reply.status == 201
    assert reply.json == {
        "id": ID,
        "hash": hashlib.sha256(served.lesson(ID)).hexdigest(),
        "url": f"lessons/{ID}/",
    }
    assert served.client.ask("GET", "/" + reply.json["url"]).body == served.lesson(ID)


def test_the_same_lesson_twice_is_one(served: Served) -> None:
    """A page that sends again because it heard nothing stores nothing twice."""
    first, again = served.client.save(), served.client.save()
    assert (first.status, again.status) == (201, 200)
    assert first.json == again.json
    assert len(list(served.shop.rglob("*.yaml"))) == 2  # shop.yaml and the lesson


def test_the_same_id_with_other_content_is_a_conflict(served: Served) -> None:
    """What is on disk stays, and its hash is told."""
    first = served.client.save()
    before = served.lesson(ID)
    other = served.client.save(said="Something else altogether.")
    assert other.status == 409
    assert other.json["hash"] == first.json["hash"]
    assert served.lesson(ID) == before


def test_an_edit_changes_only_its_keys(served: Served) -> None:
    """A comment and odd spacing written by hand around the other keys stay to the byte."""
    served.client.save()
    path = served.shop / "lessons" / ID[:4] / f"{ID}.yaml"
    by_hand = path.read_bytes() + b"# a note by hand\nminutes:   12   # about\n"
    path.write_bytes(by_hand)
    base = hashlib.sha256(by_hand).hexdigest()
    reply = served.client.post(f"/api/lessons/{ID}", {"base": base, "changes": {"said": "Dug in again."}})
    assert reply.status == 200, reply.body
    before, after = by_hand.splitlines(), path.read_bytes().splitlines()
    assert [line for line in after if not line.startswith(b"said:")] == [
        line for line in before if not line.startswith(b"said:")
    ]
    assert any(b"Dug in again." in line for line in after)
    assert reply.json["hash"] == hashlib.sha256(path.read_bytes()).hexdigest()


def test_an_edit_from_an_older_state_is_a_conflict(served: Served) -> None:
    """The one who was second is told, and the first one's words stay."""
    base = served.client.save().json["hash"]
    address = f"/api/lessons/{ID}"
    assert served.client.post(address, {"base": base, "changes": {"said": "The first one."}}).status == 200
    late = served.client.post(address, {"base": base, "changes": {"said": "The second one."}})
    assert late.status == 409
    assert late.json["hash"] == hashlib.sha256(served.lesson(ID)).hexdigest()
    assert b"The first one." in served.lesson(ID)


def test_null_takes_a_key_away(served: Served) -> None:
    """An answer that is withdrawn leaves the file."""
    base = served.client.save(minutes="12").json["hash"]
    reply = served.client.post(f"/api/lessons/{ID}", {"base": base, "changes": {"minutes": None}})
    assert reply.status == 200
    assert b"minutes" not in served.lesson(ID)


def test_hostile_text_is_kept_as_text(served: Served) -> None:
    """Whatever is typed is stored and read back as the same text, never as anything else."""
    from hooks.shop.read import read_lesson  # the reader that pages are made from

    for number, text in enumerate(HOSTILE):
        id_ = f"20261125-0630{number:02}-k7q2d"
        assert served.client.save(id_, said=text).status == 201
        lesson, problems = read_lesson(served.lesson(id_), f"lessons/2026/{id_}.yaml")
        assert not problems
        assert lesson.fields["said"] == text


def test_two_devices_with_one_lesson_at_once(served: Served) -> None:
    """Ten threads send the same lesson: one is told created, all get the same hash."""
    replies = []
    threads = [threading.Thread(target=lambda: replies.append(served.client.save())) for _ in range(10)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(reply.status for reply in replies) == [200] * 9 + [201]
    assert len({reply.json["hash"] for reply in replies}) == 1


def test_a_page_that_cannot_be_written_does_not_unsave(served: Served) -> None:
    """The lesson is safe, so the answer says so; hello tells of the trouble."""
    served.maker.refresh = None
    object.__setattr__(served.keeper._maker, "refresh", _fail)
    assert served.client.save().status == 201
    assert b"dug in" in served.lesson(ID)
    assert ID in served.client.hello()["trouble"]


def _fail(_folder: object) -> None:
    raise OSError("no room for pages")


def test_every_answer_carries_the_policy(served: Served) -> None:
    """Pages, errors and the endpoint alike; nothing is opened to other origins."""
    for path in ("/", "/nothing", "/api/hello", "/api/nothing"):
        headers = served.client.ask("GET", path).headers
        assert "script-src 'self' 'wasm-unsafe-eval';" in headers["content-security-policy"]
        assert "frame-ancestors 'none'" in headers["content-security-policy"]
        assert headers["x-content-type-options"] == "nosniff"
        assert headers["referrer-policy"] == "no-referrer"
        assert headers["cache-control"] in ("no-cache", "no-store")
        assert "server" not in headers
        assert "access-control-allow-origin" not in headers


def test_a_page_written_twice_in_a_second_is_fresh(served: Served) -> None:
    """The tag a browser asks with changes at each writing, even at the same length."""
    page = served.keeper.folder / "index.html"
    page.write_bytes(b"one")
    first = served.client.ask("GET", "/")
    page.write_bytes(b"two")
    second = served.client.ask("GET", "/", If_None_Match=first.headers["etag"])
    assert (second.status, second.body) == (200, b"two")
    assert served.client.ask("GET", "/", If_None_Match=second.headers["etag"]).status == 304
