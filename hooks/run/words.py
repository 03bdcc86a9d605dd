"""The command line of `run.py`: what each word takes, and what must be set up before it runs.

Standard library only; a word's work is in `hooks.run.commands`, imported once its libraries are there.
"""

import argparse
import contextlib
import keyword
import os
import subprocess
import sys
from collections.abc import Sequence

from hooks.run import setup
from hooks.run.places import ROOT

NEEDS_NODE = ("serve", "build", "find", "test")
PORT = 8017  # kept the same from day to day: a browser keeps drafts by address


def main(argv: Sequence[str]) -> int:
    """Read the words, make ready what they need, and do them inside the project's environment.

    Where nobody reads on (`| head -1`) it ends without a word.
    """
    try:
        try:
            return _main(argv)
        finally:
            sys.stdout.flush()
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())  # what is left goes nowhere, at the exit too
        return 0


def _main(argv: Sequence[str]) -> int:
    words = with_word(argv)
    args = parser().parse_args(words) if words[:1] != ["test"] else None
    word = args.word if args else "test"
    if args is None and words[1:] in (["-h"], ["--help"]):
        parser().parse_args(words)
    try:
        lock = "requirements-test.lock" if word == "test" else "requirements.lock"
        with contextlib.redirect_stdout(sys.stderr):  # what is printed is the word's own answer alone
            setup.make_ready(lock, node=word in NEEDS_NODE)
    except setup.SetupFailed as failure:
        print(failure, file=sys.stderr)
        return 1
    if not setup.inside():
        return _again_inside(words)
    return _do(args, words)


def with_word(argv: Sequence[str]) -> list[str]:
    """No word at all serves, and so do options alone: `run.py --port 8020`."""
    words = list(argv)
    alone = not words or (words[0].startswith("-") and words[0] not in ("-h", "--help"))
    return ["serve", *words] if alone else words


def _do(args: argparse.Namespace | None, words: list[str]) -> int:
    from hooks.run import commands  # needs the libraries that were only now made sure of

    try:
        return commands.test(words[1:]) if args is None else getattr(commands, function_of(args.word))(args)
    except commands.Stop as stop:
        print(stop, file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        return 130


def function_of(word: str) -> str:
    """The function in `hooks.run.commands` that does a word; `import` is no name in Python."""
    return f"{word}_" if keyword.iskeyword(word) else word


def _again_inside(words: list[str]) -> int:
    """Run the same words with the environment's own Python."""
    command = [str(setup.PYTHON), str(ROOT / "run.py"), *words]
    if os.name != "nt":
        os.execv(command[0], command)
    try:
        return subprocess.call(command)  # execv on Windows would hand the console back too early
    except KeyboardInterrupt:
        return 130


def parser() -> argparse.ArgumentParser:
    """The words of `run.py`, each with its help."""
    top = argparse.ArgumentParser(
        prog="run.py",
        description="Twice Shy: a small workshop's memory. No word at all sets up and serves.",
    )
    words = top.add_subparsers(dest="word", metavar="WORD")
    top.set_defaults(word="serve", port=PORT, shop=None)
    _serve_and_build(words)
    check = _word(words, "check", "read every lesson and print every problem, then a count")
    check.add_argument("path", nargs="?", help="a shop's folder or one lesson (default: the shop served)")
    _find(words)
    _word(words, "new", "make your own shop in content/shop; from then on it is the one served")
    receive = _word(words, "receive", "take in lessons, jobs and changes that pages without a server handed over")
    receive.add_argument("files", nargs="+", metavar="FILE", help="hand-over files (JSON), of any kind, in any order")
    _shop(receive)
    brief = _word(words, "brief", "what matters before a job: its rules, each with why, and its sums")
    brief.add_argument("job", metavar="JOB.yaml", help="a job sheet")
    brief.add_argument("--json", action="store_true", help="the lessons that fit, as JSON")
    _shop(brief)
    _sheets(words)
    tests = _word(words, "test", "run every test; further arguments go to pytest")
    tests.add_argument("arguments", nargs="*", metavar="PYTEST-ARGUMENT")
    return top


def _serve_and_build(words: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    serve = _word(words, "serve", "serve the pages on this machine and take new lessons (the default)")
    serve.add_argument("--port", type=_port, default=PORT, help="port on this machine (default: %(default)s)")
    _shop(serve, "remembered for the next time")
    build = _word(words, "build", "write the pages into a folder, for any static host")
    build.add_argument("--strict", action="store_true", help="fail when anything needs attention")
    build.add_argument("--publish", action="store_true", help="only lessons marked to be shared")
    build.add_argument("--out", default="public", metavar="FOLDER", help="where to (default: %(default)s)")
    _shop(build)


def _sheets(words: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    taken = _word(words, "import", "take in past events from a spreadsheet saved as CSV; without --yes only show them")
    taken.add_argument("file", metavar="FILE.csv")
    taken.add_argument("--map", action="append", default=[], metavar="COLUMN=FIELD", type=_pair,
                       help="where a column goes, by its heading or letter; COLUMN= leaves it out")  # fmt: skip
    taken.add_argument("--kind", default="", help="kind of mishap of every row that names none")
    taken.add_argument("--means", action="append", default=[], metavar="WORD=KEY", type=_pair,
                       help="what a word of the sheet stands for; WORD= leaves it out")  # fmt: skip
    taken.add_argument("--dates", default="", choices=("dmy", "mdy", "ymd"), help="the order in which days are written")
    taken.add_argument("--decimals", default="", choices=("point", "comma"), help="how numbers are written")
    taken.add_argument("--without-odd", action="store_true", help="leave out odd cells that a lesson can do without")
    taken.add_argument("--yes", action="store_true", help="import; nothing is written without it")
    _shop(taken)
    given = _word(words, "export", "write all lessons as one spreadsheet (CSV)")
    given.add_argument("--out", metavar="FILE", help="where to (default: the terminal)")
    _shop(given)


def _pair(text: str) -> tuple[str, str]:
    name, mark, value = text.rpartition("=")
    if not mark or not name.strip():
        raise argparse.ArgumentTypeError(f"{text} is no pair such as Date=when")
    return name.strip(), value.strip()


def _find(words: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    find = _word(words, "find", "find lessons by words, in the order of the find page")
    find.add_argument("words", nargs="+", metavar="WORD", help="as you would tell it; typing errors are forgiven")
    find.add_argument("--json", action="store_true", help="print [{id, title, score, why}] instead of lines")
    find.add_argument("--at-most", type=_count, default=10, metavar="N", help="how many (default: %(default)s)")
    _shop(find)


def _word(
    words: "argparse._SubParsersAction[argparse.ArgumentParser]", name: str, about: str
) -> argparse.ArgumentParser:
    return words.add_parser(name, help=about, description=about[0].upper() + about[1:] + ".")


def _port(text: str) -> int:
    if not text.isdecimal() or not 0 < int(text) < 65536:
        raise argparse.ArgumentTypeError(f"{text} is not a port: a whole number from 1 to 65535")
    return int(text)


def _count(text: str) -> int:
    if not text.isdecimal() or int(text) < 1:
        raise argparse.ArgumentTypeError(f"{text} is no number of lessons: a whole number from 1")
    return int(text)


def _shop(word: argparse.ArgumentParser, kept: str = "for this once") -> None:
    word.add_argument("--shop", metavar="PATH", help=f"folder of the shop, {kept}")
