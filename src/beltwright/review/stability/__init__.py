"""Questions about tipping and sliding."""
