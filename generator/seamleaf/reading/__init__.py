"""YAML text to Pattern, or every problem with its place in the file."""
