"""Questions about the throttle."""
