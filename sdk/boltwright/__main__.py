"""`python -m boltwright` is the command `boltwright`."""

import sys

from .command_line import main

sys.exit(main())
