"""Guards and belt keepers: bends, lengths, gaps and clashes."""
