"""``python -m woodref`` is the command ``woodref``."""

import sys

from woodref.cli.main import main

sys.exit(main())
