"""What thread a hole can still take, and what it holds."""
