"""The words of run.py: which shop is meant, what is installed again, what is said. Our own rules."""

import json
import re
import subprocess
import sys
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from hooks.run import commands, setup, shops, words

ROOT = Path(__file__).parents[1]
WORDS = ("serve", "build", "check", "find", "brief", "new", "receive", "import", "export", "test")


@pytest.fixture
def places(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder in which the shops and the settings of these tests live."""
    monkeypatch.setattr(shops, "KEPT", tmp_path / "kept")
    monkeypatch.setattr(shops, "SETTINGS", tmp_path / "kept" / "settings.json")
    monkeypatch.setattr(shops, "OWN_SHOP", tmp_path / "content" / "shop")
    monkeypatch.setattr(shops, "DEMO", tmp_path / "demo")
    return tmp_path


def _shop(folder: Path) -> Path:
    folder.mkdir(parents=True)
    (folder / "shop.yaml").write_text("name: Elsewhere\n", encoding="utf-8")
    return folder


def test_the_demo_is_served_until_there_is_a_shop(places: Path) -> None:
    """First the demo; after `new` the own shop."""
    assert shops.choose(None) == places / "demo"
    made = shops.make_new()
    assert shops.choose(None) == made == places / "content" / "shop"
    assert (made / "shop.yaml").is_file() and (made / "lessons").is_dir() and (made / "README.md").is_file()


def test_a_new_shop_never_overwrites_one(places: Path) -> None:
    """`new` twice changes nothing the second time."""
    made = shops.make_new()
    (made / "shop.yaml").write_text("name: Mine\n", encoding="utf-8")
    with pytest.raises(FileExistsError):
        shops.make_new()
    assert (made / "shop.yaml").read_text(encoding="utf-8") == "name: Mine\n"


def test_a_shop_elsewhere_is_remembered(places: Path) -> None:
    """Serving it once is enough, other words take it once; `new` afterwards means the new one."""
    elsewhere = _shop(places / "elsewhere")
    assert shops.choose(str(elsewhere)) == elsewhere and shops.choose(None) == places / "demo"  # for this once
    assert shops.choose(str(elsewhere), keep=True) == elsewhere
    assert shops.choose(None) == elsewhere
    made = shops.make_new()
    assert shops.choose(None) == made


def test_a_folder_without_a_shop_is_refused_and_not_remembered(places: Path) -> None:
    """A slip in the path is told, and the next start is as before."""
    (places / "empty").mkdir()
    with pytest.raises(shops.NoShop, match=r"shop\.yaml"):
        shops.choose(str(places / "empty"))
    assert shops.choose(None) == places / "demo"


def test_broken_settings_are_as_none(places: Path) -> None:
    """A settings file cut short stops nobody."""
    (places / "kept").mkdir()
    (places / "kept" / "settings.json").write_text("{", encoding="utf-8")
    assert shops.choose(None) == places / "demo"


@pytest.mark.parametrize("word", ["", *WORDS])
def test_help_is_everywhere(word: str) -> None:
    """--help answers at once for each word, sets nothing up and ends with 0."""
    command = [sys.executable, "run.py", *([word] if word else []), "--help"]
    run = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, timeout=20)
    assert run.returncode == 0, run.stderr
    assert run.stdout.startswith("usage: run.py")
    assert "Installing" not in run.stdout


def test_every_word_is_named_in_the_help() -> None:
    """No word is hidden, and each has its function."""
    text = words.parser().format_help()
    assert all(re.search(rf"^ +{word} ", text, re.MULTILINE) for word in WORDS)
    assert all(callable(getattr(commands, words.function_of(word))) for word in WORDS)


def test_a_second_setup_installs_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A stamp with the lock's hash is enough; a changed lock installs again."""
    (tmp_path / "some.lock").write_bytes(b"one\n")
    monkeypatch.setattr(setup, "ROOT", tmp_path)
    monkeypatch.setattr(setup, "VENV", tmp_path)
    steps: list[str] = []
    monkeypatch.setattr(setup, "_step", lambda what, command, hint: steps.append(what))
    for content, count in ((b"one\n", 1), (b"one\n", 1), (b"one\r\n", 1), (b"two\n", 2)):
        (tmp_path / "some.lock").write_bytes(content)
        setup._install("some.lock")
        assert len(steps) == count


def test_the_browsers_library_is_compiled_once_and_a_failure_stops_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """It only makes a start shorter: what went wrong is told, and the next start does not try again."""
    steps: list[str] = []

    def failing(what: str, _command: list[str], _hint: str) -> None:
        steps.append(what)
        raise setup.SetupFailed("this Node is too old")

    monkeypatch.setattr(setup, "NODE_MODULES", tmp_path)
    monkeypatch.setattr(setup, "_step", failing)
    setup._compile_stdlib()
    setup._compile_stdlib()
    assert steps == ["Compiling Python for the browser"]
    assert capsys.readouterr().out == "this Node is too old\n"


def test_a_failing_step_says_what_it_printed(monkeypatch: pytest.MonkeyPatch) -> None:
    """The message holds the step, the output and what to try; nothing else is printed."""
    command = [sys.executable, "-c", "print('no room on the disk'); raise SystemExit(3)"]
    with pytest.raises(setup.SetupFailed, match=r"(?s)Trying.*no room on the disk.*Make room"):
        setup._step("Trying", command, "Make room.")


def test_a_folder_with_other_things_is_not_emptied(tmp_path: Path) -> None:
    """`build --out` never deletes what it did not make."""
    (tmp_path / "letter.txt").write_text("mine", encoding="utf-8")
    with pytest.raises(commands.Stop, match="something else"):
        commands._may_be_emptied(tmp_path)
    commands._may_be_emptied(tmp_path / "not-there")


def test_a_taken_port_is_told_in_one_line(places: Path) -> None:
    """No traceback: the port and the way out."""
    from hooks.serve.server import listen  # the server, for this test alone

    with listen(0) as taken:
        args = SimpleNamespace(port=taken.getsockname()[1], shop=None)
        with pytest.raises(commands.Stop, match="--port takes another"):
            commands.serve(args)


@pytest.mark.parametrize("name", ["requirements.lock", "requirements-test.lock", "requirements-node.lock"])
def test_every_python_package_is_pinned_by_hash(name: str) -> None:
    """Each line is a version with hashes, and no address of a registry is written down."""
    text = (ROOT / name).read_text(encoding="utf-8")
    packages = re.split(r"\n(?=[a-z])", text.strip())
    assert packages
    for package in packages:
        assert re.match(r"[a-z0-9-]+==[0-9]", package), package
        assert "--hash=sha256:" in package, package
    assert "://" not in text


def test_every_npm_package_is_pinned_by_hash() -> None:
    """The lock has a hash for each package and no address."""
    text = (ROOT / "package-lock.json").read_text(encoding="utf-8")
    packages = {name: told for name, told in json.loads(text)["packages"].items() if name}
    assert all(told["integrity"].startswith("sha512-") for told in packages.values())
    assert {"node_modules/pyodide", "node_modules/minisearch"} <= packages.keys()
    assert "://" not in text


@pytest.mark.parametrize(
    ("given", "meant"),
    [
        ([], ["serve"]),
        (["--port", "8020"], ["serve", "--port", "8020"]),
        (["--help"], ["--help"]),
        (["check", "x"], ["check", "x"]),
    ],
)
def test_options_alone_serve(given: list[str], meant: list[str]) -> None:
    """As no word at all does."""
    assert words.with_word(given) == meant


def test_setting_up_prints_nothing_into_the_answer(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """What a program reads from `find --json` is the answer alone; how setting up goes is told beside it."""

    def failing(lock: str, node: bool) -> None:
        print("Making ready")
        raise setup.SetupFailed("it did not work")

    monkeypatch.setattr(setup, "make_ready", failing)
    assert words.main(["find", "vice", "--json"]) == 1
    told = capsys.readouterr()
    assert told.out == "" and told.err == "Making ready\nit did not work\n"


@pytest.mark.parametrize(
    "words",
    [
        ["run.py", "brief", "content/demo/jobs/20260508-081500-c4e7n.yaml", "--shop", "content/demo"],
        ["run.py", "export", "--shop", "content/demo"], ["run.py", "--help"], ["-m", "calc", "--json"],
    ],
    ids=" ".join,
)  # fmt: skip
def test_nobody_reading_on_ends_it_without_a_trace(words: list[str]) -> None:
    """The reader goes before the first line is written, as `head` may: no trace, and no failure."""
    run = subprocess.Popen(
        [sys.executable, *words], cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )
    run.stdout.close()
    _, told = run.communicate(timeout=60)
    assert run.returncode == 0 and not re.search("Traceback|Broken|ignored", told), told


def test_a_brief_tells_what_the_sheet_names_and_the_shop_has_not(tmp_path: Path, capsys: Any) -> None:
    """By line and column, beside the brief, which is made with what is known."""
    sheet = tmp_path / "job.yaml"
    text = 'part: "x"\nmaterial: "6082"\nmachine: "bed-mil"\nsetups:\n  - operations:\n      - operation: "face"\n'
    sheet.write_text(text, encoding="utf-8")
    assert words.main(["brief", str(sheet), "--shop", "content/demo"]) == 0
    told = capsys.readouterr()
    assert (
        told.out.startswith("1. ")
        and 'job.yaml:3:10: no machine "bed-mil" in shop.yaml; did you mean bed-mill?' in told.err
    )
