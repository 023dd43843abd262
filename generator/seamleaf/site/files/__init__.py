"""What lies in folders: sources that are read, and output and kept work that appear whole or not at all."""
