"""`python -m drylay` is the command line."""

import sys

from drylay.cli import main

if __name__ == "__main__":
    sys.exit(main())
