#!/usr/bin/env python3
"""Sets Twice Shy up and runs it. `python3 run.py --help` lists the words it knows."""

import sys

if sys.version_info < (3, 11):
    sys.exit("Twice Shy needs Python 3.11 or newer; this one is " + sys.version.split()[0] + ".")

from hooks.run.words import main  # noqa: E402  (an older Python must get the plain line above)

if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
