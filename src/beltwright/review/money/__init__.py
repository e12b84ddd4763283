"""Questions about parts and money."""
