"""The command line and the MkDocs plugin."""
