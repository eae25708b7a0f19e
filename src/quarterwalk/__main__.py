"""Run the command line as ``python -m quarterwalk``."""

import sys

from quarterwalk.cli import main

if __name__ == "__main__":
    sys.exit(main())
