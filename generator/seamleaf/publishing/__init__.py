"""Booklet to pages, figures and downloads: an ordered mapping of path to bytes."""
