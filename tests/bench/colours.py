"""How near any colour of 8 bits comes to where the rounding of its CIELAB value turns.

    python tests/bench/colours.py

Looks at all 16,777,216 of them and prints the least distance, in hundredths, of L*, a* and b*. The hundredths are those
of the exact formula as long as that is far more than floating point is wrong by, some 1e-11. That two machines give the
same ones needs no such luck: seamleaf/planning/prints/elementary.py has the same bits everywhere.
"""

from __future__ import annotations

import numpy as np

from seamleaf.planning.prints import colour

ROWS = tuple(zip(colour._RED, colour._GREEN, colour._BLUE, colour._WHITE, strict=True))
"""X, Y and Z: what red, green, blue and white give."""


def _root(share: np.ndarray) -> np.ndarray:
    """Return what CIELAB takes of a share of white."""
    return np.where(share > 216 / 24389, np.cbrt(share), (24389 / 27 * share + 16) / 116)


def main() -> None:
    """Print the least distances."""
    linear = np.array([colour._decoded(channel) for channel in range(256)])
    least = [1.0, 1.0, 1.0]
    green, blue = np.meshgrid(linear, linear, indexing="ij")
    for red in linear:
        x, y, z = (_root((r * red + g * green + b * blue) / white) for r, g, b, white in ROWS)
        for index, value in enumerate((116 * y - 16, 500 * (x - y), 200 * (y - z))):
            scaled = value * 100 + 0.5
            apart = np.abs(scaled - np.round(scaled))
            # Greys have a = b = 0 but for rounding; they are exactly where no rounding turns.
            least[index] = min(least[index], float(apart.min()))
    print("least distance in hundredths: L* {:.1e}, a* {:.1e}, b* {:.1e}".format(*least))


if __name__ == "__main__":
    main()
