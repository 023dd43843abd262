"""The command line: what each command does, and how it tells of it."""
