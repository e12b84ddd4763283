"""The belt layout: what is gathered from the build, and how it is drawn."""
