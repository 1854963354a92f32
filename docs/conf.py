"""How the documentation is built: `sphinx-build -W -b html docs docs/_build/html`."""

from importlib.metadata import version as installed_version

project = "drylay"
author = "the drylay authors"
copyright = "the drylay authors"
release = installed_version("drylay")
version = release

extensions = ["myst_parser"]
source_suffix = {".md": "markdown"}
exclude_patterns = ["_build", "examples", "schema"]
nitpicky = True

myst_enable_extensions = ["deflist"]
myst_heading_anchors = 3

html_theme = "furo"
html_title = f"drylay {release}"
html_copy_source = False
html_show_sphinx = False
