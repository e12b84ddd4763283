"""Plates and brackets: metal left round their holes, and how a belt's pull strains them."""
