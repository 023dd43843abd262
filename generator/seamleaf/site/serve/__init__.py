"""Edits shown at once while a site is served."""
