"""The site and the command line: the only place that knows MkDocs."""
