"""Chance that is the same on every machine: a seed from words, and numbers from a seed, in whole numbers of 32 bits."""

from __future__ import annotations

from typing import Final

_MASK: Final = 0xFFFFFFFF


def seed_of(*words: str) -> int:
    """Return a seed, never 0, from words: FNV-1a over their UTF-8, each ended by a 0 byte."""
    value = 0x811C9DC5
    for word in words:
        for byte in (*word.encode("utf-8"), 0):
            value = (value ^ byte) * 0x01000193 & _MASK
    return value or 1


class Chance:
    """Marsaglia's xorshift of 32 bits (Journal of Statistical Software 8(14), 2003, shifts 13, 17 and 5)."""

    def __init__(self, seed: int) -> None:
        self._state = seed & _MASK or 1

    def next(self) -> int:
        """Return the next number, 1 to 2^32 - 1."""
        x = self._state
        x ^= x << 13 & _MASK
        x ^= x >> 17
        x ^= x << 5 & _MASK
        self._state = x
        return x

    def below(self, limit: int) -> int:
        """Return a number from 0 to ``limit`` - 1, for limits up to 2^20; the product stays below 2^53."""
        return self.next() * limit >> 32
