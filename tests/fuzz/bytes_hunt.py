"""Bytes through reading and sizing, led by coverage: what atheris thinks of rather than a grammar.

    python -m pip install --editable ".[fuzz]"
    python tests/fuzz/bytes_hunt.py -max_total_time=600 -timeout=5

It is no part of the locked tools, because it has no wheel for every system. The options are libFuzzer's; a fault ends
the run and leaves its bytes in a file.
"""

from __future__ import annotations

import sys
from pathlib import Path

import atheris

sys.path[:0] = [str(Path(__file__).parents[1])]

with atheris.instrument_imports(include=["seamleaf"]):
    from fuzz.verdict import try_file


def try_bytes(data: bytes) -> None:
    """Read and size what may be a file.

    Raises:
        AssertionError: a fault of the program.

    """
    verdict = try_file(data, planned=False)
    if verdict.is_fault:
        raise AssertionError(verdict)


if __name__ == "__main__":
    atheris.Setup(sys.argv, try_bytes)
    atheris.Fuzz()
