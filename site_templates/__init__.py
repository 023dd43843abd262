"""Every page template, style sheet and text of the published site; a designer's own folder overrides single files."""
