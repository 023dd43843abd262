"""The site built with MkDocs: the plugin, and MkDocs as the commands run it."""
