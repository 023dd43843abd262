"""The command ``seamleaf``, also as ``python -m seamleaf.site`` where no command is installed.

It loads nothing before it can be interrupted, or ended from outside, without a traceback and with nothing left behind.
"""

import contextlib
import os
import signal
import sys
from types import FrameType

_ENDS = [getattr(signal, name) for name in ("SIGINT", "SIGTERM", "SIGHUP") if hasattr(signal, name)]


def main() -> int:
    """Run the command and return its exit status."""
    try:
        for number in _ENDS:
            if signal.getsignal(number) in (signal.SIG_DFL, signal.default_int_handler):  # else it is to go on
                with contextlib.suppress(ValueError):  # only the first thread may ask
                    signal.signal(number, _end)
        from seamleaf.site.commands import command

        return command.main()
    except KeyboardInterrupt:
        return 128 + signal.SIGINT


def _end(number: int, _: FrameType | None) -> None:
    """End with what is begun cleared up; whoever asks again does not wait for that, and the next build clears up."""
    for each in _ENDS:
        signal.signal(each, _end_at_once)
    if number == signal.SIGINT:
        raise KeyboardInterrupt
    raise SystemExit(128 + number)


def _end_at_once(number: int, _: FrameType | None) -> None:
    os._exit(128 + number)


if __name__ == "__main__":
    sys.exit(main())
