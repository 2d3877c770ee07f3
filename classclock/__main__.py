"""Where the program begins, as `classclock` or as `python -m classclock`.

What makes a start quick is set before anything else is loaded.
"""

import gc
import os
import sys

# What is loaded stays: looking through it for garbage, again and again, finds none.
gc.set_threshold(1_000_000)
# None is used here: pydantic would look for one in every package that is installed.
os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")

from classclock.commands.command_line import main  # noqa: E402  after what is to hold for its imports

if __name__ == "__main__":
    sys.exit(main())
