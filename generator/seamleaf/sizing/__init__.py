"""Pattern and size to Quilt: exact geometry of blocks, set and borders."""
