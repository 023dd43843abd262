"""Which way every seam is pressed: match points from the geometry, directions so that they nest."""
