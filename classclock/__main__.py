"""`python -m classclock` is the same as `classclock`."""

import sys

from classclock.cli import main

sys.exit(main())
