"""Where the weight is, and when a machine tips or slides."""
