"""How the documentation is built: `sphinx-build -W -b html docs docs/_build/html`."""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

import generate

generate.main()

project = "Boltwright"
author = "The Boltwright contributors"
extensions = ["myst_parser"]
myst_enable_extensions = ["colon_fence", "deflist"]
myst_heading_anchors = 3
exclude_patterns = ["_build"]
html_theme = "furo"
html_title = "Boltwright"
html_copy_source = False
html_show_sourcelink = False
html_theme_options = {
    "light_css_variables": {"color-brand-primary": "#0b4f8a", "color-brand-content": "#0b4f8a"},
    "dark_css_variables": {"color-brand-primary": "#8cc4f5", "color-brand-content": "#8cc4f5"},
}
pygments_style = "default"
