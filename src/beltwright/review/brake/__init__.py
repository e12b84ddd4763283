"""Questions about the brake."""
