"""The command line and the MkDocs plugin: the only place that knows MkDocs."""
