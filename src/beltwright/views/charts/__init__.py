"""The charts: what each shows, with ranges as bands."""
