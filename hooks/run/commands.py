"""What each word of `run.py` does, inside the project's own environment."""

import argparse
import logging
import os
import shutil
import subprocess
import sys
from pathlib import Path

from hooks.run import shops
from hooks.run.places import DEMO, KEPT, OWN_SHOP, ROOT
from hooks.run.progress import dots


class Stop(Exception):
    """The word cannot be done; the message says why, in one line or two."""


def serve(args: argparse.Namespace) -> int:
    """Build the pages and serve them until Ctrl-C."""
    from hooks.run.serving import keep  # MkDocs and the server: heavy, and the other words do without
    from hooks.serve.pages import Pages
    from hooks.serve.server import listen, make_server

    shop, pages = _shop(args.shop, keep=True), Pages()
    try:
        sock = listen(args.port)
    except OSError as error:
        raise Stop(f"Port {args.port} cannot be had ({error.strerror}). --port takes another.") from None
    port = sock.getsockname()[1]
    logging.basicConfig(format="%(levelname)s: %(message)s")
    logging.getLogger("waitress.queue").setLevel(logging.ERROR)  # a request that waits a moment is no news
    keeper = keep(shop, KEPT / f"pages-{port}", pages)
    with dots(f"Building the pages of {shop}"):
        built = keeper.build()
    if not built:
        raise Stop("The pages could not be built; the lines above say why.")
    print(f"Twice Shy is at http://127.0.0.1:{port}/  (Ctrl-C stops it)", flush=True)
    if shop == DEMO:
        print("This is the invented demo. For a shop of your own: python3 run.py new", flush=True)
    make_server(sock, keeper, pages).run()
    return 0


def build(args: argparse.Namespace) -> int:
    """Write the whole site into a folder; 1 where `--strict` finds anything that needs attention."""
    from hooks.build import build_site  # MkDocs is heavy

    shop, out = _shop(args.shop), Path(args.out).resolve()
    _may_be_emptied(out)
    shutil.rmtree(out, ignore_errors=True)
    out.mkdir(parents=True)
    with dots(f"Building {shop} into {out}"):
        built = build_site(ROOT / "mkdocs.yml", shop, out, publish=args.publish, strict=args.strict)
    _print_problems(built.problems)
    print(f"{built.pages} pages in {out}")
    return 1 if args.strict and built.problems else 0


def check(args: argparse.Namespace) -> int:
    """Print every problem of a shop's folder, or of one lesson, then how many there are."""
    from hooks.run.checking import problems_at

    path = Path(args.path).resolve() if args.path else _shop(None)
    if not path.exists():
        raise Stop(f"There is no {path}.")
    return 1 if _print_problems(problems_at(path)) else 0


def find(args: argparse.Namespace) -> int:
    """Print the lessons that answer the words, best first, as the find page lists them."""
    from hooks.run import finding
    from hooks.shop.read import read_shop
    from hooks.site.asked import NoSearch
    from hooks.site.asked import find as find_lessons

    question, shop = " ".join(args.words), read_shop(_shop(args.shop), checks=False)
    logging.getLogger("twice_shy").addHandler(logging.NullHandler())  # what went wrong is told below
    try:
        found = find_lessons(shop, question, args.at_most)
    except NoSearch as none:
        raise Stop(str(none)) from None
    sys.stdout.reconfigure(errors="replace")  # a terminal of few letters gets question marks, not a failure
    print(finding.as_json(found) if args.json else finding.in_lines(found, question, len(shop.lessons)))
    return 0


def new(_args: argparse.Namespace) -> int:
    """Make the user's own shop."""
    from hooks.shop import schema

    try:
        folder = shops.make_new()
    except FileExistsError:
        raise Stop(f"{OWN_SHOP} is there already; nothing was changed.") from None
    schema.write_schema(folder)
    print(f"Your shop is in {folder}: put its name and machines into shop.yaml.")
    print("From now on `python3 run.py` serves it. The folder is yours; it can be a git repository of its own.")
    return 0


def receive(args: argparse.Namespace) -> int:
    """Take in what was handed over as files; 1 where some of it could not be taken."""
    from hooks.shop.receive import REFUSED, counted, receive_files

    lines = receive_files(_shop(args.shop), [Path(name) for name in args.files])
    sys.stdout.reconfigure(errors="replace")  # a terminal of few letters gets question marks, not a failure
    for line in lines:
        print(line.text)
    print(counted(lines))
    return 1 if any(line.became == REFUSED for line in lines) else 0


def brief(args: argparse.Namespace) -> int:
    """Print what matters before a job, in the order of its page."""
    from hooks.run.briefing import as_json, as_text

    path = Path(args.job)
    if not path.is_file():
        raise Stop(f"There is no file {path}.")
    told, problems = (as_json if args.json else as_text)(_shop(args.shop), path)
    for problem in problems:
        print(problem, file=sys.stderr)
    if told:
        print(told)
    return 0 if told else 2


def import_(args: argparse.Namespace) -> int:
    """Show what a spreadsheet would bring, and with `--yes` take it in; 1 where that cannot be done."""
    from hooks.run import sheets
    from hooks.shop.importing import NotMapped
    from hooks.shop.spreadsheet import NotASheet

    try:
        return sheets.take_in(args, _shop(args.shop))
    except (NotASheet, NotMapped) as reason:
        raise Stop(f"{args.file}: {reason}") from None


def export(args: argparse.Namespace) -> int:
    """Write all lessons as CSV into a file, or to the terminal."""
    from hooks.shop.exporting import to_csv
    from hooks.shop.read import read_shop

    lessons = read_shop(_shop(args.shop)).lessons
    content = to_csv(lessons)
    if not args.out:
        sys.stdout.buffer.write(content)
        return 0
    try:
        Path(args.out).write_bytes(content)
    except OSError as error:
        raise Stop(f"{args.out} cannot be written ({error.strerror}).") from None
    print(f"{len(lessons)} lessons in {args.out}")
    return 0


def test(arguments: list[str]) -> int:
    """Run pytest on the whole project, or with the arguments given."""
    command = [sys.executable, "-m", "pytest", *arguments]
    scripts = str(Path(sys.executable).parent)  # where Node is, if the machine has none of its own
    path = f"{os.environ.get('PATH', '')}{os.pathsep}{scripts}"
    return subprocess.call(command, cwd=ROOT, env={**os.environ, "PATH": path})


def _shop(asked: str | None, keep: bool = False) -> Path:
    try:
        return shops.choose(asked, keep)
    except shops.NoShop as none:
        raise Stop(str(none)) from None


def _may_be_emptied(out: Path) -> None:
    """Only an empty folder, or one with an earlier build in it, is emptied."""
    if out.exists() and any(out.iterdir()) and not (out / "calc.zip").is_file():
        raise Stop(f"{out} holds something else than an earlier build; --out names another folder.")


def _print_problems(problems: tuple) -> int:
    for problem in problems:
        print(problem)
    count = len(problems)
    print("1 problem" if count == 1 else f"{count or 'no'} problems")
    return count
