"""Booklet to scenes, scenes to SVG."""
