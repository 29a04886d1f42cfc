"""The entry point: set up for interruption first, import the rest afterwards."""

from __future__ import annotations

import gc
import os
import sys

from scarfwright.cli.interruption import Interruption, listen
from scarfwright.cli.terminal import spell_out


def run() -> None:
    """Run the command line and leave with its exit code; 130 when interrupted.

    An interruption that falls into the loading of a compiled library comes out as that library's import error, so
    what was asked for is remembered and decides what is said.
    """
    gc.set_threshold(
        100_000
    )  # short-lived: the collector's many early rounds find nothing and take a tenth of the time
    # the job's models use no plugins, and looking for some reads every installed distribution's record
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    try:
        spell_out()
        listen()
        from scarfwright.cli.main import main

        code = main()
    except BaseException as error:
        if not Interruption.asked and not isinstance(error, KeyboardInterrupt):
            raise
        print(f"\nscarfwright: interrupted; {Interruption.so_far}", file=sys.stderr, flush=True)
        os._exit(130)  # a library that was half loaded may not survive an orderly end
    sys.exit(code)


if __name__ == "__main__":
    run()
