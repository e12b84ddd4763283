"""Questions about plates and brackets."""
