"""Questions about measured holes."""
