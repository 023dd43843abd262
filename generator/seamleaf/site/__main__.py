"""The command ``seamleaf``, also as ``python -m seamleaf.site`` where no command is installed.

It loads nothing before it can be interrupted without a traceback.
"""

import sys


def main() -> int:
    """Run the command and return its exit status."""
    try:
        from seamleaf.site import command

        return command.main()
    except KeyboardInterrupt:
        return 130  # as the command itself says it


if __name__ == "__main__":
    sys.exit(main())
